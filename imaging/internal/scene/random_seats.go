package scene

import "math"

// back is a chair's or a bench's back.
func (r Random) back(hx, hy, z float64, look shader) (objs []Object) {
	h, lean := r.u(300, 600), r.u(20, 140)
	y := hy * 0.92
	a := func(x, t float64) Vec { return Vec{x, y + lean*t, z + h*t - 5} }
	t := r.u(18, 40)
	bow := r.p(0.4)
	if bow { // bent rail
		const n = 9
		for i := range n {
			u, v := math.Pi*float64(i)/n, math.Pi*float64(i+1)/n
			p, q := a(-hx*0.9*math.Cos(u), math.Sin(u)), a(-hx*0.9*math.Cos(v), math.Sin(v))
			objs = append(objs, rod(p, q, t/2, look))
		}
	} else {
		for _, s := range []float64{-1, 1} {
			objs = append(objs, beam(a(s*hx*0.9, -0.02), a(s*hx*0.9, 1), t, t, 2, look))
		}
		objs = append(objs, beam(a(-hx*0.92, 0.93), a(hx*0.92, 0.93), t, r.u(40, 130), 3, look))
	}
	switch r.IntN(3) {
	case 0:
		n := int(2 * hx / r.u(45, 90))
		for i := 1; i < n; i++ {
			x := -hx*0.9 + 1.8*hx*float64(i)/float64(n)
			e := 0.95
			if bow {
				e = math.Sqrt(math.Max(1-x*x/(hx*hx*0.81), 0.05))
			}
			objs = append(objs, rod(a(x, 0), a(x, e), t*0.25+2, look))
		}
	case 1:
		for i := range 1 + r.IntN(4) {
			v := 0.2 + 0.2*float64(i)
			e := 0.88 * hx
			if bow {
				e *= math.Sqrt(math.Max(1-v*v, 0.1))
			}
			objs = append(objs, beam(a(-e, v), a(e, v), 15, r.u(25, 70), 2, look))
		}
	case 2:
		if !bow {
			lk := look
			if r.p(0.4) {
				lk = r.paint()
			}
			objs = append(objs, beam(a(0, 0.1), a(0, 0.92), hx*1.75, 15, 2, lk))
		}
	}
	return objs
}

// chair is a seat on legs with a back.
func (m maker) chair() RandomPiece {
	d := m.u(380, 520)
	p := m.top(d, d*m.u(0.85, 1.05), m.u(400, 470), m.u(15, 45), m.p(0.3))
	if m.p(0.3) { // cushion
		p.Objs = append(p.Objs, at(box(d*0.95, d*0.9, m.u(40, 120), 15), m.paint(), Place{Move: Vec{0, 0, p.Top}}))
	}
	p.Objs = append(p.Objs, m.back(p.HX, p.HY, p.Top, m.look)...)
	p.Top = 0
	if m.p(0.35) { // arms
		for _, s := range []float64{-1, 1} {
			z := m.u(620, 700)
			p.Objs = append(p.Objs, beam(Vec{s * d * 0.5, -d * 0.4, z}, Vec{s * d * 0.5, d * 0.48, z}, 50, 25, 5, m.look), rod(Vec{s * d * 0.5, -d * 0.35, 430}, Vec{s * d * 0.5, -d * 0.38, z}, 14, m.look))
		}
	}
	return p
}

// turnedRod is a turned leg or post from a to b.
func (m maker) turnedRod(a, b Vec, rad float64, look shader) Object {
	o := beam(a, b, 1, 1, 0, look)
	o.mesh = m.Random.turned(b.sub(a).len(), rad)
	return o
}

// seat is a thick seat of wood, round, square or saddled.
func (m maker) seat(d, h, thick float64) []Object {
	o := Round(d)
	switch m.IntN(3) {
	case 0:
		o = RoundedRectangle(d, d*m.u(0.85, 1), d*m.u(0.05, 0.45))
	case 1:
		k := m.u(0.8, 1.1)
		for _, e := range [][][2]float64{o.Near, o.Far} {
			for i := range e {
				e[i][1] *= k
			}
		}
	}
	return m.slab(o, thick, m.w, false, centred(o, h))
}

// splayed puts n turned legs under a seat, with stretchers.
func (m maker) splayed(d, h float64, n int, look shader) (objs []Object) {
	rad, in, out := m.u(12, 26), d*m.u(0.25, 0.4), d*m.u(0.4, 0.6)
	turn := math.Pi / float64(n)
	var mids []Vec
	for i := range n {
		a := turn + 2*math.Pi*float64(i)/float64(n)
		foot, head := Vec{out * math.Cos(a), out * math.Sin(a), 0}, Vec{in * math.Cos(a), in * math.Sin(a), h}
		if m.p(0.75) {
			objs = append(objs, m.turnedRod(foot, head, rad*1.3, look))
		} else {
			objs = append(objs, rod(foot, head, rad*0.8, look))
		}
		mids = append(mids, foot.mix(head, m.u(0.3, 0.5)))
	}
	switch {
	case n == 4 && m.p(0.6): // an H
		a, b := mids[0].mix(mids[1], 0.5), mids[2].mix(mids[3], 0.5)
		objs = append(objs, rod(mids[1], mids[2], rad*0.6, look), rod(mids[0], mids[3], rad*0.6, look))
		objs = append(objs, rod(mids[1].mix(mids[2], 0.5), mids[0].mix(mids[3], 0.5), rad*0.6, look))
		_, _ = a, b
	case m.p(0.7): // all round
		for i := range mids {
			objs = append(objs, rod(mids[i], mids[(i+1)%n], rad*0.55, look))
		}
	}
	return objs
}

// spindleChair is a chair whose back is a bow, a comb or an arm rail over many
// turned spindles, on splayed legs.
func (m maker) spindleChair() RandomPiece {
	d, h, thick := m.u(400, 540), m.u(380, 430), m.u(30, 55)
	look := m.woodLook(m.w)
	if m.p(0.35) {
		look = m.paint()
	}
	p := RandomPiece{HX: d / 2, HY: d / 2, R: d * 0.75}
	p.Objs = append(m.seat(d, h, thick), m.splayed(d, h, 4, look)...)
	z := h + thick - 5
	switch m.IntN(4) {
	case 0:
		p.Objs = append(p.Objs, m.bowBack(d*0.44, d*0.4, z, m.u(420, 620), look)...)
	case 1:
		p.Objs = append(p.Objs, m.combBack(d*0.44, d*0.4, z, m.u(400, 650), look)...)
	case 2:
		p.Objs = append(p.Objs, m.armRail(d*0.55, z, m.u(200, 270), look)...)
		p.Objs = append(p.Objs, m.bowBack(d*0.4, d*0.5, z+200, m.u(250, 420), look)...)
	case 3:
		p.Objs = append(p.Objs, m.armRail(d*0.55, z, m.u(200, 330), look)...)
		if m.p(0.5) {
			p.Objs = append(p.Objs, m.combBack(d*0.35, d*0.5, z+220, m.u(150, 400), look)...)
		}
	}
	if m.p(0.12) { // rockers
		for _, s := range []float64{-1, 1} {
			for i := range 8 {
				y := func(k int) Vec {
					t := float64(k)/4 - 1
					return Vec{s * d * 0.4, t * d * 0.9, 60*t*t - 25}
				}
				p.Objs = append(p.Objs, beam(y(i), y(i+1), 25, 40, 2, look))
			}
		}
		p.Objs = moved(p.Objs, 0, Vec{0, 0, 45})
	}
	if m.p(0.15) {
		p.Objs = append(p.Objs, at(box(d*0.9, d*0.85, m.u(30, 80), 14), m.paint(), Place{Move: Vec{0, 0, z}}))
	}
	for i := range p.Objs[:3] {
		if _, painted := look.(*paint); painted && m.p(0.8) {
			p.Objs[i].shader = look
		}
	}
	return p
}

// bowBack is a hoop of half width hx from y at height z, and spindles in it.
func (m maker) bowBack(hx, y, z, h float64, look shader) (objs []Object) {
	lean, rad := m.u(30, 180), m.u(9, 16)
	sq := m.u(0.5, 1) // how round the hoop is
	a := func(x, t float64) Vec { return Vec{x * (1 + 0.12*t), y + lean*t - 0.25*hx*(1-x*x/hx/hx)*0, z + h*t} }
	hoop := func(u float64) (float64, float64) {
		c, s := math.Cos(u), math.Sin(u)
		return -hx * math.Copysign(math.Pow(math.Abs(c), sq), c), math.Pow(s, sq)
	}
	const n = 14
	for i := range n {
		x0, t0 := hoop(math.Pi * float64(i) / n)
		x1, t1 := hoop(math.Pi * float64(i+1) / n)
		objs = append(objs, rod(a(x0, t0), a(x1, t1), rad, look))
	}
	k := 4 + m.IntN(8)
	thin := m.u(4, 8)
	for i := 1; i < k; i++ {
		x := -hx + 2*hx*float64(i)/float64(k)
		u := math.Acos(-math.Copysign(math.Pow(math.Abs(x/hx), 1/sq), x))
		_, t := hoop(u)
		objs = append(objs, rod(a(x*0.8, 0), a(x, t), thin, look))
	}
	if m.p(0.2) { // a splat in the middle
		objs = append(objs, beam(a(0, 0), a(0, 0.95), m.u(60, 110), 10, 2, look))
	}
	return objs
}

// combBack is a row of spindles under a rail, between two posts.
func (m maker) combBack(hx, y, z, h float64, look shader) (objs []Object) {
	lean, k := m.u(40, 200), 4+m.IntN(6)
	fan := m.u(1, 1.35)
	thin := m.u(5, 9)
	a := func(i int, t float64) Vec {
		x := 2*float64(i)/float64(k) - 1
		return Vec{x * hx * (1 + (fan-1)*t), y + lean*t - 40*x*x*t, z + h*t}
	}
	for i := 0; i <= k; i++ {
		r := thin
		if i == 0 || i == k {
			objs = append(objs, m.turnedRod(a(i, 0), a(i, 1), thin*2.4, look))
			continue
		}
		if m.p(0.02) {
			continue
		}
		objs = append(objs, rod(a(i, 0), a(i, 1), r, look))
	}
	hh := m.u(35, 130)
	for i := range k {
		objs = append(objs, beam(a(i, 1), a(i+1, 1), 18, hh, 3, look))
	}
	if m.p(0.3) {
		for i := range k {
			objs = append(objs, beam(a(i, 0.5), a(i+1, 0.5), 14, m.u(20, 50), 2, look))
		}
	}
	return objs
}

// armRail is a rail round the back and both sides, on spindles.
func (m maker) armRail(rad, z, h float64, look shader) (objs []Object) {
	const n = 16
	a := func(i, wide float64, t float64) Vec {
		u := math.Pi*(-0.1) + math.Pi*1.2*i/n
		return Vec{rad * wide * math.Cos(u), rad*wide*math.Sin(u)*0.95 - rad*0.1, z + h*t}
	}
	w := m.u(25, 60)
	for i := range n {
		objs = append(objs, beam(a(float64(i), 1.08, 1), a(float64(i+1), 1.08, 1), w, m.u(18, 30), 4, look))
	}
	step := []float64{1, 1.6, 2.2}[m.IntN(3)]
	for i := 0.3; i < n; i += step {
		if m.p(0.7) {
			objs = append(objs, rod(a(i, 0.82, 0), a(i, 1.06, 1), m.u(5, 9), look))
		} else {
			objs = append(objs, m.turnedRod(a(i, 0.82, 0), a(i, 1.06, 1), 14, look))
		}
	}
	return objs
}

func (m maker) turnedStool() RandomPiece {
	d, h := m.u(280, 400), m.u(400, 750)
	look := m.woodLook(m.w)
	if m.p(0.3) {
		look = m.Random.metal()
	}
	p := RandomPiece{Top: h + 35, HX: d * 0.3, HY: d * 0.3, R: d * 0.7}
	p.Objs = append(m.seat(d, h, m.u(25, 50)), m.splayed(d, h, 3+m.IntN(2), look)...)
	return p
}

// upholstered is an armchair, a sofa, or a padded dining chair.
func (m maker) upholstered() RandomPiece {
	l, d, h := m.u(550, 1000), m.u(600, 850), m.u(320, 450)
	if m.p(0.35) {
		l = m.u(1300, 2200)
	}
	cloth := m.paint()
	if m.p(0.3) {
		cloth.grain = 0.5
	}
	var c shader = cloth
	if m.p(0.2) {
		c = m.tex(700)
	}
	leg := m.u(40, 220)
	soft := m.u(15, 60)
	p := RandomPiece{HX: l / 2, HY: d / 2, R: math.Hypot(l, d) / 2}
	p.Objs = append(m.legs(l*0.45, d*0.42, leg, m.look, m.metal), at(box(l, d, h-leg, soft), c, Place{Move: Vec{0, 0, leg}}))
	n := 1
	if l > 1200 {
		n = 2 + m.IntN(2)
	}
	bh, lean := m.u(250, 650), m.u(0, 12)
	for i := range n {
		w := l / float64(n)
		x := -l/2 + w*(float64(i)+0.5)
		p.Objs = append(p.Objs, at(box(w*0.9, d*0.85, m.u(60, 150), soft), c, Place{Move: Vec{x, -d * 0.05, h}}),
			at(box(w*0.97, m.u(80, 200), bh, soft), c, Place{Turn: Vec{-lean, 0, 0}, Move: Vec{x, d * 0.42, h}}))
	}
	if m.p(0.7) {
		ah, aw := m.u(120, 260), m.u(50, 180)
		for _, s := range []float64{-1, 1} {
			p.Objs = append(p.Objs, at(box(aw, d*0.95, ah, min(soft, aw/3)), c, Place{Move: Vec{s * (l/2 - aw/3), 0, h}}))
		}
	}
	for range m.IntN(3) {
		p.By = append(p.By, at(box(m.u(300, 450), 120, m.u(250, 400), 40), m.paint(), Place{Turn: Vec{-20, 0, m.u(-20, 20)}, Move: Vec{m.u(-0.35, 0.35) * l, d * 0.15, h + 100}}))
	}
	return p
}
