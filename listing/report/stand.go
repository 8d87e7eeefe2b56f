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
)

// stand computes how the piece stands. Private.
func (b *builder) stand() {
	b.tips = b.p.Base != nil || b.p.Kind.V == "bench" || b.p.Kind.V == "stool"
	if b.outline == nil {
		b.absent("stability", "the outline of the top is not known")
		return
	}
	b.in.TopKg, b.in.BaseKg = b.masses.top.Value, b.masses.base.Value
	for i := range b.in.Parts {
		b.in.Parts[i].Kg = b.masses.parts[i]
	}
	if b.p.Base == nil && (b.p.Kind.V == "serving board" || b.p.Kind.V == "wall panel" || b.p.Kind.V == "shelf") {
		return // it does not stand
	}
	if b.masses.total.Value <= 0 && b.p.Base != nil {
		b.absent("stability", "the weight of the piece is not known")
		return
	}
	s, why := b.t.Assembly.Stability(b.in)
	if s == nil || (!s.Tips && len(s.Cases) == 0) {
		b.absent("stability", why)
		return
	}
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
		share := b.masses.total.Low / b.masses.total.Value
		up := b.masses.total.High / b.masses.total.Value
		b.keep("stability.tip_load_kg", figure.Figure{Value: s.TipLoadKg, Unit: "kg", Low: s.TipLoadKg * share, High: s.TipLoadKg * up, Rule: rule, Source: source, Inputs: []string{"weight.kg", "top.outline", "base.footprint"}})
	}
	left, near := math.Inf(1), math.Inf(1)
	for _, q := range b.in.Outline {
		left, near = math.Min(left, q.X), math.Min(near, q.Y)
	}
	b.keep("centre_of_mass_along_mm", figure.Exact(s.CentreOfMass.X-left, "mm", "moments of top, base and parts about the left end of the top, as it is drawn", "piece.yaml and weight_parts", "weight_parts", "top.outline"))
	b.keep("centre_of_mass_across_mm", figure.Exact(s.CentreOfMass.Y-near, "mm", "moments of top, base and parts about the lower side of the top, as it is drawn", "piece.yaml and weight_parts", "weight_parts", "top.outline"))
	b.keep("centre_of_mass_height_mm", figure.Exact(s.CentreHeight, "mm", "moments of top, base and parts about the floor", "piece.yaml and weight_parts", "weight_parts"))
	b.easilyTipped(s)
}

// easilyTipped says where a hand's load tips the piece. An open drawer that is pressed
// tips most light desks, so that is a note; the top itself is a doubt.
func (b *builder) easilyTipped(s *assembly.Stand) {
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
	for _, c := range []struct {
		spot
		rank piece.Rank
		code string
	}{{top, piece.Doubt, "stability.easily-tipped"}, {drawer, piece.Note, "stability.drawer"}} {
		switch {
		case c.load < 0 || c.load >= b.t.Rules["easy_tip"].Value:
		case c.load == 0:
			b.find(piece.Doubt, "stability.falls", at, fmt.Sprintf("by these figures the piece falls by itself (%s): its weight lies outside its feet", c.where), "look at the footprint, the outline and the weights")
		default:
			b.find(c.rank, c.code, at, fmt.Sprintf("about %.0f kg put down on the worst spot (%s) would tip the piece", c.load, c.where), remedy)
		}
	}
}
