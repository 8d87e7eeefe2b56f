package scene

import "math"

// onSawhorses is a board on two A-shaped trestles.
func (m maker) onSawhorses() RandomPiece {
	l, wd, h, thick := m.u(1100, 2400), m.u(500, 950), m.u(650, 760), m.u(20, 60)
	o, live := m.outline(l, wd)
	p := RandomPiece{Objs: m.slab(o, thick, m.w, live, centred(o, h)), Top: h + thick, HX: l / 2, HY: wd / 2, R: math.Hypot(l, wd) / 2}
	t := m.u(25, 60)
	for _, s := range []float64{-1, 1} {
		x, spread := s*l*m.u(0.28, 0.42), m.u(80, 220)
		p.Objs = append(p.Objs, beam(Vec{x, -wd * 0.45, h - t/2}, Vec{x, wd * 0.45, h - t/2}, t, t*1.4, 2, m.look))
		for _, y := range []float64{-1, 1} {
			for _, k := range []float64{-1, 1} {
				p.Objs = append(p.Objs, beam(Vec{x + k*spread, y * wd * 0.42, 0}, Vec{x, y * wd * 0.36, h - t}, t, t*0.7, 2, m.look))
			}
			if m.p(0.6) {
				p.Objs = append(p.Objs, beam(Vec{x - spread*0.6, y * wd * 0.4, h * 0.4}, Vec{x + spread*0.6, y * wd * 0.4, h * 0.4}, t*0.4, t, 1, m.look))
			}
		}
	}
	return p
}

// pedestal is a top on one column, drum or cone over a foot.
func (m maker) pedestal() RandomPiece {
	d, h := m.u(450, 1400), m.u(400, 740)
	o, live := Round(d), false
	if m.p(0.4) {
		o, live = m.outline(d*m.u(1, 1.8), d)
	}
	lo, hi := o.Bounds()
	p := RandomPiece{Objs: m.slab(o, m.u(20, 70), m.w, live, centred(o, h)), Top: h + 40, HX: (hi[0] - lo[0]) / 2, HY: d / 2, R: (hi[0] - lo[0]) / 2}
	a := d * m.u(0.06, 0.4)
	switch m.IntN(5) {
	case 0:
		p.Objs = append(p.Objs, at(cylinder(a, h), m.look, Place{}))
	case 1:
		p.Objs = append(p.Objs, at(lathe([][2]float64{{0, h}, {a * m.u(0.3, 1), h}, {a * m.u(0.8, 1.8), 0}}, 40), m.look, Place{}))
	case 2:
		p.Objs = append(p.Objs, at(box(a*1.6, a*1.6, h, 4), m.look, Place{Turn: Vec{0, 0, m.u(0, 45)}}))
	case 3:
		p.Objs = append(p.Objs, at(m.Random.turned(h, a*0.7), m.look, Place{}))
	case 4: // two panels crossed
		p.Objs = append(p.Objs, at(box(d*0.7, 35, h, 2), m.look, Place{}), at(box(35, d*0.7, h-1, 2), m.look, Place{}))
	}
	if m.p(0.6) {
		p.Objs = append(p.Objs, at(cylinder(d*m.u(0.2, 0.35), m.u(8, 60)), m.look, Place{}))
	}
	return p
}

// waterfall is a top that runs down to the floor at one end or both.
func (m maker) waterfall() RandomPiece {
	l, wd, h, thick := m.u(500, 2000), m.u(280, 700), m.u(350, 800), m.u(25, 70)
	o := Rectangle(l, wd)
	p := RandomPiece{Objs: m.slab(o, thick, m.w, false, centred(o, h-thick)), Top: h, HX: l / 2, HY: wd / 2, R: math.Hypot(l, wd) / 2}
	live := m.p(0.4)
	both := m.p(0.75)
	for _, s := range []float64{-1, 1} {
		x := s * (l/2 - thick/2)
		if s > 0 && !both {
			p.Objs = append(p.Objs, m.legs(thick+30, wd/2*0.9, h-thick, m.look, m.metal)...)
			p.Objs = moved(p.Objs, 0, Vec{})
			for i := len(p.Objs) - 1; i >= 0 && p.Objs[i].frame.o.Z < h-thick; i-- {
				p.Objs[i].frame.o.X += x - thick
			}
			continue
		}
		ws := []float64{wd, wd * m.u(0.9, 1.05), wd * m.u(0.9, 1.05)}
		end := Rectangle(h, wd)
		if live {
			end = Widths(h, ws, m.u(2, 10), m.seed())
		}
		p.Objs = append(p.Objs, m.slab(end, thick, m.w, live, Place{Turn: Vec{0, -90, 0}, Move: Vec{x + thick/2, -wd / 2, 0}})...)
	}
	return p
}

// cookie is a slice of a trunk with its bark, lying, or leaning on its edge.
func (m maker) cookie() RandomPiece {
	d, thick := m.u(180, 900), m.u(20, 90)
	o := Round(d)
	seed, rough := m.seed(), m.u(0.02, 0.09)
	for s, e := range [][][2]float64{o.Near, o.Far} {
		for i := range e {
			x, y := e[i][0]/d-0.5, e[i][1]/d-0.5
			k := 1 + rough*(noise(x*4, y*4, float64(s)*0, seed)+0.5*noise(x*13, y*13, 2, seed))
			e[i] = [2]float64{d/2 + x*k*d, d/2 + y*k*d}
		}
	}
	pl := centred(o, 0)
	if m.p(0.3) {
		pl = Place{Turn: Vec{m.u(60, 85), 0, 0}, Move: Vec{-d / 2, 0, 2}}
	}
	s := Slab{Outline: o, Thickness: thick, Place: pl, Ease: 1, Rough: m.u(0.2, 0.9), LiveNear: m.u(4, 20), LiveFar: m.u(4, 20),
		Log: Log{Wood: m.w, PithY: d/2 + m.u(-0.1, 0.1)*d, PithZ: d / 2, Seed: m.seed(), Up: true}}
	return RandomPiece{Objs: s.Objects(), Top: thick, HX: d * 0.3, HY: d * 0.3, R: d / 2}
}

// block is a cube, a stump, or a drum.
func (m maker) block() RandomPiece {
	a, h := m.u(220, 500), m.u(250, 600)
	look := m.woodLook(m.w)
	p := RandomPiece{Top: h, HX: a * 0.4, HY: a * 0.4, R: a * 0.7}
	switch m.IntN(3) {
	case 0:
		p.Objs = []Object{at(box(a, a*m.u(0.7, 1), h, m.u(1, 8)), look, Place{})}
	case 1:
		p.Objs = []Object{at(cylinder(a/2, h), look, Place{})}
	case 2:
		var prof [][2]float64
		w := []float64{m.u(0.8, 1), m.u(0.6, 1.1), m.u(0.6, 1.1), m.u(0.8, 1.1)}
		prof = append(prof, [2]float64{0, h})
		for i := 0; i <= 12; i++ {
			prof = append(prof, [2]float64{a / 2 * spline(w, float64(i)/4), h * (1 - float64(i)/12)})
		}
		p.Objs = []Object{at(lathe(prof, 40), look, Place{})}
	}
	return p
}

// slats is a bench, a seat or a table of slats, as in gardens.
func (m maker) slats() RandomPiece {
	h := m.u(380, 720)
	return m.slatted(m.u(450, 1800), m.u(400, 800), h, h < 520 && m.p(0.75))
}

// slatted is l long, wd deep and h high under the slats, with a back or none.
func (m maker) slatted(l, wd, h float64, back bool) RandomPiece {
	n := 4 + m.IntN(8)
	p := RandomPiece{Top: h + 25, HX: l / 2, HY: wd / 2, R: math.Hypot(l, wd) / 2}
	look := m.woodLook(m.w)
	step := wd / float64(n)
	for i := range n {
		y := -wd/2 + step*(float64(i)+0.5)
		p.Objs = append(p.Objs, beam(Vec{-l / 2, y, h + 12}, Vec{l / 2, y, h + 12}, step*m.u(0.7, 0.95), 22, 2, look))
	}
	p.Objs = append(p.Objs, m.legs(l/2*0.95, wd/2*0.95, h, m.look, m.metal)...)
	if back { // perhaps with arms
		lean := m.u(50, 200)
		bh := m.u(300, 520)
		k := 3 + m.IntN(5)
		for i := range k {
			t := (float64(i) + 0.5) / float64(k)
			p.Objs = append(p.Objs, beam(Vec{-l / 2, wd/2 + lean*t, h + bh*t}, Vec{l / 2, wd/2 + lean*t, h + bh*t}, 20, bh/float64(k)*0.75, 2, look))
		}
		for _, s := range []float64{-1, 1} {
			p.Objs = append(p.Objs, beam(Vec{s * l * 0.46, wd/2 + 10, 0}, Vec{s * l * 0.46, wd/2 + lean, h + bh}, 40, 40, 2, m.look))
			if m.p(0.6) {
				p.Objs = append(p.Objs, beam(Vec{s * l * 0.49, -wd / 2, h + 220}, Vec{s * l * 0.49, wd/2 + 60, h + 220}, 60, 25, 3, look),
					beam(Vec{s * l * 0.49, -wd * 0.45, 0}, Vec{s * l * 0.49, -wd * 0.45, h + 220}, 45, 45, 2, m.look))
			}
		}
		p.Top = 0
	}
	return p
}

// picnic is a table with its benches in one.
func (m maker) picnic() RandomPiece {
	l, h := m.u(1200, 2000), m.u(680, 760)
	look := m.woodLook(m.w)
	p := RandomPiece{Top: h + 40, HX: l / 2, HY: 350, R: l/2 + 200}
	plank := func(y, z float64) {
		p.Objs = append(p.Objs, beam(Vec{-l / 2, y, z}, Vec{l / 2, y, z}, 130, 38, 2, look))
	}
	for i := range 5 {
		plank(float64(i-2)*140, h+20)
	}
	for _, s := range []float64{-1, 1} {
		plank(s*620, 440)
		plank(s*760, 440)
		x := s * l * 0.35
		p.Objs = append(p.Objs, beam(Vec{x, -700, 400}, Vec{x, 700, 400}, 40, 100, 2, look), beam(Vec{x, -330, h - 40}, Vec{x, 330, h - 40}, 40, 90, 2, look))
		for _, y := range []float64{-1, 1} {
			p.Objs = append(p.Objs, beam(Vec{x, y * 600, 0}, Vec{x, y * 230, h}, 40, 95, 2, look))
		}
	}
	return p
}

// glass is a table with a top of glass: it mirrors and takes the ground's dark.
func (m maker) glass() RandomPiece {
	p := m.top(m.u(700, 1600), m.u(500, 900), m.u(350, 740), m.u(8, 15), m.p(0.4))
	sheet := &paint{albedo: hsv(m.u(0.3, 0.55), m.u(0, 0.4), m.u(0.05, 0.5)), rough: m.u(0.02, 0.1), f0: m.u(0.05, 0.4)}
	for i := range 3 {
		p.Objs[i].shader = sheet
	}
	return p
}

// workbench is a heavy bench with a shelf, a vice and tools on it.
func (m maker) workbench() RandomPiece {
	l, wd, h := m.u(1200, 2200), m.u(500, 800), m.u(780, 900)
	o := Rectangle(l, wd)
	p := RandomPiece{Objs: m.slab(o, m.u(50, 110), m.w, false, centred(o, h)), Top: h + 80, HX: l / 2, HY: wd / 2, R: math.Hypot(l, wd) / 2}
	look := m.woodLook(m.w)
	t := m.u(60, 120)
	for _, sx := range []float64{-1, 1} {
		for _, sy := range []float64{-1, 1} {
			p.Objs = append(p.Objs, beam(Vec{sx * l * 0.42, sy * wd * 0.4, 0}, Vec{sx * l * 0.42, sy * wd * 0.4, h}, t, t, 2, look))
		}
		p.Objs = append(p.Objs, beam(Vec{sx * l * 0.42, -wd * 0.4, 150}, Vec{sx * l * 0.42, wd * 0.4, 150}, t*0.6, t, 2, look))
	}
	for _, sy := range []float64{-1, 1} {
		p.Objs = append(p.Objs, beam(Vec{-l * 0.42, sy * wd * 0.4, 200}, Vec{l * 0.42, sy * wd * 0.4, 200}, t*0.6, t, 2, look))
	}
	if m.p(0.5) {
		sh := Rectangle(l*0.8, wd*0.75)
		p.Objs = append(p.Objs, m.slab(sh, 20, m.w, false, centred(sh, 240))...)
		for range m.IntN(5) {
			p.By = append(p.By, moved(m.Thing(m.u(150, 450)), m.u(0, 360), Vec{m.u(-0.35, 0.35) * l, 0, 262})...)
		}
	}
	if m.p(0.5) {
		p.Objs = append(p.Objs, at(box(200, 60, 140, 4), look, Place{Move: Vec{-l * 0.35, -wd/2 - 80, h - 60}}), rod(Vec{-l * 0.35, -wd/2 - 60, h}, Vec{-l * 0.35, -wd/2 + 40, h}, 14, m.Random.metal()))
	}
	return p
}

// stack is slabs or boards piled with sticks between.
func (m maker) stack() RandomPiece {
	l, wd := m.u(700, 2000), m.u(250, 700)
	p := RandomPiece{HX: l / 2, HY: wd / 2, R: l / 2}
	z := 0.0
	for range 2 + m.IntN(4) {
		o, live := m.outline(l*m.u(0.9, 1), wd*m.u(0.8, 1))
		th := m.u(25, 80)
		p.Objs = append(p.Objs, moved(m.slab(o, th, m.w, live, centred(o, z)), m.u(-3, 3), Vec{})...)
		z += th + 20
		for _, s := range []float64{-0.7, 0, 0.7} {
			p.Objs = append(p.Objs, beam(Vec{s * l / 2, -wd / 2, z - 10}, Vec{s * l / 2, wd / 2, z - 10}, 25, 20, 1, m.look))
		}
	}
	return p
}
