package measure

import (
	"math"
	"slices"

	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
)

// A lens bends straight lines: what a lens without a fault would show r off the middle of
// the photo is seen at r·(1 + k·r²/R²), R being half the photo's diagonal, so that k is the
// share at a corner (the first radial term of Brown, "Close-range camera calibration",
// Photogrammetric Engineering 37(8), 1971). k is what makes straight edges straight, the
// plumb-line method of that paper; lines are found and weighed after Devernay and Faugeras,
// "Straight lines have to be straight", Machine Vision and Applications 13, 2001. Both from
// memory.
const (
	plumbLeast    = 0.10   // of the photo's longer side: what is shorter bends too little
	plumbOff      = 0.7    // pixels of the copy by which a patch of edge may stand off a parabola
	plumbStations = 64     // places along a line
	plumbFound    = 0.7    // of them at which an edge has to be seen
	plumbRest     = 0.5    // pixels of the photo by which the places may stand off the line, once it is unbent
	plumbTrue     = 0.0004 // of its length by which a straight edge is not (common practice, no source)
	plumbMost     = 0.06   // share at the corner: no lens of a camera bends more
	plumbWeak     = 0.02   // a line that tells k no better tells nothing
	plumbAgree    = 0.7    // of the weight of all lines has to agree
	plumbLines    = 5.0    // as many lines, or more of uneven weight, have to tell: two sides of a top that belly out are none
	plumbBetter   = 0.4    // times as far off as plumbTrue has it lines may prove to be, by how they agree
	plumbSure     = 4.0    // standard deviations from 0 at which it is undone
	plumbSmall    = 0.0015 // share at the corner that is left
)

// A bend is how much the lens bends the photo, as a share at its corner, and half of its
// 90 % range.
type bend struct{ k, give float64 }

// A plumb is what one line tells of it, and its standard deviation.
type plumb struct{ k, sigma float64 }

// lensBend tells the bend from the straight edges in the photo; ok is false where these
// are too few, or do not agree.
func (j *job) lensBend() (b bend, ok bool) {
	var all []plumb
	for _, line := range j.copy.longEdges() {
		if p, ok := j.plumbOf(line); ok {
			all = append(all, p)
		}
	}
	return agreed(all)
}

// agreed is the bend that most of the lines tell, by weight.
func agreed(all []plumb) (bend, bool) {
	score := func(k float64) (s float64) {
		for _, p := range all {
			d := (k - p.k) / (4.7 * p.sigma)
			s += math.Pow(math.Max(1-d*d, 0), 2) / (p.sigma * p.sigma)
		}
		return s
	}
	best, k := 0.0, 0.0
	for at := -plumbMost; at <= plumbMost; at += 0.0005 {
		if s := score(at); s > best {
			best, k = s, at
		}
	}
	var whole float64
	for _, p := range all {
		whole += 1 / (p.sigma * p.sigma)
	}
	for range 4 {
		var sum, sumK, squares, off, in float64
		for _, p := range all {
			w := 1 / (p.sigma * p.sigma)
			if math.Abs(p.k-k) > 3*p.sigma {
				continue
			}
			in++
			sum, sumK, squares, off = sum+w, sumK+w*p.k, squares+w*w, off+w*(p.k-k)*(p.k-k)
		}
		if sum == 0 || sum < plumbAgree*whole || sum*sum < plumbLines*squares {
			return bend{}, false
		}
		k = sumK / sum
		// Lines that agree less well than each says are each worth less; better, more.
		best = math.Max(plumbBetter, math.Sqrt(off/math.Max(in-1, 1))) / math.Sqrt(sum)
	}
	return bend{k, z90 * best}, true
}

// sure reports whether a bend is to be undone.
func (b bend) sure() bool {
	return math.Abs(b.k) > math.Max(plumbSure*b.give/z90, plumbSmall)
}

// left is how much bend the photo may have where it is not undone.
func (b bend) left() float64 {
	if math.Abs(b.k)+b.give < lensGive {
		return math.Abs(b.k) + b.give
	}
	return math.Max(lensGive, math.Abs(b.k))
}

// longEdges are the patches of edge of the copy that are long and bend evenly, as places
// along each, with the brighter side on the right.
func (c *small) longEdges() [][]Point {
	gx, gy, mag := c.slopes()
	used := make([]bool, len(mag))
	var out [][]Point
	least := plumbLeast * float64(max(c.w, c.h))
	for i, v := range mag {
		if v < leastSlope || used[i] {
			continue
		}
		list := c.grow(i, gx, gy, mag, used)
		if float64(len(list)) < least {
			continue
		}
		var sx, sy float64
		for _, k := range list {
			sx, sy = sx+float64(gx[k]), sy+float64(gy[k])
		}
		s, _, _ := c.fitStretch(list, sx, sy, mag)
		if s.seen < least {
			continue
		}
		if p, ok := c.along(list, s, mag); ok {
			out = append(out, p)
		}
	}
	return out
}

// along is a parabola through a patch of edge, as places of the copy; ok is false where
// the patch stands off it.
func (c *small) along(list []int, s edgeLine, mag []float32) ([]Point, bool) {
	lo, hi := s.runs[0][0], s.runs[0][1]
	bins := int((hi - lo) / 3)
	us, vs, ws := make([]float64, bins), make([]float64, bins), make([]float64, bins)
	for _, i := range list {
		dx, dy, w := float64(i%c.w)+0.5-s.at.X, float64(i/c.w)+0.5-s.at.Y, float64(mag[i])
		u := dx*s.dir.X + dy*s.dir.Y
		k := min(int((u-lo)/(hi-lo)*float64(bins)), bins-1)
		us[k], vs[k], ws[k] = us[k]+w*u, vs[k]+w*(dy*s.dir.X-dx*s.dir.Y), ws[k]+w
	}
	var u, v []float64
	for k := range ws {
		if ws[k] > 0 {
			u, v = append(u, us[k]/ws[k]), append(v, vs[k]/ws[k])
		}
	}
	if float64(len(u)) < 0.8*float64(bins) {
		return nil, false
	}
	a, ok := parabola(u, v, nil)
	if !ok {
		return nil, false
	}
	off := make([]float64, len(u))
	for i := range u {
		off[i] = math.Abs(v[i] - a[0] - a[1]*u[i] - a[2]*u[i]*u[i])
	}
	if slices.Sort(off); off[len(off)*9/10] > plumbOff {
		return nil, false
	}
	var out []Point
	for k := range plumbStations {
		x := lo + (hi-lo)*(0.03+0.94*float64(k)/(plumbStations-1))
		y := a[0] + a[1]*x + a[2]*x*x
		out = append(out, Point{X: s.at.X + x*s.dir.X - y*s.dir.Y, Y: s.at.Y + x*s.dir.Y + y*s.dir.X})
	}
	return out, true
}

// plumbOf finds a line of the copy in the photo and tells what bend makes it straight.
func (j *job) plumbOf(line []Point) (plumb, bool) {
	s := j.copy.scale
	reach := 1.2*s + 1.5
	var p []Point
	for i, q := range line {
		a, b := line[max(i-1, 0)], line[min(i+1, len(line)-1)]
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		in := Point{X: -(b.Y - a.Y) / l, Y: (b.X - a.X) / l} // to the right, the brighter side
		q = Point{X: s * q.X, Y: s * q.Y}
		if d, ok := j.rimAt(q, in, reach); ok {
			p = append(p, Point{X: q.X + d*in.X, Y: q.Y + d*in.Y})
		}
	}
	if float64(len(p)) < plumbFound*float64(len(line)) {
		return plumb{}, false
	}
	cx, cy := float64(j.m.W)/2, float64(j.m.H)/2
	long := math.Hypot(p[len(p)-1].X-p[0].X, p[len(p)-1].Y-p[0].Y)
	k, sag, rest := 0.0, 0.0, 0.0
	for range 4 {
		flat := make([]Point, len(p))
		for i, q := range p {
			flat[i] = unbent(q, k, cx, cy)
		}
		var step float64
		if step, sag, rest = bendOf(flat, cx, cy); sag == 0 {
			return plumb{}, false
		}
		if k += step; math.Abs(k) > 2*plumbMost {
			return plumb{}, false
		}
	}
	if rest > math.Max(plumbRest, 0.35*s) || long < plumbLeast*float64(max(j.m.W, j.m.H)) {
		return plumb{}, false
	}
	sigma := math.Hypot(rest*2/math.Sqrt(float64(len(p))), plumbTrue*long) / sag
	return plumb{k, sigma}, sigma < plumbWeak
}

// bendOf is the bend that makes places on a line straight, to first order, how far a bend
// of 1 moves them off it, and how far they then stand off, root mean squares in pixels;
// a third of the places may belong to something else.
func bendOf(p []Point, cx, cy float64) (k, sag, rest float64) {
	c, _ := lineThrough(p)
	r2 := cx*cx + cy*cy
	e, g, w := make([]float64, len(p)), make([]float64, len(p)), make([]float64, len(p))
	t := make([]float64, len(p))
	for i, q := range p {
		e[i] = c.n.X*q.X + c.n.Y*q.Y - c.c
		dx, dy := q.X-cx, q.Y-cy
		g[i] = (dx*c.n.X + dy*c.n.Y) * (dx*dx + dy*dy) / r2
		t[i], w[i] = (q.X-p[0].X)*c.n.Y-(q.Y-p[0].Y)*c.n.X, 1
	}
	for range 4 {
		ge, ee := straightened(g, t, w), straightened(e, t, w)
		var gg, eg, n float64
		for i := range ge {
			gg, eg, n = gg+w[i]*ge[i]*ge[i], eg+w[i]*ge[i]*ee[i], n+w[i]
		}
		if gg == 0 || n < 0.6*float64(len(p)) {
			return 0, 0, 0
		}
		k, sag = eg/gg, math.Sqrt(gg/n)
		off := make([]float64, len(p))
		for i := range off {
			off[i] = ee[i] - k*ge[i]
		}
		rest = 1.4826 * median(absolute(off))
		limit := 4.7 * math.Max(rest, 0.05)
		for i, v := range off {
			w[i] = math.Pow(math.Max(1-v*v/(limit*limit), 0), 2)
		}
	}
	return k, sag, rest
}

// straightened is v less its weighted straight line over t.
func straightened(v, t, w []float64) []float64 {
	var n, st, sv, stt, stv float64
	for i := range v {
		n, st, sv, stt, stv = n+w[i], st+w[i]*t[i], sv+w[i]*v[i], stt+w[i]*t[i]*t[i], stv+w[i]*t[i]*v[i]
	}
	out := make([]float64, len(v))
	det := n*stt - st*st
	if det == 0 {
		return out
	}
	b := (n*stv - st*sv) / det
	a := (sv - b*st) / n
	for i := range v {
		out[i] = v[i] - a - b*t[i]
	}
	return out
}

// rimAt is where along in from p the photo gets brighter most.
func (j *job) rimAt(p, in Point, reach float64) (float64, bool) {
	const step = 0.5
	n := int(2*(reach+2)/step) + 1
	v := make([]float64, n)
	for i := range v {
		d := -reach - 2 + step*float64(i)
		c := lightAt(j.m, p.X+d*in.X, p.Y+d*in.Y)
		v[i] = math.Sqrt(0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2])
	}
	best, at := 0.0, -1
	for i := 4; i < n-4; i++ {
		if s := v[i+2] - v[i-2]; s > best {
			best, at = s, i
		}
	}
	if best < 0.02 {
		return 0, false
	}
	mid, ok := middleOfRise(v, at, 4)
	return -reach - 2 + step*mid, ok
}

// bent is where a place is seen, unbent where a place that is seen would be without the
// bend.
func bent(p Point, k, cx, cy float64) Point {
	dx, dy := p.X-cx, p.Y-cy
	f := 1 + k*(dx*dx+dy*dy)/(cx*cx+cy*cy)
	return Point{X: cx + f*dx, Y: cy + f*dy}
}

func unbent(p Point, k, cx, cy float64) Point {
	q := p
	for range 20 {
		b := bent(q, k, cx, cy)
		q.X, q.Y = q.X+p.X-b.X, q.Y+p.Y-b.Y
		if math.Abs(p.X-b.X)+math.Abs(p.Y-b.Y) < 1e-7 {
			break
		}
	}
	return q
}

// topUnbent measures in the photo as a lens without that bend would show it. All places
// are those of the photo as it is.
func (j *job) topUnbent(b bend) (Result, error) {
	cx, cy := float64(j.m.W)/2, float64(j.m.H)/2
	req := j.req
	req.Photo, req.ResinAt = unbend(j.m, b.k), nil
	defer req.Photo.Release()
	for _, p := range j.req.ResinAt {
		req.ResinAt = append(req.ResinAt, unbent(p, b.k, cx, cy))
	}
	if j.req.Marks != nil {
		q := *j.req.Marks
		for i, p := range q {
			q[i] = unbent(p, b.k, cx, cy)
		}
		req.Marks = &q
	}
	flat := job{req: req, m: req.Photo, r: &Result{Tilt: -1}, copy: newCopy(req.Photo, copySide), lens: b.give}
	flat.r.Notes = append(flat.r.Notes, note.Note{Code: "measure.lens-undone", Values: map[string]float64{"percent": 100 * b.k, "error": 100 * b.give}})
	r, err := flat.top()
	seen := func(ring []Point) []Point {
		out := make([]Point, len(ring))
		for i, p := range ring {
			out[i] = bent(p, b.k, cx, cy)
		}
		return out
	}
	if r.Sheet != nil {
		s := *r.Sheet
		s.Corners = [4]Point(seen(s.Corners[:]))
		r.Sheet = &s
	}
	if r.Edge != nil {
		r.Edge = seen(r.Edge)
	}
	for i, isle := range r.Islands {
		r.Islands[i] = seen(isle)
	}
	return r, err
}

// unbend is the photo as a lens without that bend would show it.
func unbend(m *pixel.Image, k float64) *pixel.Image {
	out := pixel.New(m.W, m.H)
	cx, cy := float64(m.W)/2, float64(m.H)/2
	for y := range m.H {
		row := out.Row(y)
		for x := range m.W {
			p := bent(Point{X: float64(x) + 0.5, Y: float64(y) + 0.5}, k, cx, cy)
			for c, v := range lightAt(m, p.X, p.Y) {
				row[3*x+c] = uint16(v*65535 + 0.5)
			}
		}
	}
	return out
}
