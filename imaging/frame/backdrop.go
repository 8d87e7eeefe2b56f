package frame

import (
	"math"
	"slices"

	"slabfolio/imaging/equations"
	"slabfolio/imaging/spare"
)

// A backdrop is a smooth colour surface through the edge of a photo: each of
// L*, a* and b* is a polynomial of second degree in x and y. It follows the
// falling-off of a lamp and the vignette of a lens, not a pattern.
type backdrop struct {
	l, a, b [6]float64
	share   float64 // of the pixels along the edge of the photo that lie on it
	noise   float64 // their median distance from it, ΔE 1976
	corners int     // of the photo that lie on it
}

// terms are the six powers at a place, with coordinates from -1 to 1.
func terms(x, y, w, h int) [6]float64 {
	u, v := 2*float64(x)/float64(w)-1, 2*float64(y)/float64(h)-1
	return [6]float64{1, u, v, u * v, u * u, v * v}
}

// at evaluates the surface along row y in steps, for speed: three planes of w values.
func (d *backdrop) row(y, w, h int, l, a, b []float32) {
	v := 2*float64(y)/float64(h) - 1
	for k, p := range [3]*[6]float64{&d.l, &d.a, &d.b} {
		c0, c1, c2 := p[0]+p[2]*v+p[5]*v*v, p[1]+p[3]*v, p[4]
		out := [3][]float32{l, a, b}[k]
		for x := range w {
			u := 2*float64(x)/float64(w) - 1
			out[x] = float32(c0 + u*(c1+u*c2))
		}
	}
}

// ring lists the pixels of a frame along the edge of the photo, thinned so that
// about 1500 remain. The outermost pixel is left out: it is often a border line.
func (c *labCopy) ring() [][2]int {
	thick := max(2, min(c.w, c.h)/32)
	var out [][2]int
	n := 2 * thick * (c.w + c.h)
	step := max(1, n/1500)
	k := 0
	for y := 1; y < c.h-1; y++ {
		for x := 1; x < c.w-1; x++ {
			if y > thick && y < c.h-1-thick && x > thick && x < c.w-1-thick {
				x = c.w - 2 - thick
				continue
			}
			if k%step == 0 {
				out = append(out, [2]int{x, y})
			}
			k++
		}
	}
	return out
}

// fitBackdrop fits the surface to the edge pixels, dropping those that do not
// belong (the piece reaching out of the photo, a lamp stand) step by step.
func (c *labCopy) fitBackdrop(at [][2]int) backdrop {
	var d backdrop
	d.l[0], d.a[0], d.b[0] = medianAt(c.l, at, c.w), medianAt(c.a, at, c.w), medianAt(c.b, at, c.w)
	dist := c.distancesAt(&d, at)
	for _, limit := range [...]float64{40, 24, 14, 9, 6, 6} {
		if !c.refit(&d, at, dist, limit) {
			break
		}
		dist = c.distancesAt(&d, at)
	}
	d.corners = c.cornersOn(at, dist)
	d.share, d.noise = onSurface(dist)
	return d
}

// medianAt is the middle value of a plane at the places listed.
func medianAt(plane []float32, at [][2]int, w int) float64 {
	v := make([]float32, len(at))
	for i, q := range at {
		v[i] = plane[q[1]*w+q[0]]
	}
	slices.Sort(v)
	return float64(v[len(at)/2])
}

// distancesAt is how far each place listed is from the surface, ΔE 1976.
func (c *labCopy) distancesAt(d *backdrop, at [][2]int) []float64 {
	dist := make([]float64, len(at))
	for i, q := range at {
		t := terms(q[0], q[1], c.w, c.h)
		k := q[1]*c.w + q[0]
		dl, da, db := float64(c.l[k])-dot(d.l, t), float64(c.a[k])-dot(d.a, t), float64(c.b[k])-dot(d.b, t)
		dist[i] = math.Sqrt(dl*dl + da*da + db*db)
	}
	return dist
}

// refit fits the surface to the places that are no farther from it than limit, by
// least squares; false, and nothing done, where they are fewer than a quarter.
func (c *labCopy) refit(d *backdrop, at [][2]int, dist []float64, limit float64) bool {
	var m [6][6]float64
	var rl, ra, rb [6]float64
	used := 0
	for i, q := range at {
		if dist[i] > limit {
			continue
		}
		used++
		t := terms(q[0], q[1], c.w, c.h)
		k := q[1]*c.w + q[0]
		for r := range 6 {
			for s := range 6 {
				m[r][s] += t[r] * t[s]
			}
			rl[r] += t[r] * float64(c.l[k])
			ra[r] += t[r] * float64(c.a[k])
			rb[r] += t[r] * float64(c.b[k])
		}
	}
	if used < len(at)/4 {
		return false
	}
	for r := range 6 {
		m[r][r] += 1e-3 * float64(used) * float64(min(r, 1)) // keeps the bend small where the edge says nothing
	}
	d.l, d.a, d.b = solve(m, rl), solve(m, ra), solve(m, rb)
	return true
}

// cornersOn counts the corners of the photo most of whose pixels lie on the surface.
func (c *labCopy) cornersOn(at [][2]int, dist []float64) (corners int) {
	var hits, seen [4]int
	for i, q := range at {
		right, low := q[0] > c.w/2, q[1] > c.h/2
		if x, y := min(q[0], c.w-q[0]), min(q[1], c.h-q[1]); x > c.w/8 || y > c.h/8 {
			continue
		}
		k := 0
		if right {
			k++
		}
		if low {
			k += 2
		}
		seen[k]++
		if dist[i] <= 8 {
			hits[k]++
		}
	}
	for k := range seen {
		if hits[k]*2 > seen[k] {
			corners++
		}
	}
	return corners
}

// onSurface is the share of the distances that are small, and their median.
func onSurface(dist []float64) (share, noise float64) {
	var in []float64
	for _, v := range dist {
		if v <= 6 {
			in = append(in, v)
		}
	}
	if len(in) > 0 {
		slices.Sort(in)
		noise = in[len(in)/2]
	}
	return float64(len(in)) / float64(max(1, len(dist))), noise
}

func dot(a, b [6]float64) float64 {
	var s float64
	for i := range a {
		s += float64(a[i] * b[i])
	}
	return s
}

// solve solves m·x = r; an unknown that the equations do not settle is 0.
func solve(m [6][6]float64, r [6]float64) [6]float64 {
	rows := make([][]float64, len(m))
	for i := range m {
		rows[i] = append(m[i][:], r[i])
	}
	x, _ := equations.Solve(rows)
	return [6]float64(x)
}

// distance gives for each pixel how far it is from the backdrop, ΔE 1976, and
// the same with the darkening of a shadow forgiven: a shadow multiplies light,
// so L*+16, a* and b* shrink together. Both are in memory from spare.
func (c *labCopy) distance(d *backdrop) (full, lit []float32) {
	n := c.w * c.h
	full, lit = spare.Take[float32](n), spare.Take[float32](n)
	ml, ma, mb := make([]float32, c.w), make([]float32, c.w), make([]float32, c.w)
	for y := range c.h {
		d.row(y, c.w, c.h, ml, ma, mb)
		o := y * c.w
		for x := range c.w {
			l, a, b := c.l[o+x], c.a[o+x], c.b[o+x]
			dl, da, db := l-ml[x], a-ma[x], b-mb[x]
			full[o+x] = sqrt32(dl*dl + da*da + db*db)
			k := (l + 16) / max(17, ml[x]+16)
			if k >= 1 || k < 0.6 { // brighter, or darker than a fifth of the light: no contact shadow
				lit[o+x] = full[o+x]
				continue
			}
			da, db = a-k*ma[x], b-k*mb[x]
			lit[o+x] = sqrt32(da*da + db*db)
		}
	}
	return full, lit
}

func sqrt32(v float32) float32 { return float32(math.Sqrt(float64(v))) }
