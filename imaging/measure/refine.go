package measure

import (
	"math"
	"slices"

	"slabfolio/imaging/pixel"
)

// samples is how many profiles are taken across a side.
const samples = 160

// A fittedSide is a straight line through the edge points of one side: at + t·dir,
// with the error of its two ends.
type fittedSide struct {
	at, dir Point
	ends    [2]float64 // standard deviation across, at the two corners, pixels
	bow     float64    // of the middle off the chord, pixels
	found   float64    // share of the profiles with an edge on the line
	spread  float64    // standard deviation of the edge points about it, pixels
}

// refine sets rough corners right to a fraction of a pixel: each side is
// looked for in profiles across it, in linear light, where a blurred edge lies
// where it was; a robust line goes through the points, and the corners are
// where lines meet. reach is how far off the rough sides may be, in pixels.
func refine(m *pixel.Image, rough [4]Point, reach float64) Sheet {
	q := rough
	var sides [4]fittedSide
	for pass := range 3 {
		r := math.Max(3.2, 4*reach/float64(int(1)<<(2*pass)))
		ok := true
		for i := range sides {
			var good bool
			sides[i], good = fitSide(m, q[i], q[(i+1)%4], r, pass > 0)
			ok = ok && good
		}
		if !ok {
			break
		}
		var next [4]Point
		for i := range next {
			p, met := meet(sides[(i+3)%4], sides[i])
			if !met || math.Hypot(p.X-rough[i].X, p.Y-rough[i].Y) > 10*reach+6 {
				return Sheet{Corners: q, Sigma: unsure(reach)}
			}
			next[i] = p
		}
		q = next
	}
	s := Sheet{Corners: q}
	for i := range q {
		a, b := sides[(i+3)%4], sides[i]
		s.Sigma[i] = math.Max(0.05, math.Hypot(a.ends[1], b.ends[0])/math.Sqrt2)
		if b.found < 0.3 {
			s.Sigma = unsure(reach)
			return s
		}
		s.Bow = math.Max(s.Bow, b.bow)
	}
	s.findBentCorners(m, q)
	return s
}

// findBentCorners looks at the last quarter of both sides at every corner: where they
// agree on another corner than the whole sides do, the sheet is bent there, the
// corner is where it is seen, and Bow tells how far.
func (s *Sheet) findBentCorners(m *pixel.Image, q [4]Point) {
	for i := range q {
		before, after := q[(i+3)%4], q[(i+1)%4]
		part := func(to Point) Point {
			return Point{X: q[i].X + 0.25*(to.X-q[i].X), Y: q[i].Y + 0.25*(to.Y-q[i].Y)}
		}
		l := math.Min(math.Hypot(before.X-q[i].X, before.Y-q[i].Y), math.Hypot(after.X-q[i].X, after.Y-q[i].Y))
		a, ok1 := fitSide(m, part(before), q[i], 0.03*l, true)
		b, ok2 := fitSide(m, q[i], part(after), 0.03*l, true)
		if !ok1 || !ok2 || max(a.spread, b.spread) > 2.5 || a.found < 0.6 || b.found < 0.6 || l < 100 {
			continue
		}
		p, met := meet(a, b)
		off := math.Hypot(p.X-q[i].X, p.Y-q[i].Y)
		// A bent side leaves the straight one; it does not run beside it.
		joins := a.far(part(before)) < 0.4*off+1 && b.far(part(after)) < 0.4*off+1
		if met && joins && off > math.Max(2.5, 0.004*l)+3*s.Sigma[i] && off < 0.06*l {
			s.Corners[i], s.Bow = p, math.Max(s.Bow, off)
		}
	}
}

// far is how far p lies off the line.
func (f fittedSide) far(p Point) float64 {
	return math.Abs((p.X-f.at.X)*f.dir.Y - (p.Y-f.at.Y)*f.dir.X)
}

func unsure(reach float64) [4]float64 { return [4]float64{reach, reach, reach, reach} }

// good reports whether the edges were found.
func (s Sheet) good() bool {
	return s.Sigma[0] > 0 && s.Sigma[0] < 1.5 && s.Sigma[1] < 1.5 && s.Sigma[2] < 1.5 && s.Sigma[3] < 1.5
}

// meet is where two sides meet.
func meet(a, b fittedSide) (Point, bool) { return crossing(a.at, a.dir, b.at, b.dir, 0.1) }

// crossing is where two lines meet, each through a place in a direction of length 1; ok
// is false where the sine of the angle between them is under least.
func crossing(at, dir, through, along Point, least float64) (p Point, ok bool) {
	d := dir.X*along.Y - dir.Y*along.X
	if math.Abs(d) < least {
		return Point{}, false
	}
	dx, dy := through.X-at.X, through.Y-at.Y
	u := (dx*along.Y - dy*along.X) / d
	return Point{X: at.X + u*dir.X, Y: at.Y + u*dir.Y}, true
}

// fitSide finds the edge near the stretch from a to b.
func fitSide(m *pixel.Image, a, b Point, reach float64, fine bool) (fittedSide, bool) {
	l := math.Hypot(b.X-a.X, b.Y-a.Y)
	if l < 8 {
		return fittedSide{}, false
	}
	dir := Point{X: (b.X - a.X) / l, Y: (b.Y - a.Y) / l}
	in := Point{X: -dir.Y, Y: dir.X}
	way, ok := lightStep(m, a, dir, in, l, reach)
	if !ok {
		return fittedSide{}, false
	}
	margin := math.Max(0.03*l, math.Min(0.2*l, 2.5))
	var ts, ds []float64
	for k := range samples {
		t := margin + (l-2*margin)*(float64(k)+0.5)/samples
		if d, ok := edgeAt(m, Point{X: a.X + t*dir.X, Y: a.Y + t*dir.Y}, in, way, reach); ok {
			ts, ds = append(ts, t), append(ds, d)
		}
	}
	if len(ts) < samples/5 {
		return fittedSide{}, false
	}
	return throughPoints(a, dir, in, l, ts, ds, fine), true
}

// lightStep is the change of linear light from without to within, as weights of
// the three channels, such that a full step is 1.
func lightStep(m *pixel.Image, a, dir, in Point, l, reach float64) (way [3]float64, ok bool) {
	var diff [3][]float64
	for k := range 40 {
		t := l * (0.08 + 0.84*float64(k)/39)
		x, y := a.X+t*dir.X, a.Y+t*dir.Y
		d := 1.6*reach + 1.5
		p, q := lightAt(m, x+d*in.X, y+d*in.Y), lightAt(m, x-d*in.X, y-d*in.Y)
		for c := range diff {
			diff[c] = append(diff[c], p[c]-q[c])
		}
	}
	sum := 0.0
	for c := range diff {
		way[c] = math.Max(median(diff[c]), 0)
		sum += way[c] * way[c]
	}
	if sum < 1e-6 {
		return way, false
	}
	for c := range way {
		way[c] /= sum
	}
	return way, true
}

// edgeAt is where, along in from p, the light rises most: the middle of the
// rise, weighed by its slope.
func edgeAt(m *pixel.Image, p, in Point, way [3]float64, reach float64) (float64, bool) {
	const step = 0.5
	n := int(2*(reach+3)/step) + 1
	v := make([]float64, n)
	for i := range v {
		d := -reach - 3 + step*float64(i)
		px := lightAt(m, p.X+d*in.X, p.Y+d*in.Y)
		v[i] = px[0]*way[0] + px[1]*way[1] + px[2]*way[2]
	}
	best, at := 0.0, -1
	slope := func(i int) float64 { return v[min(i+1, n-1)] - v[max(i-1, 0)] + (v[min(i+2, n-1)]-v[max(i-2, 0)])/2 }
	for i := 5; i < n-5; i++ {
		if s := slope(i); s > best {
			best, at = s, i
		}
	}
	if best < 0.12 {
		return 0, false
	}
	mid, ok := middleOfRise(v, at, 5)
	return -reach - 3 + step*mid, ok
}

// middleOfRise is where a profile rises about the place at, in places, weighed by its
// slope there and up to within places to both sides; ok is false where it does not.
func middleOfRise(v []float64, at, within int) (mid float64, ok bool) {
	sum := 0.0
	for i := max(at-within, 1); i <= min(at+within, len(v)-2); i++ {
		s := math.Max(v[i+1]-v[i-1], 0)
		sum, mid = sum+s, mid+s*float64(i)
	}
	return mid / math.Max(sum, math.SmallestNonzeroFloat64), sum > 0
}

// throughPoints fits a line d(t) to edge points by least squares, with the
// biweight of Tukey against those that do not belong.
func throughPoints(a, dir, in Point, l float64, ts, ds []float64, fine bool) fittedSide {
	c0, c1 := startLine(ts, ds)
	var n, sd float64
	for range 12 {
		dev := make([]float64, len(ts))
		for i := range ts {
			dev[i] = math.Abs(ds[i] - c0 - c1*ts[i])
		}
		sd = math.Max(1.4826*median(dev), 0.03)
		var s, st, stt, sy, sty float64
		for i := range ts {
			e := (ds[i] - c0 - c1*ts[i]) / (4.685 * sd)
			if e*e >= 1 {
				continue
			}
			w := (1 - e*e) * (1 - e*e)
			s, st, stt, sy, sty = s+w, st+w*ts[i], stt+w*ts[i]*ts[i], sy+w*ds[i], sty+w*ts[i]*ds[i]
		}
		det := s*stt - st*st
		if det < 1e-9 {
			break
		}
		c0, c1, n = (sy*stt-st*sty)/det, (s*sty-st*sy)/det, s
	}
	f := fittedSide{found: n / samples, spread: sd}
	k := math.Hypot(1, c1)
	f.at = Point{X: a.X + c0*in.X, Y: a.Y + c0*in.Y}
	f.dir = Point{X: (dir.X + c1*in.X) / k, Y: (dir.Y + c1*in.Y) / k}
	// Neighbouring profiles share pixels: about one in three, or one a pixel, counts.
	free := math.Max(2, math.Min(n/3, l/2))
	// The end of a line through free points has twice the error of its middle.
	f.ends = [2]float64{2 * sd / math.Sqrt(free), 2 * sd / math.Sqrt(free)}
	f.bow = bowOf(ts, ds, c0, c1, l, sd)
	return f
}

// startLine is the line through the medians of the outer thirds.
func startLine(ts, ds []float64) (c0, c1 float64) {
	k := max(len(ts)/3, 1)
	t0, d0 := median(slices.Clone(ts[:k])), median(slices.Clone(ds[:k]))
	t1, d1 := median(slices.Clone(ts[len(ts)-k:])), median(slices.Clone(ds[len(ds)-k:]))
	if t1-t0 < 1 {
		return d0, 0
	}
	c1 = (d1 - d0) / (t1 - t0)
	return d0 - c1*t0, c1
}

// bowOf is how far the middle third of an edge stands off the line, against its
// outer thirds.
func bowOf(ts, ds []float64, c0, c1, l, sd float64) float64 {
	var mid, out []float64
	for i := range ts {
		e := ds[i] - c0 - c1*ts[i]
		if math.Abs(e) > 6*sd {
			continue
		}
		if ts[i] > l/3 && ts[i] < 2*l/3 {
			mid = append(mid, e)
		} else {
			out = append(out, e)
		}
	}
	if len(mid) < 8 || len(out) < 8 {
		return 0
	}
	return math.Abs(median(mid) - median(out))
}
