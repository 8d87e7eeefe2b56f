package pixel

import (
	"math"
	"math/bits"
)

const (
	softCells = 192  // the longer side of a picture in the cells that a soft ground is worked out in
	softSteps = 5    // levels of blur, each twice as wide as the one before
	softDeep  = 0.04 // of a side of the photo: so much of it beside an edge is carried on from there; more, and things beside the edge show as ghosts
	softGrow  = 0.8  // how much wider the blur is a pixel farther from the photo, in pixels: more, and a skirting ends at the edge
	softTrace = 0.04 // of a full cell: what is covered takes so much from the next wider level
	softGrain = 0.07 // of white, in square roots of light: what stands out more is no grain
	softMelt  = 2    // cells beside the photo in which its sharp lines are lost
	softReach = 0.12 // of the longer side: there the last of the grain is gone
)

// OnSoftGround returns a picture of w × h with m at (left, top), which must fit, and
// around it a soft ground: the photo mirrored at its edge and blurred the more
// the farther from it. So a wall stays of the colour of the wall and a floor of
// that of the floor, no line shows where the photo ends, and nothing is seen that
// could be taken for a thing. The fine grain of the photo fades with the
// distance. What on covers lends nothing to it.
func (m *Image) OnSoftGround(w, h, left, top int, on Covered) *Image {
	out := Unset(w, h)
	g := m.softGround(w, h, left, top, on)
	for y := range h {
		row := out.Row(y)
		if in := y - top; in >= 0 && in < m.H {
			copy(row[left*3:], m.Row(in))
			g.paint(row, y, 0, left)
			g.paint(row, y, left+m.W, w)
		} else {
			g.paint(row, y, 0, w)
		}
	}
	return out
}

// softGround is what a soft ground is made from.
type softGround struct {
	m      *Image
	size   int   // of a cell, in pixels
	cw, ch int   // in cells
	xs, ys []int // where in the photo each column and row comes from
	dx, dy []int // how far from the photo each is
	reach  float64
	levels [][]cell // of blur
	across []spot1  // where each column lies among the cells
	down   []spot1
	rows   [softSteps + 1][][3]float64 // the levels along the row that is painted
}

// A cell is a colour in square roots of light, and the weight that it has.
type cell [4]float64

// A spot1 is where a pixel lies among the cells of a row or a column.
type spot1 struct {
	in, next int // between the middles of these two
	f        float64
	own      int // the one that it lies in
}

// carried tells for each of n places where it comes from in a photo of has places from
// at on, where what is beyond its ends is the outermost part of it mirrored to
// and fro, and how far from the photo it is; and which places of the photo are of
// such a part.
func carried(n, at, has int) (from, away []int, lends []bool) {
	deep := max(int(softDeep*float64(has)), 1)
	from, away, lends = make([]int, n), make([]int, n), make([]bool, has)
	for i := range from {
		x := i - at
		off := max(-1-x, x-has)
		if off < 0 {
			from[i] = x
			continue
		}
		away[i] = off + 1
		off %= 2 * deep
		off = min(off, 2*deep-1-off, has-1)
		if from[i] = off; x > 0 {
			from[i] = has - 1 - off
		}
	}
	for i := range lends {
		lends[i] = at > 0 && i < deep || at+has < n && i >= has-deep
	}
	return from, away, lends
}

// spots tells where each of n pixels lies among cells of a size.
func spots(n, size int) []spot1 {
	s, last := make([]spot1, n), (n-1)/size
	for i := range s {
		u := math.Max(0, math.Min((float64(i)+0.5)/float64(size)-0.5, float64(last)))
		s[i] = spot1{int(u), min(int(u)+1, last), u - math.Floor(u), i / size}
	}
	return s
}

// softGround makes the levels of blur of m carried on over all of w × h.
func (m *Image) softGround(w, h, left, top int, on Covered) *softGround {
	size := max(1, (max(w, h)+softCells-1)/softCells)
	g := &softGround{m: m, size: size, cw: (w + size - 1) / size, ch: (h + size - 1) / size, reach: softReach * float64(max(w, h))}
	var lendX, lendY []bool
	g.xs, g.dx, lendX = carried(w, left, m.W)
	g.ys, g.dy, lendY = carried(h, top, m.H)
	g.across, g.down = spots(w, size), spots(h, size)
	lends := func(x, y int) bool { return (on == nil || !on(x, y)) && (lendX[x] || lendY[y]) }
	v := g.lent(lends)
	if v == nil {
		v = g.lent(func(x, y int) bool { return true })
	}
	g.levels = [][]cell{v}
	for i := range softSteps {
		g.levels = append(g.levels, g.blurred(g.levels[i], 1<<i))
	}
	g.fill()
	for l := range g.rows {
		g.rows[l] = make([][3]float64, g.cw)
	}
	return g
}

// lent is the mean of the photo, carried on, in each cell whose middle lends its
// colour; nil where none does.
func (g *softGround) lent(lends func(x, y int) bool) []cell {
	v := make([]cell, g.cw*g.ch)
	any := false
	for j := range g.ch {
		for i := range g.cw {
			x0, y0 := i*g.size, j*g.size
			x1, y1 := min(x0+g.size, len(g.xs)), min(y0+g.size, len(g.ys))
			if !lends(g.xs[(x0+x1)/2], g.ys[(y0+y1)/2]) {
				continue
			}
			any = true
			c := &v[j*g.cw+i]
			for _, y := range g.ys[y0:y1] {
				row := g.m.Row(y)
				for _, x := range g.xs[x0:x1] {
					for k, p := range row[x*3 : x*3+3] {
						c[k] += math.Sqrt(float64(p))
					}
				}
			}
			n := float64((x1 - x0) * (y1 - y0))
			*c = cell{c[0] / n, c[1] / n, c[2] / n, 1}
		}
	}
	if !any {
		return nil
	}
	return v
}

// blurred is each cell the mean of a square of 2·r+1 cells around it, twice.
func (g *softGround) blurred(v []cell, r int) []cell {
	out := append([]cell(nil), v...)
	line := make([]cell, max(g.cw, g.ch))
	for range 2 {
		for y := range g.ch {
			sweep(out[y*g.cw:], line[:g.cw], 1, r)
		}
		for x := range g.cw {
			sweep(out[x:], line[:g.ch], g.cw, r)
		}
	}
	return out
}

// sweep replaces the values of a line, step apart, by the mean of those within r of
// each; beyond the ends they are repeated. line is room for a copy of them.
func sweep(v, line []cell, step, r int) {
	n := len(line)
	for i := range line {
		line[i] = v[i*step]
	}
	var sum cell
	for i := -r; i <= r; i++ {
		for k, a := range line[min(max(i, 0), n-1)] {
			sum[k] += a
		}
	}
	scale := 1 / float64(2*r+1)
	for i := range n {
		in, gone := &line[min(i+r+1, n-1)], &line[max(i-r, 0)]
		for k, s := range sum {
			v[i*step][k] = float64(s * scale)
			sum[k] += in[k] - gone[k]
		}
	}
}

// fill makes colours of the weighted ones, from the widest level to the finest:
// where a cell has hardly a weight, the next wider level is what there is.
func (g *softGround) fill() {
	for l := len(g.levels) - 1; l >= 0; l-- {
		v := g.levels[l]
		for i, p := range v {
			least := 0.0
			var wider cell
			if l+1 < len(g.levels) {
				least, wider = softTrace, g.levels[l+1][i]
			}
			sum := math.Max(p[3]+least, 1e-6)
			for k := range 3 {
				v[i][k] = (p[k] + float64(least*wider[k])) / sum
			}
		}
	}
}

// paint paints the columns from x0 to x1 of row y.
func (g *softGround) paint(row []uint16, y, x0, x1 int) {
	if x0 >= x1 {
		return
	}
	d, cells := g.down[y], g.levels[0]
	for l, v := range g.levels {
		a, b := v[d.in*g.cw:], v[d.next*g.cw:]
		for i := range g.rows[l] {
			for k := range 3 {
				g.rows[l][i][k] = a[i][k] + float64(d.f*(b[i][k]-a[i][k]))
			}
		}
	}
	photo := g.m.Row(g.ys[y])
	for x := x0; x < x1; x++ {
		away, s := max(g.dx[x], g.dy[y]), g.across[x]
		c := g.colour(away, s)
		if fade := 1 - float64(away)/g.reach; fade > 0 && cells[d.own*g.cw+s.own][3] > 0.5 {
			near := math.Max(0, 1-float64(away)/float64(softMelt*g.size))
			g.addGrain(&c, fade*fade, near*near, s, photo[g.xs[x]*3:])
		}
		for k, v := range c {
			row[x*3+k] = uint16(math.Max(0, math.Min(65535, float64(v*v)+0.5)))
		}
	}
}

// colour is that of a pixel so far from the photo, in the row that is painted.
func (g *softGround) colour(away int, s spot1) (c [3]float64) {
	q := 1 + float64(softGrow*float64(away))/float64(g.size) // the width of the blur in cells
	l := min(bits.Len(uint(q))-1, softSteps-1)
	t := math.Min(q/float64(int(1)<<l)-1, 1)
	a, b := between(g.rows[l], s), between(g.rows[l+1], s)
	for k := range c {
		c[k] = a[k] + float64(t*(b[k]-a[k]))
	}
	return c
}

func between(row [][3]float64, s spot1) (c [3]float64) {
	a, b := &row[s.in], &row[s.next]
	for k := range c {
		c[k] = a[k] + float64(s.f*(b[k]-a[k]))
	}
	return c
}

// addGrain adds a share of what the photo's pixel that a colour comes from has beyond
// its cell: less where that stands out, but all of it near the photo, 1 at its edge.
func (g *softGround) addGrain(c *[3]float64, share, near float64, s spot1, photo []uint16) {
	base, most := between(g.rows[0], s), 0.0
	var grain [3]float64
	for k, v := range photo[:3] {
		grain[k] = math.Sqrt(float64(v)) - base[k]
		most = math.Max(most, math.Abs(grain[k]))
	}
	most /= softGrain * 256
	most *= most
	share /= 1 + float64(most*most)
	share += float64(near * (1 - share))
	for k := range c {
		c[k] += float64(share * grain[k])
	}
}
