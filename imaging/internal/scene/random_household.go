package scene

import "math"

// set is a table with its chairs, a bench and a table, a pair, a nest: what one
// maker made of one wood counts as one piece.
func (m maker) set() RandomPiece {
	switch m.IntN(4) {
	case 0: // a nest, or a row
		h, d := m.u(300, 600), m.u(350, 700)
		p := m.top(d, d*m.u(0.6, 1), h, m.u(18, 40), m.p(0.4))
		gap := d * m.u(0.4, 1.3)
		for i := range 1 + m.IntN(2) {
			k := math.Pow(m.u(0.65, 1), float64(i+1))
			q := m.top(d*k, d*k*0.8, h*k, 25, m.p(0.4))
			p.Objs = append(p.Objs, moved(q.Objs, m.u(-20, 20), Vec{gap * float64(i+1), m.u(-100, 100), 0})...)
		}
		p.R += gap
		return p
	case 1: // two seats side by side
		draw := []func() RandomPiece{m.chair, m.spindleChair, m.turnedStool, m.slats}[m.IntN(4)]
		p, q := draw(), draw()
		gap := p.R + q.R*m.u(0.4, 1)
		p.Objs = append(moved(p.Objs, m.u(-30, 30), Vec{-gap / 2, 0, 0}), moved(q.Objs, m.u(-30, 30), Vec{gap / 2, m.u(-200, 200), 0})...)
		p.R += gap / 2
		p.Top = 0
		return p
	}
	p := m.top(m.u(900, 1900), m.u(700, 950), m.u(680, 740), m.u(20, 60), m.p(0.3))
	draw := []func() RandomPiece{m.chair, m.spindleChair, m.slats}[m.IntN(3)]
	if m.p(0.4) { // benches
		draw = func() RandomPiece { return m.top(p.HX*1.7, 320, 430, m.u(20, 50), false) }
	}
	for _, sd := range []float64{-1, 1} {
		q := draw()
		n := 1 + m.IntN(2)
		if q.HX > 400 {
			n = 1
		}
		for i := range n {
			x := p.HX * (float64(2*i+1)/float64(n) - 1)
			p.Objs = append(p.Objs, moved(q.Objs, 90-sd*90+m.u(-12, 12)+180, Vec{x, -sd * (p.HY + m.u(0, 350)), 0})...)
		}
	}
	p.R += 350
	return p
}

// gardenSet is a table of slats with chairs or benches of the same make, perhaps
// with cushions, as it stands in gardens.
func (m maker) gardenSet() RandomPiece {
	p := m.slatted(m.u(700, 1900), m.u(650, 950), m.u(640, 730), false)
	p.Out = true
	q := m.slatted(m.u(430, 620), m.u(420, 560), m.u(380, 440), true)
	if m.p(0.4) {
		c, w := m.paint(), m.u(30, 90)
		q.Objs = append(q.Objs, at(box(q.HX*1.8, q.HY*1.8, w, 14), c, Place{Move: Vec{0, 0, 440}}),
			at(box(q.HX*1.7, w, m.u(250, 450), 14), c, Place{Turn: Vec{-15, 0, 0}, Move: Vec{0, q.HY, 460}}))
	}
	n := 2 + m.IntN(5)
	for i := range n {
		a := 360*float64(i)/float64(n) + m.u(-20, 20)
		s, c := math.Sincos(a * math.Pi / 180)
		away := m.u(50, 350)
		p.Objs = append(p.Objs, moved(q.Objs, a-90+m.u(-15, 15), Vec{(p.HX + away) * c, (p.HY + away) * s, 0})...)
	}
	p.R += 500
	return p
}

// grand is a grand piano: a curved case on three legs, its lid up or down.
func (m maker) grand() RandomPiece {
	l, w, h, thick := m.u(1400, 2400), m.u(1350, 1550), m.u(620, 700), m.u(260, 340)
	look := m.lacquer()
	o := Outline{}
	tail := m.u(0.25, 0.45)
	for i := range 41 {
		t := float64(i) / 40
		far := 1.0
		if t > 0.35 {
			u := (t - 0.35) / 0.65
			far = tail + (1-tail)*(1-smooth(0, 0.8, u))
			if u > 0.8 {
				far *= math.Sqrt(1 - (u-0.8)*(u-0.8)/0.042)
			}
		}
		o.Near, o.Far = append(o.Near, [2]float64{t * l, 0}), append(o.Far, [2]float64{t * l, max(far, 0.06) * w})
	}
	base := Vec{-l / 2, -w / 2, h}
	p := RandomPiece{HX: l / 2, HY: w / 2, R: l * 0.6}
	p.Objs = m.slab(o, thick, m.w, false, Place{Move: base})
	if m.p(0.85) { // the lid up on its stick
		a := m.u(18, 50)
		p.Objs = append(p.Objs, m.slab(o, 20, m.w, false, Place{Turn: Vec{a, 0, 0}, Move: base.add(Vec{0, 0, thick})})...)
		s, c := math.Sincos(a * math.Pi / 180)
		p.Objs = append(p.Objs, rod(Vec{-l * 0.25, w * 0.42, h + thick - 20}, Vec{-l * 0.25, -w/2 + 0.9*w*c, h + thick + 0.9*w*s}, 10, look))
		p.Objs = append(p.Objs, at(box(150, w*0.5, m.u(150, 350), 4), look, Place{Turn: Vec{0, m.u(10, 25), 0}, Move: Vec{-l*0.5 + 250, 0, h + thick}}))
	}
	for i := range p.Objs {
		p.Objs[i].shader = look
	}
	p.Objs = append(p.Objs, at(box(200, w, thick*0.45, 4), look, Place{Move: Vec{-l/2 - 90, 0, h}}), at(box(140, w*0.86, 24, 1), &whitePage, Place{Move: Vec{-l/2 - 90, 0, h + thick*0.45}}))
	for i := range 24 {
		if i%7 != 2 && i%7 != 6 {
			p.Objs = append(p.Objs, at(box(90, w*0.012, 14, 1), &blackCoat, Place{Move: Vec{-l/2 - 65, w * 0.84 * (float64(i)/24 - 0.48), h + thick*0.45 + 20}}))
		}
	}
	return m.onPianoLegs(p, l, w, h, look)
}

func (m maker) onPianoLegs(p RandomPiece, l, w, h float64, look shader) RandomPiece {
	turned := m.p(0.5)
	for _, q := range [][2]float64{{-0.42, -0.42}, {-0.42, 0.42}, {0.36, -0.3}} {
		foot := Vec{q[0] * l, q[1] * w, 0}
		if turned {
			p.Objs = append(p.Objs, at(m.Random.turned(h, m.u(60, 90)), look, Place{Move: foot}))
		} else {
			p.Objs = append(p.Objs, beam(foot, foot.add(Vec{0, 0, h}), m.u(70, 110), m.u(70, 110), 3, look))
		}
	}
	lyre := Vec{-l * 0.36, 0, 40}
	p.Objs = append(p.Objs, beam(lyre, lyre.add(Vec{0, 0, h - 40}), 90, 40, 3, look), at(box(100, 260, 60, 3), look, Place{Move: lyre}))
	return RandomPiece{Objs: moved(p.Objs, m.u(0, 180), Vec{}), R: p.R}
}

// lacquer is a dark or a wooden finish, as pianos and cabinets have.
func (m maker) lacquer() shader {
	if m.p(0.45) {
		v := m.u(0.004, 0.03)
		return &paint{albedo: Vec{v * m.u(1, 1.6), v, v}, rough: m.u(0.05, 0.3), f0: 0.05}
	}
	if m.p(0.2) {
		return m.paint()
	}
	return m.woodLook(m.w)
}

// uprightPiano is a case with a keyboard that stands out of it.
func (m maker) uprightPiano() RandomPiece {
	w, d, h := m.u(1350, 1550), m.u(280, 360), m.u(1000, 1350)
	look := m.lacquer()
	k := h * m.u(0.5, 0.6)
	p := RandomPiece{HX: w / 2, HY: d / 2, R: w * 0.55, Top: h}
	put := func(x, y, z, a, b, c float64, lk shader) {
		p.Objs = append(p.Objs, at(box(a, b, c, 3), lk, Place{Move: Vec{x, y, z}}))
	}
	put(0, 0, 0, w, d, h, look)
	put(0, -d/2-140, k, w, 280, 90, look)
	put(0, -d/2-170, k+90, w*0.88, 140, 20, &whitePage)
	for i := range 24 {
		if i%7 != 2 && i%7 != 6 {
			put(w*0.86*(float64(i)/24-0.48), -d/2-140, k+105, w*0.012, 90, 14, &blackCoat)
		}
	}
	for _, s := range []float64{-1, 1} {
		put(s*(w/2-40), -d/2-240, 0, 60, 60, k, look)
		put(s*(w/2-30), -d/2-140, k+60, 60, 290, 140, look)
	}
	put(0, -d/2-8, k+200, w*0.85, 16, h-k-260, m.lacquer())
	return p
}

// bent is a leg that swings out and in again, from head to foot.
func bent(head, foot Vec, swing, thick float64, look shader) (objs []Object) {
	out := foot.sub(head)
	out.Z = 0
	if out.len() < 1 {
		out = Vec{foot.X, foot.Y, 0}
	}
	out = out.unit()
	at := func(t float64) Vec {
		s := math.Sin(2*math.Pi*t) * (1 - 0.4*t)
		return head.mix(foot, t).add(out.mul(swing * s))
	}
	const n = 7
	for i := range n {
		w := thick * (1.25 - 0.7*float64(i)/n)
		objs = append(objs, beam(at(float64(i)/n), at(float64(i+1)/n), w, w, 2, look))
	}
	return objs
}

// period is a table, a stand or a chair on bent legs, with a shaped apron.
func (m maker) period() RandomPiece {
	look := m.lacquer()
	l, d, h := m.u(400, 1500), m.u(350, 700), m.u(400, 760)
	seat := m.p(0.45)
	if seat {
		l, d, h = m.u(430, 560), m.u(400, 520), m.u(380, 430)
	}
	p := m.top(l, d, h, m.u(15, 35), m.p(0.25))
	p.Objs = p.Objs[:3]
	t := m.u(35, 70)
	for _, q := range [][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		head, foot := Vec{q[0] * p.HX * 0.72, q[1] * p.HY * 0.72, h}, Vec{q[0] * p.HX * 0.8, q[1] * p.HY * 0.8, 0}
		p.Objs = append(p.Objs, bent(head, foot, m.u(10, 60), t, look)...)
	}
	p.Objs = append(p.Objs, at(box(p.HX*1.5, p.HY*1.5, m.u(50, 130), 4), look, Place{Move: Vec{0, 0, h - 60}}))
	if seat {
		p.Objs = append(p.Objs, m.carvedBack(p.HX, p.HY, h, look)...)
		if m.p(0.6) {
			p.Objs = append(p.Objs, at(box(l*0.85, d*0.85, m.u(30, 70), 18), m.paint(), Place{Move: Vec{0, 0, h + 10}}))
		}
		p.Top = 0
	}
	return p
}

// carvedBack is two posts, a shaped rail and a pierced splat.
func (m maker) carvedBack(hx, hy, z float64, look shader) (objs []Object) {
	h, lean := m.u(400, 750), m.u(40, 160)
	y := hy * 0.8
	a := func(x, t float64) Vec { return Vec{x * hx, y + lean*t*t, z + h*t} }
	for _, s := range []float64{-1, 1} {
		objs = append(objs, beam(a(s*0.8, 0), a(s*0.75, 0.5), 40, 32, 3, look), beam(a(s*0.75, 0.5), a(s*0.85, 1), 38, 28, 3, look))
		if m.p(0.5) { // arms
			objs = append(objs, beam(a(s*0.8, 0.45), Vec{s * hx * 1.05, -hy * 0.6, z + h*0.38}, 45, 28, 5, look), rod(Vec{s * hx * 1.03, -hy * 0.6, z + h*0.38}, Vec{s * hx * 0.9, -hy * 0.5, z}, 16, look))
		}
	}
	rise := m.u(-0.04, 0.1)
	const n = 8
	rail := m.u(40, 110)
	for i := range n {
		x0, x1 := 2*float64(i)/n-1, 2*float64(i+1)/n-1
		objs = append(objs, beam(a(x0*0.95, 0.95+rise*math.Cos(x0*math.Pi)), a(x1*0.95, 0.95+rise*math.Cos(x1*math.Pi)), 30, rail, 3, look))
	}
	w := m.u(0.12, 0.35)
	switch m.IntN(3) {
	case 0:
		objs = append(objs, beam(a(0, 0), a(0, 0.95), w*2*hx, 14, 3, look))
	case 1: // loops
		k := 2 + m.IntN(3)
		for j := range k {
			for i := range 10 {
				s0, c0 := sincos(i, 10)
				s1, c1 := sincos(i+1, 10)
				t := (float64(j) + 0.5) / float64(k)
				objs = append(objs, rod(a(w*c0, t*0.92+s0*0.46/float64(k)), a(w*c1, t*0.92+s1*0.46/float64(k)), m.u(8, 14), look))
			}
		}
	case 2: // upright strips
		for _, x := range []float64{-1, -0.35, 0.35, 1} {
			objs = append(objs, beam(a(x*w, 0), a(x*w*m.u(0.5, 1.6), 0.95), 28, 14, 2, look))
		}
	}
	return objs
}

// hung is what hangs on a wall: shelves on brackets, a clock, a slice, a frame.
func (m maker) hung() RandomPiece {
	p := RandomPiece{Hung: true, HY: 20}
	z := m.u(700, 1700)
	switch m.IntN(4) {
	case 0, 1:
		l, d := m.u(400, 1500), m.u(120, 300)
		p.HY = d / 2
		for i := range 1 + m.IntN(3) {
			o, live := m.outline(l, d)
			zi := z + 320*float64(i)
			p.Objs = append(p.Objs, m.slab(o, m.u(20, 55), m.w, live, centred(o, zi))...)
			if m.p(0.5) { // brackets
				for _, s := range []float64{-0.7, 0.7} {
					p.Objs = append(p.Objs, beam(Vec{s * l / 2, -d * 0.4, zi - 8}, Vec{s * l / 2, d / 2, zi - 8}, 25, 12, 1, m.Random.metal()), beam(Vec{s * l / 2, d/2 - 8, zi}, Vec{s * l / 2, d/2 - 8, zi - d*0.7}, 25, 12, 1, m.Random.metal()))
				}
			}
			for range m.IntN(4) {
				p.By = append(p.By, moved(m.Thing(m.u(80, 280)), m.u(-40, 40), Vec{m.u(-0.4, 0.4) * l, 0, zi + 50})...)
			}
		}
		p.R = l / 2
	case 2: // a disc
		c := m.cookie()
		if m.p(0.5) {
			o := Round(m.u(250, 700))
			c = RandomPiece{Objs: m.slab(o, m.u(18, 40), m.w, false, centred(o, 0))}
		}
		lo, hi := bounds(c.Objs)
		turn := Place{Turn: Vec{90, 0, 0}, Move: Vec{0, 0, z}}.frame()
		for i := range c.Objs {
			f := c.Objs[i].frame
			c.Objs[i].frame = frame{turn.dir(f.x), turn.dir(f.y), turn.dir(f.z), turn.out(f.o)}
		}
		p.Objs, p.R = c.Objs, (hi.X-lo.X)/2
	case 3: // a frame round a mirror or a picture
		l, h, w := m.u(300, 1100), m.u(300, 1300), m.u(30, 140)
		look := m.woodLook(m.w)
		p.Objs = []Object{beam(Vec{-l / 2, 0, z}, Vec{l / 2, 0, z}, 30, w, 3, look), beam(Vec{-l / 2, 0, z + h}, Vec{l / 2, 0, z + h}, 30, w, 3, look),
			beam(Vec{-l / 2, 0, z}, Vec{-l / 2, 0, z + h}, w, 30, 3, look), beam(Vec{l / 2, 0, z}, Vec{l / 2, 0, z + h}, w, 30, 3, look),
			at(box(l, 8, h, 1), m.tex(l), Place{Move: Vec{0, 8, z}})}
		p.R = l / 2
	}
	return p
}

// bed is a frame with a head, a foot and a mattress that is not of it.
func (m maker) bed() RandomPiece {
	w, l, h := m.u(900, 1900), m.u(1900, 2150), m.u(200, 420)
	look := m.woodLook(m.w)
	p := RandomPiece{R: l * 0.6}
	for _, s := range []float64{-1, 1} {
		p.Objs = append(p.Objs, beam(Vec{s * w / 2, -l / 2, h - 60}, Vec{s * w / 2, l / 2, h - 60}, 40, m.u(100, 200), 3, look))
		hh := m.u(700, 1200)
		if s < 0 {
			hh = m.u(250, 700)
		}
		for _, x := range []float64{-1, 1} {
			p.Objs = append(p.Objs, beam(Vec{x * w / 2, s * l / 2, 0}, Vec{x * w / 2, s * l / 2, hh}, 70, 70, 3, look))
		}
		n := 1 + m.IntN(9)
		for i := range n {
			z := 150 + (hh-180)*(float64(i)+0.5)/float64(n)
			p.Objs = append(p.Objs, beam(Vec{-w / 2, s * l / 2, z}, Vec{w / 2, s * l / 2, z}, 25, (hh-180)/float64(n)*m.u(0.6, 1), 2, look))
		}
	}
	p.By = append(p.By, at(box(w*0.94, l*0.95, m.u(150, 300), 50), m.paint(), Place{Move: Vec{0, 0, h - 60}}))
	if m.p(0.7) {
		p.By = append(p.By, at(box(w*1.02, l*0.6, m.u(180, 330), 60), m.paint(), Place{Move: Vec{0, -l * 0.15, h - 60}}), at(box(w*0.8, 400, 160, 60), &whitePage, Place{Move: Vec{0, l * 0.35, h + 150}}))
	}
	return p.turned(m.u(0, 180))
}

// turned turns a piece and what belongs to it.
func (p RandomPiece) turned(by float64) RandomPiece {
	p.Objs, p.By = moved(p.Objs, by, Vec{}), moved(p.By, by, Vec{})
	return p
}

// small is a tray, a bowl, a box, a lamp's foot: what lies on a table.
func (m maker) small() RandomPiece {
	l, d := m.u(200, 550), m.u(150, 380)
	look := m.woodLook(m.w)
	p := RandomPiece{R: l / 2}
	switch m.IntN(4) {
	case 0: // tray
		p.Objs = m.slab(Rectangle(l, d), 14, m.w, false, centred(Rectangle(l, d), 0))
		e := m.u(25, 60)
		for _, s := range []float64{-1, 1} {
			p.Objs = append(p.Objs, at(box(l, 12, e, 2), look, Place{Move: Vec{0, s * d / 2, 0}}), at(box(12, d, e, 2), look, Place{Move: Vec{s * l / 2, 0, 0}}))
		}
		p.Top, p.HX, p.HY = 14, l*0.3, d*0.3
	case 1: // bowl
		h := m.u(50, 160)
		p.Objs = []Object{at(lathe([][2]float64{{1, 20}, {l * 0.2, 22}, {l * 0.4, h * 0.6}, {l * 0.47, h}, {l * 0.5, h}, {l * 0.42, h * 0.4}, {l * 0.2, 0}, {1, 0}}, 40), look, Place{})}
	case 2: // box with a lid
		h := m.u(60, 200)
		p.Objs = []Object{at(box(l, d, h, 3), look, Place{}), at(box(l*1.03, d*1.03, m.u(10, 30), 3), m.woodLook(m.wood()), Place{Move: Vec{0, 0, h}})}
	case 3: // coasters
		for i := range 2 + m.IntN(5) {
			o, live := Round(95), false
			if m.p(0.5) {
				o, live = m.outline(100, 100)
			}
			p.Objs = append(p.Objs, m.slab(o, 9, m.w, live, Place{Turn: Vec{0, 0, m.u(0, 360)}, Move: Vec{float64(i%3) * 120, float64(i/3) * 120, 0}})...)
		}
		p.R = 180
	}
	return p
}
