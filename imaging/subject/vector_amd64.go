package subject

import "golang.org/x/sys/cpu"

// vectors says whether the machine has the instructions of vector_amd64.s.
var vectors = cpu.X86.HasAVX2

// eight is eightGo with eight channels at a time where the machine can.
func (l *layer) eight(dst, src []int16, size int) {
	if !vectors {
		l.eightGo(dst, src, size)
		return
	}
	_, _ = dst[:8*l.out], src[:8*size]
	for o := 0; o < l.out; o += 8 {
		_ = l.weights[:(o+8)*size]
		eightAVX2(&dst[o], &src[0], &l.weights[o*size], &l.bias[o], &l.factor[o], 2*size, 2*l.out, size/2, int(l.least()))
	}
}

// sixteen is sixteenGo with sixteen channels at a time where the machine can.
func (l *layer) sixteen(dst, src []int16, c, n, width int) {
	if !vectors {
		l.sixteenGo(dst, src, c, n, width)
		return
	}
	_, _ = dst[:(n-1)*l.out+16], src[:((l.k-1)*width+n+2*pairsARow-1)*l.out-l.out+16]
	_ = l.weights[:(c+16)*l.k*pairsARow*2]
	sixteenAVX2(&dst[0], &src[0], &l.weights[c*l.k*pairsARow*2], &l.bias[c], &l.factor[c], n, 2*l.out, 2*l.out*width, int(l.least()))
}

// eightAVX2 gives eight channels of eight cells, pairs terms of two each. src
// and dst are the distances of the cells in bytes.
//
//go:noescape
func eightAVX2(dst, src, weights *int16, bias, factor *int32, srcStep, dstStep, pairs, least int)

// sixteenAVX2 gives sixteen channels of n cells from patches of 5×5. step is
// the distance of the cells in bytes, line that of the rows.
//
//go:noescape
func sixteenAVX2(dst, src, weights *int16, bias, factor *int32, n, step, line, least int)
