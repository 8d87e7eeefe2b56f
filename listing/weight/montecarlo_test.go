package weight

import (
	"math"
	"math/rand/v2"
	"testing"

	"slabfolio/listing/figure"
	"slabfolio/listing/geometry"
	"slabfolio/listing/piece"
	"slabfolio/listing/table"
	"slabfolio/listing/units"
	"slabfolio/listing/wood"
)

// The stated range has to hold 90 % of what could be. A world is drawn in
// which everything that is in doubt has its own true value, and the piece of
// that world is weighed with no doubt at all: the same spec with the true
// sizes, densities and amounts, read through the estimate's value alone. So
// the linear model of the range is checked against the sum itself, products
// and differences included.

// A world draws true values.
type world struct{ *rand.Rand }

// normal draws a value whose 90 % range is v plus or minus half.
func (w world) normal(v, half float64) float64 { return v + half/figure.Z90*w.NormFloat64() }

// between draws a value with a 90 % range from low to high about v, which may
// be lopsided: two halves of normals joined at v.
func (w world) between(v, low, high float64) float64 {
	z := w.NormFloat64()
	if z < 0 {
		return v + z/figure.Z90*(v-low)
	}
	return v + z/figure.Z90*(high-v)
}

func (w world) tape(v float64) float64  { return w.normal(v, geometry.TapeUncertainty(v)) }
func (w world) gauge(v float64) float64 { return w.normal(v, geometry.GaugeUncertainty(v)) }

// tables returns the tables of the world: every material with its true
// density, every rule as it truly went.
func (w world) tables(t Tables) Tables {
	m := *t.Materials
	m.all = append([]Material(nil), m.all...)
	for i := range m.all {
		x := &m.all[i]
		k := w.between(x.Density, x.Low, x.High) / x.Density
		x.Density, x.LiquidDensity = x.Density*k, x.LiquidDensity*k
	}
	m.rules = map[string]table.Rule{}
	for k, p := range t.Materials.rules {
		m.rules[k] = p
	}
	kept := m.rules["resin_kept"]
	kept.Value = w.between(kept.Value, kept.Low, kept.High)
	m.rules["resin_kept"] = kept
	coats := m.rules["coats"]
	coats.Value = math.Max(0, w.between(coats.Value, coats.Low, coats.High))
	m.rules["coats"] = coats
	m.films = map[string]film{}
	for k, f := range t.Materials.films {
		m.films[k] = f
	}
	return Tables{t.Woods, &m}
}

// film draws how much of the finish truly stayed.
func (w world) film(t Tables, family string) {
	f := t.Materials.films[family]
	f.gm2 = math.Max(0, w.between(f.gm2, f.low, f.high))
	t.Materials.films[family] = f
}

// piece returns the piece of the world.
func (w world) piece(t *testing.T, p *piece.Piece, tab Tables) *piece.Piece {
	q := *p
	q.Top.Outline.Length = redraw(p.Top.Outline.Length, w.tape)
	q.Top.Outline.Width = redraw(p.Top.Outline.Width, w.tape)
	q.Top.Outline.Diameter = redraw(p.Top.Outline.Diameter, w.tape)
	q.Top.Outline.Widths = nil
	for _, v := range p.Top.Outline.Widths {
		q.Top.Outline.Widths = append(q.Top.Outline.Widths, redraw(v, w.tape))
	}
	q.Top.Thickness = redraw(p.Top.Thickness, w.gauge)
	voids := tab.Materials.rules["voids"]
	q.Top.Voids = redraw(p.Top.Voids, func(v float64) float64 { return w.between(v, v*voids.Low, v*voids.High) })
	q.Top.Wood = nil
	trees := tab.Woods.(*wood.Table)
	for _, x := range p.Top.Wood {
		s, err := trees.Resolve(x)
		if err != nil {
			t.Fatal(err)
		}
		m := trees.MoistureOf(x.Moisture, s.ID)
		x.SpecificGravity = piece.Of(s.BasicSG * (1 + s.DensityCov/100*w.NormFloat64()))
		x.Moisture = &piece.Moisture{Reading: piece.Of(units.Percent(math.Max(0, w.between(m.Percent, m.Low, m.High)))), Meter: piece.Of("oven")}
		q.Top.Wood = append(q.Top.Wood, x)
	}
	area, vol := tab.Materials.rules["resin_area"], tab.Materials.rules["resin_volume"]
	mixed := tab.Materials.rules["resin_mixed"]
	q.Top.Resin = nil
	for _, r := range p.Top.Resin {
		r.Area = redraw(r.Area, func(v float64) float64 { return w.between(v, v*area.Low, v*area.High) })
		r.Volume = redraw(r.Volume, func(v float64) float64 { return w.between(v, v*vol.Low, v*vol.High) })
		r.Mixed.Volume = redraw(r.Mixed.Volume, func(v float64) float64 { return w.between(v, v*mixed.Low, v*mixed.High) })
		q.Top.Resin = append(q.Top.Resin, r)
	}
	roll := tab.Materials.rules["section"]
	if p.Base != nil {
		b := *p.Base
		e := estimator{t: tab}
		b.Weight = redraw(b.Weight, func(v float64) float64 { return w.normal(v, edge(e.weighed(v, "x"))) })
		b.Sections = nil
		for _, s := range p.Base.Sections {
			k := w.between(1, roll.Low, roll.High) // rolling, carried by the length
			s.Length = redraw(s.Length, func(v float64) float64 { return k * w.tape(v) })
			b.Sections = append(b.Sections, s)
		}
		q.Base = &b
	}
	q.Parts = nil
	for _, r := range p.Parts {
		e := estimator{t: tab}
		r.Weight = redraw(r.Weight, func(v float64) float64 { return w.normal(v, edge(e.weighed(v, "x"))) })
		least := 0
		for i := range r.Size {
			if r.Size[i].V < r.Size[least].V {
				least = i
			}
		}
		size := append([]piece.Value[units.Length](nil), r.Size...)
		for i := range size {
			draw := w.tape
			if i == least {
				draw = w.gauge
			}
			size[i] = redraw(size[i], draw)
		}
		r.Size = size
		r.Walls = redraw(r.Walls, w.gauge)
		q.Parts = append(q.Parts, r)
	}
	return &q
}

func edge(d figure.Uncertain) float64 {
	_, high := d.Range()
	return high - d.Value
}

// redraw draws a value that was given.
func redraw[T ~float64](v piece.Value[T], draw func(float64) float64) piece.Value[T] {
	if v.Set() {
		v.V = T(math.Max(1e-9, draw(float64(v.V))))
	}
	return v
}

func TestTheStatedRangeHoldsNineInTen(t *testing.T) {
	box := func(v ...float64) []units.Length {
		out := make([]units.Length, len(v))
		for i := range v {
			out[i] = units.Length(v[i])
		}
		return out
	}
	river := board()
	river.Top.Resin = []piece.Resin{{Area: piece.Of[units.Percent](18)}}
	river.Base = &piece.Base{Material: piece.Of("steel"), Sections: []piece.Section{
		{Form: "box", Sizes: box(80, 40, 3), Length: length(3200), Count: piece.Of(2)}, {Form: "box", Sizes: box(40, 40, 2), Length: length(900), Count: piece.Of(2)}}}

	mixed := &piece.Piece{}
	mixed.Top.Outline = piece.Outline{Length: length(1810)}
	for _, w := range []float64{412, 455, 470, 466, 480, 505, 498, 470, 441} {
		mixed.Top.Outline.Widths = append(mixed.Top.Outline.Widths, length(w))
	}
	mixed.Top.Thickness = length(52)
	mixed.Top.Wood = []piece.Wood{{Species: piece.Of("european-oak"), Share: piece.Of[units.Percent](60)}, {Species: piece.Of("wych-elm"), Share: piece.Of[units.Percent](40)}}
	mixed.Top.Resin = []piece.Resin{{Mixed: piece.Amount{Volume: piece.Of[units.Volume](7.5)}}}
	mixed.Base = &piece.Base{Weight: piece.Of[units.Mass](12.4)}

	chopping := &piece.Piece{}
	chopping.Top.Outline = piece.Outline{Length: length(420), Width: length(240)}
	chopping.Top.Thickness = length(19)
	chopping.Top.Wood = []piece.Wood{{Species: piece.Of("hard-maple")}}
	chopping.Finish = &piece.Finish{Family: piece.Of("board-oil")}

	drawer := board()
	drawer.Top.Voids = piece.Of[units.Volume](1.2)
	drawer.Parts = []piece.Part{
		{Name: piece.Of("drawer"), Material: piece.Of("black-walnut"), Size: []piece.Value[units.Length]{length(508), length(304.8), length(88.9)}, Walls: length(12.7)},
		{Name: piece.Of("apron"), Material: piece.Of("black-walnut"), Count: piece.Of(2), Size: []piece.Value[units.Length]{length(1200), length(90), length(22)}},
		{Name: piece.Of("slides"), Weight: piece.Of[units.Mass](1.1)},
	}

	round := &piece.Piece{}
	round.Top.Outline = piece.Outline{Diameter: length(900)}
	round.Top.Thickness = length(45)
	round.Top.Wood = []piece.Wood{{Species: piece.Of("black-walnut"), Moisture: &piece.Moisture{Reading: piece.Of[units.Percent](9), Meter: piece.Of("pinless")}}}
	round.Top.Resin = []piece.Resin{{Volume: piece.Of[units.Volume](11)}}
	round.Base = &piece.Base{Material: piece.Of("bronze"), Sections: []piece.Section{{Form: "tube", Sizes: box(60, 4), Length: length(700), Count: piece.Of(3)}}}

	tab := tables(t)
	const draws = 4000
	for _, c := range []struct {
		name string
		p    *piece.Piece
	}{{"plain board", board()}, {"river on steel", river}, {"two woods, resin as mixed", mixed}, {"serving board", chopping}, {"with a drawer", drawer}, {"round, bronze tube", round}} {
		name, p := c.name, c.p
		e := estimateWith(t, p, tab)
		if e.Total == nil {
			t.Fatalf("%s: %v", name, e.Absent)
		}
		w := world{rand.New(rand.NewPCG(7, 11))}
		inside := 0
		for range draws {
			truth := w.tables(tab)
			if p.Finish != nil {
				w.film(truth, p.Finish.Family.V)
			}
			f := estimateTrue(t, w.piece(t, p, tab), truth)
			if f >= e.Total.Low && f <= e.Total.High {
				inside++
			}
		}
		share := float64(inside) / draws
		t.Logf("%s: %.2f kg, %.2f to %.2f, holds %.1f %%", name, e.Total.Value, e.Total.Low, e.Total.High, 100*share)
		if share < 0.88 || share > 0.92 {
			t.Errorf("%s: the range holds %.1f %% of the draws, not 88 to 92", name, 100*share)
		}
	}
}

// estimateTrue returns the value of the estimate alone.
func estimateTrue(t *testing.T, p *piece.Piece, tab Tables) float64 {
	t.Helper()
	o, err := outlineOf(p)
	if err != nil {
		t.Fatal(err)
	}
	e := Of(Input{Piece: p, Outline: o}, tab)
	if e.Total == nil {
		t.Fatalf("%v", e.Absent)
	}
	return e.Total.Value
}
