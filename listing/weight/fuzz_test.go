package weight

import (
	"math"
	"math/rand/v2"
	"testing"

	"slabfolio/listing/figure"
	"slabfolio/listing/geometry"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
	"slabfolio/listing/wood"
)

// wild returns a piece with sizes and amounts anywhere between absurdly small
// and absurdly large, with or without each group.
func wild(r *rand.Rand, tab Tables) *piece.Piece {
	size := func() piece.Value[units.Length] { return length(math.Pow(10, 4.3*r.Float64())) }
	maybe := func() bool { return r.IntN(2) == 0 }
	amount := func() float64 { return math.Pow(10, 6*r.Float64()-3) }
	p := &piece.Piece{}
	switch r.IntN(4) {
	case 0:
		p.Top.Outline = piece.Outline{Length: size(), Width: size()}
	case 1:
		p.Top.Outline.Diameter = size()
	case 2:
		p.Top.Outline.Length = size()
		for range 2 + r.IntN(12) {
			p.Top.Outline.Widths = append(p.Top.Outline.Widths, size())
		}
	default:
		for i := range 3 + r.IntN(9) {
			sin, cos := math.Sincos(float64(i) * 0.5)
			d := float64(size().V) / 2
			p.Top.Outline.Points = append(p.Top.Outline.Points, piece.Point{X: units.Length(d * cos), Y: units.Length(d * sin)})
		}
	}
	p.Top.Thickness = size()
	all := []string{"black-walnut", "white-oak", "wych-elm", "western-redcedar", "teak", "koa", "olive"}
	for range 1 + r.IntN(3) {
		w := piece.Wood{Species: piece.Of(all[r.IntN(len(all))])}
		if maybe() {
			w.Moisture = &piece.Moisture{Reading: piece.Of(units.Percent(120 * r.Float64()))}
		}
		if maybe() {
			w.Share = piece.Of(units.Percent(100 * r.Float64()))
		}
		if r.IntN(4) == 0 {
			w.Density = piece.Of(units.Density(50 + 1300*r.Float64()))
		}
		p.Top.Wood = append(p.Top.Wood, w)
	}
	for range r.IntN(3) {
		x := piece.Resin{}
		switch r.IntN(4) {
		case 0:
			x.Area = piece.Of(units.Percent(110 * r.Float64()))
		case 1:
			x.Volume = piece.Of(units.Volume(amount()))
		case 2:
			x.Mixed.Volume = piece.Of(units.Volume(amount()))
			x.LeftOver.Mass = piece.Of(units.Mass(amount()))
		default:
			x.Mixed.Mass, x.Area = piece.Of(units.Mass(amount())), piece.Of(units.Percent(30*r.Float64()))
		}
		if maybe() {
			x.Density = piece.Of(units.Density(900 + 600*r.Float64()))
		}
		p.Top.Resin = append(p.Top.Resin, x)
	}
	if maybe() {
		p.Top.Voids = piece.Of(units.Volume(amount()))
	}
	if maybe() {
		p.Top.Channels = []piece.Section{{Form: "channel", Sizes: []units.Length{size().V, size().V, size().V}, Length: size(), Count: piece.Of(r.IntN(9))}}
	}
	if r.IntN(3) == 0 {
		p.Base = &piece.Base{Material: piece.Of("steel"), Sections: []piece.Section{{Form: "box", Sizes: []units.Length{size().V, size().V, size().V}, Length: size(), Count: piece.Of(r.IntN(1000))}}}
	}
	if maybe() {
		p.Parts = []piece.Part{{Material: piece.Of("black-walnut"), Size: []piece.Value[units.Length]{size(), size(), size()}, Walls: size(), Count: piece.Of(r.IntN(50))}}
	}
	if maybe() {
		p.Finish = &piece.Finish{Family: piece.Of("shellac"), Coats: piece.Of(r.IntN(40))}
	}
	if maybe() {
		p.Weighed = piece.Of(units.Mass(amount()))
	}
	return p
}

func TestExtremePiecesStaySane(t *testing.T) {
	tab := tables(t)
	trees := tab.Woods.(*wood.Table)
	r := rand.New(rand.NewPCG(17, 19))
	weighed := 0
	for range 3000 {
		p := wild(r, tab)
		o, err := outlineOf(p)
		if err != nil {
			continue
		}
		e := Of(Input{Piece: p, Outline: o}, tab)
		sane := func(what string, f *figure.Figure) {
			if f == nil {
				return
			}
			if !(0 <= f.Low && f.Low <= f.Value && f.Value <= f.High && !math.IsInf(f.High, 0)) {
				t.Fatalf("%s: %+v of %+v", what, *f, p)
			}
		}
		for what, f := range map[string]*figure.Figure{"total": e.Total, "top": e.Top, "base": e.Base, "top volume": e.TopVolume, "wood volume": e.WoodVolume,
			"resin volume": e.ResinVolume, "resin share": e.ResinShare, "wood area": e.WoodArea, "resin area": e.ResinArea} {
			sane(what, f)
		}
		sum := 0.0
		for _, q := range e.Parts {
			sane(q.Name, &figure.Figure{Value: q.Kg, Low: q.Low, High: q.High})
			sum += q.Kg
			if q.Source == "" || q.Rule == "" || q.Name == "" {
				t.Fatalf("a part without name, rule or source: %+v", q)
			}
		}
		if e.Total != nil {
			weighed++
			near(t, "sum", e.Total.Value, sum, 1e-9*(1+sum))
		} else if e.Absent["weight"] == "" {
			t.Fatalf("no weight and no reason: %+v", e)
		}
		m := trees.Top(p, wood.TopSize{Length: o.LengthMM(), Width: o.WidthMM(), ResinShare: 0.2}, trees.ClimateOf(piece.Region{}))
		sane("movement", m.Across)
		sane("step", m.SeamStep)
	}
	if weighed < 300 {
		t.Errorf("only %d of the wild pieces have a weight", weighed)
	}
}

func FuzzEstimate(f *testing.F) {
	f.Add(1372.0, 406.0, 41.3, 8.0, 18.0, 5.6, 0.3, 1100.0)
	f.Add(math.Inf(1), math.NaN(), -1.0, 0.0, 1e308, 1e-308, math.NaN(), 0.0)
	tab := tables(f)
	f.Fuzz(func(t *testing.T, l, b, th, mc, area, mixed, voids, density float64) {
		o, err := geometry.Rectangle(1000, 400)
		if err != nil {
			t.Fatal(err)
		}
		if q, err := geometry.Rectangle(l, b); err == nil {
			o = q
		}
		p := board()
		p.Top.Thickness = length(th)
		p.Top.Wood[0].Moisture.Reading = piece.Of(units.Percent(mc))
		p.Top.Wood = append(p.Top.Wood, piece.Wood{Species: piece.Of("x"), Density: piece.Of(units.Density(density)), Share: piece.Of(units.Percent(area))})
		p.Top.Resin = []piece.Resin{{Area: piece.Of(units.Percent(area)), Mixed: piece.Amount{Volume: piece.Of(units.Volume(mixed))}, Density: piece.Of(units.Density(density))}}
		p.Top.Voids = piece.Of(units.Volume(voids))
		p.Base = &piece.Base{Weight: piece.Of(units.Mass(density)), Material: piece.Of("steel")}
		p.Parts = []piece.Part{{Material: piece.Of("oak"), Size: []piece.Value[units.Length]{length(l), length(b), length(th)}, Walls: length(voids)}}
		e := Of(Input{Piece: p, Outline: o}, tab)
		for _, q := range e.Parts {
			if !(0 <= q.Low && q.Low <= q.Kg && q.Kg <= q.High) || math.IsInf(q.High, 0) {
				t.Errorf("%+v", q)
			}
		}
	})
}
