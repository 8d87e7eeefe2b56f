package scene

import "math"

// thin is a piece whose parts hang on posts, rods or wires so thin that they
// hardly show: a seat or a back on one post, a top on a stem, boards on wires.
func (m maker) thin() RandomPiece {
	switch m.IntN(5) {
	case 0, 1:
		return m.stemChair()
	case 2:
		return m.stemTable()
	case 3:
		return m.wired()
	}
	return m.lampTable()
}

// stemChair is a seat on rods that meet under it or on one foot, with a back on
// one or two posts, or none.
func (m maker) stemChair() RandomPiece {
	d, h, thick := m.u(330, 480), m.u(400, 480), m.u(15, 60)
	if m.p(0.25) {
		h = m.u(600, 780)
	}
	rad := m.u(4, 11)
	stick := m.rods()
	p := RandomPiece{HX: d / 2, HY: d / 2, R: d * 0.7, Objs: append(m.seat(d, h, thick), m.meeting(d, h, rad, stick)...)}
	if m.p(0.2) {
		return p
	}
	bh, gap, y := m.u(90, 280), m.u(60, 320), d*m.u(0.3, 0.45)
	lean := m.u(0, 0.35)
	at0 := func(x, z float64) Vec { return Vec{x, y + lean*(z-h), z} }
	xs := []float64{0}
	if m.p(0.4) {
		w := d * m.u(0.1, 0.4)
		xs = []float64{-w, w}
	}
	top := h + thick + gap
	for _, x := range xs {
		p.Objs = append(p.Objs, rod(at0(x, h), at0(x, top+bh*0.6), rad, stick))
	}
	look := m.woodLook(m.w)
	wide, curve := d*m.u(0.35, 0.55), m.u(0, 0.3)*d
	const n = 7
	for i := range n { // the back, bent
		x := func(k int) float64 { return wide * (2*float64(k)/n - 1) }
		bow := func(x float64) float64 { return -curve * x * x / (wide * wide) }
		mid := top + bh/2
		a, b := at0(x(i), mid), at0(x(i+1), mid)
		a.Y, b.Y = a.Y+bow(x(i)), b.Y+bow(x(i+1))
		p.Objs = append(p.Objs, beam(a, b, 16, bh*(1-0.25*math.Abs(x(i)+x(i+1))/(2*wide)), 3, look))
	}
	return p
}

// rods is what thin rods are made of: mostly metal, light or dark.
func (m maker) rods() shader {
	if m.p(0.25) {
		return m.woodLook(m.w)
	}
	return m.Random.metal()
}

// meeting is thin legs that meet under a seat, cross, or stand on one foot.
func (m maker) meeting(d, h, rad float64, look shader) (objs []Object) {
	switch n := 3 + m.IntN(3); m.IntN(3) {
	case 0: // a stem and a foot
		objs = append(objs, rod(Vec{}, Vec{0, 0, h}, rad*1.6, look))
		if m.p(0.5) {
			return append(objs, at(cylinder(d*m.u(0.3, 0.5), m.u(5, 20)), look, Place{}))
		}
		for i := range n {
			s, c := sincos(i, n)
			objs = append(objs, rod(Vec{0, 0, 60}, Vec{d * 0.55 * c, d * 0.55 * s, 8}, rad, look))
		}
	case 1: // from one point
		for i := range n {
			s, c := sincos(i, n)
			objs = append(objs, rod(Vec{d * 0.55 * c, d * 0.55 * s, 0}, Vec{d * 0.06 * c, d * 0.06 * s, h}, rad, look))
		}
	default: // crossing halfway, each with a twin
		for i := range n {
			s, c := sincos(i, n)
			k := m.u(0.2, 0.45)
			objs = append(objs, rod(Vec{d * 0.5 * c, d * 0.5 * s, 0}, Vec{-d * k * c, -d * k * s, h}, rad, look))
		}
	}
	return objs
}

// stemTable is a top on a stem, or several on one post.
func (m maker) stemTable() RandomPiece {
	d, h, thick := m.u(300, 1000), m.u(400, 1050), m.u(12, 45)
	rad := m.u(6, 16)
	stick := m.rods()
	p := RandomPiece{HX: d * 0.35, HY: d * 0.35, R: d / 2, Top: h + thick}
	p.Objs = append(m.seat(d, h, thick), m.meeting(min(d, 600), h, rad, stick)...)
	if m.p(0.4) {
		for range 1 + m.IntN(3) {
			k := m.u(0.4, 0.9)
			p.Objs = append(p.Objs, m.seat(d*k, h*m.u(0.15, 0.8), thick)...)
		}
		p.Objs = append(p.Objs, rod(Vec{}, Vec{0, 0, h}, rad, stick))
	}
	return p
}

// wired is boards that hang on wires or stand on rods, one over the other.
func (m maker) wired() RandomPiece {
	l, d, n := m.u(400, 1300), m.u(160, 380), 2+m.IntN(4)
	step := m.u(180, 420)
	h := step * float64(n)
	p := RandomPiece{HX: l / 2, HY: d / 2, R: math.Hypot(l, d) / 2}
	stick, rad := m.rods(), m.u(2, 8)
	for i := range n {
		k := 1.0
		if m.p(0.3) {
			k = m.u(0.6, 1)
		}
		o, live := m.outline(l*k, d)
		p.Objs = append(p.Objs, m.slab(o, m.u(14, 40), m.w, live, centred(o, m.u(0, 60)+step*float64(i)))...)
	}
	for _, q := range [][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		x, y := q[0]*l*0.42, q[1]*d*0.4
		p.Objs = append(p.Objs, rod(Vec{x, y, 0}, Vec{x * m.u(0.9, 1), y, h}, rad, stick))
	}
	return p
}

// lampTable is a small table whose stem goes on upwards to a lamp, a mirror, a
// second top, or hooks.
func (m maker) lampTable() RandomPiece {
	d, h, tall := m.u(280, 500), m.u(400, 600), m.u(1000, 1700)
	rad, stick := m.u(6, 14), m.rods()
	p := RandomPiece{HX: d * 0.3, HY: d * 0.3, R: d / 2}
	p.Objs = append(m.seat(d, h, m.u(15, 40)), m.meeting(d, h, rad, stick)...)
	p.Objs = append(p.Objs, rod(Vec{0, 0, h}, Vec{0, 0, tall}, rad, stick))
	head := Place{Move: Vec{0, 0, tall}}
	switch m.IntN(3) {
	case 0:
		p.Objs = append(p.Objs, at(lathe([][2]float64{{d * 0.25, m.u(150, 300)}, {d * m.u(0.3, 0.6), 0}}, 20), m.paint(), head))
	case 1:
		p.Objs = append(p.Objs, at(cylinder(d*m.u(0.3, 0.6), 25), m.woodLook(m.w), Place{Turn: Vec{90, 0, 0}, Move: head.Move}))
	default:
		for i := range 4 {
			s, c := sincos(i, 4)
			p.Objs = append(p.Objs, rod(Vec{0, 0, tall - 80}, Vec{140 * c, 140 * s, tall}, rad*0.7, stick))
		}
	}
	return p
}
