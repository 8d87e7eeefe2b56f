package pixel

import "golang.org/x/sys/cpu"

// vectors says whether the machine has the instructions of mix_amd64.s.
var vectors = cpu.X86.HasAVX2

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
	mixAVX2(&dst[0], &in[0], &w[0], (len(dst)+15)/16, n/2)
}

// maxMix is the most rows that the vector code mixes: enough for a reduction
// to a fifteenth.
const maxMix = 32

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
	shrinkAVX2(&dst[0], &src[0], &f.first[0], &f.lanes[0], n, f.taps/2)
	shrinkRowGo(dst, src, f, 2*n)
}

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
