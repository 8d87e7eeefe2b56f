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
	span := b.in.FootLength
	if span == 0 && b.size.OverhangKnown {
		span = b.size.TopLength - 2*b.size.OverhangEnd
	}
	switch {
	case span <= 0:
		b.absent("sag_mm", "base.footprint is not given, so where the top is held up is not known")
		return
	case b.masses.top.Value <= 0:
		b.absent("sag_mm", "the weight of the top is not known")
		return
	}
	span = min(span, b.size.TopLength)
	load := b.t.Assembly.Rules["sag_load"]
	if b.p.Kind.V == "bench" || b.p.Kind.V == "stool" {
		load = b.t.Assembly.Rules["sag_load_seat"]
	}
	width := b.outline.AreaMM2().Value / b.size.TopLength
	beam, err := b.woods.TopBeam(b.p.Top.Wood, span, width, b.in.Thickness, b.masses.top.Value*span/b.size.TopLength, load.Value, b.mix.resinShare)
	if err != nil {
		b.noSag(err)
		return
	}
	sag, over, err := beam.Sag()
	if err != nil {
		b.noSag(err)
		return
	}
	b.keep("sag_mm", sag)
	if over {
		b.find(piece.Doubt, "top.sags", b.p.Top.Thickness.At,
			fmt.Sprintf("with %s in the middle the top would sag by about %.1f mm over a span of %s, more than 1/%.0f of it", units.Mass(load.Value).Text(b.r.Prefer), sag.Value, b.mm(span), beam.LimitShare),
			"feet further out, a rail below or a thicker top would help; "+load.Source)
	}
}

func (b *builder) noSag(err error) {
	var a *wood.AbsentError
	if errors.As(err, &a) {
		b.absent("sag_mm", a.Why)
		return
	}
	b.absent("sag_mm", err.Error())
}
