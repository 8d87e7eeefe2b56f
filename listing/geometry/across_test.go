package geometry

import (
	"math"
	"sort"
)

// Across returns how much of the line across the top at x lies inside, in mm: the
// drawing is held against the widths that were measured.
func (o *Outline) Across(x float64) float64 { return total(spans(o.polygon, 0, x)) }

// spans returns where the line at v on the given axis (0: a line across, at x)
// lies inside the polygon. At the very ends, where the line only touches, it
// is moved inwards by a hair, so that a straight end has its whole width.
func spans(p [][2]float64, axis int, v float64) [][2]float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, q := range p {
		lo, hi = math.Min(lo, q[axis]), math.Max(hi, q[axis])
	}
	if !(v >= lo && v <= hi) {
		return nil
	}
	hair := (hi - lo) * 1e-9
	v = math.Min(math.Max(v, lo+hair), hi-hair)
	var cuts []float64
	for i, a := range p {
		b := p[(i+1)%len(p)]
		if (a[axis] > v) != (b[axis] > v) {
			t := (v - a[axis]) / (b[axis] - a[axis])
			cuts = append(cuts, a[1-axis]+t*(b[1-axis]-a[1-axis]))
		}
	}
	sort.Float64s(cuts)
	out := make([][2]float64, 0, len(cuts)/2)
	for i := 0; i+1 < len(cuts); i += 2 {
		out = append(out, [2]float64{cuts[i], cuts[i+1]})
	}
	return out
}

func total(s [][2]float64) float64 {
	sum := 0.0
	for _, v := range s {
		sum += v[1] - v[0]
	}
	return sum
}
