package rendition

import "golang.org/x/sys/cpu"

// vectors says whether the machine has the instructions of the .s files.
var vectors = cpu.X86.HasAVX2

// sharpenVector sharpens as many columns as it can from the second on, as
// sharpenSpan does, and returns how many.
func sharpenVector(dst, a, b, c []uint16, k int32) int {
	blocks := (len(b) - 2) / 8
	if !vectors || blocks < 1 {
		return 0
	}
	n := 8 * blocks
	_, _, _, _ = dst[:n+2], a[:n+2], b[:n+2], c[:n+2]
	sharpenAVX2(&dst[1], &a[1], &b[1], &c[1], k, blocks)
	return n
}

// sharpenAVX2 sharpens 8·blocks values; one before and one after are read.
//
//go:noescape
func sharpenAVX2(dst, a, b, c *uint16, k int32, blocks int)

// narrowVector does as much of narrow as it can and returns how much.
func narrowVector(dst []uint8, src []uint16) int {
	blocks := len(src) / 32
	if !vectors || blocks < 1 {
		return 0
	}
	_ = dst[:32*blocks]
	narrowAVX2(&dst[0], &src[0], blocks)
	return 32 * blocks
}

//go:noescape
func narrowAVX2(dst *uint8, src *uint16, blocks int)

// codeVector does as much of lumaRow as it can and returns how many pixels.
func codeVector(luma, row []uint16, sum *sums, srgb []uint16) int {
	blocks := (len(luma) - 2) / 8 // it reads four bytes past the last block
	if !vectors || blocks < 1 || cap(srgb) <= 65536 {
		return 0
	}
	n := 8 * blocks
	_, _, _, _ = row[:3*n+2], sum.r[:n/2], sum.g[:n/2], sum.b[:n/2]
	codeAVX2(&luma[0], &row[0], &srgb[0], &srgb[0], &srgb[0], &sum.r[0], &sum.g[0], &sum.b[0], blocks)
	return n
}

// codeAVX2 codes 8·blocks pixels and adds them, two by two, to the sums.
//
//go:noescape
func codeAVX2(luma, row, tr, tg, tb *uint16, sr, sg, sb *uint32, blocks int)
