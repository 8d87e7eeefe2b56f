package scene

import "math"

// lathe turns a profile of (radius, z) from the top down.
func lathe(prof [][2]float64, sides int) mesh {
	var g [][]Vec
	for _, q := range prof {
		var row []Vec
		for i := 0; i <= sides; i++ {
			s, c := sincos(i, sides)
			row = append(row, Vec{math.Max(q[0], 0.01) * c, math.Max(q[0], 0.01) * s, q[1]})
		}
		g = append(g, row)
	}
	var m mesh
	m.grid(g)
	return m
}

func (r Random) turned(h, rmax float64) mesh {
	n := 4 + r.IntN(4)
	rad := make([]float64, n)
	for i := range rad {
		rad[i] = rmax * r.u(0.25, 1)
	}
	prof := [][2]float64{{0, h}}
	for i := 0; i <= 16; i++ {
		t := float64(i) / 16
		prof = append(prof, [2]float64{math.Max(spline(rad, t*float64(n-1)), 1), h * (1 - t)})
	}
	return lathe(append(prof, [2]float64{0, 0}), 20)
}

func ball(rx, rz float64) mesh {
	var prof [][2]float64
	for i := 0; i <= 10; i++ {
		s, c := math.Sincos(math.Pi * float64(i) / 10)
		prof = append(prof, [2]float64{rx * s, rz * c})
	}
	return lathe(prof, 16)
}

func rod(a, b Vec, rad float64, look shader) Object {
	o := beam(a, b, 1, 1, 0, look)
	l := b.sub(a).len()
	o.mesh = lathe([][2]float64{{0, l}, {rad, l}, {rad, 0}, {0, 0}}, 10)
	return o
}

func at(m mesh, look shader, p Place) Object { return Object{mesh: m, shader: look, frame: p.frame()} }

func (r Random) outline(l, w float64) (Outline, bool) {
	switch r.IntN(5) {
	case 0, 1:
		return Rectangle(l, w), false
	case 2:
		return RoundedRectangle(l, w, r.u(0.05, 0.49)*math.Min(l, w)), false
	}
	n := 3 + r.IntN(4)
	ws := make([]float64, n)
	for i := range ws {
		ws[i] = w * r.u(0.8, 1.1)
	}
	wander := r.u(2, 14)
	if r.p(0.25) { // deep bark edges
		wander = r.u(14, 35)
	}
	return Widths(l, ws, wander, r.seed()), true
}

func (r Random) slab(o Outline, thick float64, w Wood, live bool, p Place) []Object {
	lo, hi := o.Bounds()
	s := Slab{Outline: o, Thickness: thick, Place: p, Ease: r.u(1, 5), Rough: r.u(0.2, 0.8),
		Log: Log{Wood: w, PithY: r.u(-0.5, 1.5) * (hi[1] - lo[1]), PithZ: r.u(-150, -20), Lean: r.u(0, 0.06), Seed: r.seed()}}
	for range r.IntN(4) {
		s.Log.Knots = append(s.Log.Knots, Knot{X: r.u(lo[0], hi[0]), Y: r.u(lo[1], hi[1]), Radius: r.u(5, 25), Dead: r.p(0.4)})
	}
	if r.p(0.3) {
		s.Log.Radius = r.u(0.3, 0.6) * (hi[1] - lo[1])
	}
	if live && r.p(0.8) {
		s.LiveNear, s.LiveFar = r.u(5, 30), r.u(5, 30)
		if r.p(0.2) {
			s.LiveNear, s.LiveFar = r.u(30, 70), r.u(30, 70)
		}
	}
	if r.p(0.35) && hi[1]-lo[1] > 150 {
		body := hsv(r.Float64(), r.u(0, 0.95), r.u(0.03, 0.95))
		wd := hi[1] - lo[1]
		rv := &River{Resin: Resin{Colour: body.mix(Vec{1, 1, 1}, 0.5), Milk: r.u(0.05, 0.8), Body: body, Rough: r.u(0.05, 0.3)},
			Slope: r.u(0, 0.5), Wander: r.u(3, 20), Seed: r.seed()}
		c, width := lo[1]+wd*r.u(0.3, 0.7), wd*r.u(0.08, 0.35)
		for range 5 {
			rv.Centre = append(rv.Centre, c+wd*r.u(-0.1, 0.1))
			rv.Width = append(rv.Width, width*r.u(0.5, 1.4))
		}
		s.River = rv
	}
	return s.Objects()
}

// moved turns things about z and moves them.
func moved(objs []Object, turn float64, by Vec) []Object {
	g := Place{Turn: Vec{0, 0, turn}, Move: by}.frame()
	out := make([]Object, len(objs))
	for i, o := range objs {
		f := o.frame
		out[i] = Object{o.mesh, o.shader, frame{g.dir(f.x), g.dir(f.y), g.dir(f.z), g.out(f.o)}}
	}
	return out
}
