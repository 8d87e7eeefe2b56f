package piece

import "math"

// Shares returns the share of every wood, 0 to 1, summing to 1: what is not
// said is shared out evenly among the woods that do not say it.
func Shares(woods []Wood) []float64 {
	out := make([]float64, len(woods))
	said, silent := 0.0, 0
	for i, w := range woods {
		if w.Share.Set() && w.Share.V > 0 {
			out[i] = float64(w.Share.V) / 100
			said += out[i]
		} else if !w.Share.Set() {
			silent++
		}
	}
	for i, w := range woods {
		if !w.Share.Set() {
			out[i] = math.Max(0, 1-said) / float64(silent)
		}
	}
	sum := 0.0
	for _, v := range out {
		sum += v
	}
	for i := range out {
		if sum > 0 {
			out[i] /= sum
		} else {
			out[i] = 1 / float64(len(out))
		}
	}
	return out
}
