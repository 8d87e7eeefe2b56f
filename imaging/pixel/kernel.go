package pixel

import "math"

// The kernel is one lobe of a sinc under a Hamming window. It has no negative
// part, so a downscale by it cannot ring: dark wood beside a bright backdrop
// keeps its own value to the last pixel, with no clamp in the inner loop. In
// linear light that matters more than it does on gamma-coded values, where the
// undershoot of a Lanczos kernel would already be a third smaller to the eye.
// The edge contrast that a wider kernel would have kept comes back from the
// clamped sharpening of the renditions.
func kernel(x float64) float64 {
	x = math.Abs(x)
	switch {
	case x >= 1:
		return 0
	case x < 1e-9:
		return 1
	}
	px := math.Pi * x
	return math.Sin(px) / px * (0.54 + 0.46*math.Cos(px))
}

// weightBits is the precision of a weight: the weights of one output sample
// add up to exactly 1<<weightBits, which keeps white white, and one weight
// fits the signed 16-bit factors of the vector code.
const weightBits = 14

// A filter holds, for each of out samples along one axis, the first input
// sample and the weights of the taps from there on. Every output sample has
// the same even number of taps; surplus ones weigh nothing.
type filter struct {
	taps   int
	first  []int32
	weight []int16 // taps values a sample
	lanes  []int32 // the weights as the vector code wants them, if it does
}

// newFilter returns the filter that takes the span from lo to hi of an axis of
// in samples to out samples.
func newFilter(lo, hi float64, in, out int) *filter {
	step := (hi - lo) / float64(out)
	reach := math.Max(step, 1)
	taps := int(math.Ceil(2*reach)) + 1
	taps = min((taps+1)&^1, (in+1)&^1)
	f := &filter{taps: taps, first: make([]int32, out), weight: make([]int16, out*taps)}
	exact := make([]float64, taps)
	for i := range f.first {
		centre := lo + (float64(i)+0.5)*step
		first := max(int(math.Ceil(centre-reach-0.5)), 0)
		first = max(min(first, in-taps), 0)
		sum := 0.0
		for k := range exact {
			exact[k] = 0
			if first+k < in {
				exact[k] = kernel((float64(first+k) + 0.5 - centre) / reach)
			}
			sum += exact[k]
		}
		if sum == 0 { // the span lies outside the picture: its nearest sample
			exact[max(min(int(centre)-first, min(taps, in-first)-1), 0)], sum = 1, 1
		}
		f.first[i] = int32(first)
		quantise(f.weight[i*taps:(i+1)*taps], exact, sum)
	}
	return f
}

// quantise rounds the weights exact/sum so that they add up to one exactly.
// What rounding leaves over goes to the largest.
func quantise(w []int16, exact []float64, sum float64) {
	left, most := 1<<weightBits, 0
	for k, e := range exact {
		v := int(math.Round(e / sum * (1 << weightBits)))
		w[k] = int16(v)
		left -= v
		if e > exact[most] {
			most = k
		}
	}
	w[most] += int16(left)
}
