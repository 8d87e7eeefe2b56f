package pixel

import (
	"unsafe"

	"golang.org/x/sys/cpu"
)

// vectors says whether the machine has the instructions of mix_amd64.s.
var vectors = cpu.X86.HasAVX2

// widest says whether it has those of widest_amd64.s as well.
var widest = vectors && cpu.X86.HasAVX512F && cpu.X86.HasAVX512BW && cpu.X86.HasAVX512DQ && cpu.X86.HasAVX512VL

// mixRows sets each dst[i] to the weighted sum of rows[k][at+i]. dst and the
// rows have room for 16 more values. The vector code does the sums of mixRowsGo,
// value for value.
func mixRows(dst []uint16, rows [][]uint16, weight []int16, at int) {
	if !vectors {
		mixRowsGo(dst, rows, weight, at)
		return
	}
	var in [maxMix]*uint16
	var w [maxMix]int16
	n := 0
	for k, c := range weight {
		if c == 0 {
			continue
		}
		if n == maxMix {
			mixRowsGo(dst, rows, weight, at)
			return
		}
		in[n], w[n] = &rows[k][at:][:len(dst)+16][0], c
		n++
	}
	if n%2 == 1 {
		in[n] = in[n-1] // with a weight of nothing
		n++
	}
	dst = dst[:len(dst):cap(dst)]
	_ = dst[:len(dst)+16]
	done := 0
	if widest {
		if done = len(dst) / 32; done > 0 {
			mixAVX512(&dst[0], &in[0], &w[0], done, n/2)
		}
		for i, row := range in[:n] {
			in[i] = (*uint16)(unsafe.Add(unsafe.Pointer(row), done*64))
		}
	}
	if rest := len(dst) - 32*done; rest > 0 {
		mixAVX2(&dst[32*done], &in[0], &w[0], (rest+15)/16, n/2)
	}
}

// maxMix is the most rows that the vector code mixes: enough for a reduction
// to a fifteenth.
const maxMix = 32

// mixAVX512 mixes blocks of 32 values of 2·pairs rows.
//
//go:noescape
func mixAVX512(dst *uint16, rows **uint16, weights *int16, blocks, pairs int)

// mixAVX2 mixes blocks of 16 values of 2·pairs rows.
//
//go:noescape
func mixAVX2(dst *uint16, rows **uint16, weights *int16, blocks, pairs int)

// shrinkRow filters a row of interleaved pixels along itself. src has room for
// four values past the last tap.
func shrinkRow(dst, src []uint16, f *filter) {
	if !vectors || f.lanes == nil {
		shrinkRowGo(dst, src, f, 0)
		return
	}
	// The last two pixels are left to the plain code: the vector code writes two
	// bytes past each.
	n := (len(f.first) - 1) / 2
	last := int(f.first[2*n-1])
	_ = src[: (last+f.taps)*3+2 : (last+f.taps)*3+2]
	_ = dst[:2*n*3+1]
	done, pairs := 0, f.taps/2
	if widest && n > 1 {
		done = n / 2 * 2
		shrinkAVX512(&dst[0], &src[0], &f.first[0], &f.lanes[0], n/2, pairs)
	}
	if n > done {
		shrinkAVX2(&dst[6*done], &src[0], &f.first[2*done], &f.lanes[8*pairs*done], n-done, pairs)
	}
	shrinkRowGo(dst, src, f, 2*n)
}

// shrinkAVX512 filters four pixels at a time, by the lanes of shrinkAVX2.
//
//go:noescape
func shrinkAVX512(dst, src *uint16, first *int32, lanes *int32, fours, pairs int)

// shrinkAVX2 filters two pixels at a time; lanes holds for each of them and
// each pair of taps the pair's two weights four times over.
//
//go:noescape
func shrinkAVX2(dst, src *uint16, first *int32, lanes *int32, twos, pairs int)

// setLanes lays the weights out for shrinkAVX2.
func (f *filter) setLanes() {
	if !vectors || len(f.first) < 4 {
		return
	}
	pairs := f.taps / 2
	f.lanes = make([]int32, (len(f.first)/2)*pairs*8)
	for i := range len(f.first) / 2 * 2 {
		for t := range pairs {
			w := f.weight[i*f.taps+2*t:]
			both := int32(uint32(uint16(w[0])) | uint32(uint16(w[1]))<<16)
			at := ((i/2)*pairs+t)*8 + i%2*4
			for k := range 4 {
				f.lanes[at+k] = both
			}
		}
	}
}

// addBlocks is addBlocksGo; row has room for one more value.
func addBlocks(sum []uint64, row []uint16, edge []int) {
	n := len(edge) - 1
	if !vectors || n == 0 || edge[n]-edge[0] > n*longBlock {
		addBlocksGo(sum, row, edge)
		return
	}
	_, _ = row[3*edge[n]], sum[4*n-1]
	sumAVX2(&sum[0], &row[0], &edge[0], n)
}

// longBlock is the mean length of blocks, in pixels, up to which none is so long that
// its sum needs more than 32 bits: they differ by one.
const longBlock = 65535

// sumAVX2 adds the pixels between each two edges to sum.
//
//go:noescape
func sumAVX2(sum *uint64, row *uint16, edge *int, n int)
