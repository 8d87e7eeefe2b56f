package frame

import "math"

// A Mapping takes points of the straightened photo, in pixels, to points of the
// upright photo, in pixels: a plane projective mapping in rows.
type Mapping [9]float64

// Apply maps one point.
func (m Mapping) Apply(x, y float64) (float64, float64) {
	d := m[6]*x + m[7]*y + m[8]
	return (m[0]*x + m[1]*y + m[2]) / d, (m[3]*x + m[4]*y + m[5]) / d
}

// Plain reports whether m moves nothing, so that a caller can skip it.
func (m Mapping) Plain() bool { return m == Mapping{1, 0, 0, 0, 1, 0, 0, 0, 1} }

// Source gives the mapping from the straightened photo to the upright photo of
// w×h pixels: what a renderer needs to fetch each of its pixels.
func (r Result) Source(w, h int) Mapping {
	m := Mapping{1, 0, 0, 0, 1, 0, 0, 0, 1}
	if r.Corners != nil {
		m = quad(*r.Corners, float64(w), float64(h))
	}
	if r.Angle != 0 {
		m = turn(r.Angle, float64(w)/2, float64(h)/2).after(m)
	}
	return m
}

// turn maps a point of the turned photo to the upright one that leans by angle.
func turn(degrees, cx, cy float64) Mapping {
	s, c := math.Sincos(degrees * math.Pi / 180)
	return Mapping{c, -s, cx - c*cx + s*cy, s, c, cy - s*cx - c*cy, 0, 0, 1}
}

// after is m applied to what n gives.
func (m Mapping) after(n Mapping) Mapping {
	var o Mapping
	for i := range 3 {
		for j := range 3 {
			o[i*3+j] = m[i*3]*n[j] + m[i*3+1]*n[3+j] + m[i*3+2]*n[6+j]
		}
	}
	return o
}

// quad maps the frame w×h to the quadrangle q (shares), by the usual closed
// form of the projective mapping of a square.
func quad(q [4][2]float64, w, h float64) Mapping {
	x0, y0, x1, y1 := q[0][0]*w, q[0][1]*h, q[1][0]*w, q[1][1]*h
	x2, y2, x3, y3 := q[2][0]*w, q[2][1]*h, q[3][0]*w, q[3][1]*h
	dx1, dx2, dx3 := x1-x2, x3-x2, x0-x1+x2-x3
	dy1, dy2, dy3 := y1-y2, y3-y2, y0-y1+y2-y3
	d := dx1*dy2 - dx2*dy1
	if d == 0 {
		return Mapping{1, 0, 0, 0, 1, 0, 0, 0, 1}
	}
	g := (dx3*dy2 - dx2*dy3) / d
	k := (dx1*dy3 - dx3*dy1) / d
	return Mapping{
		(x1 - x0 + g*x1) / w, (x3 - x0 + k*x3) / h, x0,
		(y1 - y0 + g*y1) / w, (y3 - y0 + k*y3) / h, y0,
		g / w, k / h, 1,
	}
}

// inverse is the mapping the other way (its adjugate; scale does not matter).
func (m Mapping) inverse() Mapping {
	return Mapping{
		m[4]*m[8] - m[5]*m[7], m[2]*m[7] - m[1]*m[8], m[1]*m[5] - m[2]*m[4],
		m[5]*m[6] - m[3]*m[8], m[0]*m[8] - m[2]*m[6], m[2]*m[3] - m[0]*m[5],
		m[3]*m[7] - m[4]*m[6], m[1]*m[6] - m[0]*m[7], m[0]*m[4] - m[1]*m[3],
	}
}
