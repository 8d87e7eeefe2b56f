package measure

import (
	"math"
	"slices"

	"slabfolio/imaging/equations"
)

// Corners and straight sides of an outline on the plane, mm.
const (
	cornerTurn  = 50.0 // degrees by which the outline turns at a corner, at least
	cornerGap   = 30.0 // to either side of a corner that belong to neither side
	cornerArm   = 60.0 // beyond that which tell the direction
	cutLeast    = 80.0 // of a straight cut
	cutStraight = 0.6  // by which the points of a straight cut may stand off it
)

// A cut is a straight side of the outline on the plane: n · p = c, n outwards.
type cut struct {
	n Point
	c float64
}

// A side is a stretch of the ring from one corner to the next.
type side struct {
	from, to int // indices of the ring; to may be less than from
	cut      *cut
}

// sidesOf parts a ring on the plane at its corners and finds which sides are straight.
func sidesOf(flat []Point) []side {
	n := len(flat)
	at := make([]float64, n+1)
	for i, p := range flat {
		q := flat[(i+1)%n]
		at[i+1] = at[i] + math.Hypot(q.X-p.X, q.Y-p.Y)
	}
	pitch := at[n] / float64(n)
	gap, arm := max(int(cornerGap/pitch), 1), max(int(cornerArm/pitch), 1)
	if 6*(gap+arm) > n {
		return nil
	}
	dir := func(a, b int) Point {
		p, q := flat[((a%n)+n)%n], flat[((b%n)+n)%n]
		l := math.Max(math.Hypot(q.X-p.X, q.Y-p.Y), 1e-9)
		return Point{X: (q.X - p.X) / l, Y: (q.Y - p.Y) / l}
	}
	turn := make([]float64, n)
	for i := range turn {
		a, b := dir(i-gap-arm, i-gap), dir(i+gap, i+gap+arm)
		turn[i] = math.Acos(clamp(a.X*b.X+a.Y*b.Y, -1, 1)) * 180 / math.Pi
	}
	// The middle of each stretch that turns.
	var corners []int
	start := slices.IndexFunc(turn, func(v float64) bool { return v < cornerTurn })
	if start < 0 {
		return nil
	}
	for i := 0; i < n; i++ {
		k := (start + i) % n
		if turn[k] < cornerTurn {
			continue
		}
		long := 0
		for long < n && turn[(k+long)%n] >= cornerTurn {
			long++
		}
		corners = append(corners, (k+long/2)%n)
		i += long
	}
	if len(corners) < 2 {
		return nil
	}
	var out []side
	for k, c := range corners {
		s := side{from: c, to: corners[(k+1)%len(corners)]}
		s.cut = cutThrough(flat, s, gap)
		out = append(out, s)
	}
	return out
}

// cutThrough is the straight line through a side; nil where it is none.
func cutThrough(flat []Point, s side, gap int) (found *cut) {
	n := len(flat)
	long := (s.to - s.from + n) % n
	var p []Point
	for i := gap; i <= long-gap; i++ {
		p = append(p, flat[(s.from+i)%n])
	}
	if len(p) < 8 || math.Hypot(p[0].X-p[len(p)-1].X, p[0].Y-p[len(p)-1].Y) < cutLeast {
		return nil
	}
	all := len(p)
	for range 3 {
		c, off := lineThrough(p)
		limit := math.Max(2.5*1.4826*median(slices.Clone(off)), 0.05)
		if 1.4826*median(slices.Clone(off)) > cutStraight {
			return nil
		}
		var kept []Point
		for i, q := range p {
			if off[i] <= limit {
				kept = append(kept, q)
			}
		}
		if 4*len(kept) < 3*all {
			return nil
		}
		p = kept
		if c.inside(flat[(s.from+long/2+n/2)%n]) < 0 {
			c.n.X, c.n.Y, c.c = -c.n.X, -c.n.Y, -c.c
		}
		found = &c
	}
	return found
}

// lineThrough fits a line by least squares across it, and tells how far each point
// lies off it.
func lineThrough(p []Point) (c cut, off []float64) {
	var mx, my, xx, xy, yy float64
	for _, q := range p {
		mx, my = mx+q.X/float64(len(p)), my+q.Y/float64(len(p))
	}
	for _, q := range p {
		dx, dy := q.X-mx, q.Y-my
		xx, xy, yy = xx+dx*dx, xy+dx*dy, yy+dy*dy
	}
	phi := math.Atan2(2*xy, xx-yy) / 2
	sin, cos := math.Sincos(phi)
	c = cut{n: Point{X: -sin, Y: cos}, c: -sin*mx + cos*my}
	for _, q := range p {
		off = append(off, math.Abs(c.n.X*q.X+c.n.Y*q.Y-c.c))
	}
	return c, off
}

// A nearLine is a side of the outline close to its corner: at the corner it runs
// through at along dir towards the cut and bends by bend mm a mm².
type nearLine struct {
	at, dir, in Point // in: square to it, inwards
	bend        float64
}

// place is the place s mm along the line (0 at the cut, less within), d mm inwards.
func (l nearLine) place(s, d float64) Point {
	d -= l.bend * s * s
	return Point{X: l.at.X + s*l.dir.X + d*l.in.X, Y: l.at.Y + s*l.dir.Y + d*l.in.Y}
}

// sideNear fits a side near its corner with a cut by a parabola: to the ring first, then
// to where the photo shows its outermost line there.
func (j *job) sideNear(flat []Point, s side, c *cut, atEnd bool, m plane) (nearLine, bool) {
	n := len(flat)
	long := (s.to - s.from + n) % n
	var p []Point
	for i := range long {
		k := (s.from + i) % n
		if atEnd {
			k = (s.to - i + n) % n
		}
		d := c.inside(flat[k])
		if d > 20 && d < 110 {
			p = append(p, flat[k])
		}
		if d > 200 {
			break
		}
	}
	l, ok := lineNear(p, c, atEnd)
	if !ok {
		return l, false
	}
	for range 2 {
		p = p[:0]
		for x := -60.0; x <= -8; x++ {
			q := l.place(x, 0)
			a, b := m.apply(q), m.apply(Point{X: q.X + l.in.X, Y: q.Y + l.in.Y})
			k := math.Hypot(b.X-a.X, b.Y-a.Y)
			if off, ok := j.topEdge(a, Point{X: (b.X - a.X) / k, Y: (b.Y - a.Y) / k}, 3); ok {
				p = append(p, l.place(x, off/k))
			}
		}
		slices.Reverse(p)
		if fine, ok := lineNear(p, c, atEnd); ok {
			l = fine
		}
	}
	return l, true
}

// lineNear fits a parabola to points of a side, the one nearest to the cut first.
func lineNear(p []Point, c *cut, atEnd bool) (nearLine, bool) {
	if len(p) < 6 {
		return nearLine{}, false
	}
	near, far := p[0], p[len(p)-1]
	l := math.Hypot(near.X-far.X, near.Y-far.Y)
	if l < 30 {
		return nearLine{}, false
	}
	dir := Point{X: (near.X - far.X) / l, Y: (near.Y - far.Y) / l}
	in := Point{X: -dir.Y, Y: dir.X}
	if !atEnd {
		in = Point{X: dir.Y, Y: -dir.X}
	}
	// Where the line through both meets the cut.
	k := c.n.X*dir.X + c.n.Y*dir.Y
	if k < 0.5 {
		return nearLine{}, false
	}
	u := c.inside(near) / k
	o := Point{X: near.X + u*dir.X, Y: near.Y + u*dir.Y}
	us, vs := make([]float64, len(p)), make([]float64, len(p))
	for i, q := range p {
		us[i], vs[i] = (q.X-o.X)*dir.X+(q.Y-o.Y)*dir.Y, (q.X-o.X)*in.X+(q.Y-o.Y)*in.Y
	}
	var x []float64
	var weight []float64
	for range 4 {
		var ok bool
		if x, ok = parabola(us, vs, weight); !ok {
			return nearLine{}, false
		}
		off := make([]float64, len(p))
		for i := range off {
			off[i] = vs[i] - x[0] - x[1]*us[i] - x[2]*us[i]*us[i]
		}
		weight = make([]float64, len(p))
		limit := 4.7 * math.Max(1.4826*median(absolute(off)), 0.02)
		for i, v := range off {
			weight[i] = math.Pow(math.Max(1-v*v/(limit*limit), 0), 2)
		}
	}
	slope := math.Hypot(1, x[1])
	return nearLine{
		at:   Point{X: o.X + x[0]*in.X, Y: o.Y + x[0]*in.Y},
		dir:  Point{X: (dir.X + x[1]*in.X) / slope, Y: (dir.Y + x[1]*in.Y) / slope},
		in:   Point{X: (in.X - x[1]*dir.X) / slope, Y: (in.Y - x[1]*dir.Y) / slope},
		bend: -x[2],
	}, true
}

// parabola fits v = a + b·u + c·u² by least squares; weight nil: all alike.
func parabola(us, vs, weight []float64) ([]float64, bool) {
	rows := [][]float64{make([]float64, 4), make([]float64, 4), make([]float64, 4)}
	for i, u := range us {
		w := 1.0
		if weight != nil {
			w = weight[i]
		}
		power := [3]float64{1, u, u * u}
		for r := range 3 {
			for c := range 3 {
				rows[r][c] += w * power[r] * power[c]
			}
			rows[r][3] += w * power[r] * vs[i]
		}
	}
	return equations.Solve(rows)
}

func absolute(v []float64) []float64 {
	out := make([]float64, len(v))
	for i, x := range v {
		out[i] = math.Abs(x)
	}
	return out
}
