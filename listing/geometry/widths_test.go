package geometry

import (
	"math"
	"slices"
	"strings"
	"testing"
)

func TestWidthsOnCurvesOfKnownArea(t *testing.T) {
	const l = 2000.0 // mm; x below runs 0..1
	for _, c := range []struct {
		name  string
		width func(x float64) float64
		area  float64 // of width over x in 0..1, closed form
		n     int     // widths
		tol   float64 // share of the area
	}{
		{"straight sides", func(x float64) float64 { return 400 }, 400, 11, 1e-12},
		{"taper", func(x float64) float64 { return 400 + 100*x }, 450, 11, 1e-12},
		{"cubic, which Simpson's rule takes exactly", func(x float64) float64 { return 400 + 600*x*x*x - 500*x*x }, 400 + 150 - 500.0/3, 11, 1e-12},
		{"cubic, even count of widths", func(x float64) float64 { return 400 + 600*x*x*x - 500*x*x }, 400 + 150 - 500.0/3, 10, 1e-12},
		{"cubic, four widths", func(x float64) float64 { return 400 + 600*x*x*x - 500*x*x }, 400 + 150 - 500.0/3, 4, 1e-12},
		{"wavy live edge", func(x float64) float64 { return 500 + 40*math.Sin(2*math.Pi*x) + 25*math.Cos(4*math.Pi*x) }, 500, 11, 0.005},
		{"boat", func(x float64) float64 { return 700 + 300*math.Sin(math.Pi*x) }, 700 + 600/math.Pi, 11, 0.005},
		{"boat, twelve widths", func(x float64) float64 { return 700 + 300*math.Sin(math.Pi*x) }, 700 + 600/math.Pi, 12, 0.005},
		{"ellipse", func(x float64) float64 { return 900 * 2 * math.Sqrt(x*(1-x)) }, 900 * math.Pi / 4, 11, 1e-4},
		{"ellipse, twelve widths", func(x float64) float64 { return 900 * 2 * math.Sqrt(math.Max(0, x*(1-x))) }, 900 * math.Pi / 4, 12, 0.005},
		{"parabola to a point", func(x float64) float64 { return 900 * 4 * x * (1 - x) }, 600, 11, 1e-9},
		{"lens, sine to a point", func(x float64) float64 { return 900 * math.Abs(math.Sin(math.Pi*x)) }, 1800 / math.Pi, 11, 0.005},
		{"egg: ellipse and taper", func(x float64) float64 { return 900 * 2 * math.Sqrt(x*(1-x)) * (1 + 0.2*(x-0.5)) }, 900 * math.Pi / 4, 11, 0.005},
		{"superellipse of exponent 2.5", func(x float64) float64 { return 900 * math.Pow(1-math.Pow(math.Abs(2*x-1), 2.5), 0.4) }, 900 * superellipse(2.5), 11, 0.005},
		{"superellipse of exponent 1.5", func(x float64) float64 { return 900 * math.Pow(1-math.Pow(math.Abs(2*x-1), 1.5), 1/1.5) }, 900 * superellipse(1.5), 11, 0.005},
		{"half ellipse", func(x float64) float64 { return 900 * math.Sqrt(1-x*x) }, 900 * math.Pi / 4, 11, 0.005},
	} {
		ws := make([]float64, c.n)
		for i := range ws {
			ws[i] = c.width(float64(i) / float64(c.n-1))
			if ws[i] < 1e-9 {
				ws[i] = 0
			}
		}
		o, err := FromWidths(l, ws)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		want := c.area * l * 1e-6
		got := o.Area()
		if off := math.Abs(got.Value-want) / want; off > c.tol {
			t.Errorf("%s: area %.6f m2, want %.6f: off by %.3f %%", c.name, got.Value, want, 100*off)
		}
		if want < got.Low || want > got.High {
			t.Errorf("%s: true area %.6f outside %.6f..%.6f", c.name, want, got.Low, got.High)
		}
		if drawn := SignedArea(o.Polygon()) * 1e-6; math.Abs(drawn-want)/want > 0.01 {
			t.Errorf("%s: drawn area %.6f m2, true %.6f", c.name, drawn, want)
		}
		if _, err := TracedWithin(o.Polygon(), 1); err != nil {
			t.Errorf("%s: the drawing: %v", c.name, err)
		}
		near(t, c.name+": length", o.LengthMM(), l, 1e-9)
		for i := 1; i < c.n-1; i++ {
			near(t, c.name+": width where it was measured", o.Across(l*float64(i)/float64(c.n-1)), ws[i], ws[i]*0.005)
		}
	}
}

// superellipse returns the share of its box that |x|^n + |y|^n = 1 takes up:
// Gamma(1+1/n)² / Gamma(1+2/n).
func superellipse(n float64) float64 {
	return math.Pow(math.Gamma(1+1/n), 2) / math.Gamma(1+2/n)
}

func TestStraightEndedRoundShapesFromElevenWidths(t *testing.T) {
	// A stadium: half circles of 200 mm radius at both ends of a 1200 mm body.
	w := func(x float64) float64 {
		d := math.Min(x, 1600-x)
		if d >= 200 {
			return 400
		}
		return 2 * math.Sqrt(math.Max(0, 200*200-(200-d)*(200-d)))
	}
	ws := make([]float64, 17) // every 100 mm
	for i := range ws {
		ws[i] = w(100 * float64(i))
	}
	o, err := FromWidths(1600, ws)
	if err != nil {
		t.Fatal(err)
	}
	want := 1200*400 + math.Pi*200*200
	near(t, "stadium", o.AreaMM2().Value, want, want*0.005)
}

func TestTwoAndThreeWidths(t *testing.T) {
	o, err := FromWidths(1000, []float64{400, 500})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "two widths", o.Area().Value, 0.45, 1e-12)
	if o.Rule() != "trapezoid over two widths" {
		t.Error(o.Rule())
	}
	o, err = FromWidths(1000, []float64{400, 500, 400})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "three widths", o.Area().Value, (400+2000+400)/6e3, 1e-12)
	f := o.Area() // the trapezoid gives 0.45: the shape is in doubt by a sixtieth
	if f.High-f.Value < 0.0166 {
		t.Errorf("range %v..%v does not show the trapezoid", f.Low, f.High)
	}
}

// One end may be round and the other straight: the half of an ellipse of 2000 by
// 400 mm, whose area is pi/4 of its box, and the rule that is printed says so.
func TestOneRoundedEnd(t *testing.T) {
	ws := make([]float64, 11)
	for i := range ws {
		x := float64(i) / 10
		ws[i] = 400 * math.Sqrt(1-(1-x)*(1-x))
	}
	for _, name := range []string{"round at the first", "round at the last"} {
		o, err := FromWidths(1000, ws)
		if err != nil {
			t.Fatal(err)
		}
		near(t, name, o.AreaMM2().Value, math.Pi/4*1000*400, 1e-4*1000*400)
		if !strings.Contains(o.Rule(), "rounded end") {
			t.Errorf("%s: the rule is %q", name, o.Rule())
		}
		slices.Reverse(ws)
	}
}

func TestReversingTheWidthsChangesNothing(t *testing.T) {
	ws := []float64{393, 0, 0, 0, 0, 0, 0}
	for i := range ws {
		ws[i] = 393 + 17*math.Sin(float64(3*i))
	}
	rev := make([]float64, len(ws))
	for i := range ws {
		rev[i] = ws[len(ws)-1-i]
	}
	a, err := FromWidths(1372, ws)
	if err != nil {
		t.Fatal(err)
	}
	b, err := FromWidths(1372, rev)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "area", a.Area().Value, b.Area().Value, 1e-12)
	near(t, "centroid", Centroid(a.Polygon())[0], 1372-Centroid(b.Polygon())[0], 1e-9)
	near(t, "range", a.Area().High, b.Area().High, 1e-12)
}

func FuzzOutlinesStaySane(f *testing.F) {
	f.Add(1372.0, 400.0, 410.0, 405.0, 0.0, 380.0)
	f.Add(1.0, 1e-9, 1e4, 3.0, 20000.0, 0.0)
	f.Fuzz(func(t *testing.T, l, a, b, c, d, e float64) {
		for _, ws := range [][]float64{{a, b}, {a, b, c}, {a, b, c, d}, {a, b, c, d, e}, {a, b, c, d, e, a}, {e, d, c, b, a, b, c, d, e}} {
			o, err := FromWidths(l, ws)
			if err != nil {
				continue
			}
			f := o.Area()
			if math.IsNaN(f.Value) || f.Value <= 0 || f.Low < 0 || f.Low > f.Value || f.High < f.Value || math.IsInf(f.High, 0) {
				t.Errorf("length %v, widths %v: %+v", l, ws, f)
			}
			for _, q := range o.Polygon() {
				if math.IsNaN(q[0]) || math.IsNaN(q[1]) || q[0] < -1e-6 || q[1] < -1e-6 {
					t.Fatalf("length %v, widths %v: corner %v", l, ws, q)
				}
			}
		}
	})
}

// halfRange is half of the range of an area: what is tested is the doubt.
func halfRange(o *Outline) float64 {
	_, high := o.AreaMM2().Range()
	return high - o.AreaMM2().Value
}

// Straight sides, 1400 mm by 412 mm: Simpson's rule and the trapezoid agree, so
// length (whole centimetres: 2 mm) and the three widths (1 mm each) are all the
// doubt that there is. The middle one has Simpson's weight of 4/3 of a step, and
// no width counts less than half a step, as in the trapezoid.
func TestDoubtOfAnAreaByWidths(t *testing.T) {
	o, err := FromWidths(1400, []float64{412, 412, 412})
	if err != nil {
		t.Fatal(err)
	}
	byLength, byEnd, byMiddle := 412*2.0, 700*0.5, 700*4.0/3
	near(t, "half range", halfRange(o), math.Sqrt(byLength*byLength+2*byEnd*byEnd+byMiddle*byMiddle), 1e-6)
}

// An ellipse of 2000 by 900 mm at five widths: both ends are fitted, so no width
// carries a weight, and each stands in with half a step of 500 mm.
func TestDoubtOfARoundedEnd(t *testing.T) {
	o, err := FromWidths(2000, []float64{0, 779, 900, 779, 0})
	if err != nil {
		t.Fatal(err)
	}
	a := o.AreaMM2().Value
	near(t, "area", a, math.Pi/4*2000*900, 1000)
	byLength, byShape, byWidth := a*2/2000, a-500*(779+900+779), 0.5*500*1.0
	near(t, "half range", halfRange(o), math.Sqrt(byLength*byLength+byShape*byShape+3*byWidth*byWidth), 1e-6)
}
