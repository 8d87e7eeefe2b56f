package weight

import (
	"math"

	"slabfolio/listing/figure"
	"slabfolio/listing/geometry"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// top weighs the slab: wood, resin and steel let in, less the voids. A top
// that was weighed counts by the scale; what its parts come to is then only
// held against it.
func (e *estimator) top() {
	inner := &estimator{in: e.in, t: e.t, p: e.p, out: Estimate{Absent: map[string]string{}}}
	inner.topParts()
	e.out.Findings = append(e.out.Findings, inner.out.Findings...)
	for k, v := range inner.out.Absent {
		e.out.Absent[k] = v
	}
	o := &inner.out
	e.out.TopVolume, e.out.WoodVolume, e.out.ResinVolume = o.TopVolume, o.WoodVolume, o.ResinVolume
	e.out.ResinShare, e.out.WoodArea, e.out.ResinArea = o.ResinShare, o.WoodArea, o.ResinArea
	known := inner.missing == ""
	if w := e.p.Top.Weighed; w.Set() && w.V > 0 {
		e.add(Part{Role: RoleTop, Name: "top", Source: "piece.yaml", Rule: "weighed"}, e.weighed(float64(w.V), "the top"), 0, 0)
		low, high := o.Sum.Range()
		if v := float64(w.V); known && (v < low || v > high) {
			remedy := "look first at " + spelling.Or(o.Sum.Largest(2))
			if FarOff(v, low, high) {
				remedy = e.slip(v, low, high)
			}
			e.find(w.At, piece.Doubt, "weight.top-outside-range", remedy,
				"on the scale the top is %s; its wood and resin come to %s, between %s and %s; the scale counts", e.kilos(v), e.kilos(o.Sum.Value), e.kilos(low), e.kilos(high))
		}
		known = true
	} else {
		e.out.Parts, e.out.Sum, e.missing = o.Parts, o.Sum, inner.missing
	}
	if known {
		f := e.out.Sum.Figure("kg", "sum of the top's parts", "weight_parts", "top")
		e.out.Top = &f
	} else {
		e.out.Absent["top weight"] = inner.missing
	}
}

// A slab is the top's measures.
type slab struct {
	area      figure.Uncertain // mm²
	thickness figure.Uncertain // mm
	volume    figure.Uncertain // litres
}

func (e *estimator) topParts() {
	o, th := e.in.Outline, e.p.Top.Thickness
	if o == nil || !th.Set() || !(th.V > 0) {
		why := "its outline is not known"
		if o != nil {
			why = "its thickness is not given"
		}
		e.notKnown("the top", why)
		return
	}
	s := slab{area: o.AreaMM2(), thickness: measured(float64(th.V), geometry.GaugeUncertainty, "top thickness")}
	s.volume = litres(s.area.Times(s.thickness))
	f := s.volume.Figure("l", o.Rule()+", times the thickness", "piece.yaml", "top.outline", "top.thickness")
	e.out.TopVolume = &f

	rest := s.volume
	if v := e.p.Top.Voids; v.Set() && v.V > 0 {
		rest = rest.Minus(judged(float64(v.V), e.rule("voids"), "volume of the voids"))
	}
	steel, channels := e.channels()
	rest = rest.Minus(steel)
	resin, known := e.resins(s, rest)
	if known {
		e.woods(rest.Minus(resin))
		e.shares(s, resin)
	}
	// Wood comes first in the list, then resin, then steel.
	e.out.Parts = append(e.out.Parts, channels...)
	for _, c := range channels {
		e.out.Sum = e.out.Sum.Plus(c.Uncertain)
	}
	e.sortParts()
}

// sortParts puts the top's wood before its resin.
func (e *estimator) sortParts() {
	var first, rest []Part
	for _, p := range e.out.Parts {
		if p.Role == RoleWood {
			first = append(first, p)
		} else {
			rest = append(rest, p)
		}
	}
	e.out.Parts = append(first, rest...)
}

// channels returns the volume of the steel let into the underside, which is
// taken to fill what was cut out for it, and its parts.
func (e *estimator) channels() (figure.Uncertain, []Part) {
	inner := &estimator{in: e.in, t: e.t, p: e.p, out: Estimate{Absent: map[string]string{}}}
	sum := figure.Sure(0)
	for i, c := range e.p.Top.Channels {
		if !c.Material.Set() {
			c.Material.V = "steel-carbon"
		}
		v := inner.section(c, c.Material.V, Part{Role: RoleChannel, Index: i, Name: "steel in the underside"})
		sum = sum.Plus(v)
	}
	e.out.Findings = append(e.out.Findings, inner.out.Findings...)
	for k, v := range inner.out.Absent {
		e.out.Absent[k] = v
	}
	if e.missing == "" {
		e.missing = inner.missing
	}
	return sum, inner.out.Parts
}

// woods shares the wood of the top out among its species.
func (e *estimator) woods(volume figure.Uncertain) {
	low, _ := volume.Range()
	if volume.Value <= 1e-9 {
		if len(e.p.Top.Wood) == 0 {
			return
		}
		e.find(e.p.Top.At, piece.Doubt, "weight.no-wood-left", "check the resin's amount, the voids and the thickness; where it is all resin, let it stand: the listing then names no wood", "resin, voids and steel take up the whole top: no room is left for its wood")
		if len(e.p.Top.Resin) == 0 || volume.Value < -1e-6 {
			e.notKnown("the top", "resin, voids and steel leave no room for its wood")
		}
		return
	}
	f := volume.Figure("l", "top less resin, voids and steel let in", "piece.yaml", "top")
	f.Low = math.Max(0, low)
	e.out.WoodVolume = &f
	if len(e.p.Top.Wood) == 0 {
		e.notKnown("the top", "its wood is not given")
	}
	shares := piece.Shares(e.p.Top.Wood)
	for i, w := range e.p.Top.Wood {
		d, err := e.t.Woods.Standing(w)
		if err != nil {
			if f, ok := e.t.Woods.Unknown(err, w.Species.At); ok {
				e.out.Findings = append(e.out.Findings, f)
			}
			e.notKnown("the top", err.Error())
			continue
		}
		v := volume.Scale(shares[i])
		e.add(Part{Role: RoleWood, Index: i, Name: d.Name, Material: d.ID, Source: d.Source, Rule: d.Rule}, kilograms(v, d.KgM3), v.Value, d.KgM3.Value)
	}
}

// shares fills in what of the face is wood and what is resin.
func (e *estimator) shares(s slab, resin figure.Uncertain) {
	if resin.Value <= 0 || s.volume.Value <= 0 {
		if len(e.p.Top.Resin) == 0 {
			f := s.area.Scale(1e-6).Figure("m2", "the whole face", "piece.yaml", "top.outline")
			e.out.WoodArea = &f
		}
		return
	}
	v := resin.Figure("l", e.resinRule(), "piece.yaml", "top.resin")
	e.out.ResinVolume = &v
	share := resin.Over(s.volume)
	rule := "volume of the resin over that of the top"
	f := share.Figure("1", rule, "piece.yaml", "top.resin", "top.outline", "top.thickness")
	f.High = math.Min(1, f.High)
	e.out.ResinShare = &f
	a := share.Times(s.area).Scale(1e-6).Figure("m2", "share of the resin times the area of the face", "piece.yaml", "top.resin", "top.outline")
	e.out.ResinArea = &a
	w := figure.Sure(1).Minus(share).Times(s.area).Scale(1e-6).Figure("m2", "area of the face less the resin's", "piece.yaml", "top.resin", "top.outline")
	e.out.WoodArea = &w
}
