package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/shipping"
	"slabfolio/listing/units"
)

// standing is what the piece weighs as it stands: what the scale said, else the
// estimate.
func (b *builder) standing() float64 {
	if w := b.r.Public.Weight; w != nil {
		if w.Weighed != nil {
			return *w.Weighed
		}
		return w.Kg
	}
	return 0
}

// liftKg is what a lift is judged by: what the scale said, else the upper end of
// the estimate, to be on the safe side.
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
		if v := b.p.Availability.V; v != "sold" && v != "not for sale" {
			b.find(piece.Note, "packing.missing", piece.Place{File: b.p.Serial.At.File}, "no packing is given: the shipping sheet has no sizes to ask a carrier with",
				"add `packing: {how: "+piece.PackingHow[0]+"}`, or one of: "+strings.Join(piece.PackingHow[1:], ", "))
		}
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
	b.liftBasis = b.basis(lift)
	if lift.People == 0 {
		b.absent("shipping.people_to_lift", "the weight is not known")
	} else {
		b.keep("shipping.people_to_lift", figure.Exact(float64(lift.People), "1", b.liftBasis, shipping.LiftSource, "weight.high_kg", "shipping.packages"))
	}
	if len(b.packed) == 1 {
		b.alone(b.packed[0])
	}
	b.passage() // sizes alone decide it
	b.cureBeforePacking()
	if lift.People == 0 && len(b.packed) == 0 {
		return
	}
	b.r.SolidPacking = shipping.NeedsISPM15(b.packed, true)
	s := &Shipping{Packages: []Package{}, PeopleToLift: lift.People}
	for _, p := range b.packed {
		s.Packages = append(s.Packages, b.publicPackage(p))
	}
	s.Text = b.shippingText(s, lift)
	b.r.Public.Shipping = s
}

// basis says by what rule a lift was judged.
func (b *builder) basis(l shipping.Lift) string {
	if l.Basis == "" {
		return ""
	}
	each := b.t.Shipping.Rules["hands_each"].Value
	return b.words.Say("figures.lift-basis."+l.Basis, map[string]any{"Kg": trim(l.UpToKg), "Each": trim(each)})
}

// alone keeps what one person may lift of a package by the revised lifting
// equation, for one that one person might lift.
func (b *builder) alone(p shipping.Package) {
	if p.GrossKg > b.t.Shipping.Rules["hands_each"].Value {
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
		most := b.t.Shipping.Rules["carton_most"]
		for _, p := range b.packed {
			if p.Contents.Kg > most.Value {
				b.find(piece.Doubt, "packing.heavy-carton", k.How.At, fmt.Sprintf("%s is a lot for a carton", units.Mass(p.Contents.Kg).Text(b.r.Prefer)), "a crate, or blankets and a van, would be safer ("+most.Source+")")
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
func (b *builder) loads(legsOff bool) (loads []shipping.Contents, why string) {
	m := b.masses
	if m.total.Value <= 0 {
		return nil, "the weight is not known"
	}
	if !legsOff || b.p.Base == nil {
		if legsOff {
			b.find(piece.Note, "packing.no-legs", b.p.Packing.Legs.At, "packing says legs off, but no base is described", "describe the base, or leave `legs` out")
		}
		if b.size.Height == 0 {
			return nil, cmp.Or(b.size.Why["height"], "the height of the piece is not known")
		}
		kg, low, high := b.net()
		return []shipping.Contents{{Length: b.size.Length, Width: b.size.Width, Height: b.size.Height, Kg: kg, LowKg: low, HighKg: high}}, ""
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
	top := shipping.Contents{Name: "top", Length: b.size.TopLength, Width: b.size.TopWidth, Height: height, Kg: m.top.Value, LowKg: m.top.Low, HighKg: m.top.High}
	for _, kg := range m.parts {
		top.Kg, top.LowKg, top.HighKg = top.Kg+kg, top.LowKg+kg, top.HighKg+kg
	}
	loads = []shipping.Contents{top}
	if b.in.FootLength == 0 || b.in.FootWidth == 0 || b.in.BaseHeight == 0 || m.base.Value <= 0 {
		return loads, "the package of the base: its footprint, height or weight is not given"
	}
	return append(loads, shipping.Contents{Name: "base", Length: b.in.FootLength, Width: b.in.FootWidth, Height: b.in.BaseHeight,
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
