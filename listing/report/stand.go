package report

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"slabfolio/listing/assembly"
	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/weight"
)

// stand computes how the piece stands. Private.
func (b *builder) stand() {
	b.tips = b.p.Base != nil || b.p.Kind.V == "bench" || b.p.Kind.V == "stool" // until it is known better
	if b.outline == nil {
		b.absent("stability", "the outline of the top is not known")
		return
	}
	b.weighIn()
	b.topples = b.veryNarrow()
	if b.p.Base == nil && (b.p.Kind.V == "serving board" || b.p.Kind.V == "wall panel" || b.p.Kind.V == "shelf") {
		return // it does not stand
	}
	if !b.in.ThreeFeet && b.in.FootLength >= b.size.TopLength && b.in.FootWidth >= b.size.TopWidth {
		b.tips = false
	}
	if b.masses.total.Value <= 0 && (b.masses.top.Value > 0 || b.in.TopKg <= 0) && b.p.Base != nil {
		b.absent("stability", "the weight of the piece is not known")
		return
	}
	s, why := b.t.Assembly.Stability(b.in)
	if s == nil {
		b.absent("stability", why)
		return
	}
	b.pushed(s)
	if !s.Tips && len(s.Cases) == 0 {
		b.tips = false
		b.absent("stability", why)
		return
	}
	b.tips = s.Tips && s.TipLoadKg < b.t.Rules["tip_mention"].Value
	b.stability(s)
	b.easilyTipped(s)
	b.endSeats(s)
}

// endSeats takes the seats of a bench back that its legs do not carry: where one
// sitter on the worst spot tips it, nobody is told how many sit along all of it.
func (b *builder) endSeats(s *assembly.Stand) {
	if b.p.Seats.Set() || b.r.Public.Seats == 0 || b.p.Kind.V != "bench" || !s.Tips || s.TipLoadKg >= b.t.Assembly.Rules["sag_load_seat"].Value {
		return
	}
	b.r.Public.Seats = 0
	delete(b.r.Figures, "seats")
	b.absent("seats", "somebody who sits on the worst spot would tip it, so how many sit on it safely is not known; seats: says it")
}

// weighIn gives the calculator every weight of the piece. Where the whole was on
// a scale, the parts are taken in their proportion.
func (b *builder) weighIn() {
	k := 1.0
	if w := float64(b.p.Weighed.V); w > 0 && b.masses.total.Value > 0 {
		k = w / b.masses.total.Value
	}
	b.in.TopKg, b.in.BaseKg = k*b.masses.top.Value, k*b.masses.base.Value
	for i := range b.in.Parts {
		b.in.Parts[i].Kg = k * b.masses.parts[i]
	}
	if b.masses.top.Value <= 0 {
		b.in.TopKg = b.topByDifference()
	}
}

// topByDifference is what the top weighs where nobody knows its wood, and the whole
// piece was on a scale and all else is known; 0 where that is not so.
func (b *builder) topByDifference() float64 {
	top := float64(b.p.Weighed.V) - b.masses.base.Value
	if b.masses.base.Value <= 0 {
		return 0
	}
	for _, kg := range b.masses.parts {
		if kg <= 0 {
			return 0
		}
		top -= kg
	}
	return math.Max(0, top)
}

// stability keeps what is known of how the piece stands.
func (b *builder) stability(s *assembly.Stand) {
	if !s.Tips {
		b.absent("stability.tip_load_kg", "the top nowhere reaches beyond the feet, so no load put down on it tips the piece")
	}
	st := &Stability{TipLoad: round(s.TipLoadKg, 1), Edge: s.Edge, Cases: map[string]float64{}}
	for k, v := range s.Cases {
		st.Cases[k] = round(v, 1)
	}
	b.r.Stability = st
	const rule, source = "F = W*b/a over the worst tipping line of the feet; rigid body, level floor, base centred under the top", "statics; handling practice, derived"
	if s.Tips {
		kg, low, high := b.standsAt()
		b.keep("stability.tip_load_kg", figure.Figure{Value: s.TipLoadKg, Unit: "kg", Low: s.TipLoadKg * low / kg, High: s.TipLoadKg * high / kg, Rule: rule, Source: source, Inputs: []string{"weight.kg", "top.outline", "base.footprint"}})
	}
	left, near := math.Inf(1), math.Inf(1)
	for _, q := range b.in.Outline {
		left, near = math.Min(left, q.X), math.Min(near, q.Y)
	}
	b.keep("centre_of_mass_along_mm", figure.Exact(s.CentreOfMass.X-left, "mm", "moments of top, base and parts about the left end of the top, as it is drawn", "piece.yaml and weight_parts", "weight_parts", "top.outline"))
	b.keep("centre_of_mass_across_mm", figure.Exact(s.CentreOfMass.Y-near, "mm", "moments of top, base and parts about the lower side of the top, as it is drawn", "piece.yaml and weight_parts", "weight_parts", "top.outline"))
	b.keep("centre_of_mass_height_mm", figure.Exact(s.CentreHeight, "mm", "moments of top, base and parts about the floor", "piece.yaml and weight_parts", "weight_parts"))
}

// standsAt is what the piece weighs as it stands, with its range: the scale's
// word goes before the estimate's.
func (b *builder) standsAt() (kg, low, high float64) {
	f := b.masses.total
	if w := float64(b.p.Weighed.V); w > 0 {
		f = b.weighedFigure(w)
	}
	return f.Value, f.Low, f.High
}

// pushed judges a tall, narrow piece by a push at its upper edge.
func (b *builder) pushed(s *assembly.Stand) {
	slender := math.Min(b.in.FootLength, b.in.FootWidth)
	if !b.t.Assembly.TallAndNarrow(b.size.Height, slender) {
		return
	}
	force := b.t.Assembly.Rules["push_force"]
	kg, low, high := b.standsAt()
	b.keep("stability.push_n", figure.Figure{Value: s.PushN, Unit: "N", Low: s.PushN * low / kg, High: s.PushN * high / kg,
		Rule: fmt.Sprintf("F = W*b/h, a level push at %.0f mm; rigid body, level floor", s.PushHeight), Source: "statics; " + force.Source, Inputs: []string{"weight.kg", "base.footprint", "dimensions.height_mm"}})
	b.topples = b.topples || s.PushN < force.Value
	if s.PushN < force.Value && !b.scaleFarOff() {
		b.find(piece.Doubt, "stability.push", b.p.Base.At, fmt.Sprintf("it is tall for its depth: by these figures a level push of about %s at %s would tip it", b.force(s.PushN), b.mm(s.PushHeight)),
			"a wider foot or a heavier base would help, or fix it to the wall; the papers tell the buyer to, where children live (held against "+b.force(force.Value)+": "+force.Source+")")
	}
}

// veryNarrow reports whether the piece is so tall for its depth that it is fixed
// to the wall whatever it weighs. Where the feet are not told, they are taken as
// deep as the top.
func (b *builder) veryNarrow() bool {
	slender := math.Inf(1)
	for _, mm := range [][2]float64{{b.in.FootLength, b.size.TopLength}, {b.in.FootWidth, b.size.TopWidth}} {
		side := mm[0]
		if side <= 0 {
			side = mm[1]
		}
		slender = math.Min(slender, side)
	}
	return b.p.Base != nil && b.t.Assembly.TallAndNarrow(b.size.Height, slender) && b.size.Height >= b.t.Assembly.Rules["very_narrow"].Value*slender
}

// scaleFarOff reports whether the scale's figure of the piece, which all sums of how it
// stands go by, is none that its parts can come to. That is a finding of its own.
func (b *builder) scaleFarOff() bool {
	t := b.masses.total
	return b.p.Weighed.Set() && t.Value > 0 && weight.FarOff(float64(b.p.Weighed.V), t.Low, t.High)
}

// force writes a force as the maker reads it.
func (b *builder) force(n float64) string {
	const perPound = 4.4482216152605 // newtons in a pound-force: 0.45359237 kg times standard gravity
	switch {
	case n < 1:
		return "less than 1 N"
	case n < perPound:
		return fmt.Sprintf("%.0f N (less than 1 lbf)", n)
	}
	if b.r.Prefer.Metric() {
		return fmt.Sprintf("%.0f N (%.0f lbf)", n, n/perPound)
	}
	return fmt.Sprintf("%.0f lbf (%.0f N)", n/perPound, n)
}

// easilyTipped says where a hand's load tips the piece. An open drawer that is pressed
// tips most light desks, so that is a note; the top itself is a doubt.
func (b *builder) easilyTipped(s *assembly.Stand) {
	if b.scaleFarOff() {
		return // what such a figure tips is no news
	}
	type spot struct {
		load  float64
		where string
	}
	top, drawer := spot{-1, ""}, spot{-1, ""}
	less := func(a *spot, load float64, where string) {
		if a.load < 0 || load < a.load-1e-9 {
			*a = spot{load, where}
		}
	}
	for _, k := range slices.Sorted(maps.Keys(s.Cases)) {
		if strings.HasPrefix(k, "drawer") {
			less(&drawer, s.Cases[k], k)
		} else {
			less(&top, s.Cases[k], k)
		}
	}
	at := b.p.Base.At
	const remedy = "a wider footprint or a heavier base would help; try it by hand before it leaves"
	easy, seat := b.t.Rules["easy_tip"].Value, ""
	if k := b.p.Kind.V; k == "bench" || k == "stool" {
		easy = b.t.Assembly.Rules["sag_load_seat"].Value
		seat = ", and a seat has to bear " + b.massText(easy) + " there"
	}
	for _, c := range []struct {
		spot
		rank piece.Rank
		code string
	}{{top, piece.Doubt, "stability.easily-tipped"}, {drawer, piece.Note, "stability.drawer"}} {
		switch {
		case c.load < 0 || c.load >= easy:
		case c.load == 0:
			b.find(piece.Doubt, "stability.falls", at, fmt.Sprintf("by these figures the piece falls by itself (%s): its weight lies outside its feet", c.where), "look at the footprint, the outline and the weights")
		default:
			b.find(c.rank, c.code, at, fmt.Sprintf("about %s put down on the worst spot (%s) would tip the piece%s", b.massText(c.load), c.where, seat), remedy)
		}
	}
}
