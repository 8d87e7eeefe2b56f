package assembly

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tol {
		t.Errorf("%s = %.4f, want %.4f, within %g", what, got, want, tol)
	}
}

func tables(t *testing.T) Tables {
	t.Helper()
	tab, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	return tab
}

func rect(l, w float64) []Point { return []Point{{0, 0}, {l, 0}, {l, w}, {0, w}} }

func circle(d float64) []Point {
	var p []Point
	for i := range 180 {
		a := 2 * math.Pi * float64(i) / 180
		p = append(p, Point{d/2 + d/2*math.Cos(a), d/2 + d/2*math.Sin(a)})
	}
	return p
}

// The console table of the contract's example: 54 x 16 in, 1 5/8 in thick, on a
// base 28 3/8 in high with a footprint of 44 x 13 in, drawer 3 3/4 in below.
func console() Input {
	return Input{Kind: "console table", SatAt: true, Outline: rect(54*25.4, 16*25.4), Thickness: 1.625 * 25.4, HasBase: true,
		BaseHeight: 28.375 * 25.4, FootLength: 44 * 25.4, FootWidth: 13 * 25.4, TopKg: 17, BaseKg: 10.8,
		Parts: []Part{{Name: "drawer", Length: 508, Width: 304.8, Height: 88.9, Wall: 12.7, BelowTop: 95.25, Kg: 2, Count: 1}}}
}

func TestMeasureAddsUp(t *testing.T) {
	s := Measure(console())
	near(t, "height", s.Height, 30*25.4, 1e-9)
	near(t, "length", s.Length, 54*25.4, 1e-9)
	near(t, "end overhang", s.OverhangEnd, 5*25.4, 1e-9)
	near(t, "side overhang", s.OverhangSide, 1.5*25.4, 1e-9)
	near(t, "knee room under the drawer", s.Knee, (28.375-3.75)*25.4, 1e-9)
	if s.KneeUnder != "drawer" {
		t.Errorf("knees meet %q first", s.KneeUnder)
	}
}

func TestMeasureSaysWhatIsNotKnown(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Input)
		key    string
	}{
		{"no base height", func(in *Input) { in.BaseHeight = 0 }, "height"},
		{"a table without a base", func(in *Input) { in.HasBase = false }, "height"},
		{"a drawer of unknown reach", func(in *Input) { in.Parts[0].BelowTop = 0 }, "knee_clearance"},
		{"a drawer through the floor", func(in *Input) { in.Parts[0].BelowTop = 900 }, "knee_clearance"},
	} {
		in := console()
		c.change(&in)
		s := Measure(in)
		if s.Why[c.key] == "" {
			t.Errorf("%s: no reason for %s; got %+v", c.name, c.key, s)
		}
	}
	board := Measure(Input{Kind: "serving board", Outline: rect(400, 200), Thickness: 20})
	near(t, "height of a board", board.Height, 20, 0)
	wide := console()
	wide.FootLength, wide.FootWidth = 1500, 500
	s := Measure(wide)
	near(t, "length where the base is larger", s.Length, 1500, 0)
	near(t, "width where the base is larger", s.Width, 500, 0)
}

// Makers name their parts in their own language (words from memory).
func TestDrawersInFiveLanguages(t *testing.T) {
	for name, want := range map[string]bool{
		"drawer": true, "Two drawers": true, "Schublade": true, "Schubkästen": true, "tiroir": true, "Tiroirs jumeaux": true, "cajón": true, "cajones": true, "lade": true, "twee laden": true, "Schuiflade": true,
		"drawer slides": false, "drawer pulls": false, "Schubladenauszüge": false, "Griff der Schublade": false, "coulisses de tiroir": false, "guías de cajón": false, "ladegeleiders": false, "greep lade": false,
		"blade": false, "Glade shelf": false, "étagère": false, "Ladefläche": false, "cajonera": false,
	} {
		if got := IsDrawer(name); got != want {
			t.Errorf("%q: a drawer: %t", name, got)
		}
	}
}

// Common practice, no source: a place is 24 in; 4 ft round seats 6; 6 ft by 3 ft
// seats 6; 3 ft round or square seats 4; an 8 ft table seats 8. Corners counted
// twice would seat 8 at 6 ft.
func TestSeats(t *testing.T) {
	const in = 25.4
	for _, c := range []struct {
		name    string
		kind    string
		outline []Point
		round   bool
		want    int
	}{
		{"72 x 36 in dining table", "dining table", rect(72*in, 36*in), false, 6},
		{"96 x 40 in dining table", "dining table", rect(96*in, 40*in), false, 8},
		{"36 x 36 in dining table", "dining table", rect(36*in, 36*in), false, 4},
		{"48 x 30 in dining table", "dining table", rect(48*in, 30*in), false, 4},
		{"72 x 24 in: nobody faces anybody", "dining table", rect(72*in, 24*in), false, 4},
		{"48 in round dining table", "dining table", circle(48 * in), true, 6},
		{"36 in round dining table", "dining table", circle(36 * in), true, 4},
		{"28 in round dining table", "dining table", circle(28 * in), true, 2},
		{"24 in round dining table", "dining table", circle(24 * in), true, 2},
		{"15 in round dining table", "dining table", circle(15 * in), true, 0},
		{"nobody is counted at a desk", "desk", rect(60*in, 30*in), false, 0},
		{"nor at a round side table", "side table", circle(24 * in), true, 0},
		{"54 in bench", "bench", rect(54*in, 14*in), false, 2},
		{"44 in bench", "bench", rect(44*in, 15*in), false, 2},
		{"60 in bench", "bench", rect(60*in, 15*in), false, 3},
		{"36 in bench", "bench", rect(36*in, 15*in), false, 1},
		{"a console table seats nobody", "console table", rect(54*in, 16*in), false, 0},
	} {
		if got := tables(t).Seats(Input{Kind: c.kind, Outline: c.outline, Round: c.round}); got != c.want {
			t.Errorf("%s: %d seats, want %d", c.name, got, c.want)
		}
	}
}

// Published charts of round dining tables, read at several dealers and planners:
// how many a diameter seats, from the roomy end to the close one. Neufert: the
// diameter is at least places x 0.60 m / 3.14.
func TestRoundTablesAgainstPublishedCharts(t *testing.T) {
	tab := tables(t)
	for in, want := range map[float64][2]int{24: {2, 2}, 30: {2, 3}, 36: {3, 4}, 42: {4, 5}, 48: {4, 6}, 54: {6, 7}, 60: {6, 8}, 66: {8, 10}, 72: {8, 10}} {
		n := tab.Seats(Input{Kind: "dining table", Outline: circle(in * 25.4), Round: true})
		if n < want[0] || n > want[1] {
			t.Errorf("%.0f in round: %d, the charts have %v", in, n, want)
		}
		if need := float64(n) * 600 / math.Pi; in*25.4 < need {
			t.Errorf("%.0f in round: %d places want %.0f mm", in, n, need)
		}
	}
}

// Nobody's knees go under a console or a coffee table, unless the maker says that
// somebody sits at it.
func TestKneeRoomWhereSomebodySits(t *testing.T) {
	for kind, want := range map[string]bool{"desk": true, "dining table": true, "console table": false, "coffee table": false, "side table": false, "other": false, "bench": false} {
		in := console()
		in.Kind, in.SatAt = kind, false
		if s := Measure(in); (s.Knee > 0) != want || s.Why["knee_clearance"] != "" {
			t.Errorf("%s: knee room %g, %v", kind, s.Knee, s.Why)
		}
		in.SatAt = kind != "bench"
		if s := Measure(in); in.SatAt && s.Knee == 0 {
			t.Errorf("%s that somebody sits at has no knee room", kind)
		}
	}
}

// By hand: 20 kg of top and 10 kg of base on feet of 900 x 300 mm, 1000 mm high:
// a level push F at the top edge tips it over its long side when F x 1000 = 30 x
// 9.80665 x 150, so F = 44.13 N. At 1800 mm the push stays at 56 in (1422 mm).
func TestPushAtTheUpperEdge(t *testing.T) {
	tab := tables(t)
	in := Input{Kind: "console table", Outline: rect(1000, 320), Thickness: 40, HasBase: true, BaseHeight: 960, FootLength: 900, FootWidth: 300, TopKg: 20, BaseKg: 10}
	s, _ := tab.Stability(in)
	near(t, "push", s.PushN, 30*9.80665*150/1000, 1e-9)
	in.BaseHeight = 1760
	s, _ = tab.Stability(in)
	near(t, "push at 56 in", s.PushN, 30*9.80665*150/1422, 1e-9)
	for _, c := range []struct {
		height, depth float64
		want          bool
	}{{685, 200, false}, {686, 343, true}, {686, 344, false}, {1800, 900, true}, {1800, 901, false}, {762, 330, true}, {762, 0, false}} {
		if got := tab.TallAndNarrow(c.height, c.depth); got != c.want {
			t.Errorf("%g high, %g deep: %v", c.height, c.depth, got)
		}
	}
}

// handling.md section 6: customary heights, both sides of each edge; 30 in is
// 762 mm, and is customary.
func TestCustomaryHeights(t *testing.T) {
	for _, c := range []struct {
		kind   string
		lo, hi float64
	}{{"dining table", 710, 762}, {"desk", 710, 762}, {"coffee table", 380, 460}, {"console table", 700, 800}, {"bench", 430, 460}} {
		for mm, want := range map[float64]int{c.lo - 1: 1, c.lo: 0, c.hi: 0, c.hi + 1: 1} {
			if got := tables(t).Check(c.kind, Size{Height: mm}, 0); len(got) != want {
				t.Errorf("%s at %g mm: %d findings, want %d", c.kind, mm, len(got), want)
			}
		}
	}
	if got := tables(t).Check("desk", Size{Height: 762, Knee: 609.6}, 0); len(got) != 0 {
		t.Errorf("a desk of 30 in with 24 in of knee room: %+v", got)
	}
	if got := tables(t).Check("desk", Size{Height: 740, Knee: 600}, 0); len(got) != 1 || got[0].Quantity != "knee" {
		t.Errorf("a desk with 600 mm knee room: %+v", got)
	}
}

// ADA 2010, 902.3: 28-34 in; 306.3: 27 in (handling.md section 6, read).
func TestAccessFiguresAreForInformation(t *testing.T) {
	got := tables(t).Accessible("desk", Size{Height: 740, Knee: 690}, 60)
	within := map[string]bool{}
	for _, a := range got {
		within[a.Range.ID] = a.Within
		if a.Range.Source == "" {
			t.Errorf("%s has no source", a.Range.ID)
		}
	}
	want := map[string]bool{"ada_902_surface_height": true, "ada_306_knee_height": true, "en_527_height": true, "en_527_edge": false}
	for id, w := range want {
		if g, ok := within[id]; !ok || g != w {
			t.Errorf("%s: within %v (there: %v), want %v", id, g, ok, w)
		}
	}
}

// handling.md section 5, worked example: 60 kg, b = 0.25 m, a = 0.30 m: 50 kg.
func TestTipLoadWorkedExample(t *testing.T) {
	feet := rect(500, 500) // the centre of mass is 250 mm inside
	load, normal, ok := tipLoad(feet, Point{250, 250}, 60, Point{800, 250})
	if !ok {
		t.Fatal("does not tip")
	}
	near(t, "tipping load", load, 50, 1e-9)
	near(t, "normal of the tipping line, x", normal.X, 1, 1e-12)
	if _, _, ok := tipLoad(feet, Point{250, 250}, 60, Point{400, 400}); ok {
		t.Error("a load inside the feet tips it")
	}
	if load, _, _ := tipLoad(feet, Point{600, 250}, 60, Point{400, 400}); load != 0 {
		t.Errorf("a body that falls by itself carries %g kg", load)
	}
}

// By hand: 17 + 10.8 + 2 kg, all centred. End: b = 22 in, a = 5 in. Side: b =
// 6.5 in, a = 1.5 in. F = 29.8*22/5 = 131.12 and 29.8*6.5/1.5 = 129.13.
func TestStabilityOfTheConsole(t *testing.T) {
	s, why := tables(t).Stability(console())
	if why != "" {
		t.Fatal(why)
	}
	near(t, "end", s.Cases["end"], 29.8*22/5, 1e-6)
	near(t, "side", s.Cases["side"], 29.8*6.5/1.5, 1e-6)
	near(t, "worst", s.TipLoadKg, 29.8*6.5/1.5, 1e-6)
	if s.Edge != "side" {
		t.Errorf("worst at %q", s.Edge)
	}
	// Drawer open, empty: its 2 kg sit 152.4 mm in front of the base's face.
	b := 6.5*25.4*27.8/29.8 - 152.4*2/29.8
	near(t, "drawer open", s.Cases["drawer open, top pressed"], 29.8*b/(1.5*25.4), 1e-6)
	if !(s.Cases["drawer open and full, top pressed"] < s.Cases["drawer open, top pressed"]) {
		t.Errorf("a full drawer does not lower the load: %v", s.Cases)
	}
	near(t, "height of the centre", s.CentreHeight,
		(17*(720.725+20.6375)+10.8*720.725/2+2*(720.725-95.25+44.45))/29.8, 1e-6)
}

// Another way to the same load: a body and a load on it stand as long as their
// common centre of mass lies over the feet. Half the search interval at a time
// until it leaves them, for feet of any convex shape.
func TestTipLoadAgainstTheCommonCentre(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	tried := 0
	for range 2000 {
		var corners []Point
		for range 3 + r.IntN(6) {
			corners = append(corners, Point{1000 * r.Float64(), 600 * r.Float64()})
		}
		feet := hull(corners)
		com, area := centroid(feet)
		if area < 2e4 {
			continue
		}
		q := Point{-500 + 2000*r.Float64(), -500 + 1600*r.Float64()}
		kg := 1 + 99*r.Float64()
		stands := func(load float64) bool {
			c := Point{(com.X*kg + q.X*load) / (kg + load), (com.Y*kg + q.Y*load) / (kg + load)}
			for i := range feet {
				if cross(feet[i], feet[(i+1)%len(feet)], c) < 0 {
					return false
				}
			}
			return true
		}
		got, _, ok := tipLoad(feet, com, kg, q)
		if stands(1e9) {
			if ok && got < 1e7 {
				t.Fatalf("stands under any load at %v, but %g kg are said to tip it", q, got)
			}
			continue
		}
		lo, hi := 0.0, 1e9
		for range 200 {
			if mid := (lo + hi) / 2; stands(mid) {
				lo = mid
			} else {
				hi = mid
			}
		}
		if !ok || math.Abs(got-lo) > 1e-6*math.Max(1, lo) {
			t.Fatalf("feet %v, load at %v: %g kg (%v), by the common centre %g kg", feet, q, got, ok, lo)
		}
		tried++
	}
	if tried < 500 {
		t.Errorf("only %d cases", tried)
	}
}

func TestTopInsideItsFeetDoesNotTip(t *testing.T) {
	in := console()
	in.FootLength, in.FootWidth, in.Parts = 1400, 500, nil
	s, why := tables(t).Stability(in)
	if s == nil || s.Tips || why == "" {
		t.Errorf("got %+v, %q", s, why)
	}
}

// Scaling every length leaves the tipping load as it is; smaller feet lower it.
func TestTippingProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	tab := tables(t)
	for range 300 {
		in := Input{Kind: "desk", Outline: rect(500+2000*r.Float64(), 300+900*r.Float64()), Thickness: 40, HasBase: true,
			BaseHeight: 700, FootLength: 200 + 300*r.Float64(), FootWidth: 150 + 150*r.Float64(), TopKg: 1 + 60*r.Float64(), BaseKg: 1 + 20*r.Float64()}
		a, why := tab.Stability(in)
		if why != "" {
			t.Fatal(why)
		}
		big := in
		big.Outline = nil
		for _, p := range in.Outline {
			big.Outline = append(big.Outline, Point{3*p.X - 77, 3*p.Y + 5})
		}
		big.FootLength, big.FootWidth = 3*in.FootLength, 3*in.FootWidth
		b, _ := tab.Stability(big)
		near(t, "scaled", b.TipLoadKg, a.TipLoadKg, 1e-6*a.TipLoadKg)
		small := in
		small.FootLength, small.FootWidth = in.FootLength*.9, in.FootWidth*.9
		c, _ := tab.Stability(small)
		if c.TipLoadKg >= a.TipLoadKg {
			t.Errorf("smaller feet carry more: %g, %g", c.TipLoadKg, a.TipLoadKg)
		}
	}
}

// hull returns the convex hull of points, counter-clockwise (monotone chain).
func hull(pts []Point) []Point {
	p := slices.Clone(pts)
	slices.SortFunc(p, func(a, b Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	var h []Point
	half := func(least int) {
		for _, q := range p {
			for len(h) > least && cross(h[len(h)-2], h[len(h)-1], q) <= 0 {
				h = h[:len(h)-1]
			}
			h = append(h, q)
		}
		h = h[:len(h)-1] // the first of the other half
	}
	half(1)
	slices.Reverse(p)
	half(len(h) + 1)
	return h
}

// cross is twice the area of the triangle o, a, b; positive when it turns left.
func cross(o, a, b Point) float64 { return (a.X-o.X)*(b.Y-o.Y) - (a.Y-o.Y)*(b.X-o.X) }

// By hand: 20 kg of top 40 mm thick on a base of 10 kg and 700 mm has its
// centre at (20 x 720 + 10 x 350) / 30 = 596.7 mm. A part of 5 kg, 100 mm high,
// hangs against the top where the spec says no more: its middle is at 650 mm,
// and the whole at (17900 + 5 x 650) / 35 = 604.3 mm.
func TestCentreOfMassHeight(t *testing.T) {
	in := Input{Kind: "desk", Outline: rect(1400, 700), Thickness: 40, HasBase: true, BaseHeight: 700, FootLength: 1000, FootWidth: 600, TopKg: 20, BaseKg: 10}
	tab := tables(t)
	s, _ := tab.Stability(in)
	near(t, "top and base", s.CentreHeight, 17900.0/30, 1e-9)
	in.Parts = []Part{{Name: "apron", Height: 100, Kg: 5}}
	s, _ = tab.Stability(in)
	near(t, "with an apron", s.CentreHeight, 21150.0/35, 1e-9)
}

// A top whose outline does not begin at the origin measures and stands as one
// that does.
func TestOutlineFarFromItsOrigin(t *testing.T) {
	in := console()
	far := in
	far.Outline = nil
	for _, p := range in.Outline {
		far.Outline = append(far.Outline, Point{p.X + 700, p.Y - 300})
	}
	a, b := Measure(in), Measure(far)
	near(t, "length", b.TopLength, a.TopLength, 1e-9)
	near(t, "width", b.TopWidth, a.TopWidth, 1e-9)
	tab := tables(t)
	one, _ := tab.Stability(in)
	two, _ := tab.Stability(far)
	near(t, "tip load", two.TipLoadKg, one.TipLoadKg, 1e-9)
	near(t, "push", two.PushN, one.PushN, 1e-9)
	if one.Edge != two.Edge || len(one.Cases) != len(two.Cases) {
		t.Errorf("%+v, %+v", one, two)
	}
}

// The outer tenth both ways is a corner; else the tipping line names the edge.
func TestWhereTheWorstSpotIs(t *testing.T) {
	lo, hi := Point{100, 50}, Point{1100, 550}
	for _, c := range []struct {
		q, normal Point
		want      string
	}{
		{Point{150, 80}, Point{0, -1}, "corner"}, {Point{1050, 520}, Point{1, 0}, "corner"}, {Point{1050, 80}, Point{1, 0}, "corner"},
		{Point{600, 60}, Point{0, -1}, "side"}, {Point{600, 540}, Point{0.1, 0.9}, "side"}, {Point{110, 300}, Point{-1, 0}, "end"}, {Point{1090, 300}, Point{1, 0}, "end"},
		{Point{201, 60}, Point{0, -1}, "side"}, {Point{110, 101}, Point{-1, 0}, "end"},
	} {
		if got := nameOfSpot(c.q, c.normal, lo, hi); got != c.want {
			t.Errorf("%v: %s, want %s", c.q, got, c.want)
		}
	}
}

// From the inside straight out, an outline is left where its last edge is: an L
// that reaches 100..500 by 50..150, and 100..200 by 150..350.
func TestWhereARayLeavesTheOutline(t *testing.T) {
	l := []Point{{100, 50}, {500, 50}, {500, 150}, {200, 150}, {200, 350}, {100, 350}}
	for _, c := range []struct{ from, to, want Point }{
		{Point{150, 100}, Point{160, 100}, Point{500, 100}}, {Point{150, 100}, Point{140, 100}, Point{100, 100}}, {Point{150, 100}, Point{150, 300}, Point{150, 350}},
		{Point{300, 100}, Point{300, 60}, Point{300, 50}}, {Point{150, 100}, Point{170, 140}, Point{200, 200}},
	} {
		if got := toOutline(c.from, c.to, l); math.Hypot(got.X-c.want.X, got.Y-c.want.Y) > 1e-9 {
			t.Errorf("from %v by %v: %v, want %v", c.from, c.to, got, c.want)
		}
	}
}

// By hand: a drawer of 500 x 300 x 100 mm outside, walls of 10 mm, holds 480 x 280
// x 90 mm = 12.096 l, and is filled with 0.2 kg to the litre: 2.419 kg. 20 kg of
// top, 10 of base, 2 of drawer, all over the middle of feet 400 mm deep; the
// drawer out by its 300 mm stands 150 mm before the feet. About the front line:
// empty (30 x 200 - 2 x 150)/300 = 19 kg pressed on the drawer's own front tips it,
// full (30 x 200 - 4.419 x 150)/300 = 17.79 kg.
func TestOpenDrawer(t *testing.T) {
	in := Input{Kind: "desk", Outline: rect(1200, 400), Thickness: 30, HasBase: true, BaseHeight: 700, FootLength: 1000, FootWidth: 400, TopKg: 20, BaseKg: 10,
		Parts: []Part{{Name: "drawer", Length: 500, Width: 300, Height: 100, Wall: 10, BelowTop: 110, Kg: 2, Count: 1}}}
	s, why := tables(t).Stability(in)
	if s == nil {
		t.Fatal(why)
	}
	near(t, "empty", s.Cases["drawer open, drawer pressed"], (30*200-2*150)/300.0, 1e-9)
	near(t, "full", s.Cases["drawer open and full, drawer pressed"], (30*200-(2+0.48*0.28*0.09*1000*0.2)*150)/300, 1e-9)
	for what, change := range map[string]func(*Input){
		"no footprint": func(in *Input) { in.FootWidth = 0 }, "no base height": func(in *Input) { in.BaseHeight = 0 }, "no base weight": func(in *Input) { in.BaseKg = 0 }, "no base": func(in *Input) { in.HasBase = false },
	} {
		x := in
		change(&x)
		if s, why := tables(t).Stability(x); s != nil || why == "" {
			t.Errorf("%s: %+v, %q", what, s, why)
		}
	}
}

// By hand: three feet in a footprint of 360 x 360 mm, two at one side, one at the
// middle of the other, their middle under a round seat of 330 mm; 4.5 kg. The line
// from (180, -120) to (0, 240) passes the middle at |180 x 240| / hypot(180, 360) =
// 107.33 mm, so the rim reaches 165 - 107.33 = 57.67 mm beyond it, and 4.5 x 107.33 /
// 57.67 = 8.37 kg tips it. On four feet at the corners nothing on the seat does.
func TestThreeFeetTipSooner(t *testing.T) {
	in := Input{Kind: "stool", Outline: circle(330), Round: true, Thickness: 38, HasBase: true, BaseHeight: 420, FootLength: 360, FootWidth: 360, ThreeFeet: true, TopKg: 2.2, BaseKg: 2.3}
	s, why := tables(t).Stability(in)
	if s == nil || !s.Tips {
		t.Fatalf("%+v, %s", s, why)
	}
	near(t, "tipping load", s.TipLoadKg, 4.5*107.331/57.669, 0.05)
	near(t, "push", s.PushN, 4.5*9.80665*107.331/458, 0.01)
	in.ThreeFeet = false
	if s, _ := tables(t).Stability(in); s.Tips {
		t.Errorf("on four feet it tips at %g kg", s.TipLoadKg)
	}
}
