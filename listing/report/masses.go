package report

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"slabfolio/listing/assembly"
	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/shipping"
	"slabfolio/listing/weight"
)

// mix is what the top is made of.
type mix struct {
	resinShare  float64   // of the face, 0 to 1
	woodShares  []float64 // percent of the top's volume, in the order of the spec
	resinShares []float64
	woodAreaMM2 float64
}

// masses are the weights that other calculators go on with, in kg; a Value of 0
// is not known.
type masses struct {
	total, top, base figure.Figure
	parts            []float64 // of each part of the spec, all its pieces together
}

// weigh adds up the piece from its parts and learns on the way what the top is
// made of.
func (b *builder) weigh() {
	e := weight.Of(weight.Input{Piece: b.p, Outline: b.outline, ResinShare: b.o.PlanResinShare, First: b.r.Prefer}, weight.Tables{Woods: b.woods, Materials: b.materials})
	b.r.Findings = append(b.r.Findings, e.Findings...)
	for _, k := range slices.Sorted(maps.Keys(e.Absent)) {
		b.absent(k, e.Absent[k])
	}
	if b.p.Base == nil && !assembly.Flat(b.p.Kind.V) {
		// The top alone is not the piece: what holds it up weighs something too.
		e.Total = nil
		b.absent("weight", "no base is described, so the weight of the whole piece is not known")
	}
	b.fillAmounts(e)
	b.fromMixed(e)
	m := masses{parts: make([]float64, len(b.p.Parts))}
	for _, f := range []struct {
		to   *figure.Figure
		from *figure.Figure
	}{{&m.total, e.Total}, {&m.top, e.Top}, {&m.base, e.Base}} {
		if f.from != nil {
			*f.to = *f.from
		}
	}
	for i, p := range e.Parts {
		b.r.WeightParts = append(b.r.WeightParts, WeightPart{Name: p.Name, Kg: round(p.Kg, 3), Low: round(p.Low, 3), High: round(p.High, 3),
			Volume: round(p.VolumeL, 3), Density: round(p.Density, 1), Source: p.Source})
		if p.Role == weight.RolePart && p.Index >= 0 && p.Index < len(m.parts) {
			m.parts[p.Index] += p.Kg
		}
		b.keep(fmt.Sprintf("weight_parts.%d.kg", i+1), figure.Figure{Value: p.Kg, Unit: "kg", Low: p.Low, High: p.High, Rule: p.Name + ": " + p.Rule, Source: p.Source})
	}
	b.masses = m
	b.publicWeight()
}

// fillAmounts fills the areas, volumes and shares of the top.
func (b *builder) fillAmounts(e weight.Estimate) {
	b.mix.woodShares, b.mix.resinShares = make([]float64, len(b.p.Top.Wood)), make([]float64, len(b.p.Top.Resin))
	d := b.r.Public.Dimensions
	for _, f := range []struct {
		name string
		from *figure.Figure
		to   **float64
	}{{"dimensions.wood_area_m2", e.WoodArea, &d.WoodArea}, {"dimensions.resin_area_m2", e.ResinArea, &d.ResinArea},
		{"top_volume_l", e.TopVolume, nil}, {"wood_volume_l", e.WoodVolume, nil}, {"resin_volume_l", e.ResinVolume, nil}, {"resin_share_pct", e.ResinShare, nil}} {
		if f.from == nil {
			continue
		}
		b.keep(f.name, inPercent(*f.from))
		if f.to != nil && f.from.Value > 0 {
			*f.to = ptr(f.from.Value)
		}
	}
	if e.WoodArea != nil {
		b.mix.woodAreaMM2 = e.WoodArea.Value * 1e6
	}
	for _, r := range b.p.Top.Resin { // as said, until the sum of the weight knows better
		b.mix.resinShare = math.Min(1, b.mix.resinShare+math.Max(0, float64(r.Area.V))/100)
	}
	if e.ResinShare != nil {
		b.mix.resinShare = math.Min(1, math.Max(0, e.ResinShare.Value))
		if e.WoodVolume == nil { // what is not resin is steel
			b.mix.resinShare = 1
		}
	}
	b.shares(e)
}

// inPercent returns a share of 0 to 1 in percent, as shares are written
// everywhere; any other figure stays.
func inPercent(f figure.Figure) figure.Figure {
	if f.Unit == "1" {
		f.Value, f.Low, f.High, f.Unit = 100*f.Value, 100*f.Low, 100*f.High, "%"
	}
	return f
}

// shares are of the top's volume, in percent. Where the volume of a wood is not
// known, since its density is not, the woods share what the resin leaves as the
// spec says.
func (b *builder) shares(e weight.Estimate) {
	total, woods := 0.0, map[int]bool{}
	for _, p := range e.Parts {
		if p.Role == weight.RoleWood || p.Role == weight.RoleResin {
			total += p.VolumeL
		}
		if p.Role == weight.RoleWood {
			woods[p.Index] = true
		}
	}
	if total > 0 && len(woods) == len(b.p.Top.Wood) {
		for _, p := range e.Parts {
			switch {
			case p.Role == weight.RoleWood && p.Index < len(b.mix.woodShares):
				b.mix.woodShares[p.Index] += 100 * p.VolumeL / total
			case p.Role == weight.RoleResin && p.Index < len(b.mix.resinShares):
				b.mix.resinShares[p.Index] += 100 * p.VolumeL / total
			}
		}
		return
	}
	left := 100.0
	if len(b.p.Top.Resin) > 0 {
		if e.WoodVolume == nil || e.TopVolume == nil || e.ResinVolume == nil || e.WoodVolume.Value+e.ResinVolume.Value <= 0 {
			return
		}
		whole := e.WoodVolume.Value + e.ResinVolume.Value
		left = 100 * e.WoodVolume.Value / whole
		for _, p := range e.Parts {
			if p.Role == weight.RoleResin && p.Index < len(b.mix.resinShares) {
				b.mix.resinShares[p.Index] += 100 * p.VolumeL / whole
			}
		}
	}
	for i, s := range piece.Shares(b.p.Top.Wood) {
		b.mix.woodShares[i] = left * s
	}
}

// publicWeight fills the weight for everybody.
func (b *builder) publicWeight() {
	t := b.masses.total
	w := &Weight{Kg: t.Value, Low: t.Low, High: t.High}
	scale := float64(b.p.Weighed.V)
	if t.Value <= 0 {
		why := cmp.Or(b.r.Absent["weight"], "a part of the piece has no weight, and not enough is said of it to reckon one")
		delete(b.r.Absent, "weight")
		if scale <= 0 {
			b.absent("weight.kg", why)
			b.noWeight(why)
			return
		}
		// The scale is all there is, and good enough for everybody.
		b.absent("weight.estimate_kg", why)
		t = b.weighedFigure(scale)
		b.masses.total = t
		w = &Weight{Kg: t.Value, Low: t.Low, High: t.High}
	}
	b.keep("weight.kg", t)
	if scale > 0 {
		w.Weighed = ptr(scale)
		b.keep("weight.weighed_kg", b.weighedFigure(scale))
	}
	w.Text = b.weightTexts(w.Kg, w.Low, w.High)
	if w.Weighed != nil { // a buyer who reads what a scale said wants no estimate beside it
		w.Text = b.scaleTexts(scale)
	}
	b.r.Public.Weight = w
}

// noWeight tells the maker that no document will say a weight, and why. That a
// base is missing is told as such.
func (b *builder) noWeight(why string) {
	if b.p.Base == nil && !assembly.Flat(b.p.Kind.V) {
		return
	}
	if name, _, ok := strings.Cut(why, " may be "); ok { // the woods stand in a doubt of their own
		why = name + " is the name of several woods"
	}
	why, _, _ = strings.Cut(why, "; did you mean") // asked where the wood stands
	b.find(piece.Doubt, "weight.not-known", piece.Place{File: b.p.Serial.At.File}, "no weight can be given, so sheet and label say none, and no carrier can be asked: "+why,
		"put that right, or weigh the piece: weighed: 31.4 kg")
}

// fromMixed tells the maker that an amount of resin is reckoned from what was
// mixed, which says least of all.
func (b *builder) fromMixed(e weight.Estimate) {
	if e.ResinShare == nil || b.o.PlanResinShare != nil {
		return
	}
	for _, r := range b.p.Top.Resin {
		if r.Volume.Set() || r.Area.Set() {
			continue
		}
		s := inPercent(*e.ResinShare)
		b.find(piece.Note, "resin.from-mixed", r.At, fmt.Sprintf("the resin's part of the top, %.0f %% (%.0f to %.0f), is reckoned from what was mixed and what usually goes lost", s.Value, s.Low, s.High),
			"say its share of the face, area: 18 %, or its volume, for a surer weight")
		return
	}
}

// weighedFigure is what a scale said of the whole piece, with the doubt of a
// scale.
func (b *builder) weighedFigure(kg float64) figure.Figure {
	return b.materials.Weighed(kg, "the piece").Figure("kg", "weighed; the doubt of a scale", "piece.yaml", "weighed")
}

// panel is what the walls of a crate are made of.
func (b *builder) panel(said string) (shipping.Panel, string) {
	name := said
	if name == "" || name == "plywood" {
		name = "plywood-softwood"
	}
	m, err := b.materials.Lookup(name)
	if err != nil {
		return shipping.Panel{}, err.Error()
	}
	return shipping.Panel{Name: cmp.Or(said, "plywood"), KgM3: m.Density, LowKgM3: m.Low, HighKgM3: m.High, Source: m.Source}, ""
}
