package wood

import (
	"fmt"
	"math"
	"strings"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
)

// A Beam is a top between its supports, as far as bending goes.
type Beam struct {
	Span       float64          // mm between the supports
	Width      float64          // mm, mean over the span
	Thickness  float64          // mm
	Elastic    figure.Uncertain // modulus of elasticity along the span, GPa
	OwnKg      float64          // mass of the part between the supports
	LoadKg     float64          // at the middle of the span
	SpreadKg   float64          // spread evenly over the span, besides its own mass
	Gravity    float64          // m/s²
	Source     string           // of Elastic
	LimitShare float64          // a sag over span/LimitShare is a doubt
}

// Sag returns how far the middle of a beam sinks, in mm: simply supported,
// its own weight spread evenly and the load at the middle,
// 5wL⁴/384EI + PL³/48EI (Euler and Bernoulli; any book of statics). Overhangs
// are left out: they would lift the middle, so the figure is on the safe side.
// Sag grows over the years as wood creeps, to about double; that is not in it
// (common practice, no source). The second result is true where it exceeds
// the limit.
func (b Beam) Sag() (figure.Figure, bool, error) {
	for _, v := range []float64{b.Span, b.Width, b.Thickness, b.Elastic.Value, b.Gravity} {
		if !(v > 0) || math.IsInf(v, 0) {
			return figure.Figure{}, false, &AbsentError{"the span, the section or the stiffness of the top is not known"}
		}
	}
	if !(b.OwnKg >= 0 && b.LoadKg >= 0 && b.SpreadKg >= 0) || math.IsInf(b.OwnKg+b.LoadKg+b.SpreadKg, 0) {
		return figure.Figure{}, false, &AbsentError{"the load on the top is not known"}
	}
	i := b.Width * math.Pow(b.Thickness, 3) / 12 // mm⁴
	force := (5.0/384*(b.OwnKg+b.SpreadKg) + b.LoadKg/48) * b.Gravity
	k := force * math.Pow(b.Span, 3) / i / 1000 // GPa is 1000 N/mm²
	v := k / b.Elastic.Value
	// Far from small: a wood two standard deviations softer sags by far more,
	// so the edges are reckoned and not sloped.
	low, high := b.Elastic.Range()
	f := figure.Figure{
		Value: v, Unit: "mm", Low: k / high, High: k / math.Max(low, b.Elastic.Value/4),
		Rule:   fmt.Sprintf("5wL^4/384EI + PL^3/48EI, span %.0f mm, own mass %.3g kg spread, %s; overhangs and creep left out", b.Span, b.OwnKg, b.load()),
		Source: b.Source, Inputs: []string{"top.outline", "top.thickness", "base.footprint"},
	}
	return f, v > b.Span/b.LimitShare, nil
}

// TopBeam returns the beam of a top of one wood or several side by side, each
// of which bears by its share of the section; resinShare of the section (0 to
// 1) is resin that runs along the span. The span runs along the length of the
// piece, so grain along the width bends across the grain. The error is an
// *AbsentError where a stiffness is not known.
func (t *Table) TopBeam(woods []piece.Wood, span, width, thickness, ownKg, loadKg, resinShare float64) (Beam, error) {
	shares := piece.Shares(woods)
	sum, from := figure.Sure(0), ""
	for i, w := range woods {
		s, err := t.Resolve(w)
		if err != nil {
			return Beam{}, err
		}
		e, err := t.stiffness(s, w.Grain.V)
		if err != nil {
			return Beam{}, err
		}
		sum = sum.Plus(e.Scale(shares[i]))
		if !strings.Contains(from, s.ElasticFrom) {
			from = strings.TrimPrefix(from+"; "+s.ElasticFrom, "; ")
		}
	}
	if len(woods) == 0 {
		return Beam{}, &AbsentError{"the wood of the top is not given"}
	}
	return t.beam(sum, from, span, width, thickness, ownKg, loadKg, resinShare), nil
}

// stiffness returns the modulus of elasticity along the length of the piece.
func (t *Table) stiffness(s Species, grain string) (figure.Uncertain, error) {
	e := s.Elastic
	switch {
	case e == 0:
		return figure.Uncertain{}, &AbsentError{s.NoStiffness()}
	case oneOf(grain, "end grain"):
		return figure.Uncertain{}, &AbsentError{"a top with end grain up is not reckoned as a beam"}
	case oneOf(grain, "along width"):
		e *= t.rule("cross_elastic_ratio")
	}
	return figure.PlusMinus(e, e*figure.Z90*t.rule("elastic_cov")/100, "stiffness of "+s.ID), nil
}

// NoStiffness says that a wood's stiffness is not known, and why as far as the
// table tells.
func (s Species) NoStiffness() string {
	if strings.HasPrefix(s.ElasticFrom, notPublished) {
		return "the modulus of elasticity of " + s.ID + " is " + s.ElasticFrom
	}
	return "the modulus of elasticity of " + s.ID + " is not known"
}

func (t *Table) beam(e figure.Uncertain, source string, span, width, thickness, ownKg, loadKg, resinShare float64) Beam {
	r := math.Min(1, math.Max(0, resinShare))
	return Beam{
		Span: span, Width: width, Thickness: thickness, OwnKg: ownKg, LoadKg: loadKg,
		Elastic: e.Scale(1 - r).Plus(figure.Sure(t.rule("resin_elastic") * r)),
		Gravity: t.rule("gravity"), LimitShare: t.rule("sag_limit"), Source: source,
	}
}

// load says what a beam bears besides itself.
func (b Beam) load() string {
	if b.SpreadKg > 0 {
		return fmt.Sprintf("a load of %.3g kg spread", b.SpreadKg)
	}
	return fmt.Sprintf("%.3g kg at the middle", b.LoadKg)
}
