package pixel

import "math"

// Abs is a value without its sign, as math.Abs is for float64.
func Abs(v float32) float32 {
	return math.Float32frombits(math.Float32bits(v) &^ (1 << 31)) // no branch, which signs at random would mislead
}

// Otsu returns the last level of the lower of the two groups that a histogram
// of 256 levels parts into best: those whose means differ most for their sizes
// (Otsu, "A threshold selection method", IEEE SMC 9(1), 1979). ok is false
// where all values have one level, or there is none.
func Otsu(hist *[256]int) (level int, ok bool) {
	var n, sum float64
	for k, v := range hist {
		n, sum = n+float64(v), sum+float64(k*v)
	}
	var n0, s0, best float64
	for k, v := range hist {
		n0, s0 = n0+float64(v), s0+float64(k*v)
		n1 := n - n0
		if n0 == 0 || n1 == 0 {
			continue
		}
		d := s0/n0 - (sum-s0)/n1
		if between := n0 * n1 * d * d; between > best {
			best, level, ok = between, k, true
		}
	}
	return level, ok
}
