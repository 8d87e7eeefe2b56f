package geometry

import (
	"math"
	"slices"
)

// MostWood returns how much of the line across the grain that has most of it is
// wood, in mm: inside the outline and not resin, which is what an odd number of
// rings goes round. The lines are 240 at equal steps along the grain, and each
// counts with those a fortieth of the way before and behind it, so that a gleam
// taken for wood does not decide. The grain runs along the length or along the
// width; with stretch only so many mm in the middle of the extent count.
func (o *Outline) MostWood(resin [][][2]float64, alongLength bool, stretch float64) float64 {
	const lines, half = 240, 6
	axis, long, across := 0, o.LengthMM(), o.WidthMM()
	if !alongLength {
		axis, long, across = 1, o.WidthMM(), o.LengthMM()
	}
	from, to := 0.0, across
	if stretch > 0 && stretch < across {
		from, to = (across-stretch)/2, (across+stretch)/2
	}
	var wood [lines]float64
	for i := range wood {
		at := (float64(i) + 0.5) / lines * long
		wood[i] = within(inside([][][2]float64{o.polygon}, axis, at), from, to) - within(inside(resin, axis, at), from, to)
	}
	most := 0.0
	for i := half; i+half < lines; i++ {
		sum := 0.0
		for _, w := range wood[i-half : i+half+1] {
			sum += w
		}
		most = math.Max(most, sum/(2*half+1))
	}
	return most
}

// within is how much of spans lies between two places.
func within(spans [][2]float64, from, to float64) float64 {
	sum := 0.0
	for _, s := range spans {
		sum += math.Max(0, math.Min(s[1], to)-math.Max(s[0], from))
	}
	return sum
}

// inside returns where the line at v on the given axis (0: a line across, at x)
// lies inside an odd number of rings.
func inside(rings [][][2]float64, axis int, v float64) (spans [][2]float64) {
	var cuts []float64
	for _, ring := range rings {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if (a[axis] > v) != (b[axis] > v) {
				cuts = append(cuts, a[1-axis]+(v-a[axis])/(b[axis]-a[axis])*(b[1-axis]-a[1-axis]))
			}
		}
	}
	slices.Sort(cuts)
	for i := 0; i+1 < len(cuts); i += 2 {
		spans = append(spans, [2]float64{cuts[i], cuts[i+1]})
	}
	return spans
}
