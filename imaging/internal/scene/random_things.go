package scene

import "math"

// cabinet is a box l×d×h whose lid is at z, with fronts.
func (r Random) cabinet(x, y, l, d, h, z float64, look shader) (objs []Object) {
	objs = append(objs, at(box(l, d, h, 2), look, Place{Move: Vec{x, y, z - h}}))
	nx, nz := 1+r.IntN(3), 1+r.IntN(4)
	knob := r.metal()
	open := r.p(0.2)
	var front shader = look
	if r.p(0.3) {
		front = r.paint()
	}
	for i := range nx {
		for k := range nz {
			w, hh := l/float64(nx), h/float64(nz)
			c := Vec{x - l/2 + w*(float64(i)+0.5), y - d/2 - 6, z - h + hh*float64(k)}
			f := front
			if open {
				f = &paint{albedo: Vec{0.01, 0.01, 0.01}, rough: 1}
			}
			objs = append(objs, at(box(w-12, 14, hh-14, 2), f, Place{Move: c.add(Vec{0, 0, 7})}))
			if !open {
				objs = append(objs, at(ball(12, 12), knob, Place{Move: c.add(Vec{0, -16, hh / 2})}))
			}
		}
	}
	return objs
}

// Thing is a random small or large thing no longer than size, standing on z = 0.
func (r Random) Thing(size float64) (objs []Object) {
	put := func(m mesh, lk shader, p Vec, turn Vec) {
		objs = append(objs, at(m, lk, Place{Turn: turn, Move: p}))
	}
	any := func() shader {
		switch r.IntN(8) {
		case 0:
			return r.woodLook(r.wood())
		case 1:
			return r.metal()
		case 2, 3:
			return r.tex(size)
		}
		return r.paint()
	}
	switch r.IntN(8) {
	case 0, 1: // boxes, a pile
		z := 0.0
		for range 1 + r.IntN(4) {
			h := size * r.u(0.05, 0.5)
			put(box(size*r.u(0.3, 1), size*r.u(0.2, 0.7), h, 1), any(), Vec{0, 0, z}, Vec{0, 0, r.u(-30, 30)})
			z += h
		}
	case 2, 3: // turned: vase, lamp, bottle, cup
		put(r.turned(size*r.u(0.4, 1), size*r.u(0.1, 0.35)), any(), Vec{}, Vec{})
		if r.p(0.3) {
			put(lathe([][2]float64{{size * 0.15, size * 1.3}, {size * 0.35, size * 0.9}}, 20), r.paint(), Vec{}, Vec{})
		}
	case 4: // plant
		put(lathe([][2]float64{{size * 0.16, size * 0.3}, {size * 0.18, size * 0.29}, {size * 0.12, 0}}, 18), r.paint(), Vec{}, Vec{})
		g := &paint{albedo: hsv(r.u(0.2, 0.42), r.u(0.3, 0.8), r.u(0.15, 0.6)), rough: 0.6, f0: 0.04, grain: 0.2}
		for range 15 + r.IntN(40) {
			a, e := r.u(0, 6.28), r.u(0.2, 1.4)
			l := size * r.u(0.3, 0.8)
			d := Vec{math.Cos(a) * math.Cos(e), math.Sin(a) * math.Cos(e), math.Sin(e)}
			s := Vec{-math.Sin(a), math.Cos(a), 0}.mul(l * r.u(0.05, 0.25))
			o := Vec{0, 0, size * 0.3}
			if r.p(0.5) {
				o = o.add(d.mul(l * r.u(0, 0.7)))
			}
			m := mesh{}
			m.quad(o, o.add(d.mul(l*0.5)).add(s), o.add(d.mul(l)).sub(Vec{0, 0, l * 0.2}), o.add(d.mul(l*0.5)).sub(s))
			objs = append(objs, at(m, g, Place{}))
		}
	case 5: // books
		x := 0.0
		for x < size {
			w := r.u(10, 50) * size / 500
			put(box(w, size*r.u(0.25, 0.35), size*r.u(0.3, 0.5), 1), any(), Vec{x - size/2, 0, 0}, Vec{0, r.u(-3, 8), 0})
			x += w + 1
		}
	case 6:
		objs = r.person(size)
	case 7: // sticks, tools, planks
		for range 1 + r.IntN(6) {
			a := Vec{r.u(-0.5, 0.5) * size, r.u(-0.2, 0.2) * size, size * 0.03}
			b := a.add(Vec{r.u(-0.5, 0.5) * size, r.u(-0.2, 0.2) * size, r.u(0, 1) * size})
			objs = append(objs, beam(a, b, size*r.u(0.02, 0.12), size*r.u(0.02, 0.06), 1, any()))
		}
	}
	return objs
}
