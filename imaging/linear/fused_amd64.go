package linear

import (
	"sync"

	"golang.org/x/sys/cpu"
)

// vectors says whether the machine has the instructions of fused_amd64.s.
var vectors = cpu.X86.HasAVX2

// blendChroma sets 16·blocks values of dst to 3·near + far − 512.
//
//go:noescape
func blendChroma(dst *int16, near, far *uint8, blocks int)

// widest says whether it has those of widest_amd64.s as well.
var widest = vectors && cpu.X86.HasAVX512F && cpu.X86.HasAVX512BW && cpu.X86.HasAVX512DQ && cpu.X86.HasAVX512VL

// bentRow takes 16·blocks pixels of luma and vertically blended chroma through the
// segments of a curve.
//
//go:noescape
func bentRow(dst *uint16, luma *uint8, cb, cr *int16, b *bent, k *[6]int32, blocks int)

// linearRow takes 8·blocks pixels of luma and vertically blended chroma through
// the curve.
//
//go:noescape
func linearRow(dst *uint16, luma *uint8, cb, cr *int16, curve *uint16, k *[6]int32, blocks int)

// mixedRow does it through the finer curve and a matrix, each of whose values
// stands four times in q.
//
//go:noescape
func mixedRow(dst *uint16, luma *uint8, cb, cr *int16, finer *int32, k *[6]int32, q *[36]int64, blocks int)

// chromaRows are two rows of vertically blended chroma, in fourths of a level,
// with one more sample at each end and room for a vector past it.
type chromaRows struct{ cb, cr []int16 }

var chromaPool = sync.Pool{New: func() any { return new(chromaRows) }}

// vectorRow converts as much of a row as it can, eight pixels at a time, and
// returns how many; value for value as curvePairs and mixPairs do.
func (f *fused) vectorRow(dst []uint16, luma, cb0, cb1, cr0, cr1 []uint8) int {
	blocks := len(luma) / 8
	if !vectors || blocks == 0 {
		return 0
	}
	s := chromaPool.Get().(*chromaRows)
	defer chromaPool.Put(s)
	if n := len(cb0) + 18; len(s.cb) < n {
		s.cb, s.cr = make([]int16, n), make([]int16, n)
	}
	blend(s.cb, cb0, cb1)
	blend(s.cr, cr0, cr1)
	k := [6]int32{int32(1<<15 - (f.k.black*f.k.y)<<4), int32(f.k.y << 4), int32(f.k.rcr), int32(f.k.gcb), int32(f.k.gcr), int32(f.k.bcb)}
	_ = dst[:24*blocks]
	if f.plain {
		done := 0
		if f.bent != nil && widest && blocks > 1 {
			bentRow(&dst[0], &luma[0], &s.cb[1], &s.cr[1], f.bent, &k, blocks/2)
			done = blocks / 2 * 16
		}
		if rest := blocks - done/8; rest > 0 {
			linearRow(&dst[3*done], &luma[done], &s.cb[1+done/2], &s.cr[1+done/2], &f.curve[wideZero], &k, rest)
		}
		return 8 * blocks
	}
	// What a neutral keeps stands in the diagonal of f.q; here it is the rest of
	// the row that keeps it.
	m := f.q
	m[0], m[4], m[8] = 1<<14-m[1]-m[2], 1<<14-m[3]-m[5], 1<<14-m[6]-m[7]
	var q [36]int64
	for i := range q {
		q[i] = m[i/4]
	}
	mixedRow(&dst[0], &luma[0], &s.cb[1], &s.cr[1], &f.finer[wideZero], &k, &q, blocks)
	return 8 * blocks
}

// blend fills dst from its second value on with three parts of near and one of
// far; the values beside them repeat the first and the last.
func blend(dst []int16, near, far []uint8) {
	n := len(near)
	far = far[:n]
	if n >= 16 {
		blendChroma(&dst[1], &near[0], &far[0], n/16)
	}
	for i := n &^ 15; i < n; i++ {
		dst[i+1] = 3*int16(near[i]) + int16(far[i]) - 512
	}
	dst[0], dst[n+1] = dst[1], dst[n]
}
