package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"slabfolio/listing/care"
	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/shipping"
	"slabfolio/listing/units"
)

// standing is the weight that people have to lift: what the scale said, else the
// upper end of the estimate, to be on the safe side.
func (b *builder) standing() float64 {
	if w := b.r.Public.Weight; w != nil {
		if w.Weighed != nil {
			return *w.Weighed
		}
		return w.Kg
	}
	return 0
}

// liftKg is what a lift is judged by.
func (b *builder) liftKg() float64 {
	if w := b.r.Public.Weight; w != nil && w.Weighed == nil {
		return w.High
	}
	return b.standing()
}

// pack makes the packages and says who lifts them.
func (b *builder) pack() {
	b.lift = b.t.Shipping.PeopleToLift(b.liftKg())
	k := b.p.Packing
	switch {
	case k == nil:
		b.absent("shipping.packages", "packing is not given, so how it will travel is not known")
	case !k.How.Set():
		b.absent("shipping.packages", "packing.how is not given")
	default:
		b.packages(k)
	}
	heaviest := b.liftKg()
	for i, p := range b.packed {
		if i == 0 || p.HighKg > heaviest {
			heaviest = p.HighKg
		}
	}
	lift := b.t.Shipping.PeopleToLift(heaviest)
	b.liftBasis = lift.Basis
	if lift.People == 0 {
		b.absent("shipping.people_to_lift", "the weight is not known")
	} else {
		b.keep("shipping.people_to_lift", figure.Exact(float64(lift.People), "1", lift.Basis, shipping.LiftSource, "weight.high_kg", "shipping.packages"))
	}
	if len(b.packed) == 1 {
		b.alone(b.packed[0])
	}
	if lift.People == 0 && len(b.packed) == 0 {
		return
	}
	s := &Shipping{Packages: []Package{}, PeopleToLift: lift.People}
	for _, p := range b.packed {
		s.Packages = append(s.Packages, b.publicPackage(p))
	}
	s.Text = b.shippingText(s, lift)
	b.r.Public.Shipping = s
	b.passage()
	b.cureBeforePacking()
}

// alone keeps what one person may lift of a package by the revised lifting
// equation, for one that one person might lift.
func (b *builder) alone(p shipping.Package) {
	if p.GrossKg > b.t.Shipping.Practice["hands_each"].Value {
		return
	}
	if limit := shipping.FloorToWaist(math.Min(p.LengthMM, p.WidthMM)); limit > 0 {
		b.keep("lift.one_person_kg", figure.Exact(limit, "kg", "recommended weight limit for one person who lifts the package from the floor to waist height by its lower edges: 23 x HM x VM x DM x CM",
			"revised NIOSH lifting equation, DHHS (NIOSH) 94-110", "shipping.packages"))
	}
}

func (b *builder) packages(k *piece.Packing) {
	loads, why := b.loads(k.Legs.V == "off")
	if why != "" {
		b.absent("shipping.packages", why)
		if len(loads) == 0 {
			return
		}
	}
	how := shipping.How{Way: k.How.V, Clearance: float64(k.Clearance.V)}
	if k.How.V == shipping.Crate || k.How.V == shipping.OnSkid {
		panel, why := b.panel(k.Crate.V)
		if why != "" {
			b.absent("shipping.packages", why)
			b.find(piece.Doubt, "packing.crate", k.Crate.At, why, "write plywood, osb, or another panel of the table of materials")
			return
		}
		how.Panel = panel
	}
	for i, l := range loads {
		p, err := b.t.Shipping.Pack(l, how)
		if err != nil {
			b.absent("shipping.packages", err.Error())
			b.packed = nil
			return
		}
		b.packed = append(b.packed, p)
		name := fmt.Sprintf("shipping.packages.%d.", i+1)
		b.keep(name+"gross_kg", figure.Figure{Value: p.GrossKg, Unit: "kg", Low: p.LowKg, High: p.HighKg,
			Rule: "net weight + packing: " + p.Rule, Source: "weight_parts, packing practice table", Inputs: []string{"weight.kg", "packing"}})
		b.keep(name+"packing_kg", figure.Exact(p.PackingKg, "kg", p.Rule, "packing practice table", "packing"))
	}
	if k.How.V == shipping.Carton {
		most := b.t.Shipping.Practice["carton_most"]
		for _, p := range b.packed {
			if p.Load.Kg > most.Value {
				b.find(piece.Doubt, "packing.heavy-carton", k.How.At, fmt.Sprintf("%s is a lot for a carton", units.Mass(p.Load.Kg).Text(b.r.Prefer)), "a crate, or blankets and a van, would be safer ("+most.Source+")")
				break
			}
		}
	}
	if shipping.NeedsISPM15(b.packed, b.abroad()) {
		b.find(piece.Note, "packing.ispm15", k.How.At, "a crate of solid wood over 6 mm that leaves the country usually has to be heat-treated and stamped (ISPM 15)",
			"buy stamped timber, or build it of plywood alone; ask the carrier what the country wants")
	}
}

// loads splits the piece into what travels by itself.
func (b *builder) loads(legsOff bool) (loads []shipping.Load, why string) {
	m := b.masses
	if m.total.Value <= 0 {
		return nil, "the weight is not known"
	}
	if !legsOff || b.p.Base == nil {
		if legsOff {
			b.find(piece.Note, "packing.no-legs", b.p.Packing.Legs.At, "packing says legs off, but no base is described", "describe the base, or leave `legs` out")
		}
		if b.size.Height == 0 {
			return nil, or(b.size.Why["height"], "the height of the piece is not known")
		}
		kg, low, high := b.net()
		return []shipping.Load{{Length: b.size.Length, Width: b.size.Width, Height: b.size.Height, Kg: kg, LowKg: low, HighKg: high}}, ""
	}
	if m.top.Value <= 0 {
		return nil, "the weight of the top alone is not known"
	}
	height := b.in.Thickness
	for _, p := range b.in.Parts { // drawers and aprons stay on the top
		if p.BelowTop < b.in.BaseHeight {
			height = math.Max(height, b.in.Thickness+p.BelowTop)
		}
	}
	top := shipping.Load{Name: "top", Length: b.size.TopLength, Width: b.size.TopWidth, Height: height, Kg: m.top.Value, LowKg: m.top.Low, HighKg: m.top.High}
	for _, kg := range m.parts {
		top.Kg, top.LowKg, top.HighKg = top.Kg+kg, top.LowKg+kg, top.HighKg+kg
	}
	loads = []shipping.Load{top}
	if b.in.FootLength == 0 || b.in.FootWidth == 0 || b.in.BaseHeight == 0 || m.base.Value <= 0 {
		return loads, "the package of the base: its footprint, height or weight is not given"
	}
	return append(loads, shipping.Load{Name: "base", Length: b.in.FootLength, Width: b.in.FootWidth, Height: b.in.BaseHeight,
		Kg: m.base.Value, LowKg: m.base.Low, HighKg: m.base.High}), ""
}

// net is the weight of the piece for a carrier: the scale's word goes before the
// estimate's.
func (b *builder) net() (kg, low, high float64) {
	if w := float64(b.p.Weighed.V); w > 0 {
		f := b.weighedFigure(w)
		return f.Value, f.Low, f.High
	}
	t := b.masses.total
	return t.Value, t.Low, t.High
}

// abroad reports whether the piece is offered across a border. Where the workshop
// stands is not known, so two countries are needed to be sure.
func (b *builder) abroad() bool {
	if b.p.Delivery == nil {
		return false
	}
	var seen []string
	for _, c := range b.p.Delivery.ShipsTo {
		if !slices.Contains(seen, c.V) {
			seen = append(seen, c.V)
		}
	}
	return len(seen) > 1
}

func (b *builder) publicPackage(p shipping.Package) Package {
	up := func(mm float64) float64 { return 10 * shipping.UpCentimetres(mm) }
	in := func(mm float64) units.Length { return units.Length(25.4 * shipping.UpInches(mm)) }
	name := p.Load.Name
	if name != "" {
		name = b.words.Say("figures.part."+name, nil)
	}
	return Package{Name: name, Length: up(p.LengthMM), Width: up(p.WidthMM), Height: up(p.HeightMM),
		Gross: round(p.GrossKg, 1), Low: round(p.LowKg, 1), High: round(p.HighKg, 1),
		Text: Text{In: units.Sizes(units.Inches, in(p.LengthMM), in(p.WidthMM), in(p.HeightMM)),
			Cm: units.Sizes(units.Centimetres, units.Length(up(p.LengthMM)), units.Length(up(p.WidthMM)), units.Length(up(p.HeightMM)))}}
}

func (b *builder) shippingText(s *Shipping, lift shipping.Lift) string {
	var out []string
	how := ""
	if len(b.packed) > 0 {
		how = b.words.Say("figures.how."+strings.ReplaceAll(b.packed[0].Way, " ", "-"), nil)
	}
	gross := 0.0
	for _, p := range b.packed {
		gross += p.GrossKg
	}
	both := func(kg float64) string {
		step := 0.1
		if kg >= 10 {
			step = 1
		}
		kg = math.Round(kg/step) * step
		return b.words.Say("figures.both", map[string]any{"First": b.massText(kg), "Second": b.massOther(kg)})
	}
	switch len(s.Packages) {
	case 0:
	case 1:
		size := s.Packages[0].Text.In
		if b.r.Prefer.Metric() {
			size = s.Packages[0].Text.Cm
		}
		out = append(out, b.words.Say("figures.package.one", map[string]any{"How": how, "Size": size, "Gross": both(gross)}))
	default:
		out = append(out, b.words.Say("figures.package.several", map[string]any{"Count": b.number("figures.few.", len(s.Packages)), "How": how, "Gross": both(gross)}))
	}
	switch {
	case lift.People == 0:
	case lift.Aid:
		out = append(out, b.words.Say("figures.lift.aid", map[string]any{"Few": b.number("figures.few.", lift.People)}))
	case lift.People > 1:
		out = append(out, b.words.Say("figures.lift.several", map[string]any{"People": b.number("figures.number.", lift.People)}))
	case lift.Care:
		out = append(out, b.words.Say("figures.lift.1-care", nil))
	default:
		out = append(out, b.words.Say("figures.lift.1", nil))
	}
	return strings.Join(out, " ")
}

func (b *builder) number(prefix string, n int) string {
	if id := fmt.Sprintf("%s%d", prefix, n); b.words.Has(id) {
		return b.words.Say(id, nil)
	}
	return fmt.Sprint(n)
}

// passage checks the way into a home: stood on end below a ceiling, and through a
// narrow door.
func (b *builder) passage() {
	if b.size.Height == 0 || b.p.Kind.V == "serving board" {
		return
	}
	l, w, h := b.size.Length, b.size.Width, b.size.Height
	if b.p.Packing != nil && b.p.Packing.Legs.V == "off" {
		l, w, h = b.size.TopLength, b.size.TopWidth, b.in.Thickness
	}
	v := b.t.Shipping.Passes(l, w, h)
	b.keep("passage.stood_on_end_mm", figure.Exact(v.StandMM, "mm", "square root of length squared + thinnest side squared: the height it needs while it is tilted up", "geometry", "dimensions"))
	b.keep("passage.narrowest_mm", figure.Exact(v.NarrowMM, "mm", "narrowest side, carried lengthwise", "geometry", "dimensions"))
	at := b.p.Top.At
	if !v.UnderRoof {
		b.find(piece.Note, "passage.ceiling", at, fmt.Sprintf("stood on end it needs %s, more than a usual ceiling of %s", b.mm(v.StandMM), b.mm(v.CeilingMM)), "ask the buyer for the way in: stairs, lift, ceiling")
	}
	if !v.ByDoor {
		b.find(piece.Note, "passage.door", at, fmt.Sprintf("its narrowest side is %s, more than a narrow door of %s", b.mm(v.NarrowMM), b.mm(v.DoorwayMM)), "ask the buyer for the narrowest door, or let the legs come off")
	}
}

// cureBeforePacking looks whether the piece was wrapped before its finish was hard.
func (b *builder) cureBeforePacking() {
	zero := piece.Date{}
	if b.dates.CureTo == zero || b.p.Packing == nil {
		return
	}
	left, at := zero, b.p.Packing.At
	for _, l := range b.p.Log {
		if leaves(l.Did.V) && l.Date.Set() && (left == zero || l.Date.V.Before(left)) {
			left, at = l.Date.V, l.Date.At
		}
	}
	if y := b.p.Buyer; y != nil && y.Delivered.Set() && (left == zero || y.Delivered.V.Before(left)) {
		left, at = y.Delivered.V, y.Delivered.At
	}
	switch {
	case left == zero:
		b.find(piece.Note, "packing.cure", at, fmt.Sprintf("the finish is fully cured between %s and %s; film or bubble wrap on it before that leaves prints", care.ISO(b.dates.CureFrom), care.ISO(b.dates.CureTo)),
			"until then put soft cotton or foam next to the finish, or wait")
	case left.Before(b.dates.CureFrom):
		b.find(piece.Doubt, "packing.before-cure", at, fmt.Sprintf("it left on %s, before the finish is fully cured (%s at the earliest)", care.ISO(left), care.ISO(b.dates.CureFrom)),
			"tell the buyer to unwrap it at once and to go easy on it; next time put soft cotton or foam next to the finish")
	case left.Before(b.dates.CureTo):
		b.find(piece.Note, "packing.cure", at, fmt.Sprintf("it left on %s; the finish may need until %s to cure fully", care.ISO(left), care.ISO(b.dates.CureTo)), "tell the buyer to unwrap it soon")
	}
}

// leaves reports whether a line of the log says that the piece was wrapped or went
// away.
func leaves(did string) bool {
	did = strings.ToLower(did)
	return slices.ContainsFunc([]string{"packed", "wrapped", "crated", "shipped", "sent", "delivered", "collected"}, func(w string) bool { return strings.Contains(did, w) })
}

// freight fills what a carrier computes with. Private.
func (b *builder) freight() {
	q := b.t.Shipping.Quote(b.packed)
	if q == nil {
		b.absent("freight", or(b.r.Absent["shipping.packages"], "there are no packages"))
		return
	}
	f := &Freight{Gross: round(q.GrossKg, 1), Density: round(q.DensityLbFt3, 2), Class: q.Class.Class, Volumetric: round(q.Volumetric["cm3-5000"], 1),
		ByDivisor: map[string]float64{}, LoadingMetre: round(q.LoadingMetres, 2), Mode: map[string]string{}}
	for id, kg := range q.Volumetric {
		f.ByDivisor[id] = round(kg, 1)
	}
	for region, m := range q.Mode {
		name := b.words.Say("figures.region."+region, nil)
		if m.Parcel {
			f.Mode[name] = b.words.Say("figures.mode.parcel", map[string]any{"Weight": m.Limit.Says["weight"], "Length": m.Limit.Says["length"], "Girth": m.Limit.Says["girth"]})
			continue
		}
		f.Mode[name] = b.words.Say("figures.mode.freight", map[string]any{"Limit": m.Limit.Says[m.Over]})
	}
	f.Notes = append(f.Notes, b.words.Say("figures.note.class", map[string]any{"Class": f.Class}),
		b.words.Say("figures.note.pallets", map[string]any{"EUR": q.PalletsEUR, "US": q.PalletsUS}))
	if b.liftBasis != "" {
		f.Notes = append(f.Notes, b.words.Say("figures.note.lift", map[string]any{"Basis": b.liftBasis}))
	}
	if n := b.r.Public.Quantity; n > 1 {
		f.Notes = append(f.Notes, b.words.Say("figures.note.batch", map[string]any{"Count": n}))
	}
	b.r.Freight = f
	var low, high float64
	for _, p := range b.packed {
		low, high = low+p.LowKg, high+p.HighKg
	}
	b.keep("freight.gross_kg", figure.Figure{Value: q.GrossKg, Unit: "kg", Low: low, High: high, Rule: "sum of the packages", Source: "shipping.packages", Inputs: []string{"shipping.packages"}})
	b.keep("freight.density_lb_ft3", figure.Figure{Value: q.DensityLbFt3, Unit: "lb/ft3", Low: q.DensityLbFt3 * low / q.GrossKg, High: q.DensityLbFt3 * high / q.GrossKg,
		Rule: "pounds, rounded up, over cubic feet from inches rounded up; class: " + f.Class, Source: q.Class.Source, Inputs: []string{"shipping.packages"}})
	b.keep("freight.volumetric_kg", figure.Exact(q.Volumetric["cm3-5000"], "kg", "volume / 5000 cm3 per kg, sides rounded up to whole centimetres", "carriers' published pages; read", "shipping.packages"))
	b.keep("freight.loading_metres", figure.Exact(q.LoadingMetres, "m", "length x width / 2.4 m, nothing stacked", b.t.Shipping.Practice["loading_width"].Source, "shipping.packages"))
}
