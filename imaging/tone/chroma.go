package tone

import "math"

// A chroma map counts colours by log2(R/G) and log2(B/G), a tenth of a stop a
// cell, the neutral in the middle.
type chromas struct {
	n    float64
	cell [chromaSide][chromaSide]float64
}

const (
	chromaSide   = 64
	chromaPerDim = 10 // cells a stop
)

func (c *chromas) add(r, g, b uint16, bins *[65536]uint16) {
	if g < 64 || r < 32 || b < 32 {
		return
	}
	at := func(v uint16) int {
		d := int(bins[v]) - int(bins[g]) + chromaSide/2*perStop/chromaPerDim
		return max(0, min(chromaSide-1, d*chromaPerDim/perStop))
	}
	c.n++
	c.cell[at(r)][at(b)]++
}

// blurred is the map as shares of all its colours, each spread over its cell and
// the eight around it, so that a small shift still overlaps.
func (c *chromas) blurred() *[chromaSide][chromaSide]float64 {
	out := new([chromaSide][chromaSide]float64)
	for i := 1; i < chromaSide-1; i++ {
		for j := 1; j < chromaSide-1; j++ {
			if n := c.cell[i][j]; n > 0 {
				for k := range 9 {
					out[i+k/3-1][j+k%3-1] += n / c.n / 9
				}
			}
		}
	}
	return out
}

// overlap is the share of the colours that two maps have in common, 0 to 1, when
// those of a are shifted by as many stops.
func overlap(a, b *[chromaSide][chromaSide]float64, shift [2]float64) (sum float64) {
	di, dj := int(math.Round(shift[0]*chromaPerDim)), int(math.Round(shift[1]*chromaPerDim))
	for i := max(0, -di); i < min(chromaSide, chromaSide-di); i++ {
		for j := max(0, -dj); j < min(chromaSide, chromaSide-dj); j++ {
			sum += math.Min(a[i][j], b[i+di][j+dj])
		}
	}
	return sum
}
