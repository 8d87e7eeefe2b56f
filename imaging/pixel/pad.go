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
// edge instead, smoothed.
func (m *Image) Pad(w, h, left, top int) *Image {
	out := New(w, h)
	for y := range m.H {
		copy(out.Row(top + y)[left*3:], m.Row(y))
	}
	right, bottom := left+m.W, top+m.H
	l, r := m.down(0, 0, m.H).smooth(), m.down(m.W-strip, 0, m.H).smooth()
	for y := range m.H {
		row := out.Row(top + y)
		fill(row[:left*3], l[y])
		fill(row[right*3:], r[y])
	}
	carry := func(from, to, edge int) {
		if from >= to {
			return
		}
		line := out.Cut(0, edge, w, min(strip, m.H)).along(0, 0, w).smooth()
		for y := from; y < to; y++ {
			row := out.Row(y)
			for x, c := range line {
				fill(row[x*3:x*3+3], c)
			}
		}
	}
	carry(0, top, top)
	carry(bottom, h, max(bottom-strip, top))
	return out
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
// around it.
func (l Line) blurred() Line {
	n := len(l)
	reach := max(n/12, 1)
	out := make(Line, n)
	at := func(i int) [3]uint16 { return l[min(max(i, 0), n-1)] }
	var sum [3]int
	for i := -reach; i <= reach; i++ {
		for k, v := range at(i) {
			sum[k] += int(v)
		}
	}
	for i := range out {
		for k := range sum {
			out[i][k] = uint16(sum[k] / (2*reach + 1))
			sum[k] += int(at(i + reach + 1)[k]) - int(at(i - reach)[k])
		}
	}
	return out
}

// fill sets every pixel of a row to one colour.
func fill(row []uint16, c [3]uint16) {
	for ; len(row) >= 3; row = row[3:] {
		row[0], row[1], row[2] = c[0], c[1], c[2]
	}
}
