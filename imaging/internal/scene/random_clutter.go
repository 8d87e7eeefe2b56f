package scene

import "math"

// What stands in rooms and gardens and is no piece of furniture: it is drawn
// so that a net learns to leave it alone.

// fence is a fence, a railing or a trellis along x at y, about the origin.
func (r Random) fence(y, half float64) (objs []Object) {
	var look shader = r.woodLook(r.wood())
	if r.p(0.4) {
		look = r.paint()
	}
	h := r.u(500, 1900)
	bar := func(a, b Vec, w, d float64) { objs = append(objs, beam(a, b, w, d, 1, look)) }
	kind := r.IntN(5)
	post := r.u(900, 2400)
	t := r.u(50, 140)
	for x := -half; x <= half; x += post {
		bar(Vec{x, y, 0}, Vec{x, y, h * r.u(1, 1.08)}, t, t)
	}
	switch kind {
	case 0, 1: // rails, round or sawn
		n := 2 + r.IntN(5)
		w := h / float64(n) * r.u(0.25, 0.8)
		for i := range n {
			z := h * (float64(i) + 0.6) / float64(n)
			bar(Vec{-half, y - t/2, z}, Vec{half, y - t/2, z + r.u(-40, 40)}, 30, w)
		}
	case 2: // boards upright, close or apart
		step := r.u(70, 220)
		w := step * r.u(0.4, 0.98)
		for x := -half; x < half; x += step {
			bar(Vec{x, y - 20, 0}, Vec{x + r.u(-8, 8), y - 20, h * r.u(0.94, 1)}, w, 20)
		}
		bar(Vec{-half, y, h * 0.3}, Vec{half, y, h * 0.3}, 40, 80)
		bar(Vec{-half, y, h * 0.8}, Vec{half, y, h * 0.8}, 40, 80)
	case 3: // a railing of thin bars
		if r.p(0.6) {
			look = r.metal()
		}
		bar(Vec{-half, y, h}, Vec{half, y, h}, 60, 40)
		bar(Vec{-half, y, h * 0.1}, Vec{half, y, h * 0.1}, 40, 40)
		step := r.u(90, 180)
		for x := -half; x < half; x += step {
			bar(Vec{x, y, h * 0.1}, Vec{x, y, h}, r.u(12, 30), 15)
		}
	case 4: // a trellis
		step := r.u(150, 350)
		for x := -half - h; x < half; x += step {
			bar(Vec{x, y, 0}, Vec{x + h, y, h}, 12, 30)
			bar(Vec{x + h, y - 13, 0}, Vec{x, y - 13, h}, 12, 30)
		}
	}
	return objs
}

// car is a body on wheels with a cabin of dark windows, along x.
func (r Random) car() (objs []Object) {
	l, w, h := r.u(3300, 4900), r.u(1500, 1850), r.u(600, 900)
	body := r.paint()
	body.rough, body.f0 = r.u(0.1, 0.3), 0.06
	glass := &paint{albedo: Vec{0.02, 0.025, 0.03}, rough: 0.1, f0: 0.08}
	tyre := &paint{albedo: Vec{0.02, 0.02, 0.02}, rough: 0.9, f0: 0.02}
	put := func(m mesh, lk shader, p Vec) { objs = append(objs, at(m, lk, Place{Move: p})) }
	put(box(l, w, h, 120), body, Vec{0, 0, 250})
	c := r.u(0.4, 0.75) * l
	x := r.u(-0.12, 0.1) * l
	put(box(c, w*0.88, r.u(450, 700), 200), glass, Vec{x, 0, 250 + h - 60})
	put(box(c*0.8, w*0.86, 60, 25), body, Vec{x, 0, 250 + h + r.u(380, 600)})
	for _, sx := range []float64{-1, 1} {
		for _, sy := range []float64{-1, 1} {
			p := Vec{sx * l * 0.31, sy * w * 0.5, 320}
			objs = append(objs, at(cylinder(320, 200), tyre, Place{Turn: Vec{90, 0, 0}, Move: p.add(Vec{0, 100, 0})}),
				at(cylinder(200, 220), r.metal(), Place{Turn: Vec{90, 0, 0}, Move: p.add(Vec{0, 110, 0})}))
		}
		put(box(40, 300, 120, 8), &paint{albedo: Vec{0.9, 0.9, 0.8}, rough: 0.2, f0: 0.1}, Vec{sx * l * 0.5, w * 0.3, 250 + h*0.5})
		put(box(40, 300, 120, 8), &paint{albedo: Vec{0.9, 0.3, 0.2}, rough: 0.2, f0: 0.1}, Vec{sx * l * 0.5, -w * 0.3, 250 + h*0.5})
	}
	return objs
}

// lying is a solid of revolution along x instead of z, its middle at p.
func lying(m mesh, lk shader, p Vec, lift float64) Object {
	return at(m, lk, Place{Turn: Vec{0, 90 + lift, 0}, Move: p})
}

// animal is a body on four legs, or on two with a long neck, of length l along x.
func (r Random) animal(l float64) (objs []Object) {
	c := hsv(r.u(0.02, 0.12), r.u(0, 0.6), r.u(0.05, 0.95))
	var fur shader = &foliage{c, r.u(0.01, 0.2) * l, r.u(0.1, 0.8), r.seed()}
	if r.p(0.3) {
		fur = &paint{albedo: c, rough: 1, f0: 0.02, grain: 0.3}
	}
	leg := l * r.u(0.25, 0.6)
	thick := l * r.u(0.14, 0.28)
	z := leg + thick*0.6
	objs = append(objs, lying(ball(thick, l*r.u(0.4, 0.55)), fur, Vec{0, 0, z}, r.u(-12, 12)))
	for _, sx := range []float64{-1, 1} {
		for _, sy := range []float64{-1, 1} {
			hip, knee := Vec{sx * l * 0.3, sy * thick * 0.5, z}, Vec{sx*l*0.3 + r.u(-0.12, 0.12)*l, sy * thick * 0.5, leg * 0.5}
			objs = append(objs, rod(hip, knee, thick*0.3, fur), rod(knee, knee.add(Vec{r.u(-0.1, 0.1) * l, 0, -leg * 0.5}), thick*0.2, fur))
		}
	}
	shoulder := Vec{-l * 0.35, 0, z + thick*0.3}
	head := shoulder.add(Vec{-l * r.u(0.05, 0.35), 0, l * r.u(-0.25, 0.5)})
	objs = append(objs, rod(shoulder, head, thick*r.u(0.25, 0.5), fur), lying(ball(thick*0.5, thick*r.u(0.6, 1)), fur, head.add(Vec{-thick * 0.3, 0, 0}), r.u(-40, 10)))
	for _, s := range []float64{-1, 1} {
		objs = append(objs, rod(head.add(Vec{0, s * thick * 0.3, thick * 0.3}), head.add(Vec{0, s * thick * r.u(0.3, 0.6), thick * r.u(0.4, 1.2)}), thick*0.12, fur))
	}
	tail := Vec{l * 0.4, 0, z + thick*0.3}
	return append(objs, rod(tail, tail.add(Vec{l * r.u(0.05, 0.3), 0, l * r.u(-0.3, 0.4)}), thick*r.u(0.06, 0.3), fur))
}

// boat is a hull with a mast or a cabin, of length l along x.
func (r Random) boat(l float64) (objs []Object) {
	var look shader = r.woodLook(r.wood())
	if r.p(0.6) {
		look = r.paint()
	}
	o := Widths(l, []float64{l * 0.02, l * 0.25, l * 0.3, l * 0.28, l * 0.2}, 1, r.seed())
	objs = r.slab(o, l*r.u(0.1, 0.2), r.wood(), false, Place{Move: Vec{-l / 2, -l * 0.15, l * 0.05}})
	for i := range objs {
		objs[i].shader = look
	}
	if r.p(0.5) {
		objs = append(objs, rod(Vec{0, 0, 0}, Vec{0, 0, l * r.u(0.6, 1.2)}, l*0.012, r.woodLook(r.wood())))
	}
	return append(objs, at(box(l*0.3, l*0.2, l*r.u(0.1, 0.3), l*0.01), r.paint(), Place{Move: Vec{l * 0.1, 0, l * 0.15}}))
}

// wheeled is two wheels in a frame, of length l along x: a bicycle, a cart.
func (r Random) wheeled(l float64) (objs []Object) {
	look := r.paint()
	rad := l * 0.19
	for _, s := range []float64{-1, 1} {
		c := Vec{s * l * 0.3, 0, rad}
		const n = 16
		for i := range n {
			s0, c0 := sincos(i, n)
			s1, c1 := sincos(i+1, n)
			rim := c.add(Vec{c0 * rad, 0, s0 * rad})
			objs = append(objs, rod(rim, c.add(Vec{c1 * rad, 0, s1 * rad}), l*0.012, &blackCoat))
			if i%2 == 0 {
				objs = append(objs, rod(rim, c, l*0.002, &millSteel))
			}
		}
	}
	joints := []Vec{{-l * 0.3, 0, rad}, {-l * 0.22, 0, l * 0.45}, {l * 0.08, 0, l * 0.42}, {0, 0, rad}, {-l * 0.2, 0, l * 0.4}, {-l * 0.25, 0, l * 0.5}, {l * 0.1, 0, l * 0.5}, {l * 0.3, 0, rad}}
	for _, k := range [][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 4}, {1, 5}, {2, 6}, {3, 7}, {2, 7}} {
		objs = append(objs, rod(joints[k[0]], joints[k[1]], l*0.012, look))
	}
	return objs
}

// screen is a laptop, a tablet, a telephone or a monitor, size long.
func (r Random) screen(size float64) (objs []Object) {
	g := r.u(0.02, 1.3)
	var face shader = &paint{albedo: Vec{g * r.u(0.8, 1.1), g, g * r.u(0.9, 1.3)}, rough: 0.2, f0: 0.05}
	if r.p(0.55) {
		face = r.tex(size)
	}
	shell := &paint{albedo: Vec{1, 1, 1}.mul([]float64{0.03, 0.3, 0.6, 0.85}[r.IntN(4)]), rough: r.u(0.2, 0.6), f0: 0.05}
	if r.p(0.15) {
		shell = r.paint()
	}
	w, d := size, size*r.u(0.6, 0.75)
	pane := func(p Place, thick float64) { // its face looks at −y when it stands
		objs = append(objs, at(box(w, d, thick, 2), shell, p))
		f := p
		f.Move = p.Move.add(p.frame().dir(Vec{0, 0, thick - 1}))
		objs = append(objs, at(box(w*0.94, d*0.9, 2, 0.5), face, f))
	}
	tilt := r.u(55, 85)
	s, c := math.Sincos(tilt * math.Pi / 180)
	standing := func(z float64) Place {
		return Place{Turn: Vec{tilt, 0, 0}, Move: Vec{0, d/2 + d/2*c, z + d/2*s}}
	}
	switch r.IntN(4) {
	case 0, 1: // laptop
		objs = append(objs, at(box(w, d, size*0.05, 2), shell, Place{}), at(box(w*0.85, d*0.45, 2, 0.5), &blackCoat, Place{Move: Vec{0, d * 0.15, size*0.05 - 0.5}}))
		pane(standing(size*0.05), size*0.02)
	case 2: // lying or leaning
		p := Place{}
		if r.p(0.6) {
			p = standing(0)
		}
		pane(p, size*0.03)
	case 3: // monitor on a foot
		pane(standing(size*r.u(0.1, 0.4)), size*0.05)
		objs = append(objs, at(box(size*0.12, size*0.05, size*0.5, 2), shell, Place{Move: Vec{0, d * 0.75, 0}}), at(box(size*0.5, size*0.3, size*0.02, 2), shell, Place{Move: Vec{0, d * 0.7, 0}}))
	}
	return objs
}

// papers are sheets, open books, a cloth, that lie about.
func (r Random) papers(size float64) (objs []Object) {
	for i := range 1 + r.IntN(5) {
		var look shader = &whitePage
		switch r.IntN(4) {
		case 0:
			look = r.tex(size)
		case 1:
			look = r.paint()
		}
		w := size * r.u(0.3, 0.7)
		objs = append(objs, at(box(w, w*r.u(0.6, 1.45), r.u(0.6, 0.03*size), 0.2), look,
			Place{Turn: Vec{0, 0, r.u(-180, 180)}, Move: Vec{r.u(-0.4, 0.4) * size, r.u(-0.4, 0.4) * size, float64(i) * 0.03 * size}}))
	}
	return objs
}

// lamp is a foot, a stem that may bend, and a shade, h high.
func (r Random) lamp(h float64) (objs []Object) {
	look := shader(r.metal())
	if r.p(0.3) {
		look = r.paint()
	}
	knee, top := Vec{r.u(-0.2, 0.2) * h, 0, h * r.u(0.3, 0.6)}, Vec{r.u(-0.3, 0.3) * h, 0, h * 0.85}
	if r.p(0.5) {
		knee, top = Vec{0, 0, h * 0.4}, Vec{0, 0, h * 0.85}
	}
	g := r.u(0.3, 2.5)
	shade := &paint{albedo: Vec{g, g * r.u(0.85, 1), g * r.u(0.5, 1)}, rough: 1, f0: 0.02}
	if r.p(0.4) {
		shade = r.paint()
	}
	a := h * r.u(0.08, 0.22)
	return append(objs, at(cylinder(h*r.u(0.08, 0.16), h*0.03), look, Place{}), rod(Vec{}, knee, h*0.012, look), rod(knee, top, h*0.012, look),
		at(lathe([][2]float64{{a * r.u(0.3, 0.9), h * r.u(0.1, 0.2)}, {a, 0}, {a * 0.9, h * 0.01}}, 24), shade, Place{Turn: Vec{0, r.u(-30, 30), 0}, Move: top}))
}

// curtain is cloth that hangs in folds along x at y.
func (r Random) curtain(x, y, w, h float64) Object {
	var g [][]Vec
	fold, deep := r.u(60, 220), r.u(15, 60)
	n := int(w/fold*8) + 2
	for k := range 2 {
		var row []Vec
		for i := 0; i <= n; i++ {
			t := float64(i) / float64(n)
			row = append(row, Vec{x + (t-0.5)*w, y + deep*math.Sin(t*w/fold*2*math.Pi), h * float64(1-k)})
		}
		g = append(g, row)
	}
	var m mesh
	m.grid(g)
	look := r.paint()
	look.rough = 1
	return at(m, look, Place{})
}

// fronts is a row of kitchen cupboards with a worktop along the wall at back,
// and perhaps more above it: joinery of the house, no piece.
func (r Random) fronts(back float64) (objs []Object) {
	look := shader(r.paint())
	if r.p(0.3) {
		look = r.woodLook(r.wood())
	}
	n, w := 2+r.IntN(7), r.u(400, 650)
	x := r.u(-2200, 400)
	lines := [][3]float64{{0, 850, 560}}
	if r.p(0.6) {
		lines = append(lines, [3]float64{1400, 650, 330})
	}
	for _, l := range lines {
		objs = append(objs, at(box(w*float64(n), l[2], l[1], 2), look, Place{Move: Vec{x + w*float64(n)/2, back - l[2]/2, l[0]}}))
		for i := range n {
			c := Vec{x + w*(float64(i)+0.5), back - l[2] - 8, l[0] + 8}
			objs = append(objs, at(box(w-8, 16, l[1]-16, 2), look, Place{Move: c}), at(box(w*0.4, 20, 12, 2), &millSteel, Place{Move: c.add(Vec{0, -14, l[1] * 0.8})}))
		}
	}
	objs = append(objs, at(box(w*float64(n)+40, 620, 40, 3), r.paint(), Place{Move: Vec{x + w*float64(n)/2, back - 310, 850}}))
	for range r.IntN(8) {
		objs = append(objs, moved(r.Thing(r.u(80, 400)), r.u(0, 360), Vec{x + r.u(0, 1)*w*float64(n), back - 300, 890})...)
	}
	return objs
}

// machine is a drill, a saw or a sewing machine on a stand of thin legs, h high.
func (r Random) machine(h float64) (objs []Object) {
	look, dark := shader(r.paint()), shader(&blackCoat)
	w := h * r.u(0.25, 0.6)
	z := h * r.u(0.4, 0.7)
	for _, q := range [][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		objs = append(objs, beam(Vec{q[0] * w * 0.6, q[1] * w * 0.5, 0}, Vec{q[0] * w * 0.4, q[1] * w * 0.35, z}, h*0.03, h*0.03, 1, dark))
	}
	objs = append(objs, at(box(w*1.1, w, h*0.03, 2), r.metal(), Place{Move: Vec{0, 0, z}}), at(box(w*0.5, w*0.4, (h-z)*r.u(0.3, 0.8), 8), look, Place{Move: Vec{r.u(-0.2, 0.2) * w, 0, z + h*0.03}}))
	if r.p(0.6) {
		objs = append(objs, at(cylinder(w*0.07, h-z), r.metal(), Place{Move: Vec{0, w * 0.25, z}}), at(box(w*0.45, w*0.8, (h-z)*0.35, 8), look, Place{Move: Vec{0, 0, z + (h-z)*0.65}}),
			at(cylinder(w*0.05, (h-z)*0.3), r.metal(), Place{Move: Vec{0, -w * 0.25, z + (h-z)*0.4}}))
	}
	return objs
}

// onTop is what may stand or lie on a top.
func (r Random) onTop(size float64) []Object {
	switch r.IntN(5) {
	case 0:
		return r.screen(size)
	case 1:
		return r.papers(size)
	case 2:
		if r.p(0.4) {
			return r.lamp(size * 1.3)
		}
	}
	return r.Thing(size)
}

// noPiece is a thing of about a man's size that is no furniture.
func (r Random) noPiece() ([]Object, float64) {
	switch r.IntN(9) {
	case 0:
		return r.car(), 2300
	case 1, 2, 3:
		l := r.u(400, 1900)
		return r.animal(l), l * 0.6
	case 4:
		l := r.u(1500, 5000)
		return r.boat(l), l * 0.5
	case 5:
		l := r.u(1400, 1900)
		return r.wheeled(l), l * 0.4
	case 6:
		return r.machine(r.u(900, 1700)), 500
	case 7:
		return r.lamp(r.u(1200, 1900)), 250
	}
	return r.person(r.u(1000, 1900)), 300
}
