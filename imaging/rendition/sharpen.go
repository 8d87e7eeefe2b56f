package rendition

import "math"

// Sharpening returns how much to sharpen a picture that was made shrunk times
// smaller: nothing for one at its own size, 0.3 for each halving, at most 0.6.
// The kernel of the downscale has no negative lobes, so it leaves contrast at
// the finest detail lower than a wider kernel would; this brings it back,
// without that kernel's ringing.
func Sharpening(shrunk float64) float64 {
	if !(shrunk > 1) {
		return 0
	}
	return math.Min(0.3*math.Log2(shrunk), 0.6)
}

// overshoot is how far sharpening may take a pixel beyond its neighbours, in
// 8.8 fixed point: two levels, which no eye sees as a halo.
const overshoot = 2 << 8

// sharpen returns the luma plane of w × h plus amount times its difference from
// a 3 × 3 binomial blur, held within the values of the 3 × 3 neighbourhood. All
// of it is whole numbers, so every machine gives the same.
func sharpen(y []uint16, w, h int, amount float64) []uint16 {
	out := make([]uint16, len(y))
	k := int32(math.Round(amount * 256))
	lo, hi, sum := make([]uint16, w+2), make([]uint16, w+2), make([]uint32, w+2)
	for j := range h {
		a := y[max(j-1, 0)*w:][:w]
		b := y[j*w:][:w]
		c := y[min(j+1, h-1)*w:][:w]
		columns(lo[1:w+1], hi[1:w+1], sum[1:w+1], a, b, c)
		lo[0], hi[0], sum[0] = lo[1], hi[1], sum[1]
		lo[w+1], hi[w+1], sum[w+1] = lo[w], hi[w], sum[w]
		sharpenRow(out[j*w:][:w], b, lo, hi, sum, k)
	}
	return out
}

// columns sets the least, the greatest and the 1-2-1 sum of three rows.
func columns(lo, hi []uint16, sum []uint32, a, b, c []uint16) {
	n := len(b)
	lo, hi, sum, a, c = lo[:n], hi[:n], sum[:n], a[:n], c[:n]
	for i, v := range b {
		lo[i] = min(a[i], v, c[i])
		hi[i] = max(a[i], v, c[i])
		sum[i] = uint32(a[i]) + 2*uint32(v) + uint32(c[i])
	}
}

// sharpenRow sharpens one row; lo, hi and sum have one more column at each end.
func sharpenRow(dst, src, lo, hi []uint16, sum []uint32, k int32) {
	n := len(src)
	dst = dst[:n]
	l0, l1, l2 := lo[:n], lo[1:n+1], lo[2:n+2]
	h0, h1, h2 := hi[:n], hi[1:n+1], hi[2:n+2]
	s0, s1, s2 := sum[:n], sum[1:n+1], sum[2:n+2]
	for i, v := range src {
		d := int32(v)*16 - int32(s0[i]+2*s1[i]+s2[i]) // 16 times the difference
		x := int32(v) + (d*k+1<<11)>>12
		x = max(x, int32(min(l0[i], l1[i], l2[i]))-overshoot, 0)
		dst[i] = uint16(min(x, int32(max(h0[i], h1[i], h2[i]))+overshoot, codedWhite))
	}
}
