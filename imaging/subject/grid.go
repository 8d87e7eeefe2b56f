package subject

// top is the greatest value that a cell holds, and -top the least. With weights
// of 8 bits and at most 2,000 terms, no sum of 32 bits can run over:
// 8191 · 127 · 2000 < 2³¹. The packer checks each channel's own sum.
const top = 8191

// A grid holds c values a cell, row by row, the values of a cell side by side.
// c is a multiple of 8, or 4 for the picture itself.
type grid struct {
	w, h, c int
	v       []int16
}

// slack is how many cells beyond the last the vector code may read and write.
const slack = 8

func newGrid(w, h, c int) *grid {
	return &grid{w, h, c, make([]int16, (w*h+slack)*c)}
}

// bordered is g with a border of n cells of nothing.
func (g *grid) bordered(n int) *grid {
	b := newGrid(g.w+2*n, g.h+2*n, g.c)
	for y := range g.h {
		copy(b.v[((y+n)*b.w+n)*g.c:], g.v[y*g.w*g.c:(y+1)*g.w*g.c])
	}
	return b
}

// add adds o to g, cell by cell.
func (g *grid) add(o *grid) {
	for i, v := range o.v[:g.w*g.h*g.c] {
		g.v[i] = clip(int32(g.v[i]) + int32(v))
	}
}

// addDoubled adds o, each of whose cells covers two by two of g's.
func (g *grid) addDoubled(o *grid) {
	for y := range g.h {
		for x := range g.w {
			d := g.v[(y*g.w+x)*g.c:][:g.c]
			for i, v := range o.v[(y/2*o.w+x/2)*o.c:][:g.c] {
				d[i] = clip(int32(d[i]) + int32(v))
			}
		}
	}
}

func clip(v int32) int16 { return int16(max(-top, min(top, v))) }
