package measure

import (
	"cmp"
	"math"
	"slices"

	"slabfolio/imaging/pixel"
)

// What makes an error, half of the 90 % range. The lens is taken to be off by
// this share of the distance from the middle at the photo's corner, and the
// edge of a top to be eased by this much: both common practice, no source. Straight lines in
// the photo may tell more of the lens; see lens.go.
const (
	z90        = 1.645
	lensGive   = 0.004
	easedEdge  = 1.2  // mm a side
	usualThick = 40.0 // mm, where the thickness is not known
)

// measurements is all that sizes are worked out from, so that each can be moved a
// little to see what it does.
type measurements struct {
	corners [4]Point
	edge    []Point
	depth   float64    // of the visible side's lower edge below the plane, mm
	flare   []float64  // of the widest place of each point's side, where its lower edge is not seen, mm below the plane; nil: 0
	section []*section // what the corners tell of it, which goes before both
	outer   float64    // by how many halves of its range each section is such that the edge lies farther out
}

// sizes makes figures of the edge, with their errors.
func (j *job) sizes(edge []Point, spread float64) error {
	base := measurements{corners: j.r.Sheet.Corners, edge: edge, depth: j.req.ThicknessMM}
	if j.req.Focal35 == 0 {
		base.depth = 0 // where the camera hung is not known well enough
	}
	m, ok := j.toPhoto(base.corners)
	if !ok {
		return refuse("measure.bad-marks", nil)
	}
	thick := j.req.ThicknessMM
	if thick == 0 {
		thick = usualThick
	}
	depths := j.flareOf(edge, m, thick)
	if base.depth > 0 {
		base.flare = depths.middle
	}
	base.section = j.sections(edge, m)
	s, ok := j.shapeOf(base)
	if !ok || s.area <= 0 {
		return refuse("measure.bad-marks", nil)
	}
	j.r.Length.Value, j.r.Width.Value, j.r.Area.Value = s.length, s.width, s.area*1e-6
	j.r.Edge, j.r.Outline = edge, thinned(s.ring, 0.15)
	back := m.inverse()
	j.lay = func(p Point) Point {
		q := back.apply(p)
		return s.toRing(Point{X: q.X, Y: -q.Y})
	}
	j.cornerError(base, s)
	j.lensError(base, s)
	j.edgeError(s, spread)
	j.parallaxError(base, s, depths, thick)
	for _, v := range []*Value{&j.r.Length, &j.r.Width, &j.r.Area} {
		slices.SortStableFunc(v.Causes, func(a, b Cause) int { return cmp.Compare(b.Error, a.Error) })
	}
	j.crossCheck()
	if rel := j.r.Area.Error / j.r.Area.Value; rel > mostError {
		return refuse("measure.error", map[string]float64{"percent": 100 * rel, "limit": 100 * mostError})
	}
	return nil
}

// crossCheck compares with what was taped, where paper and tape are both there.
func (j *job) crossCheck() {
	if t := j.req.LengthMM; t > 0 && math.Abs(t-j.r.Length.Value) > j.r.Length.Error+tapeTolerance(t) {
		j.doubt("measure.tape-differs", map[string]float64{"taped": t, "measured": j.r.Length.Value, "error": j.r.Length.Error})
	}
	if t := j.req.WidthMM; t > 0 && math.Abs(t-j.r.Width.Value) > j.r.Width.Error+tapeTolerance(t) {
		j.doubt("measure.tape-differs", map[string]float64{"taped": t, "measured": j.r.Width.Value, "error": j.r.Width.Error})
	}
}

// shapeOf works the shape out: plane, parallax, smallest box.
func (j *job) shapeOf(t measurements) (shape, bool) {
	m, ok := j.toPhoto(t.corners)
	if !ok {
		return shape{}, false
	}
	f, _ := j.focal()
	w, h := float64(j.m.W), float64(j.m.H)
	back := m.inverse()
	a, b := back.apply(Point{X: w/2 - 1, Y: h / 2}), back.apply(Point{X: w/2 + 1, Y: h / 2})
	return shapeOf(t.onPlane(m, poseOf(m, f, w, h)), math.Atan2(a.Y-b.Y, b.X-a.X)), true
}

// onPlane takes the edge to mm, y upwards. Where the camera hung so far out that
// it saw the side of the top, the outermost that is seen is the side's lower
// edge, which lies deeper than the sheet: it is drawn onto the plane along the
// ray from the camera. (The map of the plane is a mirror one: y downwards.)
func (t measurements) onPlane(m plane, at pose) []Point {
	back := m.inverse()
	n := len(t.edge)
	flat := make([]Point, n)
	for i, p := range t.edge {
		flat[i] = back.apply(p)
	}
	out := make([]Point, n)
	for i, p := range flat {
		out[i] = Point{X: p.X, Y: -p.Y}
		if !at.known || at.height <= 0 || t.depth == 0 && t.flare == nil && t.section == nil {
			continue
		}
		a, b := flat[(i+n-3)%n], flat[(i+3)%n]
		l := math.Max(math.Hypot(b.X-a.X, b.Y-a.Y), 1e-9)
		// Outwards: the ring runs clockwise where y points down.
		nx, ny := (b.Y-a.Y)/l, -(b.X-a.X)/l
		ux, uy := p.X-at.nadir.X, p.Y-at.nadir.Y
		depth := t.depth
		if ux*nx+uy*ny >= 0 {
			if depth = 0; t.flare != nil {
				depth = t.flare[i]
			}
		}
		tan := (ux*nx + uy*ny) / at.height
		if c := t.sectionAt(i); c != nil {
			// It is known where the side ends, too: all of the shift counts.
			deep, over := math.Max(c.depth+t.outer*math.Copysign(c.give, tan), 0), c.hidden(tan)*(1+t.outer)
			if c.far > 0 {
				deep = math.Min(deep, c.most)
				over = math.Min(over, (c.most-deep)*c.far)
			}
			out[i] = Point{X: p.X + deep*ux + over*nx, Y: -(p.Y + deep*uy + over*ny)}
			continue
		}
		// The shift is square to the edge; along it nothing is lost.
		k := tan * depth
		out[i] = Point{X: p.X + k*nx, Y: -(p.Y + k*ny)}
	}
	return out
}

// add puts one cause into the three figures.
func (r *Result) add(code string, length, width, area float64) {
	for i, v := range []*Value{&r.Length, &r.Width, &r.Area} {
		e := math.Abs([3]float64{length, width, area * 1e-6}[i])
		v.Causes = append(v.Causes, Cause{code, e})
		v.Error = math.Hypot(v.Error, e)
	}
}

// cornerError moves every corner by its own error, along x and along y.
func (j *job) cornerError(base measurements, s shape) {
	var dl, dw, da float64
	for i := range 8 {
		t := base
		by := z90 * math.Hypot(j.r.Sheet.Sigma[i/2], 0.3*j.r.Sheet.Bow)
		if i%2 == 0 {
			t.corners[i/2].X += by
		} else {
			t.corners[i/2].Y += by
		}
		if n, ok := j.shapeOf(t); ok {
			dl, dw, da = math.Hypot(dl, n.length-s.length), math.Hypot(dw, n.width-s.width), math.Hypot(da, n.area-s.area)
		}
	}
	j.r.add("corners", dl, dw, da)
}

// lensError bends all places outwards as a lens may.
func (j *job) lensError(base measurements, s shape) {
	cx, cy := float64(j.m.W)/2, float64(j.m.H)/2
	bend := func(p Point) Point {
		dx, dy := p.X-cx, p.Y-cy
		k := 1 + j.lens*(dx*dx+dy*dy)/(cx*cx+cy*cy)
		return Point{X: cx + dx*k, Y: cy + dy*k}
	}
	t := base
	for i := range t.corners {
		t.corners[i] = bend(t.corners[i])
	}
	t.edge = make([]Point, len(base.edge))
	for i, p := range base.edge {
		t.edge[i] = bend(p)
	}
	if n, ok := j.shapeOf(t); ok {
		j.r.add("lens", n.length-s.length, n.width-s.width, n.area-s.area)
	}
}

// edgeError is that of the edge itself: eased, and seen against its ground.
func (j *job) edgeError(s shape, spread float64) {
	perPixel := s.length / math.Max(longest(j.r.Edge), 1)
	e := math.Hypot(easedEdge, 0.5*spread*perPixel)
	j.r.add("edge", 1.4*e, 1.4*e, 0.7*e*perimeter(s.ring))
}

// parallaxError is what the depth of a live edge below the face makes, which is told
// within limits by the strip of its side that is seen, or not at all; see flareOf. At
// most, what is dark beyond the outline is a strip of it too. Where a side is seen down
// to its lower edge and the thickness is not known, the usual one is what it may be
// off by.
func (j *job) parallaxError(base measurements, s shape, depths flare, thick float64) {
	var dl, dw, da float64
	for _, way := range [2]struct {
		flare []float64
		edge  []Point
		outer float64
	}{{depths.least, base.edge, -1}, {depths.most, j.withStrip(base.edge, longest(base.edge)/s.length), 1}} {
		t := base
		t.flare, t.edge, t.outer = way.flare, way.edge, way.outer
		if t.depth = 0.4 * thick; base.depth == 0 {
			t.depth = usualThick
		}
		if n, ok := j.shapeOf(t); ok {
			dl, dw, da = math.Max(dl, math.Abs(n.length-s.length)), math.Max(dw, math.Abs(n.width-s.width)), math.Max(da, math.Abs(n.area-s.area))
		}
	}
	j.r.add("parallax", dl, dw, da)
}

func longest(ring []Point) float64 {
	s := shapeAt(ring, smallestBox(pixel.Hull(ring)))
	return s.length
}

func perimeter(ring []Point) float64 {
	sum := 0.0
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		sum += math.Hypot(b.X-a.X, b.Y-a.Y)
	}
	return sum
}

// thinned drops points that lie within give of the line between those that
// stay (Douglas and Peucker, 1973).
func thinned(ring []Point, give float64) []Point {
	n := len(ring)
	if n < 8 {
		return ring
	}
	keep := make([]bool, n)
	keep[0], keep[n/2] = true, true
	var cut func(a, b int)
	cut = func(a, b int) {
		p, q := ring[a], ring[b%n]
		l := math.Max(math.Hypot(q.X-p.X, q.Y-p.Y), 1e-9)
		worst, at := give, -1
		for i := a + 1; i < b; i++ {
			d := math.Abs((ring[i].X-p.X)*(q.Y-p.Y)-(ring[i].Y-p.Y)*(q.X-p.X)) / l
			if d > worst {
				worst, at = d, i
			}
		}
		if at >= 0 {
			keep[at] = true
			cut(a, at)
			cut(at, b)
		}
	}
	cut(0, n/2)
	cut(n/2, n)
	var out []Point
	for i, k := range keep {
		if k {
			out = append(out, ring[i])
		}
	}
	return out
}
