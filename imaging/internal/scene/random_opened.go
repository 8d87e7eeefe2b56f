package scene

import "math"

// opened is a chest or a cupboard that stands open: doors ajar, drawers drawn
// out, a lid up, a flap let down. All of that is of the piece.
func (m maker) opened() RandomPiece {
	l, d, h := m.u(450, 1500), m.u(300, 600), m.u(500, 1600)
	look := m.woodLook(m.w)
	leg := 0.0
	if m.p(0.5) {
		leg = m.u(60, 400)
	}
	var p RandomPiece
	switch m.IntN(4) {
	case 0:
		p = m.openDoors(l, d, h, look)
	case 1:
		p = m.openDrawers(l, d, h, look)
	case 2:
		p = m.openLid(l, d, min(h, m.u(300, 800)), look)
	case 3:
		p = m.openFlap(l, d*0.8, h, look)
	}
	p.R = math.Hypot(l, d)/2 + 150
	if leg > 0 {
		p.Objs = append(moved(p.Objs, 0, Vec{0, 0, leg}), m.legs(l/2*0.95, d/2*0.9, leg, m.look, m.metal)...)
	}
	return p
}

// carcass is a box of boards, open in front or above.
func (m maker) carcass(l, d, h float64, look shader, above bool) (objs []Object) {
	put := func(a, b, c, x, y, z float64) {
		objs = append(objs, at(box(a, b, c, 1), look, Place{Move: Vec{x, y, z}}))
	}
	put(20, d, h, -l/2+10, 0, 0)
	put(20, d, h, l/2-10, 0, 0)
	put(l-42, 12, h, 0, d/2-6, 0)
	put(l-42, d-14, 20, 0, 0, 0)
	if above {
		put(l-42, 20, h, 0, -d/2+10, 0)
	} else {
		put(l+30, d+20, 25, 0, 0, h)
	}
	return objs
}

func (m maker) openDoors(l, d, h float64, look shader) RandomPiece {
	p := RandomPiece{Objs: m.carcass(l, d, h, look, false), HX: l / 2, HY: d / 2, Top: h + 25}
	n := m.IntN(4)
	for i := range n {
		z := h * float64(i+1) / float64(n+1)
		p.Objs = append(p.Objs, at(box(l-42, d-30, 18, 1), look, Place{Move: Vec{0, 5, z}}))
		if m.p(0.5) {
			p.By = append(p.By, moved(m.Thing(m.u(60, 0.7*h/float64(n+1))), m.u(0, 360), Vec{m.u(-0.3, 0.3) * l, 0, z + 18})...)
		}
	}
	w := l/2 - 2
	knob := m.Random.metal()
	for _, s := range []float64{-1, 1} {
		open := m.u(20, 170)
		if m.p(0.25) {
			open = 0
		}
		door := []Object{at(box(w, 20, h-8, 2), look, Place{Move: Vec{-s * w / 2, -10, 4}}), at(ball(12, 12), knob, Place{Move: Vec{-s * w * 0.9, -26, h / 2}})}
		p.Objs = append(p.Objs, moved(door, s*open, Vec{s * l / 2, -d / 2, 0})...)
	}
	return p
}

func (m maker) openDrawers(l, d, h float64, look shader) RandomPiece {
	p := RandomPiece{Objs: []Object{at(box(l, d, h, 2), look, Place{})}, HX: l / 2, HY: d / 2, Top: h}
	nx, nz := 1+m.IntN(2), 2+m.IntN(4)
	w, hh := l/float64(nx), h/float64(nz)
	inside := m.woodLook(m.wood())
	knob := m.Random.metal()
	for i := range nx {
		for k := range nz {
			out := 8.0
			if m.p(0.4) {
				out = m.u(0.1, 0.8) * d
			}
			x, z := -l/2+w*(float64(i)+0.5), hh*float64(k)
			y := -d/2 - out
			p.Objs = append(p.Objs, at(box(w-12, 18, hh-10, 2), look, Place{Move: Vec{x, y, z + 5}}), at(ball(13, 13), knob, Place{Move: Vec{x, y - 18, z + hh/2}}))
			if out > 20 { // its sides and bottom
				for _, s := range []float64{-1, 1} {
					p.Objs = append(p.Objs, at(box(12, out, hh*0.7, 1), inside, Place{Move: Vec{x + s*(w/2-16), y + out/2, z + 8}}))
				}
				p.Objs = append(p.Objs, at(box(w-34, out, 8, 0.5), inside, Place{Move: Vec{x, y + out/2, z + 14}}))
			}
		}
	}
	return p
}

func (m maker) openLid(l, d, h float64, look shader) RandomPiece {
	p := RandomPiece{Objs: m.carcass(l, d, h, look, true)}
	o := Rectangle(l+20, d+10)
	lid := m.slab(o, 22, m.w, false, Place{Turn: Vec{m.u(35, 105), 0, 0}, Move: Vec{-l/2 - 10, -d / 2, h}})
	for i := range lid {
		lid[i].shader = look
	}
	p.Objs = append(p.Objs, moved(lid, 180, Vec{})...) // its hinge is behind
	for range m.IntN(4) {
		p.By = append(p.By, moved(m.Thing(m.u(0.2, 0.6)*min(d, h)), m.u(0, 360), Vec{m.u(-0.3, 0.3) * l, 0, 22})...)
	}
	return p
}

// openFlap is a writing cupboard: a flap let down to write on, pigeon-holes
// behind it, drawers below.
func (m maker) openFlap(l, d, h float64, look shader) RandomPiece {
	h = max(h, 900)
	z := min(720, h*0.7)
	p := m.openDrawers(l, d, z, look)
	p.Objs = append(p.Objs, moved(m.carcass(l, d, h-z, look, false), 0, Vec{0, 0, z})...)
	for i := range 2 + m.IntN(4) {
		p.Objs = append(p.Objs, at(box(10, d*0.6, (h-z)*0.6, 1), look, Place{Move: Vec{l * (float64(i+1)/6 - 0.5), d * 0.15, z + 20}}))
	}
	p.Objs = append(p.Objs, at(box(l-44, d*0.6, 10, 1), look, Place{Move: Vec{0, d * 0.15, z + (h-z)*0.6}}))
	f := min(h-z, m.u(250, 420))
	p.Objs = append(p.Objs, at(box(l-8, f, 20, 2), look, Place{Turn: Vec{m.u(-4, 2), 0, 0}, Move: Vec{0, -d/2 - f/2, z}}))
	p.Top, p.HX, p.HY = h+25, l/2, d/2
	return p
}
