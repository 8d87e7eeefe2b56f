package pixel

import (
	"slices"

	"slabfolio/imaging/spare"
)

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
// edge instead, smoothed, the grain beside it, without which it would show
// as bands, and next to the edge what is mottled there, which fades out and is not
// mirrored: folds of a cloth would meet their own image. Where on covers the edge, the backdrop beside that is carried on.
func (m *Image) Pad(w, h, left, top int, on Covered) *Image {
	out := Unset(w, h)
	for y := range m.H {
		copy(out.Row(top + y)[left*3:], m.Row(y))
	}
	right, bottom := left+m.W, top+m.H
	if left > 0 {
		l, _ := m.sideColours(0, on)
		e := m.beyond(l.smooth(), m.W, func(d, y int) (int, int) { return d, y }, on)
		for y := range m.H {
			row := out.Row(top + y)
			for x := range left {
				e.put(row[x*3:x*3+3:x*3+3], y, left-1-x)
			}
		}
		e.release()
	}
	if right < w {
		l, _ := m.sideColours(m.W-strip, on)
		e := m.beyond(l.smooth(), m.W, func(d, y int) (int, int) { return m.W - 1 - d, y }, on)
		for y := range m.H {
			row := out.Row(top + y)
			for x := right; x < w; x++ {
				e.put(row[x*3:x*3+3:x*3+3], y, x-right)
			}
		}
		e.release()
	}
	// Above and below, the sides that were just made included.
	band := m
	if m.W < w {
		band = out.Cut(0, top, w, m.H)
		if inner := on; on != nil {
			on = func(x, y int) bool { return x >= left && x < right && inner(x-left, y) }
		}
	}
	if top > 0 {
		l, _ := band.rowEndColours(0, on)
		e := band.beyond(l.smooth(), m.H, func(d, x int) (int, int) { return x, d }, on)
		for y := range top {
			e.row(out.Row(y), top-1-y)
		}
		e.release()
	}
	if bottom < h {
		l, _ := band.rowEndColours(m.H-strip, on)
		e := band.beyond(l.smooth(), m.H, func(d, x int) (int, int) { return x, m.H - 1 - d }, on)
		for y := bottom; y < h; y++ {
			e.row(out.Row(y), y-bottom)
		}
		e.release()
	}
	return out
}

// A margin is what is carried on beyond an edge: its colours, the grain beside it, and
// what the edge itself has that is coarser than grain. Both the coarse and what
// the colours along the edge have of bends go out with the distance.
type margin struct {
	line, far Line    // colours next to the edge, and farAway from it
	fine      grain   // of the lines beside the edge
	coarse    grain   // of the edge: one line
	fade      []int32 // how much of the coarse is left at a depth, of 256
	farAway   int
}

// How many lines beside an edge lend their grain, at the least and as a part of the
// edge's length; what is finer than fineReach pixels either way is grain. Colours are
// those of the edge smoothed over a part of its length, farReach, at as great a distance.
const (
	grainDeep  = 16
	grainShare = 24
	fineReach  = 2
	edgeLines  = 3 // that make up the edge itself
	farReach   = 6
)

// beyond takes the margin of an edge of so many pixels as line has; across is how many
// there are inwards, and at tells where the ith pixel of the line at depth d is. What is
// covered lends nothing.
func (m *Image) beyond(line Line, across int, at func(d, i int) (x, y int), on Covered) *margin {
	n := len(line)
	deep := min(max(grainDeep, n/grainShare), across)
	reach := max(n/farReach, 1)
	e := &margin{line, line.mean(reach), newGrain(deep, n), newGrain(1, n), make([]int32, deep), reach}
	clear(e.coarse.v)
	near := min(edgeLines, deep)
	most := make([]int32, 3*n) // what stands out more is none of the backdrop
	for i, c := range line {
		for k, v := range c {
			most[3*i+k] = int32(v)/16 + 64
		}
	}
	own, soft := make(Line, n), make(Line, n)
	for d := range deep {
		for i := range own {
			x, y := at(d, i)
			own[i] = [3]uint16(m.Pix[(y*m.W+x)*3:])
		}
		own.meanInto(soft, fineReach)
		t := float64(d) / float64(deep)
		e.fade[d] = int32(256 * (1 - t) * (1 - t) * (1 + 2*t))
		fine := e.fine.line(d)
		for i := range own {
			f, c := fine[3*i:3*i+3:3*i+3], e.coarse.v[3*i:3*i+3:3*i+3]
			if x, y := at(d, i); on != nil && on(x, y) {
				clear(f)
				continue
			}
			o, s, l, w := &own[i], &soft[i], &line[i], most[3*i:3*i+3:3*i+3]
			for k := range 3 {
				f[k] = min(max(int32(o[k])-int32(s[k]), -w[k]), w[k])
				if d < near {
					c[k] += min(max(int32(s[k])-int32(l[k]), -w[k]), w[k]) / int32(near)
				}
			}
		}
	}
	e.noStreaks()
	e.fine.even()
	e.coarse.even()
	return e
}

// release gives the margin's memory to the next.
func (e *margin) release() {
	spare.Give(e.fine.v)
	spare.Give(e.coarse.v)
	*e = margin{}
}

// noStreaks takes what the grain has all along its depth for the edge's own: mirrored to and
// fro, it would be a line to the end of the picture.
func (e *margin) noStreaks() {
	mean := make([]int32, 3*e.fine.n)
	for d := range e.fine.deep {
		for i, v := range e.fine.line(d) {
			mean[i] += v
		}
	}
	for i := range mean {
		mean[i] /= int32(e.fine.deep)
		e.coarse.v[i] += mean[i]
	}
	for d := range e.fine.deep {
		fine := e.fine.line(d)
		for i, v := range mean {
			fine[i] -= v
		}
	}
}

// put sets a pixel to what the ith of the edge is carried on with at depth d.
func (e *margin) put(p []uint16, i, d int) {
	v := [3]int32(e.fine.at(d)[3*i:])
	if d < len(e.fade) {
		for k, o := range e.coarse.v[3*i : 3*i+3] {
			v[k] += o * e.fade[d] >> 8
		}
	}
	a, b, far := &e.line[i], &e.far[i], e.farAt(d)
	for k, o := range v {
		c := int32(a[k])
		p[k] = uint16(min(max(c+(int32(b[k])-c)*far>>8+o, 0), 65535))
	}
}

// farAt is how much of far there is at a depth, of 256.
func (e *margin) farAt(d int) int32 { return int32(min(256*d/e.farAway, 256)) }

// row is put for a whole row at depth d.
func (e *margin) row(row []uint16, d int) {
	if d < len(e.fade) {
		for i := range e.line {
			e.put(row[i*3:i*3+3:i*3+3], i, d)
		}
		return
	}
	fine, far := e.fine.at(d), e.farAt(d)
	for i := range e.line {
		a, b, v, p := &e.line[i], &e.far[i], fine[i*3:i*3+3:i*3+3], row[i*3:i*3+3:i*3+3]
		for k := range 3 {
			c := int32(a[k])
			p[k] = uint16(min(max(c+(int32(b[k])-c)*far>>8+v[k], 0), 65535))
		}
	}
}

// A grain is by how much the lines beside an edge, n pixels long, are off from
// something smoother: three values a pixel, line by line.
type grain struct {
	deep, n int
	v       []int32 // in memory from spare
}

func newGrain(deep, n int) grain { return grain{deep, n, spare.Take[int32](3 * deep * n)} }

// line is the line at a depth.
func (g grain) line(d int) []int32 { return g.v[3*g.n*d : 3*g.n*(d+1) : 3*g.n*(d+1)] }

// evenly is how much stronger than the median, in the mean of a place, grain may
// be and still be grain.
const evenly = 2

// even weakens the grain where it is much stronger than elsewhere: what a JPEG left
// around a leg shows as a ghost of it beyond the edge.
func (g grain) even() {
	strength := spare.Take[int32](g.deep * g.n)
	defer spare.Give(strength)
	for i := range strength {
		c := g.v[3*i : 3*i+3 : 3*i+3]
		strength[i] = abs(c[0]) + abs(c[1]) + abs(c[2])
	}
	var some []int32 // enough for a median
	for i := 0; i < len(strength); i += max(1, len(strength)/4000) {
		some = append(some, strength[i])
	}
	slices.Sort(some)
	most := evenly * int64(some[len(some)/2])
	reach := max(g.n/96, 4)
	for d := range g.deep {
		line, of := g.line(d), strength[d*g.n:(d+1)*g.n]
		at := func(i int) int64 { return int64(of[min(max(i, 0), len(of)-1)]) }
		var sum int64
		for i := -reach; i <= reach; i++ {
			sum += at(i)
		}
		for i := range of {
			if wide := int64(2*reach + 1); sum > most*wide {
				for k, v := range line[3*i : 3*i+3] {
					line[3*i+k] = int32(int64(v) * most * wide / sum)
				}
			}
			sum += at(i+reach+1) - at(i-reach)
		}
	}
}

func abs(v int32) int32 { return max(v, -v) }

// at returns the line of grain for depth d: mirrored to and fro where the border
// is deeper than the grain.
func (g grain) at(d int) []int32 {
	d %= 2 * g.deep
	if d >= g.deep {
		d = 2*g.deep - 1 - d
	}
	return g.line(d)
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
func (l Line) blurred() Line { return l.mean(max(len(l)/lineReach, 1)) }

// mean returns the line with each colour the mean of those up to reach away; beyond
// its ends it repeats them.
func (l Line) mean(reach int) Line {
	out := make(Line, len(l))
	l.meanInto(out, reach)
	return out
}

// meanInto is mean into a line that is there.
func (l Line) meanInto(out Line, reach int) {
	n := len(l)
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
}
