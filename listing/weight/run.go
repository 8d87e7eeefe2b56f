package weight

import (
	"fmt"
	"math"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/table"
)

// Of estimates the weight of one piece. Hardware, glue, screws and what else
// the spec does not name are not in it.
func Of(in Input, t Tables) Estimate {
	e := &estimator{in: in, t: t, p: in.Piece, out: Estimate{Absent: map[string]string{}}}
	e.top()
	e.base()
	e.parts()
	e.finish()
	e.finishOfTop()
	e.total()
	e.compare()
	return e.out
}

// An estimator gathers an Estimate.
type estimator struct {
	in      Input
	t       Tables
	p       *piece.Piece
	out     Estimate
	missing string // why the total cannot be known, the first reason
}

// add takes a part into the estimate. mass and volume carry their doubt;
// density is for showing.
func (e *estimator) add(p Part, mass figure.Uncertain, volumeL, density float64) {
	low, high := mass.Range()
	if !(mass.Value >= 0) || math.IsInf(mass.Value+high-low, 0) || math.IsNaN(high-low) {
		e.notKnown(p.Name, "its numbers give no weight")
		return
	}
	p.Kg, p.Low, p.High, p.Uncertain = mass.Value, math.Max(0, low), high, mass
	p.VolumeL, p.Density = volumeL, density
	if p.Count == 0 {
		p.Count = 1
	}
	e.out.Parts = append(e.out.Parts, p)
	e.out.Sum = e.out.Sum.Plus(mass)
}

// notKnown notes that a part's weight cannot be known, and with it the total.
func (e *estimator) notKnown(name, why string) {
	e.out.Absent["weight of "+name] = why
	if e.missing == "" {
		e.missing = fmt.Sprintf("the weight of %s is not known: %s", name, why)
	}
}

func (e *estimator) find(at piece.Place, rank piece.Rank, code, remedy, format string, args ...any) {
	e.out.Findings = append(e.out.Findings, piece.Finding{Rank: rank, Code: code, File: at.File, Line: at.Line, Column: at.Column, Message: fmt.Sprintf(format, args...), Remedy: remedy})
}

// rule returns a line of rules.csv.
func (e *estimator) rule(key string) table.Rule { return e.t.Materials.rules[key] }

// judged gives v the lopsided relative doubt of a rule.
func judged(v float64, p table.Rule, cause string) figure.Uncertain {
	return figure.Within(v, v*p.Low/p.Value, v*p.High/p.Value, cause)
}

// Weighed returns what a scale said of a thing with the doubt of a scale: a
// share of it, one division at least, but no more than a share that small parts
// keep to.
func (m *Materials) Weighed(kg float64, of string) figure.Uncertain {
	p := m.rules
	half := math.Max(kg*(p["scale"].High-1), math.Min(p["scale_kg"].Value, kg*(p["scale_small"].High-1)))
	return figure.PlusMinus(kg, half, "weighing of "+of)
}

// weighed is Weighed with the estimate's own table.
func (e *estimator) weighed(kg float64, of string) figure.Uncertain {
	return e.t.Materials.Weighed(kg, of)
}

// material looks a name up among the materials and then among the woods.
func (e *estimator) material(name string) (figure.Density, error) {
	m, err := e.t.Materials.Lookup(name)
	if err == nil {
		return figure.Density{ID: m.ID, Name: m.Name, KgM3: m.densityUncertain(), Source: m.Source}, nil
	}
	d, werr := e.t.Woods.StandingBeside(name, e.p.Top.Wood)
	if werr != nil {
		return figure.Density{}, notFound(err, werr)
	}
	return d, nil
}

// notFound is the error for a name that is neither a material's nor a wood's: what
// the two tables suggest together, else what the woods' has to say.
func notFound(merr, werr error) error {
	near, ok := werr.(interface{ Suggestions() []string })
	if u, unknown := merr.(*UnknownError); ok && unknown {
		return &UnknownError{u.Name, append(u.Suggestions, near.Suggestions()...)}
	}
	return werr
}

// total sums up.
func (e *estimator) total() {
	if len(e.out.Parts) == 0 && e.missing == "" {
		e.missing = "nothing in the spec has a weight"
	}
	if e.missing != "" {
		e.out.Absent["weight"] = e.missing
		return
	}
	f := e.out.Sum.Figure("kg", "sum of the parts; doubts of one cause add straight, of different causes by root sum square", "weight_parts", "weight_parts")
	e.out.Total = &f
}

// compare holds the estimate against the scale.
func (e *estimator) compare() {
	w := e.p.Weighed
	if !w.Set() || e.out.Total == nil {
		return
	}
	f := *e.out.Total
	v := float64(w.V)
	if v >= f.Low && v <= f.High {
		return
	}
	deed, look := "more", "a part that is not in the spec"
	if v < f.Low {
		deed, look = "less", "a part that is hollow or of another material"
	}
	remedy := "look first at " + spelling.Or(append(e.out.Sum.Largest(2), look))
	if FarOff(v, f.Low, f.High) {
		remedy = e.slip(v, f.Low, f.High)
	}
	e.find(w.At, piece.Doubt, "weight.outside-range", remedy,
		"on the scale the piece is %s, %s than its parts come to: %s, between %s and %s", e.kilos(v), deed, e.kilos(f.Value), e.kilos(f.Low), e.kilos(f.High))
}

// litres turns mm³ into litres.
func litres(d figure.Uncertain) figure.Uncertain { return d.Scale(1e-6) }

// kilograms multiplies litres by kg/m³.
func kilograms(volumeL, density figure.Uncertain) figure.Uncertain {
	return volumeL.Times(density).Scale(1e-3)
}

// vary returns f at v with the doubt that each of its variables gives it,
// reckoned at the edges.
func vary(f func([]float64) float64, v, half []float64, cause []string) figure.Uncertain {
	base := f(v)
	d := figure.Sure(base)
	for i := range v {
		low, high := append([]float64(nil), v...), append([]float64(nil), v...)
		low[i], high[i] = math.Max(0, v[i]-half[i]), v[i]+half[i]
		d = d.Plus(figure.Within(0, f(low)-base, f(high)-base, cause[i]))
	}
	return d
}
