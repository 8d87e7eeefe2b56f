package weight

import (
	"fmt"
	"math"
	"strings"

	"slabfolio/listing/figure"
	"slabfolio/listing/geometry"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// base weighs what the top stands on: by the scale, by its sections, or by its
// volume.
func (e *estimator) base() {
	b := e.p.Base
	if b == nil {
		return
	}
	before := len(e.out.Parts)
	switch {
	case b.Weight.Set() && b.Weight.V > 0:
		e.add(Part{Role: RoleBase, Name: "base", Source: "piece.yaml", Rule: "weighed"}, e.weighed(float64(b.Weight.V), "the base"), 0, 0)
	case len(b.Sections) > 0:
		for i, s := range b.Sections {
			name := b.Material.V
			if s.Material.Set() {
				name = s.Material.V
			}
			e.section(s, name, Part{Role: RoleBase, Index: i, Name: "base"})
		}
	case b.Volume.Set() && b.Volume.V > 0:
		x, err := e.material(b.Material.V)
		if err != nil {
			e.noMaterial(b.Material, b.At, "the base", err)
			break
		}
		v := judged(float64(b.Volume.V), e.rule("volume"), "volume of the base")
		e.add(Part{Role: RoleBase, Name: "base", Material: x.ID, Source: x.Source, Rule: "volume as given, times the density of " + x.ID}, kilograms(v, x.KgM3), v.Value, x.KgM3.Value)
	default:
		e.notKnown("the base", "neither its weight nor its sections nor its volume are given")
		e.out.Absent["base weight"] = e.out.Absent["weight of the base"]
		return
	}
	sum := figure.Sure(0)
	for _, p := range e.out.Parts[before:] {
		sum = sum.Plus(p.Uncertain)
	}
	if len(e.out.Parts) > before && e.out.Absent["weight of the base"] == "" {
		f := sum.Figure("kg", "sum of the base's parts", "weight_parts", "base")
		e.out.Base = &f
	} else {
		e.out.Absent["base weight"] = e.out.Absent["weight of the base"]
	}
}

// section adds a metal section or plate and returns its volume in litres. Lines of one
// stock share the doubt of its rolling, and lines of one length that of the stop they
// were cut to: whether the legs are one line or four is the same piece.
func (e *estimator) section(s piece.Section, material string, p Part) figure.Uncertain {
	who := "the base"
	if p.Role == RoleChannel {
		who = "the top"
	}
	x, err := e.material(material)
	if err != nil {
		e.noMaterial(piece.Value[string]{V: material, At: s.At}, s.At, who, err)
		return figure.Sure(0)
	}
	stock := x.ID + " " + s.Form + " " + e.sizes(s)
	one, what, err := sectionVolume(s, stock)
	if err != nil {
		e.find(s.At, piece.Doubt, "weight.section", "write the sizes as they are on the dealer's list", "%s", e.sayError(err))
		e.notKnown(who, e.sayError(err))
		return figure.Sure(0)
	}
	e.checkStock(s)
	p.Count = count(s.Count)
	roll := e.rule("section")
	v := litres(one).Scale(float64(p.Count)).Times(figure.Within(1, roll.Low, roll.High, "rolling of "+stock))
	if p.Role == RoleBase {
		p.Name = "base, " + what
	}
	p.Material, p.Source = x.ID, x.Source
	p.Rule = fmt.Sprintf("%d x %s, sharp corners, times the density of %s", p.Count, what, x.ID)
	e.add(p, kilograms(v, x.KgM3), v.Value, x.KgM3.Value)
	return v
}

// checkStock asks a section back that is larger than the steel of furniture: bare
// numbers take the file's units, and steel is sold in millimetres.
func (e *estimator) checkStock(s piece.Section) {
	if s.Form == "plate" || s.Form == "bar" {
		return // a plate may be as large as the base, a bar is solid stock
	}
	most, wall := 0.0, float64(s.Sizes[len(s.Sizes)-1])
	for _, l := range s.Sizes {
		most = math.Max(most, float64(l))
	}
	if most <= e.rule("section_side").Value && wall <= e.rule("section_wall").Value {
		return
	}
	e.find(s.At, piece.Doubt, "weight.section-large", "write the unit behind the sizes, as in `section: 60 x 30 x 2 mm`; a bare number takes the file's units",
		"a %s of %s is more than the base of a piece of furniture is made of, and the weight counts it so", s.Form, e.sizes(s))
}

// sizes returns the sizes of a section as the maker reads them.
func (e *estimator) sizes(s piece.Section) string {
	var sizes []string
	for _, l := range s.Sizes {
		sizes = append(sizes, units.Length(l).Plain(e.in.First))
	}
	return strings.Join(sizes, " x ")
}

// noMaterial says that a material is not known, or not said.
func (e *estimator) noMaterial(name piece.Value[string], at piece.Place, who string, err error) {
	if name.V == "" {
		e.notKnown(who, "its material is not given")
		return
	}
	if name.Set() {
		at = name.At
	}
	e.find(at, piece.Doubt, "weight.material-unknown", "write a material or wood of the tables, or give a weight", "%s", err)
	e.notKnown(who, err.Error())
}

// parts weighs drawers, aprons, shelves and hardware.
func (e *estimator) parts() {
	for i, p := range e.p.Parts {
		name := p.Name.V
		if name == "" {
			name = fmt.Sprintf("part %d", i+1)
		}
		out := Part{Role: RolePart, Index: i, Name: name, Count: count(p.Count)}
		n := float64(out.Count)
		if p.Weight.Set() && p.Weight.V > 0 {
			out.Source, out.Rule = "piece.yaml", fmt.Sprintf("%d x the weight given", out.Count)
			of := name
			if !p.Name.Set() {
				of = "parts of " + e.kilos(float64(p.Weight.V))
			}
			e.add(out, e.weighed(float64(p.Weight.V), of).Scale(n), 0, 0)
			continue
		}
		if len(p.Size) != 3 {
			e.notKnown(name, "neither its weight nor its size is given")
			e.find(p.At, piece.Note, "weight.part-not-known", "give its weight, or its size and material", "the weight of %s is not known, and so that of the piece is not either", name)
			continue
		}
		x, err := e.material(p.Material.V)
		if err != nil {
			e.noMaterial(p.Material, p.At, name, err)
			continue
		}
		v, rule, err := partVolume(p)
		if err != nil {
			e.find(p.At, piece.Doubt, "weight.part-size", "check size and walls", "%s: %s", name, e.sayError(err))
			e.notKnown(name, e.sayError(err))
			continue
		}
		v = litres(v).Scale(n)
		out.Material, out.Source = x.ID, x.Source
		out.Rule = fmt.Sprintf("%d x %s, times the density of %s", out.Count, rule, x.ID)
		e.add(out, kilograms(v, x.KgM3), v.Value, x.KgM3.Value)
	}
}

// partVolume returns the volume in mm³ of one part: a block, or a box with
// walls that is open at the top. Parts of one size were cut at one setting of the
// saw: they share its doubt, in one line of the spec or in many.
func partVolume(p piece.Part) (figure.Uncertain, string, error) {
	v := make([]float64, 0, 4)
	half := make([]float64, 0, 4)
	for _, s := range p.Size {
		if !(s.V > 0) || s.V > maxRun {
			return figure.Uncertain{}, "", &sizesError{"a size of %s is none", []float64{float64(s.V)}}
		}
		v, half = append(v, float64(s.V)), append(half, geometry.TapeUncertainty(float64(s.V)))
	}
	// The least of the three sides is a thickness, taken with a rule.
	least := 0
	for i := range v {
		if v[i] < v[least] {
			least = i
		}
	}
	half[least] = geometry.GaugeUncertainty(v[least])
	of := " of the parts of " + times(v) + " mm"
	names := []string{"length" + of, "width" + of, "height" + of, fmt.Sprintf("walls of %.4g mm%s", float64(p.Walls.V), of)}
	if !p.Walls.Set() {
		d := vary(func(v []float64) float64 { return v[0] * v[1] * v[2] }, v, half, names[:3])
		return d, "length x width x height", nil
	}
	wall := float64(p.Walls.V)
	if !(wall > 0) {
		return figure.Uncertain{}, "", &sizesError{"walls of %s are none", []float64{wall}}
	}
	if _, err := boxVolume(v[0], v[1], v[2], wall); err != nil {
		return figure.Uncertain{}, "", err
	}
	f := func(v []float64) float64 {
		b, err := boxVolume(v[0], v[1], v[2], v[3])
		if err != nil { // at the edge of the doubt: as good as solid
			return v[0] * v[1] * v[2]
		}
		return b
	}
	v, half = append(v, wall), append(half, geometry.GaugeUncertainty(wall))
	return vary(f, v, half, names), "box open at the top, bottom as thick as the walls", nil
}

// count returns how many there are; 1 where it is not said.
func count(v piece.Value[int]) int {
	if v.Set() && v.V > 0 {
		return v.V
	}
	return 1
}

// finishOfTop puts the finish into the weight of the top, which it lies on.
func (e *estimator) finishOfTop() {
	n := len(e.out.Parts)
	if e.out.Top == nil || n == 0 || e.out.Parts[n-1].Role != RoleFinish {
		return
	}
	sum := figure.Sure(0)
	for _, p := range e.out.Parts {
		if p.Role != RoleBase && p.Role != RolePart {
			sum = sum.Plus(p.Uncertain)
		}
	}
	f := sum.Figure("kg", "sum of the top's parts and its finish", "weight_parts", "top")
	e.out.Top = &f
}

// finish weighs the film on the top. A top that was weighed has it on.
func (e *estimator) finish() {
	f := e.p.Finish
	o, th := e.in.Outline, float64(e.p.Top.Thickness.V)
	if f == nil || o == nil || !(th > 0) || e.p.Top.Weighed.Set() {
		return
	}
	film, ok := e.t.Materials.films[f.Family.V]
	if !ok || film.gm2 == 0 {
		return
	}
	area := o.AreaMM2().Scale(1e-6)
	where := "upper face"
	if film.faces == "all" {
		area = area.Scale(2).Plus(figure.Sure(o.PerimeterMM() * th * 1e-6))
		where = "both faces and the edge of the top"
	}
	c := e.rule("coats")
	coats, said := figure.Within(c.Value, c.Low, c.High, "coats of finish"), "coats not said"
	if f.Coats.Set() && f.Coats.V > 0 {
		coats, said = figure.Sure(float64(f.Coats.V)), fmt.Sprintf("%d coats", f.Coats.V)
	}
	kg := area.Times(coats).Times(figure.Within(film.gm2, film.low, film.high, "how much of the finish stays on it")).Scale(1e-3)
	e.add(Part{Role: RoleFinish, Name: "finish", Material: f.Family.V, Source: film.source, Rule: fmt.Sprintf("%.3g g/m2 a coat, %s, %s", film.gm2, said, where)}, kg, 0, 0)
}
