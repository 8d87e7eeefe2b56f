package scene

import "math"

// An Object is one thing in a scene: a mesh, its look, and where it stands.
type Object struct {
	mesh   mesh
	shader shader
	frame  frame
}

// A shader says how a surface looks at a point.
type shader interface{ at(pt *point) surface }

// point is where a ray met a surface, in the object's own coordinates.
type point struct {
	p, n, d Vec     // place, normal towards the viewer, direction of the ray
	foot    float64 // size of a pixel there, mm
}

// surface is the look of a point.
type surface struct {
	albedo Vec     // diffuse colour, linear
	rough  float64 // 0 mirror to 1 matt
	f0     float64 // what is mirrored straight on
	metal  Vec     // tint of a metal's mirror; zero for other things
	n      Vec     // normal for the gloss, in the object's own coordinates
}

// mesh holds triangles in the object's own coordinates.
type mesh []triangle

func (m *mesh) tri(a, b, c Vec) {
	n := b.sub(a).cross(c.sub(a))
	if n.len() < 1e-9 {
		return
	}
	n = n.unit()
	*m = append(*m, triangle{a: a, e1: b.sub(a), e2: c.sub(a), n: n, na: n, nb: n, nc: n})
}

// quad adds a flat face; its corners run anticlockwise seen from outside.
func (m *mesh) quad(a, b, c, d Vec) {
	m.tri(a, b, c)
	m.tri(a, c, d)
}

// grid adds a smooth surface through rows of points; going along a row and
// then up to the row before it turns anticlockwise seen from outside.
func (m *mesh) grid(g [][]Vec) {
	normal := func(k, i int) Vec {
		along := g[k][min(i+1, len(g[k])-1)].sub(g[k][max(i-1, 0)])
		up := g[max(k-1, 0)][i].sub(g[min(k+1, len(g)-1)][i])
		return along.cross(up).unit()
	}
	for k := 1; k < len(g); k++ {
		for i := 0; i+1 < len(g[k]); i++ {
			a, b, c, d := g[k][i], g[k][i+1], g[k-1][i+1], g[k-1][i]
			na, nb, nc, nd := normal(k, i), normal(k, i+1), normal(k-1, i+1), normal(k-1, i)
			from := len(*m)
			m.tri(a, b, c)
			if len(*m) > from {
				t := &(*m)[len(*m)-1]
				t.na, t.nb, t.nc = na, nb, nc
			}
			from = len(*m)
			m.tri(a, c, d)
			if len(*m) > from {
				t := &(*m)[len(*m)-1]
				t.na, t.nb, t.nc = na, nc, nd
			}
		}
	}
}

// paint is a plain surface: powder coat, paper, card, a grey patch.
type paint struct {
	albedo Vec
	rough  float64
	f0     float64
	metal  Vec
	grain  float64 // unevenness of the coat
	seed   uint32
}

func (c *paint) at(pt *point) surface {
	a, n := c.albedo, pt.n
	if c.grain > 0 {
		p := pt.p
		v := noise(p.X/1.6, p.Y/1.6, p.Z/1.6, c.seed) * clamp(1.5/pt.foot, 0, 1)
		v += 0.6 * noise(p.X/60, p.Y/60, p.Z/60, c.seed+1)
		a = a.mul(1 + c.grain*v)
		n = n.add(Vec{v, -v, 0.5 * v}.mul(0.15 * c.grain)).unit()
	}
	return surface{albedo: a, rough: c.rough, f0: c.f0, metal: c.metal, n: n}
}

// The plain surfaces.
var (
	blackCoat = paint{albedo: srgb(38, 38, 39), rough: 0.45, f0: 0.045, grain: 0.12, seed: 5}
	millSteel = paint{albedo: Vec{0.030, 0.031, 0.034}, rough: 0.38, f0: 0.2, metal: Vec{0.17, 0.175, 0.19}, grain: 0.35, seed: 6} // with its scale on, waxed
	whitePage = paint{albedo: Vec{0.86, 0.86, 0.86}, rough: 0.9, f0: 0.02}
	greyCard  = paint{albedo: Vec{0.18, 0.18, 0.18}, rough: 0.95, f0: 0.01}
	felt      = paint{albedo: srgb(60, 58, 56), rough: 1, f0: 0.01}
	brass     = paint{albedo: Vec{0.05, 0.035, 0.015}, rough: 0.28, f0: 0.6, metal: Vec{0.75, 0.52, 0.24}}
)

// box returns a beam of w×h along z from 0 to l with eased edges, centred on
// the z axis.
func box(w, h, l, ease float64) mesh {
	var m mesh
	x, y := w/2, h/2
	ring := func(z, in float64) []Vec {
		e := ease
		a, b := x-in, y-in
		return []Vec{{-a + e, -b, z}, {a - e, -b, z}, {a, -b + e, z}, {a, b - e, z}, {a - e, b, z}, {-a + e, b, z}, {-a, b - e, z}, {-a, -b + e, z}}
	}
	cut := min(ease, 0.8)
	levels := [][]Vec{ring(0, cut), ring(cut, 0), ring(l-cut, 0), ring(l, cut)}
	for k := 1; k < len(levels); k++ {
		for i := range 8 {
			j := (i + 1) % 8
			m.quad(levels[k-1][i], levels[k-1][j], levels[k][j], levels[k][i])
		}
	}
	lid := levels[3]
	base := levels[0]
	for i := 1; i < 7; i++ {
		m.tri(lid[0], lid[i], lid[i+1])
		m.tri(base[0], base[i+1], base[i])
	}
	return m
}

// beam returns a box section from a to b; w is its size across, level where it
// can be, h the other way.
func beam(a, b Vec, w, h, ease float64, look shader) Object {
	z := b.sub(a).unit()
	up := Vec{0, 0, 1}
	if z.Z > 0.9 || z.Z < -0.9 {
		up = Vec{0, 1, 0}
	}
	x := up.cross(z).unit()
	return Object{mesh: box(w, h, b.sub(a).len(), ease), shader: look, frame: frame{x, z.cross(x), z, a}}
}

// cylinder returns a rod along z from 0 to l.
func cylinder(r, l float64) mesh {
	const sides = 40
	var m mesh
	c := min(0.15*r, 0.8)
	levels := [][2]float64{{0, r - c}, {c, r}, {l - c, r}, {l, r - c}}
	rim := func(k, i int) Vec {
		s, co := sincos(i, sides)
		return Vec{levels[k][1] * co, levels[k][1] * s, levels[k][0]}
	}
	for k := 1; k < len(levels); k++ {
		for i := range sides {
			a, b := rim(k-1, i), rim(k-1, i+1)
			from := len(m)
			m.quad(a, b, rim(k, i+1), rim(k, i))
			if k == 2 {
				na, nb := Vec{a.X, a.Y, 0}.unit(), Vec{b.X, b.Y, 0}.unit()
				m[from].na, m[from].nb, m[from].nc = na, nb, nb
				m[from+1].na, m[from+1].nb, m[from+1].nc = na, nb, na
			}
		}
	}
	for i := 1; i < sides-1; i++ {
		m.tri(rim(3, 0), rim(3, i), rim(3, i+1))
		m.tri(rim(0, 0), rim(0, i+1), rim(0, i))
	}
	return m
}

func sincos(i, n int) (s, c float64) { return math.Sincos(2 * math.Pi * float64(i) / float64(n)) }

// Card returns a neutral 18 % grey card lying flat, its middle at a place of
// the scene, turned about z by turn degrees.
func Card(at Vec, length, width, turn float64) Object {
	return sheet(at, length, width, turn, 0.4, &greyCard)
}

// Paper returns a white sheet of paper lying flat: A4 (ISO 216, 297 × 210 mm)
// or US letter (ANSI/ASME Y14.1, 11 × 8.5 in).
func Paper(letter bool, at Vec, turn float64) Object {
	if letter {
		return sheet(at, 279.4, 215.9, turn, 0.1, &whitePage)
	}
	return sheet(at, 297, 210, turn, 0.1, &whitePage)
}

func sheet(at Vec, l, w, turn, thick float64, look shader) Object {
	m := box(l, w, thick, 0.05)
	return Object{mesh: m, shader: look, frame: Place{Turn: Vec{0, 0, turn}, Move: at}.frame()}
}
