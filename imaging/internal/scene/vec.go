package scene

import "math"

// A Vec is a point or a direction in millimetres (x along the length of a
// piece, y away from the viewer, z up), or a colour in linear light (sRGB
// primaries; 1 is diffuse white).
type Vec struct{ X, Y, Z float64 }

func (a Vec) add(b Vec) Vec            { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }
func (a Vec) sub(b Vec) Vec            { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }
func (a Vec) mul(s float64) Vec        { return Vec{a.X * s, a.Y * s, a.Z * s} }
func (a Vec) had(b Vec) Vec            { return Vec{a.X * b.X, a.Y * b.Y, a.Z * b.Z} }
func (a Vec) dot(b Vec) float64        { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }
func (a Vec) len() float64             { return math.Sqrt(a.dot(a)) }
func (a Vec) mix(b Vec, t float64) Vec { return a.mul(1 - t).add(b.mul(t)) }

func (a Vec) cross(b Vec) Vec {
	return Vec{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}

// unit returns a at length 1; the zero vector stays as it is.
func (a Vec) unit() Vec {
	l := a.len()
	if l == 0 {
		return a
	}
	return a.mul(1 / l)
}

// axis returns the i-th component.
func (a Vec) axis(i int) float64 {
	switch i {
	case 0:
		return a.X
	case 1:
		return a.Y
	}
	return a.Z
}

// reflect returns d mirrored at a surface with normal n.
func (d Vec) reflect(n Vec) Vec { return d.sub(n.mul(2 * d.dot(n))) }

// refract returns d (unit, entering) bent at a surface with unit normal n on
// the outside, where ratio is the outer over the inner refractive index.
func (d Vec) refract(n Vec, ratio float64) Vec {
	c := -d.dot(n)
	k := 1 - ratio*ratio*(1-c*c)
	return d.mul(ratio).add(n.mul(ratio*c - math.Sqrt(math.Max(k, 0)))).unit()
}

// basis returns two unit vectors square to the unit vector n and to each other.
func (n Vec) basis() (u, v Vec) {
	if math.Abs(n.X) > 0.8 {
		u = Vec{0, 1, 0}
	} else {
		u = Vec{1, 0, 0}
	}
	u = u.sub(n.mul(u.dot(n))).unit()
	return u, n.cross(u)
}

// A Place is where an object stands: its own coordinates turned about x, then
// y, then z (degrees), then moved.
type Place struct {
	Turn Vec
	Move Vec
}

// frame is a turned and moved coordinate system.
type frame struct{ x, y, z, o Vec }

func (p Place) frame() frame {
	rad := p.Turn.mul(math.Pi / 180)
	sx, cx := math.Sincos(rad.X)
	sy, cy := math.Sincos(rad.Y)
	sz, cz := math.Sincos(rad.Z)
	turn := func(v Vec) Vec {
		v = Vec{v.X, cx*v.Y - sx*v.Z, sx*v.Y + cx*v.Z}
		v = Vec{cy*v.X + sy*v.Z, v.Y, -sy*v.X + cy*v.Z}
		return Vec{cz*v.X - sz*v.Y, sz*v.X + cz*v.Y, v.Z}
	}
	return frame{turn(Vec{1, 0, 0}), turn(Vec{0, 1, 0}), turn(Vec{0, 0, 1}), p.Move}
}

func (f frame) dir(v Vec) Vec { return f.x.mul(v.X).add(f.y.mul(v.Y)).add(f.z.mul(v.Z)) }
func (f frame) out(v Vec) Vec { return f.dir(v).add(f.o) }
func (f frame) dirIn(v Vec) Vec {
	return Vec{v.dot(f.x), v.dot(f.y), v.dot(f.z)}
}
func (f frame) in(v Vec) Vec { return f.dirIn(v.sub(f.o)) }

// srgb returns the linear colour of an sRGB triple (0 to 255).
func srgb(r, g, b float64) Vec {
	lin := func(c float64) float64 {
		c /= 255
		if c <= 0.04045 { // IEC 61966-2-1
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return Vec{lin(r), lin(g), lin(b)}
}

func clamp(v, lo, hi float64) float64 { return math.Min(math.Max(v, lo), hi) }

// smooth is 0 below a, 1 above b, and an S between.
func smooth(a, b, v float64) float64 {
	t := clamp((v-a)/(b-a), 0, 1)
	return t * t * (3 - 2*t)
}
