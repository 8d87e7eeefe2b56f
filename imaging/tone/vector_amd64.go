package tone

import "golang.org/x/sys/cpu"

// vectors says whether the machine has the instructions of vector_amd64.s.
var vectors = cpu.X86.HasAVX2

// wide is a balanced treatment as the vector code wants it: every value stands in
// all lanes of its width.
type wide struct {
	black, straight, near [8]int32
	line, white           [3][4]uint64
}

// steady reports whether the factors rise and fall by so little from one level to
// the next that the vector code can work out what lies between in 32 bits.
func steady(factor []uint32) bool {
	for i := range factor[1:] {
		if d := int64(factor[i+1]) - int64(factor[i]); d >= 1<<22 || d <= -1<<22 {
			return false
		}
	}
	return true
}

// widen lays a treatment out for the vector code.
func (d *developer) widen() {
	d.steady = vectors && steady(d.factor)
	for i := range 8 {
		d.wide.black[i], d.wide.straight[i], d.wide.near[i] = int32(d.black), int32(d.straight), nearFull16
	}
	for k := range 3 {
		for i := range 4 {
			d.wide.line[k][i], d.wide.white[k][i] = d.line[k], d.white[k]
		}
	}
}

// vector develops as many of the pixels as it can, eight at a time, value for
// value as applyPlain and applyBalanced do, and returns how many values.
func (d *developer) vector(pix []uint16) int {
	blocks := len(pix) / 24
	if !d.steady || blocks == 0 {
		return 0
	}
	_, _ = pix[:24*blocks], d.factor[:65537]
	if d.balanced {
		_ = d.clip[:65536]
		balancedAVX2(&pix[0], &d.factor[0], &d.clip[0], &d.wide, blocks)
	} else {
		plainAVX2(&pix[0], &d.factor[0], blocks)
	}
	return 24 * blocks
}

// plainAVX2 multiplies 8·blocks pixels by the factor of their brightest channel.
//
//go:noescape
func plainAVX2(pix *uint16, factor *uint32, blocks int)

// balancedAVX2 takes 8·blocks pixels through a treatment whose channels differ.
//
//go:noescape
func balancedAVX2(pix *uint16, factor, clip *uint32, w *wide, blocks int)
