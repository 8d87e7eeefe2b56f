package geometry

import (
	"math"
)

// SignedArea returns the area inside a polygon by the shoelace rule, in the
// square of its unit: positive counter-clockwise, negative clockwise. The
// first corner is not repeated at the end. The sums are taken about the first
// corner, so that a polygon far from the origin loses no digits.
func SignedArea(p [][2]float64) float64 {
	sum := 0.0
	for i := 1; i+1 < len(p); i++ {
		ax, ay := p[i][0]-p[0][0], p[i][1]-p[0][1]
		bx, by := p[i+1][0]-p[0][0], p[i+1][1]-p[0][1]
		sum += float64(ax*by) - float64(ay*bx)
	}
	return sum / 2
}

// perimeter returns the length of the closed edge of a polygon.
func perimeter(p [][2]float64) float64 {
	sum := 0.0
	for i, a := range p {
		b := p[(i+1)%len(p)]
		sum += math.Hypot(b[0]-a[0], b[1]-a[1])
	}
	return sum
}

// Centroid returns the middle of the area of a polygon that does not cross
// itself. A polygon without area has the mean of its corners.
func Centroid(p [][2]float64) [2]float64 {
	if len(p) == 0 {
		return [2]float64{}
	}
	var area, cx, cy float64
	for i := 1; i+1 < len(p); i++ {
		ax, ay := p[i][0]-p[0][0], p[i][1]-p[0][1]
		bx, by := p[i+1][0]-p[0][0], p[i+1][1]-p[0][1]
		c := float64(ax*by) - float64(ay*bx)
		area += c
		cx += c * (ax + bx) / 3
		cy += c * (ay + by) / 3
	}
	if area == 0 {
		for _, q := range p {
			cx += (q[0] - p[0][0]) / float64(len(p))
			cy += (q[1] - p[0][1]) / float64(len(p))
		}
		return [2]float64{p[0][0] + cx, p[0][1] + cy}
	}
	return [2]float64{p[0][0] + cx/area, p[0][1] + cy/area}
}

// onEdge reports whether a point lies on the edge from a to b, within a
// billionth of its length.
func onEdge(a, b [2]float64, x, y float64) bool {
	l := math.Hypot(b[0]-a[0], b[1]-a[1])
	if l == 0 {
		return x == a[0] && y == a[1]
	}
	t := ((x-a[0])*(b[0]-a[0]) + (y-a[1])*(b[1]-a[1])) / (l * l)
	off := math.Abs((x-a[0])*(b[1]-a[1])-(y-a[1])*(b[0]-a[0])) / l
	return t >= 0 && t <= 1 && off <= 1e-9*l
}

// turn is positive where a, b, c turn to the left.
func turn(a, b, c [2]float64) float64 {
	return float64((b[0]-a[0])*(c[1]-a[1])) - float64((b[1]-a[1])*(c[0]-a[0]))
}

// box returns the corners of the bounding box.
func box(p [][2]float64) (lo, hi [2]float64) {
	lo, hi = p[0], p[0]
	for _, q := range p[1:] {
		for k := range q {
			lo[k], hi[k] = math.Min(lo[k], q[k]), math.Max(hi[k], q[k])
		}
	}
	return lo, hi
}

// toOrigin moves a polygon's box to (0,0) and starts it at the corner nearest
// the lower left.
func toOrigin(p [][2]float64) [][2]float64 {
	lo, _ := box(p)
	first, best := 0, math.Inf(1)
	for i, q := range p {
		if d := math.Hypot(q[0]-lo[0], q[1]-lo[1]); d < best {
			first, best = i, d
		}
	}
	out := make([][2]float64, 0, len(p))
	for i := range p {
		q := p[(first+i)%len(p)]
		out = append(out, [2]float64{q[0] - lo[0], q[1] - lo[1]})
	}
	return out
}
