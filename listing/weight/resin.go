package weight

import (
	"fmt"
	"math"
	"strings"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// resins adds every resin of the top and returns their volume in litres; not
// known where one of them is not. room is what the top has left for wood and
// resin.
func (e *estimator) resins(s slab, room figure.Uncertain) (sum figure.Uncertain, known bool) {
	known = true
	for i, r := range e.p.Top.Resin {
		m := e.resinMaterial(r)
		name := "resin"
		if len(e.p.Top.Resin) > 1 {
			name = fmt.Sprintf("resin %d", i+1)
		}
		v, kg, rule, ok := e.resinAmount(i, r, m, s)
		if !ok {
			e.notKnown("the top", "the spec does not say how much resin is in it")
			known = false
			continue
		}
		if over, _ := sum.Plus(v).Minus(room).Range(); over <= 0 && sum.Value+v.Value > room.Value && v.Value > 0 {
			// No more than the doubt of the amount: the resin takes what room there is.
			k := math.Max(0, room.Value-sum.Value) / v.Value
			v, kg = v.Scale(k), kg.Scale(k)
		}
		if !(sum.Value+v.Value <= room.Value*(1+1e-9)) {
			e.find(r.At, piece.Doubt, "weight.resin-exceeds-top", "check the amount of resin and the thickness of the top", "%s of resin do not fit into a top that has room for %s", e.inLitres(sum.Value+v.Value), e.inLitres(room.Value))
			e.notKnown("the top", "more resin is said than the top has room for")
			known = false
			continue
		}
		e.checkMixed(i, r, m, v, s)
		e.checkPours(r, m, s.thickness.Value)
		e.add(Part{Role: RoleResin, Index: i, Name: name, Material: m.ID, Source: m.Source, Rule: rule}, kg, v.Value, m.Density)
		sum = sum.Plus(v)
	}
	return sum, known
}

// resinMaterial returns the resin with the density that counts.
func (e *estimator) resinMaterial(r piece.Resin) Material {
	m, err := e.t.Materials.Lookup(defaultResin)
	if err != nil {
		m = Material{ID: defaultResin}
	}
	if r.Material.Set() {
		x, err := e.t.Materials.Lookup(r.Material.V)
		switch {
		case err == nil:
			m = x
		case !r.Density.Set():
			e.find(r.Material.At, piece.Doubt, "weight.resin-unknown", "give its density from the product's sheet, or add it to workshop.yaml: resins", "the density of %s is taken: %s", defaultResin, err)
		}
	}
	if r.Density.Set() && r.Density.V > 0 {
		m = m.withDensity(float64(r.Density.V), e.rule("stated_density"), "piece.yaml")
	}
	return m
}

// resinAmount returns volume in litres and mass in kg of a resin. What says
// most counts: its volume, its share of the face, the share measured from a
// photo, what was mixed less what was left and lost. One eye judges all shares, one
// jug all volumes, and one plane takes off what is lost: the doubts of several pours of
// one material are shared, so that saying a pour in parts makes it no surer.
func (e *estimator) resinAmount(i int, r piece.Resin, m Material, s slab) (v, kg figure.Uncertain, rule string, ok bool) {
	density := m.densityUncertain()
	share := func(d figure.Uncertain, what string) (figure.Uncertain, figure.Uncertain, string, bool) {
		v := d.Times(s.volume)
		return v, kilograms(v, density), what + " times the volume of the top, times the density of " + m.ID, true
	}
	switch {
	case r.Volume.Set() && r.Volume.V > 0:
		v := judged(float64(r.Volume.V), e.rule("resin_volume"), "volume of "+m.ID)
		return v, kilograms(v, density), "volume as given, times the density of " + m.ID, true
	case r.Area.Set() && r.Area.V > 0:
		return share(judged(float64(r.Area.V)/100, e.rule("resin_area"), "area of "+m.ID), "share of the face as given")
	case e.in.ResinShare != nil && i == 0 && e.in.ResinShare.Value > 0:
		f := e.in.ResinShare
		return share(figure.Within(f.Value, f.Low, f.High, "area of "+m.ID), "share of the face measured from the photo")
	}
	net, ok := e.net(r, m)
	if !ok {
		return v, kg, "", false
	}
	kept := e.rule("resin_kept")
	kg = net.Times(figure.Within(kept.Value, kept.Low, kept.High, "loss of "+m.ID+" in flattening and trimming"))
	return kg.Over(density).Scale(1000), kg, fmt.Sprintf("mixed less left over, of which %.0f to %.0f %% stay in the piece", kept.Low*100, kept.High*100), true
}

// net returns the mass in kg of what was mixed less what was left over.
func (e *estimator) net(r piece.Resin, m Material) (figure.Uncertain, bool) {
	mixed, ok := e.amount(r.Mixed, m, "mixing of "+m.ID)
	if !ok {
		return figure.Uncertain{}, false
	}
	if left, ok := e.amount(r.LeftOver, m, "what was left of "+m.ID); ok {
		if left.Value >= mixed.Value {
			e.find(r.At, piece.Doubt, "weight.resin-left-over", "check mixed and left_over", "as much resin was left over as was mixed")
			return figure.Uncertain{}, false
		}
		mixed = mixed.Minus(left)
	}
	return mixed, true
}

// amount returns the mass in kg of an amount of liquid resin.
func (e *estimator) amount(a piece.Amount, m Material, cause string) (figure.Uncertain, bool) {
	p := e.rule("resin_mixed")
	switch {
	case a.Mass.Set() && a.Mass.V > 0:
		return e.weighed(float64(a.Mass.V), cause), true
	case a.Volume.Set() && a.Volume.V > 0:
		liquid := figure.Within(m.LiquidDensity, m.LiquidLow, m.LiquidHigh, "density of "+m.ID)
		return kilograms(judged(float64(a.Volume.V), p, cause), liquid), true
	}
	return figure.Uncertain{}, false
}

// checkMixed holds what the geometry asks for against what was mixed.
func (e *estimator) checkMixed(i int, r piece.Resin, m Material, v figure.Uncertain, s slab) {
	if r.Volume.Set() && r.Area.Set() {
		byArea := s.volume.Scale(float64(r.Area.V) / 100)
		if byArea.Value > 0 && math.Abs(v.Value/byArea.Value-1) > 2*(e.rule("resin_area").High-1) {
			e.find(r.At, piece.Doubt, "weight.resin-contradicts", "keep the one that was measured", "the resin's volume is %s, and its share of the face comes to %s", e.inLitres(v.Value), e.inLitres(byArea.Value))
		}
	}
	geometry := r.Volume.Set() || r.Area.Set() || e.in.ResinShare != nil && i == 0
	net, ok := e.net(r, m)
	if !geometry || !ok {
		return
	}
	net = net.Over(m.densityUncertain()).Scale(1000)
	low, _ := v.Minus(net).Range()
	_, high := v.Range()
	switch {
	case low > 0:
		e.find(r.At, piece.Doubt, "weight.resin-more-than-mixed", "check area, thickness and what was mixed", "the resin in the top comes to %s, more than the %s that were mixed", e.inLitres(v.Value), e.inLitres(net.Value))
	case v.Value > net.Value:
		e.find(r.At, piece.Note, "weight.resin-more-than-mixed", "check area, thickness and what was mixed", "the resin in the top comes to %s, as good as more than the %s that were mixed: nothing would have been lost in trimming", e.inLitres(v.Value), e.inLitres(net.Value))
	case high < net.Value*e.rule("resin_kept").Low:
		e.find(r.At, piece.Doubt, "weight.resin-much-less-than-mixed", "check area, thickness, what was mixed and what was left over", "the resin in the top comes to %s, much less than the %s that were mixed", e.inLitres(v.Value), e.inLitres(net.Value))
	}
}

// checkPours holds the depth of a layer against what the resin stands.
func (e *estimator) checkPours(r piece.Resin, m Material, thickness float64) {
	if m.PourDepth <= 0 || thickness <= 0 {
		return
	}
	pours := math.Max(1, float64(r.Pours.V))
	depth := thickness / pours
	if depth <= m.PourDepth*1.005 {
		return
	}
	fine := func(mm float64) string { return units.Length(mm).Fine(e.in.First) }
	how := fmt.Sprintf("%.0f pours of about %s", pours, fine(depth))
	if pours == 1 {
		how = "one pour of " + fine(depth)
	}
	if !r.Pours.Set() {
		how = fine(depth) + " of resin, and in how many pours is not said"
	}
	e.find(r.At, piece.Note, "resin.pour-depth", "the product's sheet decides: give it in workshop.yaml: resins, pour_depth", "%s: more than the %s a layer that %s usually takes; a deeper one can overheat", how, fine(m.PourDepth), shortName(m.Name))
}

// shortName is a name of the table of materials as it reads in a sentence: of "Cured clear
// casting (deep-pour) epoxy, unfilled" clear casting epoxy. Before it is poured nothing
// is cured.
func shortName(name string) string {
	name, _, _ = strings.Cut(name, ",")
	for {
		open, end := strings.IndexByte(name, '('), strings.IndexByte(name, ')')
		if open < 0 || end < open {
			break
		}
		name = name[:open] + name[end+1:]
	}
	if rest, ok := strings.CutPrefix(name, "Cured "); ok {
		name = rest
	}
	return spelling.OneLine(name)
}

func (e *estimator) resinRule() string {
	for _, p := range e.out.Parts {
		if p.Role == RoleResin {
			return p.Rule
		}
	}
	return ""
}
