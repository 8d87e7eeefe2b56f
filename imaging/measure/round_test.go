package measure

import (
	"math"
	"testing"
)

// A round top is one whose outline is a circle to within what is known of it: the
// truth is the radius that each is drawn from.
func TestDiameter(t *testing.T) {
	ring := func(n int, radius func(phi float64) float64) []Point {
		var out []Point
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r := radius(2 * math.Pi * float64(i) / float64(n))
			out = append(out, Point{X: 460 + r*cos, Y: 450 + r*sin})
		}
		return out
	}
	for _, c := range []struct {
		name   string
		ring   []Point
		err    float64
		radius float64 // 0: not round
	}{
		{"a circle", ring(180, func(float64) float64 { return 448 }), 9, 448},
		{"wavy by 3 mm", ring(180, func(p float64) float64 { return 448 + 3*math.Sin(9*p) }), 9, 448},
		{"wavy by 3 mm, known to 1", ring(180, func(p float64) float64 { return 448 + 3*math.Sin(9*p) }), 1, 0},
		{"oval by 12 mm either way, known to 40", ring(180, func(p float64) float64 { return 448 + 12*math.Cos(2*p) }), 40, 0},
		{"an octagon", ring(8, func(float64) float64 { return 448 }), 40, 0},
		{"a square with round corners", ring(180, func(p float64) float64 {
			return 400 / math.Pow(math.Pow(math.Abs(math.Cos(p)), 4)+math.Pow(math.Abs(math.Sin(p)), 4), 0.25)
		}), 30, 0},
		{"nothing", nil, 9, 0},
	} {
		r := Result{Outline: c.ring, Length: Value{Value: 900, Error: c.err}, Width: Value{Value: 900, Error: c.err}}
		d, ok := r.Diameter()
		if ok != (c.radius > 0) {
			t.Errorf("%s: round %v", c.name, ok)
		}
		if ok && (math.Abs(d.Value-2*c.radius) > 0.5 || d.Error != c.err) {
			t.Errorf("%s: diameter %.1f ± %.1f, want %.1f", c.name, d.Value, d.Error, 2*c.radius)
		}
	}
}

// A round top lies in the drawing as in the photo, however noisy its rim.
// Others lie along their length.
func TestRoundTopLiesAsItIsSeen(t *testing.T) {
	var disc, oval []Point
	for i := range 360 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 360)
		r := 450 + 1.5*math.Sin(37*float64(i))
		disc, oval = append(disc, Point{X: r * cos, Y: r * sin}), append(oval, Point{X: r * cos, Y: 1.1 * r * sin})
	}
	for _, level := range []float64{0, 0.4, -1.2} {
		if s := shapeOf(disc, level); s.turn != level {
			t.Errorf("a disc is turned by %.2f, seen level at %.2f", s.turn, level)
		}
		if s := shapeOf(oval, level); math.Abs(math.Abs(s.turn)-math.Pi/2) > 0.05 {
			t.Errorf("an oval is turned by %.2f, its length lies along %.2f", s.turn, math.Pi/2)
		}
	}
}
