package measure

import (
	"math"
	"slices"
)

// Limits of an outline that can be trusted. On drawn tops that lay whole in the
// photo 0 to 7 % of the ring is unclear, on one that the photo cut 27 %.
const (
	clearShare   = 0.4  // of what colours differ by across the outline at its middle place
	doubtUnclear = 0.10 // of the ring
	mostUnclear  = 0.16
)

// unclear is the share of a ring (pixels of the copy, clockwise) on both sides
// of which the colours are nearly the same against what they are across most of
// it: there the outline goes through the top or through the ground, not between.
func (c *small) unclear(ring []Point) float64 {
	n := len(ring)
	across := make([]float64, 0, n)
	for i := range ring {
		a, b := ring[(i+n-3)%n], ring[(i+3)%n]
		l := math.Max(math.Hypot(b.X-a.X, b.Y-a.Y), 1e-9)
		nx, ny := -(b.Y-a.Y)/l, (b.X-a.X)/l // inwards
		var in, out [3]float64
		for k := 3.0; k <= 8; k++ {
			for p, v := range [3][]float32{c.l, c.a, c.b} {
				in[p] += c.at(v, ring[i].X+k*nx, ring[i].Y+k*ny) / 6
				out[p] += c.at(v, ring[i].X-k*nx, ring[i].Y-k*ny) / 6
			}
		}
		across = append(across, norm([3]float64{in[0] - out[0], in[1] - out[1], in[2] - out[2]}))
	}
	limit := clearShare * median(slices.Clone(across))
	few := 0
	for _, v := range across {
		if v < limit {
			few++
		}
	}
	return float64(few) / math.Max(float64(n), 1)
}
