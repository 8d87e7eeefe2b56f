package scene

import "math"

// legs stands a base under a top of half extents hx, hy at height h.
func (r Random) legs(hx, hy, h float64, look shader, metal bool) (objs []Object) {
	ix, iy := hx*r.u(0.7, 0.97), hy*r.u(0.65, 0.95)
	t := r.u(20, 80)
	if metal {
		t = r.u(10, 50)
	}
	t = math.Min(t, 0.25*math.Min(hx, hy)+8)
	add := func(a, b Vec, w, d float64) { objs = append(objs, r.bar(a, b, w, d, look)) }
	switch r.IntN(8) {
	case 0, 1: // posts, perhaps splayed, perhaps aprons and stretchers
		return r.posts(ix, iy, h, t, look)
	case 2: // frames
		for _, s := range []float64{-1, 1} {
			x := s * ix
			lean := 0.0
			if r.p(0.3) {
				lean = iy * r.u(-0.4, 0.3)
			}
			add(Vec{x, -iy, 0}, Vec{x, -iy - lean, h}, t, t)
			add(Vec{x, iy, 0}, Vec{x, iy + lean, h}, t, t)
			add(Vec{x, -iy, t / 2}, Vec{x, iy, t / 2}, t, t)
			add(Vec{x, -iy - lean, h - t/2}, Vec{x, iy + lean, h - t/2}, t, t)
		}
		if r.p(0.4) {
			z := h * r.u(0.1, 0.9)
			add(Vec{-ix, 0, z}, Vec{ix, 0, z}, t, t*1.5)
		}
	case 3: // X
		for _, s := range []float64{-1, 1} {
			x := s * ix
			add(Vec{x, -iy, 0}, Vec{x, iy, h}, t, t)
			add(Vec{x + 0.5, iy, 0}, Vec{x + 0.5, -iy, h}, t, t)
		}
		if r.p(0.5) {
			add(Vec{-ix, 0, h / 2}, Vec{ix, 0, h / 2}, t, t)
		}
	case 4: // hairpins
		for _, q := range corners {
			foot := Vec{q[0] * ix, q[1] * iy, 0}
			w := math.Min(120, 0.4*iy)
			objs = append(objs, rod(foot, Vec{q[0] * (ix - w), q[1] * iy, h}, 5+t/10, look), rod(foot, Vec{q[0] * ix, q[1] * (iy - w), h}, 5+t/10, look))
		}
	case 5: // panels
		for _, s := range []float64{-1, 1} {
			add(Vec{s * ix, 0, 0}, Vec{s * ix, 0, h}, 2*iy, t)
			objs[len(objs)-1].frame = Place{Move: Vec{s * ix, 0, 0}}.frame()
			objs[len(objs)-1].mesh = box(math.Min(t, 45), 2*iy, h, 2)
		}
		if r.p(0.6) {
			z := h * r.u(0.2, 0.8)
			add(Vec{-ix, 0, z}, Vec{ix, 0, z}, math.Min(t, 45), r.u(40, 120))
		}
	case 6: // pedestal
		n := 1
		if hx > 1.6*hy {
			n = 2
		}
		return r.columns(n, ix, iy, h, t, look)
	case 7: // trestle
		for _, s := range []float64{-1, 1} {
			x := s * ix * 0.85
			add(Vec{x, -iy * 0.9, t / 2}, Vec{x, iy * 0.9, t / 2}, t, t)
			add(Vec{x, 0, t / 2}, Vec{x, 0, h}, t*1.3, t)
			add(Vec{x, -iy * 0.8, h - t/2}, Vec{x, iy * 0.8, h - t/2}, t, t)
		}
		add(Vec{-ix * 0.85, 0, h * 0.4}, Vec{ix * 0.85, 0, h * 0.4}, t*0.6, t)
	}
	return objs
}

// corners are those of a rectangle, as shares of its half sides, anticlockwise.
var corners = [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}

// bar is a part of a base. It draws a number that nothing hangs on, so that a seed gives
// the pieces that it gave when parts could be left out.
func (r Random) bar(a, b Vec, w, d float64, look shader) Object {
	r.Float64()
	return beam(a, b, w, d, 2, look)
}

// posts stands four legs under a top, perhaps splayed, with aprons and stretchers.
func (r Random) posts(ix, iy, h, t float64, look shader) (objs []Object) {
	add := func(a, b Vec, w, d float64) { objs = append(objs, r.bar(a, b, w, d, look)) }
	sp := 0.0
	if r.p(0.5) {
		sp = r.u(0, 0.15) * h
	}
	round := r.p(0.4)
	for _, q := range corners {
		a := Vec{q[0] * (ix + sp), q[1] * (iy + sp*0.7), 0}
		b := Vec{q[0] * ix, q[1] * iy, h}
		if round {
			objs = append(objs, rod(a, b, t/2, look))
		} else {
			add(a, b, t, t)
		}
	}
	if r.p(0.5) {
		z := h - r.u(20, 60)
		for i, q := range corners {
			n := corners[(i+1)%4]
			add(Vec{q[0] * ix, q[1] * iy, z}, Vec{n[0] * ix, n[1] * iy, z}, 20, math.Min(r.u(50, 120), h/3))
		}
	}
	if r.p(0.4) {
		z := h * r.u(0.1, 0.4)
		for i, q := range corners {
			if i%2 == 0 && r.p(0.4) {
				continue
			}
			n := corners[(i+1)%4]
			add(Vec{q[0] * ix, q[1] * iy, z}, Vec{n[0] * ix, n[1] * iy, z}, t*0.7, t*0.7)
		}
	}
	return objs
}

// columns stands one column or two under a top, each on a plate or on feet.
func (r Random) columns(n int, ix, iy, h, t float64, look shader) (objs []Object) {
	for k := range n {
		x := 0.0
		if n == 2 {
			x = (float64(k)*2 - 1) * ix * 0.7
		}
		if r.p(0.5) {
			objs = append(objs, at(cylinder(t*r.u(0.6, 1.4), h), look, Place{Move: Vec{x, 0, 0}}))
		} else {
			objs = append(objs, at(r.turned(h, t*1.4), look, Place{Move: Vec{x, 0, 0}}))
		}
		if r.p(0.5) {
			objs = append(objs, at(cylinder(math.Min(iy, ix)*r.u(0.5, 0.9), r.u(8, 30)), look, Place{Move: Vec{x, 0, 0}}))
		} else {
			m := 3 + r.IntN(2)
			for i := range m {
				s, c := sincos(i, m)
				rr := math.Min(ix, iy) * 0.9
				objs = append(objs, beam(Vec{x, 0, h * 0.2}, Vec{x + rr*c, rr * s, t * 0.3}, t*0.7, t*0.7, 2, look))
			}
		}
	}
	return objs
}
