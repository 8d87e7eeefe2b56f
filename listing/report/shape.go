package report

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"slabfolio/listing/assembly"
	"slabfolio/listing/figure"
	"slabfolio/listing/geometry"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// shape reads the outline and the thickness.
func (b *builder) shape() {
	top := b.p.Top
	b.r.Public.Dimensions = &Dimensions{}
	o, err := outlineOf(top.Outline)
	switch {
	case errors.Is(err, errPhoto) && b.o.Plan != nil:
		o = b.o.Plan
	case errors.Is(err, errPhoto):
		b.absent("dimensions.top_area_m2", "the outline is to be measured from a photo, and that was not done")
		return
	case err != nil:
		b.r.Findings = append(b.r.Findings, outlineFault(top.Outline, err, b.r.Prefer))
		b.absent("dimensions.top_area_m2", err.Error())
		return
	}
	b.outline = o
	d := b.r.Public.Dimensions
	area := o.Area()
	if top.Outline.Photo.Set() {
		area.Source = top.Outline.Photo.V
	}
	b.keep("dimensions.top_area_m2", area)
	d.TopArea = ptr(o.Area().Value)
	if t := float64(top.Thickness.V); t > 0 {
		d.TopThickness = ptr(t)
		give := geometry.GaugeUncertainty(t)
		b.keep("dimensions.top_thickness_mm", figure.PlusMinus(t, give, "top thickness").Figure("mm", "as measured", "piece.yaml", "top.thickness"))
	} else {
		b.absent("dimensions.top_thickness_mm", "top.thickness is not given")
	}
	b.in = b.assemblyInput()
}

// threeFeet reports whether a base stands on three feet by its maker's words: then
// its feet do not reach into the corners of its footprint.
func threeFeet(style string) bool {
	words := strings.Fields(spelling.Plain(withoutSizes(style)))
	has := func(any ...string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(any, w) })
	}
	return has("tripod", "three legged", "threelegged", "3legged") || has("three", "3") && has("leg", "legs", "legged", "feet", "foot", "footed", "hairpin", "hairpins")
}

func (b *builder) assemblyInput() assembly.Input {
	p := b.p
	in := assembly.Input{Kind: p.Kind.V, SatAt: p.Seats.V > 0 && p.Kind.V != "bench" && p.Kind.V != "stool", Round: b.outline.Round(), Thickness: float64(p.Top.Thickness.V), Overhang: float64(p.Top.Overhang.V)}
	for _, q := range b.outline.Polygon() {
		in.Outline = append(in.Outline, assembly.Point{X: q[0], Y: q[1]})
	}
	if s := p.Base; s != nil {
		in.HasBase, in.ThreeFeet = true, threeFeet(s.Style.V)
		in.BaseHeight, in.FootLength, in.FootWidth = float64(s.Height.V), float64(s.FootprintLength.V), float64(s.FootprintWidth.V)
	}
	for _, q := range p.Parts {
		part := assembly.Part{Name: q.Name.V, Wall: float64(q.Walls.V), BelowTop: float64(q.BelowTop.V), Count: max(1, q.Count.V)}
		if len(q.Size) == 3 {
			part.Length, part.Width, part.Height = float64(q.Size[0].V), float64(q.Size[1].V), float64(q.Size[2].V)
		}
		in.Parts = append(in.Parts, part)
	}
	return in
}

// assemble fills the dimensions of the whole piece, and the seats.
func (b *builder) assemble() {
	if b.outline == nil {
		for _, k := range []string{"length_mm", "width_mm", "height_mm"} {
			b.absent("dimensions."+k, "the outline of the top is not known")
		}
		return
	}
	s := assembly.Measure(b.in)
	s.Length, s.Width = math.Max(s.Length, b.outline.LengthMM()), math.Max(s.Width, b.outline.WidthMM()) // the corners of a round outline lie a little inside it
	b.size = s
	d := b.r.Public.Dimensions
	d.Length, d.Width = ptr(s.Length), ptr(s.Width)
	b.keep("dimensions.length_mm", b.larger(b.outline.Length(), s.Length, "base.footprint.length"))
	b.keep("dimensions.width_mm", b.larger(b.outline.Width(), s.Width, "base.footprint.width"))
	if s.Height > 0 {
		d.Height = ptr(s.Height)
		h := figure.PlusMinus(float64(b.in.Thickness), geometry.GaugeUncertainty(b.in.Thickness), "top thickness")
		rule, inputs := "thickness of the top", []string{"top.thickness"}
		if b.in.HasBase {
			h = h.Plus(figure.PlusMinus(b.in.BaseHeight, geometry.TapeUncertainty(b.in.BaseHeight), "base height"))
			rule, inputs = "base height + thickness of the top", []string{"base.height", "top.thickness"}
		}
		b.keep("dimensions.height_mm", h.Figure("mm", rule, "piece.yaml", inputs...))
	}
	b.absent("dimensions.height_mm", s.Why["height"])
	b.absent("dimensions.knee_clearance_mm", s.Why["knee_clearance"])
	if s.Knee > 0 {
		d.Knee = ptr(s.Knee)
		b.keep("dimensions.knee_clearance_mm", figure.PlusMinus(s.Knee, geometry.TapeUncertainty(b.in.BaseHeight), "base height").Figure("mm",
			"base height less what hangs lowest: "+s.KneeUnder, "piece.yaml", "base.height", "parts.below_top"))
	}
	b.seats()
	d.Text = b.sizeText(s.Length, s.Width, s.Height)
	b.overhangs()
	b.customary()
}

// seats counts who sits at or on the piece; the maker's word goes before the sum.
func (b *builder) seats() {
	if n := b.p.Seats; n.Set() {
		b.r.Public.Seats = n.V
		b.keep("seats", figure.Exact(float64(n.V), "1", "as the maker says", "piece.yaml", "seats"))
		return
	}
	n := b.t.Assembly.Seats(b.in)
	if n == 0 {
		return
	}
	b.r.Public.Seats = n
	place := b.t.Assembly.Rules["place_width"]
	rule := fmt.Sprintf("places of %.0f mm, corners not counted twice", place.Value)
	if b.in.Round && b.p.Kind.V == "dining table" {
		rule = fmt.Sprintf("places of %.0f mm at the rim, and chairs of %.0f mm that stand %.0f mm under it", place.Value, b.t.Assembly.Rules["chair_width"].Value, b.t.Assembly.Rules["chair_under"].Value)
	}
	b.keep("seats", figure.Exact(float64(n), "1", rule, place.Source, "top.outline"))
}

// larger is the outline's own figure, or the base's where that reaches further.
func (b *builder) larger(top figure.Figure, mm float64, key string) figure.Figure {
	if mm <= top.Value {
		return top
	}
	return figure.PlusMinus(mm, geometry.TapeUncertainty(mm), key).Figure("mm", "the base reaches further than the top", "piece.yaml", key)
}

// topIsWidest reports whether the base reaches no further than the top.
func (b *builder) topIsWidest(l, w float64) bool {
	return l <= b.outline.LengthMM()+1e-6 && w <= b.outline.WidthMM()+1e-6
}

// sizeText writes length, width and height in both systems; a round top has one
// diameter.
func (b *builder) sizeText(l, w, h float64) Text {
	n := b.words.Number
	one := func(s units.System) string {
		ll, lw, lh := units.Length(l), units.Length(w), units.Length(h)
		switch {
		case b.outline.Round() && b.topIsWidest(l, w) && h > 0:
			return b.words.Say("figures.size.round", map[string]any{"Across": n(ll.Text(s)), "High": n(lh.Text(s))})
		case b.outline.Round() && b.topIsWidest(l, w):
			return b.words.Say("figures.size.round-top", map[string]any{"Across": n(ll.Text(s))})
		case h > 0:
			return n(units.Sizes(s, ll, lw, lh))
		}
		return n(units.Sizes(s, ll, lw))
	}
	return Text{In: one(units.Inches), Cm: one(units.Centimetres)}
}

// overhangs keeps what the top reaches beyond the base, and compares the two
// ways of saying it.
func (b *builder) overhangs() {
	s := b.size
	if s.OverhangKnown {
		b.keep("overhang_end_mm", figure.Exact(s.OverhangEnd, "mm", "half of what the top is longer than the feet", "piece.yaml", "top.outline", "base.footprint"))
	}
	if b.in.FootWidth > 0 {
		b.keep("overhang_side_mm", figure.Exact(s.OverhangSide, "mm", "half of what the top is wider than the feet", "piece.yaml", "top.outline", "base.footprint"))
	}
	if b.in.HasBase && !s.OverhangKnown {
		b.absent("overhang_end_mm", "neither top.overhang nor the length of base.footprint is given")
	}
	if b.in.HasBase && b.in.FootWidth == 0 {
		b.absent("overhang_side_mm", "the width of base.footprint is not given")
	}
	wider := b.baseWider()
	said := b.in.Overhang
	if !b.p.Top.Overhang.Set() || b.in.FootLength == 0 || wider {
		return // that the base is too large says it already
	}
	if math.Abs(said-s.OverhangEnd) > b.t.Rules["overhang_differs"].Value {
		b.find(piece.Doubt, "top.overhang", b.p.Top.Overhang.At,
			fmt.Sprintf("the overhang is given as %s at each end, but top and footprint leave %s", b.mm(said), b.mm(s.OverhangEnd)),
			"measure again; one of overhang, outline and footprint is off")
	}
}

// spreads are the words for a base whose feet are meant to stand further out than the
// top reaches. Common practice, no source.
var spreads = []string{"splayed", "raked", "angled", "spread", "tapered", "tripod", "cross", "crossed", "trestle", "trestles", "plinth"}

// baseWider doubts a base that reaches beyond its top, where no word for it says that it
// is meant so: by more than a tape's slip, an inch at both ends together. It reports
// whether it did.
func (b *builder) baseWider() bool {
	s, o := b.p.Base, b.outline
	if s == nil || slices.ContainsFunc(strings.Fields(spelling.Plain(s.Style.V)), func(w string) bool { return slices.Contains(spreads, w) }) {
		return false
	}
	slip := b.t.Rules["base_wider"].Value
	long, wide := b.in.FootLength-o.LengthMM(), b.in.FootWidth-o.WidthMM()
	if long <= slip && wide <= slip {
		return false
	}
	at, side, by := s.FootprintLength.At, "longer", long
	if wide > long {
		at, side, by = s.FootprintWidth.At, "wider", wide
	}
	remedy := "measure again; where it is meant so, say it in base.style: splayed, or a plinth"
	if b.in.FootWidth > 0 && b.in.FootLength <= o.WidthMM()+slip && b.in.FootWidth <= o.LengthMM()+slip {
		remedy = fmt.Sprintf("footprint.length runs along the top: write footprint: {length: %s, width: %s} if the two changed places", s.FootprintWidth.V.Plain(b.r.Prefer), s.FootprintLength.V.Plain(b.r.Prefer))
	}
	b.find(piece.Doubt, "base.wider", at, fmt.Sprintf("the base is %s %s than the top that it carries", b.mm(by), side), remedy)
	return true
}

// mm writes a length as the maker reads it.
func (b *builder) mm(v float64) string { return units.Length(v).Both(b.r.Prefer) }
