package report

import (
	"errors"
	"fmt"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
	"slabfolio/listing/wood"
)

// stiffness reckons how far the top sags between its feet under its own weight
// and a stated load in the middle. Private: in print it would read as a rating.
func (b *builder) stiffness() {
	if b.outline == nil || b.p.Kind.V == "serving board" || b.p.Kind.V == "wall panel" {
		return
	}
	span := b.spanOfFeet()
	switch {
	case span <= 0:
		b.absent("sag_mm", "base.footprint is not given, so where the top is held up is not known")
		return
	case b.masses.top.Value <= 0:
		b.absent("sag_mm", "the weight of the top is not known")
		return
	}
	span = min(span, b.size.TopLength)
	load := b.sagLoad(span)
	width := b.outline.AreaMM2().Value / b.size.TopLength
	beam, err := b.woods.TopBeam(b.p.Top.Wood, span, width, b.in.Thickness, b.masses.top.Value*span/b.size.TopLength, load.middle, b.mix.resinShare)
	if err != nil {
		b.noSag(err)
		b.askStiffness()
		return
	}
	beam.SpreadKg = load.spread
	sag, over, err := beam.Sag()
	if err != nil {
		b.noSag(err)
		return
	}
	b.keep("sag_mm", sag)
	if over {
		b.find(piece.Doubt, "top.sags", b.p.Top.Thickness.At,
			fmt.Sprintf("with %s the top would sag by about %s over a span of %s, more than 1/%.0f of it", load.says, units.Length(sag.Value).Fine(b.r.Prefer), b.mm(span), beam.LimitShare),
			"supports nearer to each other, a rail below or a thicker top would help ("+load.source+")")
	}
}

// askStiffness asks for the stiffness of each wood of the top that the table has
// none for, so that its sag can be known.
func (b *builder) askStiffness() {
	for _, w := range b.p.Top.Wood {
		s, err := b.woods.Resolve(w)
		if err != nil || s.Elastic > 0 {
			continue
		}
		b.find(piece.Note, "top.sag-not-known", w.At, "how far the top sags is not reckoned: "+s.NoStiffness(),
			"where you know it, give it in workshop.yaml: woods: [{id: "+s.ID+", stiffness: 11}], the modulus of elasticity in GPa (a million psi is 6.9)")
	}
}

// spanOfFeet is how far apart the top is held up: on the feet, or on the wall where a
// shelf has none; what it reaches beyond them is the overhang.
func (b *builder) spanOfFeet() float64 {
	switch {
	case b.in.FootLength > 0:
		return b.in.FootLength
	case b.size.OverhangKnown:
		return b.size.TopLength - 2*b.size.OverhangEnd
	case b.p.Base == nil && b.p.Kind.V == "shelf":
		return b.size.TopLength - 2*b.in.Overhang
	}
	return 0
}

// A sagLoad is what a top is loaded with, in kg, and what that is in words.
type sagLoad struct {
	middle, spread float64
	says, source   string
}

// sagLoad loads a shelf with a row of books along its whole length, a seat with
// a sitter, and any other top with somebody who leans on it.
func (b *builder) sagLoad(span float64) sagLoad {
	r := b.t.Assembly.Rules
	switch b.p.Kind.V {
	case "shelf":
		kg := r["book_row"].Value * span / 1000
		return sagLoad{spread: kg, says: "a row of books along it (" + units.Mass(kg).Text(b.r.Prefer) + ")", source: r["book_row"].Source}
	case "bench", "stool":
		l := r["sag_load_seat"]
		return sagLoad{middle: l.Value, says: units.Mass(l.Value).Text(b.r.Prefer) + " in the middle", source: l.Source}
	}
	l := r["sag_load"]
	return sagLoad{middle: l.Value, says: units.Mass(l.Value).Text(b.r.Prefer) + " in the middle", source: l.Source}
}

func (b *builder) noSag(err error) {
	var a *wood.AbsentError
	if errors.As(err, &a) {
		b.absent("sag_mm", a.Why)
		return
	}
	b.absent("sag_mm", err.Error())
}
