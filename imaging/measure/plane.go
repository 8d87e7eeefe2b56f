package measure

import (
	"math"

	"slabfolio/imaging/equations"
)

// A plane is a projective map in rows, from one plane to another.
type plane [9]float64

func (m plane) apply(p Point) Point {
	d := m[6]*p.X + m[7]*p.Y + m[8]
	return Point{X: (m[0]*p.X + m[1]*p.Y + m[2]) / d, Y: (m[3]*p.X + m[4]*p.Y + m[5]) / d}
}

// inverse is the map the other way: the adjugate, since scale does not matter.
func (m plane) inverse() plane {
	return plane{
		m[4]*m[8] - m[5]*m[7], m[2]*m[7] - m[1]*m[8], m[1]*m[5] - m[2]*m[4],
		m[5]*m[6] - m[3]*m[8], m[0]*m[8] - m[2]*m[6], m[2]*m[3] - m[0]*m[5],
		m[3]*m[7] - m[4]*m[6], m[1]*m[6] - m[0]*m[7], m[0]*m[4] - m[1]*m[3],
	}
}

// planeOf is the map that takes the four points from to the four points to,
// by solving its eight linear equations (Hartley and Zisserman, Multiple View
// Geometry, 2nd edition 2004, section 4.1; from memory).
func planeOf(from, to [4]Point) (plane, bool) {
	var rows [][]float64
	for i := range 4 {
		x, y, u, v := from[i].X, from[i].Y, to[i].X, to[i].Y
		rows = append(rows,
			[]float64{x, y, 1, 0, 0, 0, -u * x, -u * y, u},
			[]float64{0, 0, 0, x, y, 1, -v * x, -v * y, v})
	}
	x, ok := equations.Solve(rows)
	if !ok {
		return plane{}, false
	}
	m := plane{8: 1}
	copy(m[:], x)
	return m, true
}

// A pose is how the camera stood to the plane of the top.
type pose struct {
	known  bool
	tilt   float64 // radians off the vertical
	height float64 // mm above the plane
	nadir  Point   // the place on the plane under the camera, mm
	ratio  float64 // of the two axes' scales: 1 where the plane's mm are right
}

// poseOf works out the pose from a map of mm to pixels of a photo of w × h with
// a focal length of f pixels (Zhang, "A flexible new technique for camera
// calibration", IEEE PAMI 22(11), 2000, section 3.1; from memory). The optical
// axis is taken to go through the middle of the photo.
func poseOf(m plane, f, w, h float64) pose {
	col := func(k int) [3]float64 {
		return [3]float64{(m[k] - w/2*m[6+k]) / f, (m[3+k] - h/2*m[6+k]) / f, m[6+k]}
	}
	r1, r2, t := col(0), col(1), col(2)
	n1, n2 := norm(r1), norm(r2)
	if n1 == 0 || n2 == 0 || f <= 0 {
		return pose{}
	}
	s := 2 / (n1 + n2)
	if t[2] < 0 {
		s = -s
	}
	for k := range 3 {
		r1[k], r2[k], t[k] = r1[k]/n1*sign(s), r2[k]/n2*sign(s), t[k]*s
	}
	r3 := cross(r1, r2)
	if l := norm(r3); l > 0 {
		for k := range 3 {
			r3[k] /= l
		}
	}
	// The camera's place in the plane's axes is −Rᵀt.
	c := [3]float64{-dot(r1, t), -dot(r2, t), -dot(r3, t)}
	return pose{true, math.Acos(clamp(math.Abs(r3[2]), 0, 1)), math.Abs(c[2]), Point{X: c[0], Y: c[1]}, n1 / n2}
}

func sign(v float64) float64 { return math.Copysign(1, v) }

func norm(a [3]float64) float64 { return math.Sqrt(dot(a, a)) }

func dot(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

func cross(a, b [3]float64) [3]float64 {
	return [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// usualFocal is the focal length, in longer sides of the photo, that is taken
// where the camera does not tell: a telephone's main camera, 26 to 28 mm on
// 36 mm (common practice, no source).
const usualFocal = 27.0 / 36

// ratio is the ratio of the sides of a rectangle that is seen as q, longer over
// shorter, for a focal length of f pixels of the copy; 0 where q is no view of
// one.
func (c *small) ratio(q [4]Point, f float64) float64 {
	return ratioOf(q, f, float64(c.w), float64(c.h))
}

func ratioOf(q [4]Point, f, w, h float64) float64 {
	m, ok := planeOf([4]Point{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 1, Y: 1}, {X: 0, Y: 1}}, q)
	if !ok {
		return 0
	}
	r := poseOf(m, f, w, h).ratio
	if r > 0 && r < 1 {
		r = 1 / r
	}
	return r
}
