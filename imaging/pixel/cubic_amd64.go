package pixel

import "sync"

// cubicLanes are the weights laid out for the vector code: for each 256th, the
// first two side by side four times, then the last two.
var cubicLanes = sync.OnceValue(func() *[256][8]int32 {
	t, w := new([256][8]int32), cubicWeights()
	for i := range t {
		for k := range 4 {
			t[i][k] = int32(uint32(uint16(w[i][0])) | uint32(uint16(w[i][1]))<<16)
			t[i][k+4] = int32(uint32(uint16(w[i][2])) | uint32(uint16(w[i][3]))<<16)
		}
	}
	return t
})

// cubicRun does as many of the spots, from the first, as lie well within m, and
// returns how many. dst has room for one value more.
func cubicRun(dst []uint16, m *Image, spots []spot) int {
	if !vectors {
		return 0
	}
	n := 0
	// A pixel reads four columns and two values beyond; it writes one value beyond.
	for n < len(spots)-1 {
		s := spots[n]
		if s.x < 1 || int(s.x) > m.W-4 || s.y < 1 || int(s.y) > m.H-3 {
			break
		}
		n++
	}
	if n > 0 {
		_ = dst[:3*n+1]
		cubicAVX2(&dst[0], &m.Pix[0], &spots[0], &cubicLanes()[0][0], m.W*6, n)
	}
	return n
}

// cubicAVX2 interpolates n pixels from a picture whose rows are stride bytes.
//
//go:noescape
func cubicAVX2(dst, pix *uint16, spots *spot, lanes *int32, stride, n int)
