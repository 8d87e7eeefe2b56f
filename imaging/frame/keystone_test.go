package frame

import (
	"math"
	"testing"
)

// uprights are lines at shares x of the width that follow the law lean = mid +
// slope·(x − ½), each off by some degrees.
func uprights(mid, slope, length float64, off func(i int) float64, at ...float64) (all []line) {
	for i, x := range at {
		all = append(all, line{upright: true, mid: x, lean: mid + slope*(x-0.5) + off(i), length: length})
	}
	return all
}

// The law of converging uprights is found by least squares, weighted by length, and
// believed where lines enough follow it: each limit from both sides.
func TestConvergingUprights(t *testing.T) {
	none := func(int) float64 { return 0 }
	for _, c := range []struct {
		name string
		in   []line
		ok   bool
	}{
		{"two each side", uprights(0.3, -4, 0.3, none, 0.1, 0.2, 0.8, 0.9), true},
		{"as long as a line has to be", uprights(0.3, -4, 0.22, none, 0.1, 0.2, 0.8, 0.9), true},
		{"too short", uprights(0.3, -4, 0.219, none, 0.1, 0.2, 0.8, 0.9), false},
		{"one on the left", uprights(0.3, -4, 0.3, none, 0.1, 0.5, 0.8, 0.9), false},
		{"one on the right", uprights(0.3, -4, 0.3, none, 0.1, 0.2, 0.5, 0.9), false},
		{"none beside the middle", uprights(0.3, -4, 0.3, none, 0.1, 0.425, 0.575, 0.9), false},
		{"a little beside the middle", uprights(0.3, -4, 0.3, none, 0.1, 0.415, 0.585, 0.9), true},
		{"reaching over 0.36", uprights(0.3, -4, 0.3, none, 0.32, 0.4, 0.6, 0.68), true},
		{"reaching over 0.34", uprights(0.3, -4, 0.3, none, 0.33, 0.4, 0.6, 0.67), false},
		{"leaning by 1.55 degrees a width", uprights(0.3, 1.55, 0.3, none, 0.1, 0.2, 0.8, 0.9), true},
		{"leaning by 1.45 degrees a width", uprights(0.3, 1.45, 0.3, none, 0.1, 0.2, 0.8, 0.9), false},
		{"off by 0.75 degrees", uprights(0.3, -4, 0.3, func(i int) float64 { return []float64{0.75, -0.75, -0.75, 0.75}[i] }, 0.1, 0.2, 0.8, 0.9), true},
		{"off by 0.85 degrees", uprights(0.3, -4, 0.3, func(i int) float64 { return []float64{0.85, -0.85, -0.85, 0.85}[i] }, 0.1, 0.2, 0.8, 0.9), false},
		{"short lines do not count", append(uprights(0.3, -4, 0.3, none, 0.1, 0.2, 0.8, 0.9), line{upright: true, mid: 0.5, lean: 9, length: 0.1}), true},
	} {
		k, ok := fitKeystone(c.in)
		if ok != c.ok {
			t.Errorf("%s: believed %v, want %v (%+v)", c.name, ok, c.ok, k)
		}
		if slope := (c.in[0].lean - c.in[3].lean) / (c.in[0].mid - c.in[3].mid); ok && c.name[:3] != "off" && (math.Abs(k.mid-0.3) > 1e-9 || math.Abs(k.slope-slope) > 1e-9) {
			t.Errorf("%s: mid %.3f and slope %.3f, want 0.3 and %.3f", c.name, k.mid, k.slope, slope)
		}
	}
}

// A longer line counts for more: against the closed form of weighted least squares
// (any textbook), and how far the worst is off.
func TestConvergingUprightsAreWeighted(t *testing.T) {
	in := uprights(0, -4, 0.3, func(i int) float64 { return []float64{0.5, 0, 0, 0}[i] }, 0.1, 0.2, 0.8, 0.9)
	in[0].length = 0.9
	var n, mx, my, sxx, sxy float64
	for _, l := range in {
		n, mx, my = n+l.length, mx+l.length*(l.mid-0.5), my+l.length*l.lean
	}
	mx, my = mx/n, my/n
	for _, l := range in {
		dx := l.mid - 0.5 - mx
		sxx, sxy = sxx+l.length*dx*dx, sxy+l.length*dx*(l.lean-my)
	}
	slope := sxy / sxx
	mid, worst := my-slope*mx, 0.0
	for _, l := range in {
		worst = math.Max(worst, math.Abs(l.lean-mid-slope*(l.mid-0.5)))
	}
	k, ok := fitKeystone(in)
	if !ok || math.Abs(k.slope-slope) > 1e-9 || math.Abs(k.mid-mid) > 1e-9 || math.Abs(k.worst-worst) > 1e-9 {
		t.Errorf("%+v, want slope %.6f, mid %.6f, worst %.6f", k, slope, mid, worst)
	}
	for n, at := range map[int][]float64{4: {0.1, 0.2, 0.8, 0.9}, 2: {0.1, 0.165, 0.8, 0.865}, 3: {0.1, 0.175, 0.8, 0.865}} {
		if k, _ := fitKeystone(uprights(0, -4, 0.3, func(int) float64 { return 0 }, at...)); k.places != n {
			t.Errorf("uprights at %v stand at %d places, want %d", at, k.places, n)
		}
	}
}
