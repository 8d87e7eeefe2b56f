package geometry

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
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
	m := o.SecondMoments()
	near(t, "XX", m.XX, 1371.6*math.Pow(406.4, 3)/12, 1)
	near(t, "YY", m.YY, 406.4*math.Pow(1371.6, 3)/12, 1)
	near(t, "XX by polygon", SecondMoments(o.Polygon()).XX, m.XX, m.XX*1e-12)
	near(t, "across", o.Across(100), 406.4, 1e-9)
	near(t, "across at the end", o.Across(0), 406.4, 1e-9)
	near(t, "along", o.Along(200), 1371.6, 1e-9)
	near(t, "diagonal", o.Diagonal(), math.Hypot(1371.6, 406.4), 1e-9)
	near(t, "longest edge", o.LongestEdge(), 1371.6, 1e-9)
	if o.Across(-1) != 0 || o.Across(1372) != 0 {
		t.Error("a line beside the top meets it")
	}
}

func TestCircleMatchesItsClosedForm(t *testing.T) {
	o := must(t)(Circle(900))
	near(t, "area", o.Area().Value, math.Pi*0.45*0.45, 1e-12)
	near(t, "perimeter", o.PerimeterMM(), math.Pi*900, 1e-9)
	near(t, "XX", o.SecondMoments().XX, math.Pi*math.Pow(900, 4)/64, 1)
	near(t, "YY", o.SecondMoments().YY, math.Pi*math.Pow(900, 4)/64, 1)
	if n := len(o.Polygon()); n != CircleCorners {
		t.Errorf("%d corners", n)
	}
	near(t, "drawn area", SignedArea(o.Polygon()), math.Pi*450*450, math.Pi*450*450*3e-4)
	near(t, "across the middle", o.Across(450), 900, 1)
	if !o.Contains(450, 899.999) || o.Contains(450, 900.001) {
		t.Error("edge of the circle is off")
	}
}

func TestTracedFiguresMatchTheirClosedForms(t *testing.T) {
	tri := must(t)(TracedWithin([][2]float64{{0, 0}, {300, 0}, {0, 120}}, 1))
	near(t, "triangle area", tri.Area().Value, 0.018, 1e-12)
	near(t, "triangle cx", tri.Centroid()[0], 100, 1e-9)
	near(t, "triangle cy", tri.Centroid()[1], 40, 1e-9)
	m := tri.SecondMoments() // right triangle: b h³/36, h b³/36, -b²h²/72
	near(t, "triangle XX", m.XX, 300*math.Pow(120, 3)/36, 1e-3)
	near(t, "triangle YY", m.YY, 120*math.Pow(300, 3)/36, 1e-3)
	near(t, "triangle XY", m.XY, -math.Pow(300*120, 2)/72, 1e-3)

	// An L of two rectangles, 400 x 100 and 100 x 200 above its left end.
	l := must(t)(TracedWithin([][2]float64{{0, 0}, {400, 0}, {400, 100}, {100, 100}, {100, 300}, {0, 300}}, 1))
	near(t, "L area", l.Area().Value, 0.06, 1e-12)
	near(t, "L cx", l.Centroid()[0], (40000*200.0+20000*50)/60000, 1e-9)
	near(t, "L cy", l.Centroid()[1], (40000*50.0+20000*200)/60000, 1e-9)
	near(t, "L across the stem", l.Across(50), 300, 1e-9)
	near(t, "L across the foot", l.Across(200), 100, 1e-9)
	if n := len(l.Hull()); n != 5 {
		t.Errorf("hull of the L has %d corners, want 5", n)
	}
	if l.Contains(200, 200) || !l.Contains(50, 200) || !l.Contains(0, 0) || !l.Contains(250, 100) {
		t.Error("inside and outside of the L are mixed up")
	}
	// A U: the line across its arms meets it twice.
	u := must(t)(TracedWithin([][2]float64{{0, 0}, {300, 0}, {300, 200}, {200, 200}, {200, 50}, {100, 50}, {100, 200}, {0, 200}}, 1))
	near(t, "U along through the arms", u.Along(100), 200, 1e-9)
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
	// The place of the point where the faulty edge starts.
	o := piece.Outline{}
	for i, q := range [][2]float64{{0, 0}, {100, 0}, {0, 100}, {100, 100}, {-50, 50}} {
		o.Points = append(o.Points, piece.Point{X: units.Length(q[0]), Y: units.Length(q[1]), At: piece.Place{File: "piece.yaml", Line: 10 + i, Column: 5}})
	}
	_, err = Of(o)
	if f := Fault(o, err); f.Line != 11 || f.Rank != piece.Fault || f.Code != "outline.crosses-itself" {
		t.Errorf("finding %+v for %v", f, err)
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
		"none":           second(Of(piece.Outline{})),
		"photo":          second(Of(piece.Outline{Photo: piece.Of("plan.jpg")})),
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
		a, per, m := base.Area().Value, base.PerimeterMM(), base.SecondMoments()
		polar := m.XX + m.YY
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
			g := o.SecondMoments()
			near(t, name+": polar moment", g.XX+g.YY, polar*math.Pow(s, 4), polar*1e-8)
			hull := SignedArea(o.Hull())
			if hull < SignedArea(o.Polygon())*(1-1e-9) {
				t.Errorf("%s: hull smaller than its outline", name)
			}
			lo, hi := box(o.Polygon())
			if math.Abs(lo[0])+math.Abs(lo[1]) > 1e-9 || math.Abs(hi[0]-o.LengthMM()) > 1e-6 || math.Abs(hi[1]-o.WidthMM()) > 1e-6 {
				t.Errorf("%s: box %v %v", name, lo, hi)
			}
			for _, q := range o.Polygon() {
				if !Contains(o.Hull(), q[0], q[1]) && !nearHull(o.Hull(), q) {
					t.Errorf("%s: corner %v outside the hull", name, q)
				}
			}
		}
	}
}

// nearHull allows for rounding of corners that lie on the hull.
func nearHull(h [][2]float64, q [2]float64) bool {
	for i, a := range h {
		b := h[(i+1)%len(h)]
		if turn(a, b, q) < -1e-6 {
			return false
		}
	}
	return true
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
		near(t, "tape", TapeDoubt(c.mm), c.want, 1e-9)
	}
	// Taken together, the finest shows how the tape was read.
	near(t, "a set", tapeDoubtOf([]float64{0, 1400, 412, 390}), 1, 1e-9)
	near(t, "gauge 1 5/8 in", GaugeDoubt(41.275), 25.4/32, 1e-9)
	near(t, "gauge 40 mm", GaugeDoubt(40), 1, 1e-9)
}

func TestDoubtIsCarriedToTheArea(t *testing.T) {
	o := must(t)(Rectangle(1371.6, 406.4)) // 54 x 16 in, each to 1/16 in or 1 mm
	f := o.Area()
	rel := math.Hypot(TapeDoubt(1371.6)/1371.6, TapeDoubt(406.4)/406.4)
	near(t, "half range", f.High-f.Value, f.Value*rel, 1e-12)
	near(t, "low side", f.Value-f.Low, f.Value*rel, 1e-12)
	// A traced rectangle: four corners, each free in both directions, move the
	// area by half their neighbours' distance each.
	q := must(t)(TracedWithin([][2]float64{{0, 0}, {1000, 0}, {1000, 400}, {0, 400}}, 1)).AreaMM2()
	_, high := q.Range()
	near(t, "traced", high-q.Value, math.Hypot(1000, 400), 1e-9)
	wide := o.WithScaleDoubt(0.01, "scale of the photo").Area()
	near(t, "with a scale doubt", wide.High-wide.Value, f.Value*math.Hypot(rel, 0.02), 1e-12)
}
