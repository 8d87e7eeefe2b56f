package rendition

import "math"

// SharpenAmount returns how much to sharpen a picture that was made shrunk times
// smaller: nothing for one at its own size, else 0.36 or 0.3 for each halving,
// whichever is more, at most 0.6. It is what brings a rendition to the crispness
// of a Lanczos reduction (TestQualityCrispness).
// The kernel of the downscale has no negative lobes, so it leaves contrast at
// the finest detail lower than a wider kernel would; this brings it back,
// without that kernel's ringing.
func SharpenAmount(shrunk float64) float64 {
	if !(shrunk > 1) {
		return 0
	}
	return math.Min(math.Max(0.36, 0.3*math.Log2(shrunk)), 0.6)
}

// overshoot is how far sharpening may take a pixel beyond its neighbours, in
// 8.8 fixed point: two levels, which no eye sees as a halo.
const overshoot = 2 << 8

// sharpen adds to the luma plane of w × h, in place, amount times its
// difference from a 3 × 3 binomial blur, held within the values of the 3 × 3
// neighbourhood. All of it is whole numbers, so every machine gives the same.
func sharpen(y []uint16, w, h int, amount float64) {
	k := int32(math.Round(amount * 256))
	before, here := make([]uint16, w), make([]uint16, w)
	copy(here, y[:w])
	copy(before, here) // the rows beyond the first and the last repeat them
	for j := range h {
		row := y[j*w:][:w]
		after := here
		if j+1 < h {
			after = y[(j+1)*w:][:w]
		}
		n := sharpenVector(row, before, here, after, k)
		sharpenSpan(row, before, here, after, k, 0, min(1, w))
		sharpenSpan(row, before, here, after, k, 1+n, w)
		before, here = here, before
		if j+1 < h {
			copy(here, after)
		}
	}
}

// sharpenSpan sharpens the columns from x0 to x1 of a row: b before, with the
// rows a above and c below it.
func sharpenSpan(dst, a, b, c []uint16, k int32, x0, x1 int) {
	w := len(b)
	for x := x0; x < x1; x++ {
		l, r := max(x-1, 0), min(x+1, w-1)
		v := int32(b[x])
		sum := int32(a[l]) + int32(a[r]) + int32(c[l]) + int32(c[r]) +
			2*(int32(a[x])+int32(c[x])+int32(b[l])+int32(b[r])) + 4*v
		lo := min(a[l], a[x], a[r], b[l], b[x], b[r], c[l], c[x], c[r])
		hi := max(a[l], a[x], a[r], b[l], b[x], b[r], c[l], c[x], c[r])
		s := v + ((16*v-sum)*k+1<<11)>>12
		s = max(s, int32(lo)-overshoot, 0)
		dst[x] = uint16(min(s, int32(hi)+overshoot, codedWhite))
	}
}

// toLevels rounds 8.8 fixed point to whole levels.
func toLevels(dst []uint8, src []uint16) {
	dst = dst[:len(src)]
	for i := narrowVector(dst, src); i < len(src); i++ {
		dst[i] = uint8(min(uint32(src[i])+128, 0xffff) >> 8)
	}
}
