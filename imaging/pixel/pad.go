package pixel

import "slices"

// Cut returns the part of m of w × h pixels at (x, y), which must lie within m:
// m itself when that is all of it, else a copy.
func (m *Image) Cut(x, y, w, h int) *Image {
	if x == 0 && y == 0 && w == m.W && h == m.H {
		return m
	}
	out := Unset(w, h)
	for j := range h {
		copy(out.Row(j), m.Row(y + j)[x*3:(x+w)*3])
	}
	return out
}

// A Line is the colours along an edge of a picture, linear.
type Line [][3]uint16

// strip is how many pixels deep an edge is looked at.
const strip = 8

// Covered tells whether pixel (x, y) of a picture shows something that stands
// before the backdrop, which an edge must not be carried on with. A nil Covered
// covers nothing.
type Covered func(x, y int) bool

// sideColours returns the edge colours of all rows, each the mean of the strip at
// column x as far as the backdrop shows there, and how many rows show too
// little of it: theirs are filled in from those beside them.
func (m *Image) sideColours(x int, on Covered) (Line, int) {
	x, w := max(min(x, m.W-strip), 0), min(strip, m.W)
	l, open := make(Line, m.H), make([]bool, m.H)
	for i := range l {
		l[i], open[i] = m.mean(x, i, w, 1, on)
	}
	return l, l.bridge(open)
}

// rowEndColours is sideColours for all columns at row y.
func (m *Image) rowEndColours(y int, on Covered) (Line, int) {
	y, h := max(min(y, m.H-strip), 0), min(strip, m.H)
	l, open := make(Line, m.W), make([]bool, m.W)
	for i := range l {
		l[i], open[i] = m.mean(i, y, 1, h, on)
	}
	return l, l.bridge(open)
}

// bridge fills in what is not open: evenly from one open neighbour to the other,
// or with the only one. It returns how many there were.
func (l Line) bridge(open []bool) int {
	filled, last := 0, -1 // the last open one
	fill := func(to int) {
		for i := last + 1; i < to; i++ {
			filled++
			a, b, t := max(last, 0), to, float64(i-last)/float64(to-last)
			if last < 0 {
				a = to
			}
			if to == len(l) {
				b = a
			}
			if b == len(l) {
				return // none is open
			}
			for k := range l[i] {
				l[i][k] = uint16(float64(l[a][k])*(1-t) + float64(l[b][k])*t + 0.5)
			}
		}
	}
	for i, ok := range open {
		if ok {
			fill(i)
			last = i
		}
	}
	if last < 0 {
		return len(l)
	}
	fill(len(l))
	return filled
}

// Pad returns a picture of w × h with m at (left, top), which must fit, and the
// backdrop carried on around it. A real backdrop is never of one colour, so a
// flat border would show as a frame: the border takes up the colours along m's
// edge instead, smoothed, and the grain beside it, without which it would show
// as bands. Where on covers the edge, the backdrop beside that is carried on.
func (m *Image) Pad(w, h, left, top int, on Covered) *Image {
	out := Unset(w, h)
	for y := range m.H {
		copy(out.Row(top + y)[left*3:], m.Row(y))
	}
	right, bottom := left+m.W, top+m.H
	deep := min(grainDeep, m.W)
	if left > 0 {
		l, _ := m.sideColours(0, on)
		g := m.grain(deep, m.H, func(d, y int) (int, int) { return d, y }, on)
		for y, c := range l.smooth() {
			row := out.Row(top + y)
			for x := range left {
				put(row[x*3:x*3+3], c, g.at(left - 1 - x)[y])
			}
		}
	}
	if right < w {
		l, _ := m.sideColours(m.W-strip, on)
		g := m.grain(deep, m.H, func(d, y int) (int, int) { return m.W - 1 - d, y }, on)
		for y, c := range l.smooth() {
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
		if inner := on; on != nil {
			on = func(x, y int) bool { return x >= left && x < right && inner(x-left, y) }
		}
	}
	deep = min(grainDeep, m.H)
	if top > 0 {
		l, _ := band.rowEndColours(0, on)
		line, g := l.smooth(), band.grain(deep, w, func(d, x int) (int, int) { return x, d }, on)
		for y := range top {
			g.row(out.Row(y), line, top-1-y)
		}
	}
	if bottom < h {
		l, _ := band.rowEndColours(m.H-strip, on)
		line, g := l.smooth(), band.grain(deep, w, func(d, x int) (int, int) { return x, m.H - 1 - d }, on)
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

// evenly is how much stronger than the median, in the mean of a place, grain may
// be and still be grain.
const evenly = 2

// even weakens the grain where it is much stronger than elsewhere: what a JPEG left
// around a leg shows as a ghost of it beyond the edge.
func (g grain) even() {
	n := len(g[0])
	strength := make([]int32, 0, len(g)*n)
	for _, line := range g {
		for _, c := range line {
			strength = append(strength, abs(c[0])+abs(c[1])+abs(c[2]))
		}
	}
	sorted := slices.Clone(strength)
	slices.Sort(sorted)
	most := evenly * int64(sorted[len(sorted)/2])
	reach := max(n/96, 4)
	for d, line := range g {
		var sum int64
		of := strength[d*n : (d+1)*n]
		at := func(i int) int64 { return int64(of[min(max(i, 0), n-1)]) }
		for i := -reach; i <= reach; i++ {
			sum += at(i)
		}
		for i := range line {
			if wide := int64(2*reach + 1); sum > most*wide {
				for k, v := range line[i] {
					line[i][k] = int32(int64(v) * most * wide / sum)
				}
			}
			sum += at(i+reach+1) - at(i-reach)
		}
	}
}

func abs(v int32) int32 { return max(v, -v) }

// grain takes the grain of deep lines of n pixels each; at tells where the ith
// pixel of the line at depth d is. What is covered lends none.
func (m *Image) grain(deep, n int, at func(d, i int) (x, y int), on Covered) grain {
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
			if x, y := at(d, i); on != nil && on(x, y) {
				continue
			}
			for k, v := range c {
				most := int32(soft[i][k])/16 + 64 // what stands out more is no grain
				g[d][i][k] = min(max(int32(v)-int32(soft[i][k]), -most), most)
			}
		}
	}

	g.even()
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

// mean is the mean colour of what of a box of m is not covered, and whether that
// is half of it at least.
func (m *Image) mean(x, y, w, h int, on Covered) (c [3]uint16, open bool) {
	var sum [3]int
	n := 0
	for j := range h {
		row := m.Row(y + j)[x*3 : (x+w)*3]
		for i := range w {
			if on != nil && on(x+i, y+j) {
				continue
			}
			n++
			for k, v := range row[i*3 : i*3+3] {
				sum[k] += int(v)
			}
		}
	}
	for k := range c {
		c[k] = uint16(sum[k] / max(n, 1))
	}
	return c, 2*n >= w*h
}

// sameButLight reports whether a colour could be another under slightly more or less
// light.
func sameButLight(c, other [3]uint16) bool {
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
		if !sameButLight(c, soft[i]) {
			calm[i] = soft[i]
		}
	}
	return calm.blurred().blurred()
}

// lineReach is how far, as a part of a line's length, the mean reaches that
// smooths it: what is finer would show as a streak beyond the edge.
const lineReach = 24

// blurred returns the line with each colour the mean of a twelfth of the line
// around it; beyond its ends it repeats them.
func (l Line) blurred() Line {
	n := len(l)
	reach := max(n/lineReach, 1)
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
