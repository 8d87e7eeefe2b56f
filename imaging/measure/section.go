package measure

import "math"

// Where a top is cut straight across, the corner of the outline shows the section of
// the edge beside the cut. The cut stands upright, so that all of it lies on one line
// of the plane, but what lies z below the face is seen nearer to the place under the
// camera by z/height of its distance from there: the side of a flaring edge leaves the
// line of the cut at the corner by just that. So its depth is read off the photo, as a
// share of the camera's height, without a guess of how edges slope.
const (
	leverLeast  = 0.12 // of the camera's height, from the place under it to the cut
	sectionFit  = 4.0  // mm inside the outermost line of which its depth is told, at most, and 8 pixels at least
	sectionSpan = 2.5  // of the thickness inwards, where it has to have come back to the cut
	sectionFew  = 5    // places in that which have to show it
	sectionFar  = 1.2  // pixels that it leaves the cut by, at least, and as many mm
	sectionWide = 4.0  // pixels that it is seen wide, at least
	sectionTurn = 0.8  // of its own width by which it may leave the cut: a corner that is rounded or cut off leaves it by as much
	sectionEase = 1.5  // mm by which a corner is eased, which looks like depth
	sectionVary = 0.2  // of the depth by which it varies along the edge
	otherGive   = 0.5  // of the depth of the opposite side, by which one that is not seen may be off it
	bandLeast   = 2.0  // mm that a flank is wide which is told by its colour
	bandEased   = 1.5  // mm of its rim that an eased edge may darken
	bandApart   = 0.1  // of the face, in the square root of light, by which it differs
	sectionMost = 1.15 // of the thickness: what is deeper is no section
)

// A section is what a corner tells of the side beside it: how deep its outermost line
// as seen lies, and what half of the range is, as shares of the camera's height; and how
// round it is there: mm down, squared, for each mm outwards, with room mm below it. No place
// of it lies past the cuts at both of its ends, which it reaches at a depth of most; the one
// that it reaches first is far mm from the place under the camera. A side that is looked at
// from outside is seen down to its lower edge, whatever it does above.
type section struct {
	depth, give, bend, room, most, far float64
	outside                            bool
}

// hidden is how far a side goes on outwards behind the outermost line that is seen, mm,
// where it is looked at with a tangent off the vertical: from where it slopes as the ray
// does to where it stands upright, or to its lower edge.
func (s *section) hidden(tan float64) float64 {
	upright := s.bend * math.Abs(tan) / 2 // mm farther down
	if upright <= 0 {
		return 0
	}
	left := math.Max(upright-s.room, 0)
	return (upright*upright - left*left) / s.bend
}

func (t measurements) sectionAt(i int) *section {
	if t.section == nil {
		return nil
	}
	return t.section[i]
}

// sections tells the section at each point of the edge; nil where no corner does.
func (j *job) sections(edge []Point, m plane) []*section {
	n := len(edge)
	out := make([]*section, n)
	f, _ := j.focal()
	pose := poseOf(m, f, float64(j.m.W), float64(j.m.H))
	if j.req.Focal35 == 0 || !pose.known || pose.height <= 0 {
		return out
	}
	back := m.inverse()
	flat := make([]Point, n)
	for i, p := range edge {
		flat[i] = back.apply(p)
	}
	sides := sidesOf(flat)
	ends := make([][2]*section, len(sides))
	for k, s := range sides {
		before, after := sides[(k+len(sides)-1)%len(sides)], sides[(k+1)%len(sides)]
		ends[k] = [2]*section{j.sectionAt(flat, s, before.cut, false, m, pose), j.sectionAt(flat, s, after.cut, true, m, pose)}
	}
	for k, s := range sides {
		before, after := sides[(k+len(sides)-1)%len(sides)], sides[(k+1)%len(sides)]
		a, b := ends[k][0], ends[k][1]
		if a == nil {
			a = b
		}
		if b == nil {
			b = a
		}
		if a == nil && s.cut == nil && len(sides) == 4 {
			a = ofOpposite(ends[(k+2)%4])
			b = a
		}
		if a == nil {
			continue
		}
		long, gap := (s.to-s.from+n)%n, int(cornerGap/pitchOf(flat))
		for i := -gap; i <= long+gap; i++ {
			at, p := (s.from+i+n)%n, flat[(s.from+i+n)%n]
			here := between(a, b, clamp(float64(i)/float64(long), 0, 1))
			here.most, here.far = before.cut.reached(p, pose)
			if most, far := after.cut.reached(p, pose); most < here.most {
				here.most, here.far = most, far
			}
			// Past the corner only what leaves the cut is of this side.
			if i >= 0 && i <= long || here.most*pose.height > 0.5 && here.most < here.depth {
				out[at] = &here
			}
		}
	}
	return out
}

// ofOpposite is what the ends of the opposite side tell of one whose section is not seen;
// nil where neither does, or one is looked at from outside. Both sides of a slab are where two parallel cuts meet one
// roundish log, so that they reach out most at about the same depth.
func ofOpposite(ends [2]*section) *section {
	a, b := ends[0], ends[1]
	if a == nil {
		a = b
	}
	if b == nil {
		b = a
	}
	if a == nil {
		return nil
	}
	if a.outside || b.outside {
		return nil
	}
	s := between(a, b, 0.5)
	s.give = math.Hypot(s.give, otherGive*s.depth)
	return &s
}

// between is what holds t of the way from one section to another.
func between(a, b *section, t float64) section {
	mix := func(p, q float64) float64 { return p + t*(q-p) }
	s := section{depth: mix(a.depth, b.depth), bend: mix(a.bend, b.bend), room: mix(a.room, b.room)}
	s.give = math.Hypot(mix(a.give, b.give), math.Hypot(sectionVary*s.depth, (a.depth-b.depth)/2))
	return s
}

// reached is how deep a place would lie, as a share of the camera's height, if it
// belonged to the cut, and how far that is from the place under the camera, mm.
func (c *cut) reached(p Point, at pose) (deep, far float64) {
	if c != nil {
		far = c.n.X*(p.X-at.nadir.X) + c.n.Y*(p.Y-at.nadir.Y)
	}
	if far <= 0 {
		return math.Inf(1), 0
	}
	return math.Max(c.inside(p), 0) / far, far
}

// inside is how far inside the cut a place is, mm.
func (c *cut) inside(p Point) float64 { return c.c - c.n.X*p.X - c.n.Y*p.Y }

// pitchOf is the mean step of a ring.
func pitchOf(ring []Point) float64 { return perimeter(ring) / float64(len(ring)) }

// sectionAt reads the section of a side at its corner with a cut; nil where none is seen.
func (j *job) sectionAt(flat []Point, s side, c *cut, atEnd bool, m plane, at pose) *section {
	if c == nil {
		return nil
	}
	corner := flat[s.from]
	if atEnd {
		corner = flat[s.to]
	}
	lever := (c.n.X*(corner.X-at.nadir.X) + c.n.Y*(corner.Y-at.nadir.Y)) / at.height
	if lever < leverLeast {
		return nil
	}
	l, ok := j.sideNear(flat, s, c, atEnd, m)
	if !ok {
		return nil
	}
	a, b := m.apply(corner), m.apply(Point{X: corner.X + l.in.X, Y: corner.Y + l.in.Y})
	perMM := math.Hypot(b.X-a.X, b.Y-a.Y)
	thick := j.req.ThicknessMM
	if thick == 0 {
		thick = 2 * usualThick
	}
	// Over the top a side is seen that flares, from outside any side.
	outside := l.in.X*(corner.X-at.nadir.X)+l.in.Y*(corner.Y-at.nadir.Y) > 0
	deepest := sectionMost * thick * lever // mm by which it may leave the cut
	var ds, xs []float64
	for d := 0.5 / perMM; d < sectionSpan*thick; d += 0.5 / perMM {
		if x, ok := j.leaves(c, l, d, deepest, m); ok {
			ds, xs = append(ds, d), append(xs, x)
		}
	}
	got := sectionOf(ds, xs, perMM, outside, func(wide float64) bool { return j.bandSeen(l, wide, deepest, m) })
	if got != nil {
		got.depth, got.give, got.bend = got.depth/lever, got.give/lever, got.bend/lever/lever
		if got.depth > sectionMost*thick {
			got = nil
		} else {
			got.room, got.outside = math.Max(thick-got.depth, 0), outside
			got.depth, got.give = math.Min(got.depth, thick)/at.height, got.give/at.height
		}
	}
	return got
}

// sectionOf tells from how far a section leaves the cut (xs, mm) at places inside the
// outermost line (ds, mm) by how far it does at that line: near its widest place a round
// section falls off with the root of the way from it. A corner rounded or cut off is
// none, nor is one that is not seen.
func sectionOf(ds, xs []float64, perMM float64, outside bool, band func(wide float64) bool) *section {
	fit := math.Max(sectionFit, 8/perMM)
	n := 0
	for n < len(ds) && ds[n] <= fit {
		n++
	}
	if n < sectionFew {
		return nil
	}
	x0, k, spread := rootFit(ds[:n], xs[:n])
	give := math.Hypot(sectionEase, math.Hypot(spread, -k*math.Sqrt(0.7/perMM)/2))
	// Where it comes back to the cut, as it has to.
	wide, back := 0.0, 0
	for i, d := range ds {
		if xs[i] < math.Max(0.25*x0, sectionFar/perMM) {
			if back++; back == sectionFew {
				break
			}
			continue
		}
		if back = 0; d < ds[0]+wide+fit {
			wide = d
		}
	}
	if back < sectionFew {
		return nil
	}
	seen := x0 > math.Max(sectionFar, sectionFar/perMM) && (x0 < sectionTurn*wide || band(wide))
	if wide*perMM < sectionWide {
		seen = false
	}
	if !seen && !outside {
		return nil
	}
	return &section{depth: math.Max(x0, 0), give: give, bend: k * k}
}

// rootFit fits x = x0 + k·√d, k not above 0, by least squares; x0 is at most half more
// than the largest x.
func rootFit(ds, xs []float64) (x0, k, spread float64) {
	n := float64(len(ds))
	var sx, sy, sxx, sxy, most float64
	for i, d := range ds {
		r := math.Sqrt(d)
		sx, sy, sxx, sxy, most = sx+r, sy+xs[i], sxx+r*r, sxy+r*xs[i], math.Max(most, xs[i])
	}
	if det := n*sxx - sx*sx; det > 0 {
		k = math.Min((n*sxy-sx*sy)/det, 0)
	}
	x0 = (sy - k*sx) / n
	off := make([]float64, len(ds))
	for i, d := range ds {
		off[i] = math.Abs(xs[i] - x0 - k*math.Sqrt(d))
	}
	return math.Min(x0, 1.5*most), k, 1.4826 * median(off)
}

// bandSeen reports whether a band along a side, about as wide as what leaves the cut at
// the corner, differs from the face beside it: the flank of a live edge.
func (j *job) bandSeen(l nearLine, wide, deepest float64, m plane) bool {
	at := func(d float64) (v float64) {
		const n = 48 // mm along the side
		for k := range n {
			p := m.apply(l.place(-deepest-float64(k), d))
			c := lightAt(j.m, p.X, p.Y)
			v += math.Sqrt(0.2126*c[0]+0.7152*c[1]+0.0722*c[2]) / n
		}
		return v
	}
	if wide < bandLeast {
		return false
	}
	var band, face []float64
	for d := bandEased; d <= math.Max(0.9*wide, bandEased+1); d += 0.5 {
		band = append(band, at(d))
	}
	for d := 2*wide + 3; d < 2*wide+3+stripFace; d++ {
		face = append(face, at(d))
	}
	in, off := meanOf(face), 0.0
	for _, v := range face {
		off += (v - in) * (v - in) / float64(len(face))
	}
	return math.Abs(meanOf(band)-in) > math.Max(bandApart*in, stripClear*math.Sqrt(off))
}

func meanOf(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(max(len(v), 1))
}

// leaves is by how many mm the outline leaves the cut d mm inside the outermost line.
func (j *job) leaves(c *cut, l nearLine, d, deepest float64, m plane) (float64, bool) {
	mid := l.place(-deepest/2, d)
	p, q := m.apply(mid), m.apply(l.place(-deepest/2-1, d))
	k := math.Hypot(q.X-p.X, q.Y-p.Y)
	if k == 0 {
		return 0, false
	}
	off, ok := j.topEdge(p, Point{X: (q.X - p.X) / k, Y: (q.Y - p.Y) / k}, math.Max(deepest/2*k, 3)+3) // on past the cut, to see it
	if !ok {
		return 0, false
	}
	e := l.place(-deepest/2-off/k, d)
	return c.inside(e), true
}
