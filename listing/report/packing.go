package report

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/shipping"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// pack makes the packages and says who lifts them.
func (b *builder) pack() {
	k := b.p.Packing
	switch {
	case k == nil:
		b.absent("shipping.packages", "packing is not given, so how it will travel is not known")
		if v := b.p.Availability.V; v != "sold" && v != "not for sale" {
			b.find(piece.Note, "packing.missing", piece.Place{File: b.p.Serial.At.File}, "no packing is given: the shipping sheet has no sizes to ask a carrier with",
				"add `packing: {how: "+piece.PackingHow[0]+"}`, or one of: "+strings.Join(piece.PackingHow[1:], ", "))
		}
	case len(k.Packages) > 0:
		b.ownPackages(k)
		b.r.SentTogether = b.r.Public.Price != nil && b.r.Public.Price.Together // the maker's boxes are all there are
	case !k.How.Set():
		b.absent("shipping.packages", "packing.how is not given")
	default:
		b.packages(k)
	}
	lift := b.judgeLifts()
	b.passage() // sizes alone decide it
	b.cureBeforePacking()
	b.resinBeforePacking()
	if lift.Step == "" && len(b.packed) == 0 {
		return
	}
	b.r.SolidPacking = b.t.Shipping.NeedsISPM15(b.packed, !b.soldAtHomeOnly())
	s := &Shipping{Packages: []Package{}, PeopleToLift: lift.People, Lift: lift.Step}
	for _, p := range b.packed {
		s.Packages = append(s.Packages, b.publicPackage(p))
	}
	s.Text = b.shippingText(s, lift)
	b.r.Public.Shipping = s
}

// ownPackages takes the maker's boxes as they are.
func (b *builder) ownPackages(k *piece.Packing) {
	all, unweighed := 0.0, []string{}
	for i, q := range k.Packages {
		if len(q.Size) != 3 {
			continue
		}
		p := shipping.OwnPackage(q.Name.V, float64(q.Size[0].V), float64(q.Size[1].V), float64(q.Size[2].V), 0, 0, 0)
		if strings.HasPrefix(k.How.V, shipping.Crate) {
			p.SolidMM = b.t.Shipping.FrameMM()
		}
		if kg := float64(q.Weighed.V); kg > 0 {
			f := b.weighedFigure(kg)
			p.GrossKg, p.LowKg, p.HighKg = kg, f.Low, f.High
			all += kg
			b.keep(fmt.Sprintf("shipping.packages.%d.gross_kg", i+1), figure.Figure{Value: kg, Unit: "kg", Low: f.Low, High: f.High, Rule: "weighed; the doubt of a scale", Source: "piece.yaml", Inputs: []string{"packing.packages"}})
		} else {
			unweighed = append(unweighed, q.Name.V)
		}
		b.packed = append(b.packed, p)
	}
	if len(unweighed) > 0 {
		b.absent("freight", "not every package was weighed")
		b.find(piece.Doubt, "packing.unweighed", k.Packages[0].At, "no weight is given of "+spelling.And(unweighed)+", so a carrier cannot be asked", "put it on a scale when it is packed: packages: [{name: …, size: …, weighed: "+b.massText(24)+"}]")
		return
	}
	if _, low, _ := b.net(); b.masses.total.Value > 0 && all < low {
		b.find(piece.Doubt, "packing.lighter", k.Packages[0].At, fmt.Sprintf("the packages weigh %s together, and the piece alone %s", b.massText(all), b.massText(b.standing())), "look at packing.packages, and at the weights of the piece")
	}
}

// packages packs the piece as the spec says it travels.
func (b *builder) packages(k *piece.Packing) {
	loads, why := b.loads()
	if why != "" {
		b.absent("shipping.packages", why)
		if b.masses.total.Value > 0 { // else the weight is asked for already
			b.find(piece.Note, "packing.not-reckoned", k.How.At, "the shipping sheet lacks sizes to ask a carrier with: "+why, "add what is missing, or measure your own boxes: packing: {packages: [{name: …, size: …, weighed: …}]}")
		}
		if len(loads) == 0 {
			return
		}
	}
	for i, l := range loads {
		how, ok := b.how(k, l)
		if !ok {
			return
		}
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
		b.keep(name+"net_kg", figure.Figure{Value: l.Kg, Unit: "kg", Low: l.LowKg, High: l.HighKg, Rule: "what is in it", Source: "weight_parts", Inputs: []string{"weight.kg"}})
		b.keep(name+"packing_kg", figure.Exact(p.PackingKg, "kg", p.Rule, "packing practice table", "packing"))
	}
	b.packingFit(k)
	b.packTogether(k)
}

// mostTogether is how many pieces that are sold as one are packed one by one: nobody
// sends more so.
const mostTogether = 12

// packTogether packs each of several pieces that are sold at one price for all, since
// they travel together, and asks whether they do in one box.
func (b *builder) packTogether(k *piece.Packing) {
	n, one := b.r.Public.Quantity, b.packed
	if p := b.r.Public.Price; p == nil || !p.Together || n < 2 || n > mostTogether || len(one) == 0 {
		return
	}
	b.packed = nil
	for range n {
		b.packed = append(b.packed, one...)
	}
	b.r.SentTogether = true
	b.find(piece.Note, "packing.together", k.How.At, fmt.Sprintf("the %d are sold together, so each is reckoned with packing of its own: %d packages, %s in all", n, len(b.packed), b.massText(b.grossAll())),
		"where they travel in one box, say so: packing: {packages: [{name: box, size: […, …, …], weighed: …}]}")
}

// how is the maker's way of packing, for one load. A crate whose walls are not
// told is of thin ply on battens for what is usually sent so, and of plywood for
// what is heavier or stands on a skid.
func (b *builder) how(k *piece.Packing, l shipping.Contents) (shipping.How, bool) {
	how := shipping.How{Way: k.How.V, Clearance: float64(k.Clearance.V)}
	if how.Way != shipping.Crate && how.Way != shipping.OnSkid {
		return how, true
	}
	said := k.Crate.V
	if strings.Contains(spelling.Plain(said), "batten") || said == "" && how.Way == shipping.Crate && l.Kg <= b.t.Shipping.Rules["batten_most"].Value {
		how.Battens, said = true, "plywood"
	}
	panel, why := b.panel(said)
	if why != "" {
		b.absent("shipping.packages", why)
		b.find(piece.Doubt, "packing.crate", k.Crate.At, why, "write plywood, battens, osb, or another panel of the table of materials")
		return how, false
	}
	if how.Battens {
		panel.Name = "thin plywood"
	}
	how.Panel = panel
	return how, true
}

// packingFit tells where the packing does not fit the weight, the way or the
// border.
func (b *builder) packingFit(k *piece.Packing) {
	carton, battens := b.t.Shipping.Rules["carton_most"], b.t.Shipping.Rules["batten_most"]
	for _, p := range b.packed {
		if k.How.V == shipping.Carton && p.Contents.Kg > carton.Value {
			b.find(piece.Doubt, "packing.heavy-carton", k.How.At, b.massText(p.Contents.Kg)+" is a lot for a carton", "a crate, or blankets and a van, would be safer ("+carton.Source+")")
			break
		}
	}
	for _, p := range b.packed {
		if strings.Contains(spelling.Plain(k.Crate.V), "batten") && p.Contents.Kg > battens.Value {
			b.find(piece.Doubt, "packing.heavy-battens", k.Crate.At, b.massText(p.Contents.Kg)+" is a lot for a crate of battens", "write crate: plywood ("+battens.Source+")")
			break
		}
	}
	if b.t.Shipping.NeedsISPM15(b.packed, b.crossesBorder()) {
		b.find(piece.Note, "packing.ispm15", k.How.At, "a crate of solid wood over "+units.Length(b.t.Shipping.Rules["ispm_thickness"].Value).Fine(b.r.Prefer)+" that leaves the country usually has to be heat-treated and stamped (ISPM 15)",
			"buy stamped timber, or build it of plywood and wood no thicker than that; ask the carrier what the country wants")
	}
}

// loads splits the piece into what travels by itself. What the parts weigh in
// them adds up to the piece.
func (b *builder) loads() (loads []shipping.Contents, why string) {
	legs := b.p.Packing.Legs
	if b.masses.total.Value <= 0 {
		return nil, "the weight is not known"
	}
	apart := legs.V == "off" || legs.V == withTheTop
	if apart && b.p.Base == nil {
		b.find(piece.Note, "packing.no-legs", legs.At, "packing says legs "+legs.V+", but no base is described", "describe the base, or leave `legs` out")
		apart = false
	}
	kg, low, high := b.net()
	if !apart {
		if b.size.Height == 0 {
			return nil, cmp.Or(b.size.Why["height"], "the height of the piece is not known")
		}
		return []shipping.Contents{{Length: b.size.Length, Width: b.size.Width, Height: b.size.Height, Kg: kg, LowKg: low, HighKg: high}}, ""
	}
	topKg, baseKg, ok := b.weightsApart()
	if !ok {
		return nil, "the weight of top or base alone is not known"
	}
	top := contents("top", b.size.TopLength, b.size.TopWidth, b.topHeight(), topKg)
	if b.in.FootWidth == 0 || b.in.BaseHeight == 0 {
		return nil, "the package of the base: its footprint or height is not given"
	}
	n, thick, frames := b.flatFrames()
	if legs.V == withTheTop {
		return []shipping.Contents{b.together(top, n, thick, kg, low, high)}, ""
	}
	if frames {
		return []shipping.Contents{top, contents("base", math.Max(b.in.BaseHeight, b.in.FootWidth), math.Min(b.in.BaseHeight, b.in.FootWidth), float64(n)*thick, baseKg)}, ""
	}
	if b.in.FootLength == 0 {
		return nil, "the package of the base: the length of its footprint is not given"
	}
	return []shipping.Contents{top, contents("base", b.in.FootLength, b.in.FootWidth, b.in.BaseHeight, baseKg)}, ""
}

func contents(name string, length, width, height float64, kg figure.Figure) shipping.Contents {
	return shipping.Contents{Name: name, Length: length, Width: width, Height: height, Kg: kg.Value, LowKg: kg.Low, HighKg: kg.High}
}

// topHeight is the top with what stays below it: drawers and aprons.
func (b *builder) topHeight() float64 {
	h := b.in.Thickness
	for _, p := range b.in.Parts {
		if p.BelowTop < b.in.BaseHeight {
			h = math.Max(h, b.in.Thickness+p.BelowTop)
		}
	}
	return h
}

// together is the top with the frames of its base lying flat on it: side by side
// where two go beside each other, else one on the other.
func (b *builder) together(top shipping.Contents, n int, thick, kg, low, high float64) shipping.Contents {
	long, short := math.Max(b.in.BaseHeight, b.in.FootWidth), math.Min(b.in.BaseHeight, b.in.FootWidth)
	x, y := math.Max(top.Length, top.Width), math.Min(top.Length, top.Width)
	beside := 1.0
	if 2*short <= x && long <= y || 2*long <= x && short <= y {
		beside = 2
	}
	layers := math.Ceil(float64(n) / beside)
	return shipping.Contents{Length: math.Max(x, long), Width: math.Max(y, short), Height: top.Height + layers*thick, Kg: kg, LowKg: low, HighKg: high}
}

// weightsApart is what top and base weigh when they are taken apart; what is on the
// piece beside them stays with the top. The two add up to the piece: where it was
// weighed, the parts are what the scale leaves of them.
func (b *builder) weightsApart() (top, base figure.Figure, ok bool) {
	m := b.masses
	kg, low, high := b.net()
	if kg <= 0 || b.p.Base == nil {
		return top, base, false
	}
	base = m.base
	if base.Value > 0 && m.total.Value > 0 && b.p.Base.Weight.V == 0 {
		f := kg / m.total.Value
		base.Value, base.Low, base.High = base.Value*f, base.Low*f, base.High*f
	}
	if base.Value <= 0 && m.top.Value > 0 {
		rest := m.top.Value
		for _, p := range m.parts {
			rest += p
		}
		base.Value, base.Low, base.High = kg-rest, math.Max(0, low-rest), high-rest
	}
	top.Value = kg - base.Value
	top.Low, top.High = top.Value*low/kg, top.Value*high/kg
	return top, base, base.Value > 0 && top.Value > 0
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
