package measure

import (
	"math"
	"slices"

	"slabfolio/imaging/pixel"
)

// What the side of a live edge looks like from above: a strip along the edge that is
// darker than the face beside it. The slope of such a side lies between 35° and 72°
// to the face, 56° in the middle, and it reaches out most above the lower tenth of
// the top (common practice, no source).
const (
	stripStep    = 1.0  // mm from sample to sample across the edge
	stripFace    = 14.0 // mm of the face that it is compared with
	stripAlong   = 40.0 // mm to either side along the edge that are taken together
	oneEdge      = 0.95 // cosine of the angle between two places of one edge
	stripLeast   = 3.0  // mm: an eased edge is narrower
	stripDarker  = 0.06 // of the face, in the square root of light
	stripAlone   = 0.6  // of that: nothing on the face farther in comes nearer to the strip, as grain does
	stripClear   = 2.5  // times the spread of the face
	stripOften   = 0.5  // of the places near by that have to have one
	slopeMiddle  = 1.5  // depth for each mm of the strip
	slopeFlat    = 0.7
	slopeSteep   = 3.0
	flareUsual   = 0.55 // of the thickness: no deeper in the middle
	flareDeepest = 0.9
	flareHidden  = 0.6 // of the thickness, where no strip is seen
)

// A flare is how deep below the face each point of the edge may lie, mm.
type flare struct{ middle, least, most []float64 }

// flareOf tells from the strip between face and outermost line how deep that line
// lies: it is seen nearer by that, since it is farther from the camera than the sheet.
// Where no strip is seen the edge may flare all the same, under a face of its colour.
func (j *job) flareOf(edge []Point, m plane, thick float64) flare {
	n := len(edge)
	f := flare{make([]float64, n), make([]float64, n), make([]float64, n)}
	askance := j.askance(edge, m)
	for i, s := range j.strips(edge, m, thick) {
		if s == 0 {
			f.most[i] = flareHidden * thick
			continue
		}
		// Of a side that turns away, what is seen is narrower than it reaches out.
		deep := func(slope, most float64) float64 {
			if k := 1 - slope*askance[i]; k*most > slope*s {
				return slope * s / k
			}
			return most
		}
		f.middle[i] = deep(slopeMiddle, flareUsual*thick)
		f.least[i] = math.Min(deep(slopeFlat, flareUsual*thick), f.middle[i])
		f.most[i] = deep(slopeSteep, flareDeepest*thick)
	}
	return f
}

// askance is the tangent of the angle off the vertical at which each point of the edge
// is looked at, where that is from over the top; 0 elsewhere, and where it is not known
// how the camera hung.
func (j *job) askance(edge []Point, m plane) []float64 {
	f, _ := j.focal()
	at := poseOf(m, f, float64(j.m.W), float64(j.m.H))
	out := make([]float64, len(edge))
	if j.req.Focal35 == 0 || !at.known || at.height <= 0 {
		return out
	}
	back := m.inverse()
	flat := make([]Point, len(edge))
	for i, p := range edge {
		flat[i] = back.apply(p)
	}
	for i, p := range flat {
		in := inwards(flat, i)
		out[i] = math.Max(-(p.X-at.nadir.X)*in.X-(p.Y-at.nadir.Y)*in.Y, 0) / at.height
	}
	return out
}

// strips is the width of the strip along each point of the edge, mm; 0: none is seen.
func (j *job) strips(edge []Point, m plane, thick float64) []float64 {
	back := m.inverse()
	n := len(edge)
	flat := make([]Point, n)
	for i, p := range edge {
		flat[i] = back.apply(p)
	}
	count := int((flareDeepest*thick + stripFace + 12) / stripStep)
	across, normals := make([][]float64, n), make([]Point, n)
	pitch, perPixel := 0.0, 0.0
	for i := range edge {
		in, mm := inwards(flat, i), make([]float64, count)
		for k := range mm {
			d := stripStep * (float64(k) + 0.5)
			p := m.apply(Point{X: flat[i].X + d*in.X, Y: flat[i].Y + d*in.Y})
			if pixel.Inside(j.r.Sheet.Corners[:], p) { // paper is no face
				mm = nil
				break
			}
			v := lightAt(j.m, p.X, p.Y)
			mm[k] = math.Sqrt(0.2126*v[0] + 0.7152*v[1] + 0.0722*v[2])
		}
		across[i], normals[i] = mm, in
		q := (i + 1) % n
		step := math.Hypot(flat[q].X-flat[i].X, flat[q].Y-flat[i].Y)
		pitch += step / float64(n)
		perPixel += step / math.Max(math.Hypot(edge[q].X-edge[i].X, edge[q].Y-edge[i].Y), 1e-9) / float64(n)
	}
	half := int(stripAlong / math.Max(pitch, 0.1))
	wide := make([]float64, n)
	for i := range wide {
		if v := meanAcross(across, normals, i, half); v != nil {
			wide[i] = stripIn(v, math.Max(1.5, 1.5*perPixel), flareDeepest*thick)
		}
	}
	wide = often(wide, 3*half)
	for i := range wide {
		// Round a corner "square to the edge" means nothing.
		a, b := normals[(i+n-6)%n], normals[(i+6)%n]
		if a.X*b.X+a.Y*b.Y < oneEdge {
			wide[i] = 0
		}
	}
	return wide
}

// inwards is the direction square to a ring at one of its points, to its inside.
func inwards(ring []Point, i int) Point {
	n := len(ring)
	a, b := ring[(i+n-3)%n], ring[(i+3)%n]
	l := math.Max(math.Hypot(b.X-a.X, b.Y-a.Y), 1e-9)
	return Point{X: -(b.Y - a.Y) / l, Y: (b.X - a.X) / l}
}

// meanAcross is the mean of what lies across the edge at the points near one; nil
// where half of them tell nothing. Those round a corner lie along another edge.
func meanAcross(across [][]float64, normals []Point, i, half int) []float64 {
	n, told := len(across), 0
	var sum []float64
	for k := i - half; k <= i+half; k++ {
		at := ((k % n) + n) % n
		v := across[at]
		if v == nil || normals[at].X*normals[i].X+normals[at].Y*normals[i].Y < oneEdge {
			continue
		}
		if told++; sum == nil {
			sum = make([]float64, len(v))
		}
		for c := range v {
			sum[c] += v[c]
		}
	}
	if told <= half {
		return nil
	}
	for c := range sum {
		sum[c] /= float64(told)
	}
	return sum
}

// stripIn is the width of the dark strip at the beginning of v, from a place on up
// to most; 0 where there is none.
func stripIn(v []float64, from, most float64) float64 {
	mean := func(a, b int) float64 {
		a, b = max(a, 0), min(b, len(v))
		sum := 0.0
		for _, x := range v[a:b] {
			sum += x
		}
		return sum / float64(max(b-a, 1))
	}
	first := int(from / stripStep)
	best, at := 0.0, 0
	for k := max(first+1, int(stripLeast/stripStep)); float64(k)*stripStep < most; k++ {
		if rise := mean(k, k+3) - mean(max(k-3, first), k); rise > best {
			best, at = rise, k
		}
	}
	if at == 0 {
		return 0
	}
	strip, face := mean(first, at), mean(at+2, at+2+int(stripFace/stripStep))
	spread := 0.0
	for k := at + 2; k < min(at+2+int(stripFace/stripStep), len(v)); k++ {
		spread += (v[k] - face) * (v[k] - face) / (stripFace / stripStep)
	}
	darkest := face
	for k := at + 2; k+4 <= len(v); k++ {
		darkest = math.Min(darkest, mean(k, k+4))
	}
	if d := face - strip; darkest-strip < stripAlone*d || d < stripDarker*face || d < stripClear*math.Sqrt(spread) || best < 0.5*d {
		return 0
	}
	return float64(at) * stripStep
}

// often is the middle value near each place that has one, or lies between two that
// have, where enough near have one: length and width are extremes, which a single
// place must not make.
func often(v []float64, half int) []float64 {
	n := len(v)
	at := func(k int) float64 { return v[((k%n)+n)%n] }
	out := make([]float64, n)
	for i := range v {
		var near []float64
		before, after := false, false
		for k := i - half; k <= i+half; k++ {
			if x := at(k); x > 0 {
				near = append(near, x)
				before, after = before || k < i && k >= i-half/3, after || k > i && k <= i+half/3
			}
		}
		if float64(len(near)) < stripOften*float64(half) {
			continue
		}
		if slices.Sort(near); v[i] > 0 || before && after {
			out[i] = near[len(near)/2]
		}
	}
	return out
}
