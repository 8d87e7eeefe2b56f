package geometry

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.10g, want %.10g within %g", what, got, want, tol)
	}
}

func must(t *testing.T) func(*Outline, error) *Outline {
	return func(o *Outline, err error) *Outline {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return o
	}
}

// Closed forms: any table of plane figures (area, centroid, second moments).
func TestRectangleMatchesItsClosedForm(t *testing.T) {
	o := must(t)(Rectangle(1371.6, 406.4))
	near(t, "area", o.Area().Value, 0.55741824, 1e-12)
	near(t, "perimeter", o.PerimeterMM(), 3556, 1e-9)
	near(t, "across", o.Across(100), 406.4, 1e-9)
	near(t, "across at the end", o.Across(0), 406.4, 1e-9)
	if o.Across(-1) != 0 || o.Across(1372) != 0 {
		t.Error("a line beside the top meets it")
	}
}

func TestCircleMatchesItsClosedForm(t *testing.T) {
	o := must(t)(Circle(900))
	near(t, "area", o.Area().Value, math.Pi*0.45*0.45, 1e-12)
	near(t, "perimeter", o.PerimeterMM(), math.Pi*900, 1e-9)
	if n := len(o.Polygon()); n != circleCorners {
		t.Errorf("%d corners", n)
	}
	near(t, "drawn area", SignedArea(o.Polygon()), math.Pi*450*450, math.Pi*450*450*3e-4)
	near(t, "across the middle", o.Across(450), 900, 1)
}

func TestTracedFiguresMatchTheirClosedForms(t *testing.T) {
	tri := must(t)(TracedWithin([][2]float64{{0, 0}, {300, 0}, {0, 120}}, 1))
	near(t, "triangle area", tri.Area().Value, 0.018, 1e-12)
	near(t, "triangle cx", Centroid(tri.Polygon())[0], 100, 1e-9)
	near(t, "triangle cy", Centroid(tri.Polygon())[1], 40, 1e-9)

	// An L of two rectangles, 400 x 100 and 100 x 200 above its left end.
	l := must(t)(TracedWithin([][2]float64{{0, 0}, {400, 0}, {400, 100}, {100, 100}, {100, 300}, {0, 300}}, 1))
	near(t, "L area", l.Area().Value, 0.06, 1e-12)
	near(t, "L cx", Centroid(l.Polygon())[0], (40000*200.0+20000*50)/60000, 1e-9)
	near(t, "L cy", Centroid(l.Polygon())[1], (40000*50.0+20000*200)/60000, 1e-9)
	near(t, "L across the stem", l.Across(50), 300, 1e-9)
	near(t, "L across the foot", l.Across(200), 100, 1e-9)
	// A U: across an arm, and across what joins the arms.
	u := must(t)(TracedWithin([][2]float64{{0, 0}, {300, 0}, {300, 200}, {200, 200}, {200, 50}, {100, 50}, {100, 200}, {0, 200}}, 1))
	near(t, "U across an arm", u.Across(50), 200, 1e-9)
	near(t, "U across between its arms", u.Across(150), 50, 1e-9)
}

func TestTracedOutlineIsPutInOrder(t *testing.T) {
	want := [][2]float64{{0, 0}, {100, 0}, {100, 50}, {0, 50}}
	for name, pts := range map[string][][2]float64{
		"clockwise":        {{0, 0}, {0, 50}, {100, 50}, {100, 0}},
		"closed by hand":   {{0, 0}, {100, 0}, {100, 50}, {0, 50}, {0, 0}},
		"repeated point":   {{0, 0}, {100, 0}, {100, 0}, {100, 50}, {0, 50}},
		"point on an edge": {{0, 0}, {40, 0}, {70, 0}, {100, 0}, {100, 50}, {50, 50}, {0, 50}},
		"elsewhere":        {{-70, 310}, {30, 310}, {30, 360}, {-70, 360}},
		"from the middle":  {{50, 0}, {100, 0}, {100, 50}, {0, 50}, {0, 0}},
	} {
		o := must(t)(TracedWithin(pts, 1))
		got := o.Polygon()
		if len(got) != len(want) {
			t.Errorf("%s: %v", name, got)
			continue
		}
		for i := range want {
			if math.Hypot(got[i][0]-want[i][0], got[i][1]-want[i][1]) > 1e-9 {
				t.Errorf("%s: corner %d is %v, want %v", name, i, got[i], want[i])
			}
		}
	}
}

func TestCrossingIsNamed(t *testing.T) {
	_, err := Traced([][2]float64{{0, 0}, {100, 100}, {100, 0}, {0, 100}}) // a bow tie
	var c *CrossingError
	if !errors.As(err, &c) {
		t.Fatalf("got %v", err)
	}
	if c.Edge != 1 || c.EdgeTo != 2 || c.Other != 3 || c.OthTo != 4 || c.X != 50 || c.Y != 50 {
		t.Errorf("got %+v", c)
	}
	for name, pts := range map[string][][2]float64{
		"touches at a point":     {{0, 0}, {100, 0}, {100, 100}, {50, 0}, {0, 100}},
		"runs back along itself": {{0, 0}, {100, 0}, {100, 100}, {100, 20}, {50, 80}},
		"spike":                  {{0, 0}, {100, 0}, {150, 0}, {100, 0.0000}, {100, 100}},
		"same point twice":       {{0, 0}, {100, 0}, {50, 50}, {100, 100}, {0, 100}, {50, 50}},
	} {
		if _, err := Traced(pts); !errors.As(err, &c) {
			t.Errorf("%s: got %v, want a CrossingError", name, err)
		}
	}
}

func TestNonsenseIsRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, err := range map[string]error{
		"nought":         second(Rectangle(0, 100)),
		"negative":       second(Rectangle(100, -1)),
		"nan":            second(Rectangle(nan, 100)),
		"infinite":       second(Circle(inf)),
		"a field":        second(Circle(4e6)),
		"one width":      second(FromWidths(100, []float64{5})),
		"nan width":      second(FromWidths(100, []float64{5, nan, 5})),
		"nought between": second(FromWidths(100, []float64{5, 0, 5})),
		"two points":     second(Traced([][2]float64{{0, 0}, {1, 1}})),
		"on a line":      second(Traced([][2]float64{{0, 0}, {1, 1}, {2, 2}})),
		"nan point":      second(Traced([][2]float64{{0, 0}, {1, nan}, {2, 0}})),
		"too many":       second(Traced(make([][2]float64, maxPoints+1))),
	} {
		if err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func second(_ *Outline, err error) error { return err }

// star returns a polygon that cannot cross itself: angles in order, any radii.
func star(r *rand.Rand) [][2]float64 {
	n := 3 + r.IntN(20)
	p := make([][2]float64, n)
	for i := range p {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.8*r.Float64()) / float64(n))
		d := 100 + 400*r.Float64()
		p[i] = [2]float64{d * cos, d * sin}
	}
	return p
}

func mapped(p [][2]float64, f func(x, y float64) (float64, float64)) [][2]float64 {
	q := make([][2]float64, len(p))
	for i := range p {
		q[i][0], q[i][1] = f(p[i][0], p[i][1])
	}
	return q
}

func TestPropertiesUnderMotion(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		p := star(r)
		base, err := TracedWithin(p, 1)
		if err != nil {
			continue // three points of a star may miss its centre and cross
		}
		a, per := base.Area().Value, base.PerimeterMM()
		phi, k := r.Float64()*6, 0.5+r.Float64()
		sin, cos := math.Sincos(phi)
		rev := make([][2]float64, len(p))
		for i := range p {
			rev[len(p)-1-i] = p[i]
		}
		for name, c := range map[string]struct {
			pts  [][2]float64
			size float64
		}{
			"translation": {mapped(p, func(x, y float64) (float64, float64) { return x + 3000, y - 777 }), 1},
			"rotation":    {mapped(p, func(x, y float64) (float64, float64) { return x*cos - y*sin, x*sin + y*cos }), 1},
			"scale":       {mapped(p, func(x, y float64) (float64, float64) { return k * x, k * y }), k},
			"reversal":    {rev, 1},
			"mirror":      {mapped(p, func(x, y float64) (float64, float64) { return -x, y }), 1},
		} {
			o, err := TracedWithin(c.pts, 1)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			s := c.size
			near(t, name+": area", o.Area().Value, a*s*s, a*1e-9)
			near(t, name+": perimeter", o.PerimeterMM(), per*s, per*1e-9)
			lo, hi := box(o.Polygon())
			if math.Abs(lo[0])+math.Abs(lo[1]) > 1e-9 || math.Abs(hi[0]-o.LengthMM()) > 1e-6 || math.Abs(hi[1]-o.WidthMM()) > 1e-6 {
				t.Errorf("%s: box %v %v", name, lo, hi)
			}
		}
	}
}

func TestAcrossAddsUpToTheArea(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 20 {
		o, err := TracedWithin(star(r), 1)
		if err != nil {
			continue
		}
		const steps = 4000
		sum := 0.0
		for i := range steps {
			sum += o.Across(o.LengthMM() * (float64(i) + 0.5) / steps)
		}
		near(t, "sum of the lines across", sum*o.LengthMM()/steps, SignedArea(o.Polygon()), SignedArea(o.Polygon())*2e-3)
	}
}

func TestFinenessTableIsWhole(t *testing.T) {
	for _, tool := range []string{"tape", "gauge"} {
		r := finenessTable()[tool]
		if len(r.inch) < 2 || len(r.metric) < 3 || r.inch[len(r.inch)-1].step != 0 || r.metric[len(r.metric)-1].step != 0 {
			t.Errorf("%s: %+v", tool, r)
		}
		for _, l := range append(append([]fineness{}, r.inch...), r.metric...) {
			if l.doubt <= 0 {
				t.Errorf("%s: no doubt in %+v", tool, l)
			}
		}
	}
	for _, c := range []struct{ mm, want float64 }{
		{412.75, 25.4 / 16},      // 16 1/4 in, read to an eighth
		{25.4 * 3 / 16, 0.79375}, // on a sixteenth
		{412, 1}, {1400, 2}, {412.3, 0.5},
	} {
		near(t, "tape", TapeUncertainty(c.mm), c.want, 1e-9)
	}
	// Taken together, the finest shows how the tape was read.
	near(t, "a set", tapeUncertaintyOf([]float64{0, 1400, 412, 390}), 1, 1e-9)
	near(t, "gauge 1 5/8 in", GaugeUncertainty(41.275), 25.4/32, 1e-9)
	near(t, "gauge 40 mm", GaugeUncertainty(40), 1, 1e-9)
}

func TestDoubtIsCarriedToTheArea(t *testing.T) {
	o := must(t)(Rectangle(1371.6, 406.4)) // 54 x 16 in, each to 1/16 in or 1 mm
	f := o.Area()
	rel := math.Hypot(TapeUncertainty(1371.6)/1371.6, TapeUncertainty(406.4)/406.4)
	near(t, "half range", f.High-f.Value, f.Value*rel, 1e-12)
	near(t, "low side", f.Value-f.Low, f.Value*rel, 1e-12)
	// A traced rectangle: four corners, each free in both directions, move the
	// area by half their neighbours' distance each.
	q := must(t)(TracedWithin([][2]float64{{0, 0}, {1000, 0}, {1000, 400}, {0, 400}}, 1)).AreaMM2()
	_, high := q.Range()
	near(t, "traced", high-q.Value, math.Hypot(1000, 400), 1e-9)
	wide := o.WithScaleUncertainty(0.01, "scale of the photo").Area()
	near(t, "with a scale doubt", wide.High-wide.Value, f.Value*math.Hypot(rel, 0.02), 1e-12)
}

// Figures that are easy to get wrong: a point on a slanted edge, a polygon
// without area far from the origin, readings that are none, and edges whose boxes
// overlap without meeting.
func TestCornersOfTheSums(t *testing.T) {
	for _, c := range []struct {
		x, y float64
		want bool
	}{{5, 5, true}, {10, 10, true}, {11, 11, false}, {-1, -1, false}, {5, 5.001, false}} {
		if got := onEdge([2]float64{0, 0}, [2]float64{10, 10}, c.x, c.y); got != c.want {
			t.Errorf("(%g, %g) on the edge: %v", c.x, c.y, got)
		}
	}
	if !onEdge([2]float64{3, 4}, [2]float64{3, 4}, 3, 4) || onEdge([2]float64{3, 4}, [2]float64{3, 4}, 3, 5) {
		t.Error("an edge without length")
	}
	c := Centroid([][2]float64{{100, 50}, {300, 150}, {200, 100}})
	near(t, "line, x", c[0], 200, 1e-9)
	near(t, "line, y", c[1], 100, 1e-9)
	near(t, "noughts and nothing", tapeUncertaintyOf([]float64{0, math.NaN()}), 0, 0)
	near(t, "a reading among noughts", tapeUncertaintyOf([]float64{0, 412, math.NaN()}), 1, 1e-9)
	for _, e := range [][4][2]float64{{{0, 0}, {10, 10}, {6, 0}, {10, 4}}, {{0, 0}, {10, 0}, {0, 1}, {10, 1}}, {{0, 0}, {0, 10}, {1, 0}, {1, 10}}} {
		if _, meets := meet(e[0], e[1], e[2], e[3]); meets {
			t.Errorf("%v meet", e)
		}
	}
	if x, meets := meet([2]float64{0, 0}, [2]float64{10, 10}, [2]float64{0, 10}, [2]float64{10, 0}); !meets || math.Hypot(x[0]-5, x[1]-5) > 1e-9 {
		t.Errorf("a cross meets at %v, %v", x, meets)
	}
}
