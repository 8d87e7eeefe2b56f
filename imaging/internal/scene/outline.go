package scene

import "math"

// An Outline is the shape of a top from above, in mm: its near and its far
// edge, from left to right, with the same number of points.
type Outline struct{ Near, Far [][2]float64 }

const stations = 240 // points along an edge

// Rectangle returns the outline of a board.
func Rectangle(length, width float64) Outline {
	o := Outline{}
	for i := range 3 {
		x := float64(i) / 2 * length
		o.Near, o.Far = append(o.Near, [2]float64{x, 0}), append(o.Far, [2]float64{x, width})
	}
	return o
}

// Round returns the outline of a disc.
func Round(diameter float64) Outline {
	o := Outline{}
	r := diameter / 2
	for i := 0; i <= stations; i++ {
		s, c := math.Sincos(math.Pi * float64(i) / stations)
		o.Near = append(o.Near, [2]float64{r - r*c, r - r*s})
		o.Far = append(o.Far, [2]float64{r - r*c, r + r*s})
	}
	return o
}

// Widths returns an outline from widths at equal steps along the length, both
// ends included. Between the steps both edges wander by a few mm (wander), at
// the steps the widths are exact.
func Widths(length float64, widths []float64, wander float64, seed uint32) Outline {
	o := Outline{}
	most := 0.0
	for _, w := range widths {
		most = math.Max(most, w)
	}
	for i := 0; i <= stations; i++ {
		f := float64(i) / stations
		x, t := f*length, f*float64(len(widths)-1)
		w := spline(widths, t)
		still := math.Sin(math.Pi * t)
		still *= still
		drift := 2.2 * wander * noise1(x/(0.42*length)+0.3, seed)
		a := still*ragged(x, seed+1, wander) + drift
		b := still*ragged(x, seed+2, wander) + drift
		o.Near = append(o.Near, [2]float64{x, (most-w)/2 + a})
		o.Far = append(o.Far, [2]float64{x, (most+w)/2 + b})
	}
	return o
}

func ragged(x float64, seed uint32, wander float64) float64 {
	return wander * (1.1*noise1(x/130, seed) + 0.5*noise1(x/47, seed+10) + 0.16*noise1(x/17, seed+20))
}

// Traced returns the outline through points in the order of a spec: along the
// near edge from left to right, then back along the far edge. far is the index
// of the first point of the far edge. Between points it runs smoothly with a
// wander of a mm or so.
func Traced(points [][2]float64, far int, wander float64, seed uint32) Outline {
	near := points[:far]
	back := make([][2]float64, 0, len(points)-far)
	for i := len(points) - 1; i >= far; i-- {
		back = append(back, points[i])
	}
	return Outline{chain(near, wander, seed), chain(back, wander, seed+3)}
}

func chain(pts [][2]float64, wander float64, seed uint32) [][2]float64 {
	xs, ys := make([]float64, len(pts)), make([]float64, len(pts))
	for i, p := range pts {
		xs[i], ys[i] = p[0], p[1]
	}
	var out [][2]float64
	for i := 0; i <= stations; i++ {
		t := float64(i) / stations * float64(len(pts)-1)
		still := math.Sin(math.Pi * t)
		x := spline(xs, t)
		out = append(out, [2]float64{x, spline(ys, t) + still*still*ragged(x, seed, wander)})
	}
	return out
}

func (o Outline) length() float64 {
	lo, hi := o.Bounds()
	return hi[0] - lo[0]
}

// Bounds returns the smallest and the largest x and y.
func (o Outline) Bounds() (lo, hi [2]float64) {
	lo, hi = [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, e := range [][][2]float64{o.Near, o.Far} {
		for _, p := range e {
			for k := range 2 {
				lo[k], hi[k] = math.Min(lo[k], p[k]), math.Max(hi[k], p[k])
			}
		}
	}
	return lo, hi
}

// Polygon returns the outline as one ring of points, anticlockwise from above.
func (o Outline) Polygon() [][2]float64 {
	ring := append([][2]float64{}, o.Near...)
	for i := len(o.Far) - 1; i >= 0; i-- {
		ring = append(ring, o.Far[i])
	}
	return ring
}

// Area returns the area inside the outline in mm².
func (o Outline) Area() float64 {
	a, ring := 0.0, o.Polygon()
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		a += p[0]*q[1] - q[0]*p[1]
	}
	return a / 2
}

// offset returns an edge moved square to itself by the amount that in gives
// for each station; side is +1 for the near edge (inwards is +y), −1 for the
// far one. At the ends it is also moved along x by end.
func offset(edge [][2]float64, side, end float64, in func(i int) float64) [][2]float64 {
	out := make([][2]float64, len(edge))
	n := len(edge)
	for i := range edge {
		a, b := edge[max(i-1, 0)], edge[min(i+1, n-1)]
		dx, dy := b[0]-a[0], b[1]-a[1]
		l := math.Max(math.Hypot(dx, dy), 1e-9)
		k := in(i) * side / l
		out[i] = [2]float64{edge[i][0] - dy*k, edge[i][1] + dx*k}
	}
	out[0][0] += end
	out[n-1][0] -= end
	return out
}

// RoundedRectangle returns the outline of a board with rounded corners.
func RoundedRectangle(length, width, radius float64) Outline {
	o := Outline{}
	const stations = 64
	for i := 0; i <= stations; i++ {
		// Steps are dense at the ends, where the corners are.
		x := length / 2 * (1 - math.Cos(math.Pi*float64(i)/stations))
		d := math.Max(radius-math.Min(x, length-x), 0)
		in := radius - math.Sqrt(radius*radius-d*d)
		o.Near = append(o.Near, [2]float64{x, in})
		o.Far = append(o.Far, [2]float64{x, width - in})
	}
	return o
}
