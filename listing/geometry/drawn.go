package geometry

import "math"

// drawn returns the outline for drawing: the widths laid about a straight
// centre line and joined by a curve that passes through every one of them and
// swings beyond none.
func drawn(length float64, widths []float64, rounded [2]float64) [][2]float64 {
	const between = 8 // corners to a step
	n := len(widths) - 1
	h := length / float64(n)
	slopes := evenSlopes(widths)
	xs := []float64{0}
	ws := []float64{widths[0]}
	for i := range n {
		for k := 1; k <= between; k++ {
			t := float64(k) / between
			w := hermite(widths[i], widths[i+1], slopes[i], slopes[i+1], t)
			switch {
			case i < 2 && rounded[0] > 0:
				t, w = roundAt(widths[1], widths[2], i, t, w)
			case i >= n-2 && rounded[1] > 0:
				var u float64
				u, w = roundAt(widths[n-1], widths[n-2], n-1-i, 1-t, w)
				t = 1 - u
			}
			if k == between {
				t, w = 1, widths[i+1]
			}
			xs, ws = append(xs, (float64(i)+t)*h), append(ws, w)
		}
	}
	return bothSides(xs, ws)
}

// roundAt returns step share and width on the curve fitted to a rounded end; in
// the first step the corners crowd towards the end, where the curve turns most.
func roundAt(w1, w2 float64, step int, t, w float64) (float64, float64) {
	if step == 0 {
		t *= t
	}
	a, b := roundFit(w1, w2)
	s := float64(step) + t
	return t, math.Sqrt(math.Max(0, a*s+b*s*s))
}

// bothSides returns the polygon of the widths ws at xs, half to each side.
func bothSides(xs, ws []float64) [][2]float64 {
	p := make([][2]float64, 0, 2*len(xs))
	for i, x := range xs {
		p = append(p, [2]float64{x, -ws[i] / 2})
	}
	for i := len(xs) - 1; i >= 0; i-- {
		if ws[i] > 0 {
			p = append(p, [2]float64{xs[i], ws[i] / 2})
		}
	}
	return p
}

// evenSlopes returns the slope of the curve at every width, for one step, kept
// so small that the curve does not swing beyond its widths (Fritsch and
// Carlson, SIAM J. Numer. Anal. 17, 1980; here the harmonic mean of the slopes
// on either side, nothing at a turning point).
func evenSlopes(w []float64) []float64 {
	n := len(w) - 1
	s := make([]float64, n+1)
	for i := 1; i < n; i++ {
		if a, b := w[i]-w[i-1], w[i+1]-w[i]; a*b > 0 {
			s[i] = 2 * a * b / (a + b)
		}
	}
	s[0] = endSlope(w[1]-w[0], s[1])
	s[n] = endSlope(w[n]-w[n-1], s[n-1])
	return s
}

// endSlope returns the slope at an end from the chord and the slope at the
// chord's other end.
func endSlope(chord, other float64) float64 {
	s := (3*chord - other) / 2
	if s*chord <= 0 {
		return 0
	}
	if math.Abs(s) > 3*math.Abs(chord) {
		return 3 * chord
	}
	return s
}

func hermite(a, b, sa, sb, t float64) float64 {
	u := 1 - t
	return a*u*u*(1+2*t) + b*t*t*(1+2*u) + sa*t*u*u - sb*t*t*u
}
