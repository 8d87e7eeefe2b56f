package pixel

// Cut returns the part of m of w × h pixels at (x, y), which must lie within m:
// m itself when that is all of it, else a copy.
func (m *Image) Cut(x, y, w, h int) *Image {
	if x == 0 && y == 0 && w == m.W && h == m.H {
		return m
	}
	out := New(w, h)
	for j := range h {
		copy(out.Row(j), m.Row(y + j)[x*3:(x+w)*3])
	}
	return out
}

// A Line is the colours along an edge of a picture, linear.
type Line [][3]uint16

// strip is how many pixels deep an edge is looked at.
const strip = 8

// down returns the edge colours of the rows from y0 to y1, each the mean of
// the strip at column x.
func (m *Image) down(x, y0, y1 int) Line {
	x, w := max(min(x, m.W-strip), 0), min(strip, m.W)
	l := make(Line, y1-y0)
	for i := range l {
		l[i] = m.mean(x, y0+i, w, 1)
	}
	return l
}

// along is down for the columns from x0 to x1 at row y.
func (m *Image) along(y, x0, x1 int) Line {
	y, h := max(min(y, m.H-strip), 0), min(strip, m.H)
	l := make(Line, x1-x0)
	for i := range l {
		l[i] = m.mean(x0+i, y, 1, h)
	}
	return l
}

// Steadiness tells how well the picture could be carried on beyond those of its
// edges (left, top, right, bottom) that are asked for: the share of the worst
// along which the colours change as slowly as light on a backdrop does.
func (m *Image) Steadiness(edges [4]bool) float64 {
	worst := 1.0
	for i, l := range [4]func() Line{
		func() Line { return m.down(0, 0, m.H) }, func() Line { return m.along(0, 0, m.W) },
		func() Line { return m.down(m.W-strip, 0, m.H) }, func() Line { return m.along(m.H-strip, 0, m.W) },
	} {
		if edges[i] {
			worst = min(worst, l().steadiness())
		}
	}
	return worst
}

func (l Line) steadiness() float64 {
	soft, calm := l.blurred(), 0
	for i, c := range l {
		if like(c, soft[i]) {
			calm++
		}
	}
	return float64(calm) / float64(max(len(l), 1))
}

// Pad returns a picture of w × h with m at (left, top), which must fit, and the
// backdrop carried on around it. A real backdrop is never of one colour, so a
// flat border would show as a frame: the border takes up the colours along m's
// edge instead, smoothed, and the grain beside it, without which it would show
// as bands.
func (m *Image) Pad(w, h, left, top int) *Image {
	out := New(w, h)
	for y := range m.H {
		copy(out.Row(top + y)[left*3:], m.Row(y))
	}
	right, bottom := left+m.W, top+m.H
	deep := min(grainDeep, m.W)
	if left > 0 {
		l, g := m.down(0, 0, m.H).smooth(), m.grain(deep, m.H, func(d, y int) (int, int) { return d, y })
		for y, c := range l {
			row := out.Row(top + y)
			for x := range left {
				put(row[x*3:x*3+3], c, g.at(left - 1 - x)[y])
			}
		}
	}
	if right < w {
		l, g := m.down(m.W-strip, 0, m.H).smooth(), m.grain(deep, m.H, func(d, y int) (int, int) { return m.W - 1 - d, y })
		for y, c := range l {
			row := out.Row(top + y)
			for x := right; x < w; x++ {
				put(row[x*3:x*3+3], c, g.at(x - right)[y])
			}
		}
	}
	// Above and below, the sides that were just made included.
	band := m
	if m.W < w {
		band = out.Cut(0, top, w, m.H)
	}
	deep = min(grainDeep, m.H)
	if top > 0 {
		line, g := band.along(0, 0, w).smooth(), band.grain(deep, w, func(d, x int) (int, int) { return x, d })
		for y := range top {
			g.row(out.Row(y), line, top-1-y)
		}
	}
	if bottom < h {
		line, g := band.along(m.H-strip, 0, w).smooth(), band.grain(deep, w, func(d, x int) (int, int) { return x, m.H - 1 - d })
		for y := bottom; y < h; y++ {
			g.row(out.Row(y), line, y-bottom)
		}
	}
	return out
}

// grainDeep is how many lines beside an edge lend their grain.
const grainDeep = 16

// A grain is what the lines beside an edge have beyond their smoothed selves.
type grain [][][3]int32

// grain takes the grain of deep lines of n pixels each; at tells where the ith
// pixel of the line at depth d is.
func (m *Image) grain(deep, n int, at func(d, i int) (x, y int)) grain {
	g := make(grain, deep)
	for d := range g {
		line := make(Line, n)
		for i := range line {
			x, y := at(d, i)
			line[i] = [3]uint16(m.Row(y)[x*3:])
		}
		soft := line.blurred()
		g[d] = make([][3]int32, n)
		for i, c := range line {
			for k, v := range c {
				most := int32(soft[i][k])/16 + 64 // what stands out more is no grain
				g[d][i][k] = min(max(int32(v)-int32(soft[i][k]), -most), most)
			}
		}
	}
	return g
}

// at returns the line of grain for depth d: mirrored to and fro where the border
// is deeper than the grain.
func (g grain) at(d int) [][3]int32 {
	d %= 2 * len(g)
	if d >= len(g) {
		d = 2*len(g) - 1 - d
	}
	return g[d]
}

// put sets a pixel to a colour with some grain.
func put(p []uint16, c [3]uint16, grain [3]int32) {
	for k, v := range grain {
		p[k] = uint16(min(max(int32(c[k])+v, 0), 65535))
	}
}

// row is put for a whole row at depth d.
func (g grain) row(row []uint16, line Line, d int) {
	grain := g.at(d)[:len(line)]
	for x, c := range line {
		put(row[x*3:x*3+3:x*3+3], c, grain[x])
	}
}

// mean is the mean colour of a box of m.
func (m *Image) mean(x, y, w, h int) (c [3]uint16) {
	var sum [3]int
	for j := range h {
		row := m.Row(y + j)[x*3 : (x+w)*3]
		for i, v := range row {
			sum[i%3] += int(v)
		}
	}
	for k := range c {
		c[k] = uint16(sum[k] / (w * h))
	}
	return c
}

// like reports whether a colour could be another under slightly more or less
// light.
func like(c, other [3]uint16) bool {
	for k, v := range c {
		if d, o := int(v)-int(other[k]), int(other[k]); d > o*2/5+300 || -d > o/3+300 {
			return false
		}
	}
	return true
}

// smooth returns the line without what stands out of it and without its detail.
func (l Line) smooth() Line {
	soft := l.blurred()
	calm := append(Line(nil), l...)
	for i, c := range l {
		if !like(c, soft[i]) {
			calm[i] = soft[i]
		}
	}
	return calm.blurred().blurred()
}

// blurred returns the line with each colour the mean of a sixth of the line
// around it; beyond its ends it repeats them.
func (l Line) blurred() Line {
	n := len(l)
	reach := max(n/12, 1)
	out := make(Line, n)
	var sum [3]uint64
	for i := -reach; i <= reach; i++ {
		for k, v := range l[min(max(i, 0), n-1)] {
			sum[k] += uint64(v)
		}
	}
	// A division by 2·reach+1 as a multiplication: sums stay below 2³².
	scale := (1<<32 + uint64(reach)) / uint64(2*reach+1)
	for i := range out {
		in, gone := &l[min(i+reach+1, n-1)], &l[max(i-reach, 0)]
		for k := range sum {
			out[i][k] = uint16(min((sum[k]*scale)>>32, 65535))
			sum[k] += uint64(in[k]) - uint64(gone[k])
		}
	}
	return out
}
