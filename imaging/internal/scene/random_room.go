package scene

import "math"

// room puts walls, a floor and things round the piece.
func (r Random) room(s *Scene, p RandomPiece, spin, size float64, mid Vec) {
	var props []Object
	none, k := p.Kind == None, p.reach()
	turn := r.u(-35, 35) // of the room against the camera
	back := p.R + k*r.u(20, 3000)
	if p.Hung {
		turn, back = 0, p.HY+2
	}
	var fl, wl shader = r.tiles(false), r.tiles(true)
	if r.p(0.15) {
		fl = r.tex(4000)
	}
	if r.p(0.2) {
		wl = r.tex(3000)
	}
	floor := []Object{at(box(16000, 16000, 20, 0), fl, Place{Move: Vec{0, 0, -20.5}})}
	// The backdrop lies at z = 0 too: sink it by lifting all else a little.
	var wall []Object
	outdoor := !p.Hung && (p.Out || r.p(0.2) || none && r.p(0.5))
	workshop := !outdoor && r.p(0.2)
	if outdoor && r.p(0.7) {
		fl = r.grass()
		floor[0].shader = fl
		s.Backdrop.Colour = hsv(r.u(0.5, 0.65), r.u(0, 0.5), r.u(0.4, 1)) // sky
		wall = append(wall, r.garden(back, k)...)
	}
	if workshop && !p.Hung {
		wall = append(wall, r.workshop(back, k)...)
	}
	if outdoor && r.p(0.5) || p.Out && r.p(0.4) || r.p(0.04) && !p.Hung { // right behind the piece
		wall = append(wall, r.fence(p.R+r.u(0.02, 1)*(back-p.R+500), 4000)...)
	}
	if outdoor && (r.p(0.45) || p.Out && r.p(0.55)) || !outdoor && r.p(0.12) {
		props = append(props, r.shade(s, mid, size)...)
	}
	if !outdoor && !p.Hung && r.p(0.15) {
		wall = append(wall, r.fronts(back)...)
	}
	for range r.IntN(3) {
		if !outdoor && !p.Hung && r.p(0.2) {
			wall = append(wall, r.curtain(r.u(-2500, 2500), back-60, r.u(300, 1800), r.u(1800, 2800)))
		}
	}
	if !outdoor {
		wall = append(wall, r.walls(p, back, k, wl)...)
	}
	view := s.Camera.At.sub(mid)
	view.Z = 0
	view = view.unit()
	props = append(props, r.beside(p, mid, view, turn, back, workshop)...)
	props = append(props, wall...)
	props = moved(props, turn, Vec{})
	props = append(props, moved(floor, turn, Vec{})...)
	s.Props = append(props, r.about(p, spin, size, mid, view)...)
}

// walls is the wall behind, in the look of it, perhaps one at a side, and what hangs there.
func (r Random) walls(p RandomPiece, back, k float64, wl shader) (wall []Object) {
	wall = append(wall, at(box(16000, 50, 3200, 0), wl, Place{Move: Vec{0, back + 25, 0}}))
	if r.p(0.6) {
		pn := r.paint()
		wall = append(wall, at(box(16000, 12, r.u(40, 160), 0), pn, Place{Move: Vec{0, back - 6, 0}}))
	}
	if r.p(0.5) {
		sd := 1.0
		if r.p(0.5) {
			sd = -1
		}
		w2 := wl
		if r.p(0.3) {
			w2 = r.tiles(true)
		}
		wall = append(wall, at(box(50, 6000, 3200, 0), w2, Place{Move: Vec{sd * (p.R + k*r.u(200, 2500)), back - 3000, 0}}))
	}
	for range r.IntN(5) { // on the wall: windows, pictures, boards, tools
		x, z := r.u(-2500, 2500), r.u(500, 2000)
		ww, hh := r.u(150, 1400), r.u(150, 1200)
		if p.Hung && math.Abs(x) < p.R+0.7*ww+300 {
			continue
		}
		wall = append(wall, r.onWall(x, z, ww, hh, back)...)
	}
	return wall
}

// onWall is a window, a picture, boards with things or tools at (x, z) of the wall.
func (r Random) onWall(x, z, ww, hh, back float64) (wall []Object) {
	switch r.IntN(4) {
	case 0: // window
		g := r.u(0.8, 4)
		wall = append(wall, at(box(ww+100, 30, hh+100, 2), r.paint(), Place{Move: Vec{x, back - 15, z - 50}}),
			at(box(ww, 40, hh, 2), &paint{albedo: Vec{g, g, g * r.u(0.9, 1.2)}, rough: 1}, Place{Move: Vec{x, back - 20, z}}))
		if r.p(0.6) {
			wall = append(wall, at(box(30, 60, hh, 2), r.paint(), Place{Move: Vec{x, back - 20, z}}), at(box(ww, 60, 30, 2), r.paint(), Place{Move: Vec{x, back - 20, z + hh/2}}))
		}
	case 1: // picture
		wall = append(wall, at(box(ww*0.7+60, 20, hh*0.7+60, 2), r.paint(), Place{Move: Vec{x, back - 10, z - 30}}), at(box(ww*0.7, 26, hh*0.7, 1), r.tex(ww), Place{Move: Vec{x, back - 13, z}}))
	case 2: // shelf with things
		bd := r.paint()
		for i := range 1 + r.IntN(4) {
			zz := z - 300 + 320*float64(i)
			wall = append(wall, at(box(ww+300, 240, 24, 1), bd, Place{Move: Vec{x, back - 120, zz}}))
			for range 1 + r.IntN(5) {
				wall = append(wall, moved(r.Thing(r.u(120, 300)), r.u(-40, 40), Vec{x + r.u(-0.5, 0.5)*ww, back - 120, zz + 24})...)
			}
		}
	case 3: // tools
		for range 3 + r.IntN(12) {
			a := Vec{x + r.u(-600, 600), back - 20, z + r.u(-100, 500)}
			var lk shader = r.metal()
			if r.p(0.5) {
				lk = r.paint()
			}
			wall = append(wall, beam(a, a.add(Vec{r.u(-60, 60), 0, r.u(-350, 350)}), r.u(10, 90), r.u(10, 40), 2, lk))
		}
	}
	return wall
}

// beside is things on the floor by the wall, and other furniture behind or beside.
func (r Random) beside(p RandomPiece, mid, view Vec, turn, back float64, workshop bool) (props []Object) {
	none, small, k := p.Kind == None, p.small(), p.reach()
	clear := func(q Vec, rad float64) bool {
		d := q.sub(Vec{mid.X, mid.Y, 0})
		d.Z = 0
		if d.len() < p.R*0.9+rad {
			return false
		}
		a := d.dot(view)
		side := d.sub(view.mul(a)).len()
		return a < 0 || side > p.R+rad // never between the camera and the piece
	}
	n := r.IntN(5)
	if workshop || r.p(0.3) {
		n += 4 + r.IntN(8)
	}
	tr := Place{Turn: Vec{0, 0, turn}}.frame()
	for range n {
		for range 6 {
			q := Vec{r.u(-2800, 2800) * k, r.u(-1200*k, back), 0}
			var things []Object
			var rad float64
			switch c := r.IntN(5); {
			case none && c < 3 || c == 2 && !small:
				things, rad = r.noPiece()
			case c < 2 && !small && !none:
				o := r.Piece()
				if r.p(0.25) && !p.Hung { // a showroom
					o = r.piece(p.Kind)
				}
				things, rad = o.Objs, o.R
				if o.Top > 0 && r.p(0.5) {
					things = append(things, moved(r.Thing(r.u(100, 400)), r.u(0, 360), Vec{0, 0, o.Top})...)
				}
			default:
				sz := r.u(150, 1900) * k
				things, rad = r.Thing(sz), sz*0.4
			}
			if !clear(tr.dir(q), rad) {
				continue
			}
			props = append(props, moved(things, r.u(0, 360), q)...)
			break
		}
	}
	return props
}

// about is what lies under a piece and on it, what stands before it and who sits there.
func (r Random) about(p RandomPiece, spin, size float64, mid, view Vec) (props []Object) {
	none, small, k := p.Kind == None, p.small(), p.reach()
	if r.p(0.25) { // rug, or a surface that a small piece lies on
		rg := at(box(p.R*r.u(1.5, 4), p.R*r.u(1.2, 3), 4, 1), shader(r.tiles(false)), Place{Turn: Vec{0, 0, spin + r.u(-20, 20)}, Move: Vec{r.u(-0.3, 0.3) * p.R, r.u(-0.3, 0.3) * p.R, -3.5}})
		if r.p(0.4) {
			rg.shader = r.tex(1500)
		}
		props = append(props, rg)
	}
	if p.Top > 0 && r.p(0.5) { // clutter on the top
		for range 1 + r.IntN(6) {
			sz := r.u(0.15, 0.7) * math.Min(p.HX, p.HY) * 1.3
			x, y := r.u(-0.8, 0.8)*p.HX, r.u(-0.8, 0.8)*p.HY
			props = append(props, moved(moved(r.onTop(sz), r.u(0, 360), Vec{x, y, p.Top}), spin, Vec{})...)
		}
	}
	if r.p(0.15) { // something in front
		q := Vec{mid.X, mid.Y, 0}.add(view.mul(p.R + 200*k)).add(Vec{r.u(-1, 1) * p.R, 0, 0})
		props = append(props, moved(r.Thing(r.u(0.2, 0.6)*size), r.u(0, 360), q)...)
	}
	if !none && !small && !p.Hung && r.p(0.15) {
		props = append(props, r.inFront(p, Vec{mid.X, mid.Y, 0}, view)...)
	}
	if p.Top > 600 && p.Top < 800 && p.HX > 350 && r.p(0.35) {
		props = append(props, moved(r.seated(p), spin, Vec{})...)
	}
	return props
}

// small reports whether a piece is one to lay on a table.
func (p RandomPiece) small() bool {
	return p.Kind == "board" || p.Kind == "cookie" || (p.Kind == "shelf" && p.Top == 0)
}

// reach is how far what is round a piece stands from it, as a share of what it is round
// a table.
func (p RandomPiece) reach() float64 {
	switch {
	case p.Hung:
		return 0.5
	case p.small():
		return 0.35
	}
	return 1
}

// inFront is a machine, a chair, a cart, somebody, that stands beside a piece and
// a little before it, and hides a part of it.
func (r Random) inFront(p RandomPiece, mid, view Vec) []Object {
	var objs []Object
	rad := 350.0
	switch r.IntN(5) {
	case 0, 1:
		objs = r.machine(r.u(700, 1500))
	case 2:
		objs = r.plasticChair()
	case 3:
		objs = r.person(r.u(1400, 1850))
	case 4:
		o := r.piece([]string{"chair", "stool", "turned stool", "sawhorses", "block"}[r.IntN(5)])
		objs, rad = o.Objs, o.R
	}
	side := view.cross(Vec{0, 0, 1}).mul((p.R*r.u(0.4, 0.9) + rad*r.u(0, 0.8)) * float64(1-2*r.IntN(2)))
	return moved(objs, r.u(0, 360), mid.add(view.mul(max(p.HY, p.R*r.u(0.4, 1))+rad)).add(side))
}

// plasticChair is a chair of one casting: a shell of strips, legs that splay.
func (r Random) plasticChair() (objs []Object) {
	v := []float64{0.004, 0.02, 0.7, 0.85}[r.IntN(4)]
	look := &paint{albedo: Vec{v, v, v}, rough: r.u(0.25, 0.6), f0: 0.04}
	if r.p(0.35) {
		look = r.paint()
	}
	w, z := r.u(400, 540), r.u(400, 450)
	objs = append(objs, at(box(w, w*0.95, 30, 10), look, Place{Move: Vec{0, 0, z}}))
	for _, q := range [][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		objs = append(objs, beam(Vec{q[0] * w * 0.55, q[1] * w * 0.55, 0}, Vec{q[0] * w * 0.45, q[1] * w * 0.42, z}, r.u(30, 60), 28, 5, look))
	}
	h, open, arms := r.u(330, 480), r.u(0.5, 1), r.p(0.6)
	from, to := math.Pi*0.12, math.Pi*0.88
	const n = 9
	a := func(i, t float64) Vec {
		u := from + (to-from)*i/n
		return Vec{w * 0.5 * math.Cos(u) * (1 + 0.1*t), w*0.5*math.Sin(u) + 90*t - 0.04*w, z + h*t*(0.75+0.25*math.Sin(u))}
	}
	for i := range n {
		objs = append(objs, beam(a(float64(i)+0.5, 0), a(float64(i)+0.5, 1), 0.17*w*open, 14, 3, look),
			beam(a(float64(i), 0.93), a(float64(i)+1, 0.93), 22, r.u(40, 75), 4, look))
	}
	for _, s := range []float64{-1, 1} {
		if arms {
			objs = append(objs, beam(Vec{s * w * 0.53, -w * 0.4, z + 210}, Vec{s * w * 0.5, w * 0.3, z + 250}, 55, 22, 6, look),
				beam(Vec{s * w * 0.5, -w * 0.42, z}, Vec{s * w * 0.53, -w * 0.4, z + 210}, 50, 24, 5, look))
		}
	}
	return objs
}

// seated is chairs of another make round a table, and perhaps people on them.
func (r Random) seated(p RandomPiece) (objs []Object) {
	kind := []string{"chair", "chair", "spindles", "turned stool", "upholstered", "period", "slats"}[r.IntN(7)]
	c := r.piece(kind)
	if r.p(0.35) {
		c = RandomPiece{Objs: r.plasticChair()}
	}
	n := 1 + r.IntN(6)
	start := r.u(0, 360)
	for i := range n {
		a := start + 360*float64(i)/float64(n) + r.u(-15, 15)
		s, co := math.Sincos(a * math.Pi / 180)
		x, y := (p.HX+r.u(-50, 300))*co, (p.HY+r.u(-50, 300))*s
		objs = append(objs, moved(c.Objs, a-90+r.u(-12, 12), Vec{x, y, 0})...)
		if r.p(0.12) {
			objs = append(objs, moved(r.person(r.u(1500, 1800)), a-90, Vec{x, y, -350})...)
		}
	}
	return objs
}

// grass is a lawn, gravel, leaves on the ground, earth.
func (r Random) grass() shader {
	c := hsv(r.u(0.15, 0.4), r.u(0.2, 0.7), r.u(0.15, 0.6))
	if r.p(0.3) {
		c = hsv(r.u(0.05, 0.13), r.u(0.05, 0.5), r.u(0.2, 0.7))
	}
	return &foliage{c, r.u(8, 80), r.u(0.5, 1.5), r.seed()}
}

// foliage is a surface with light and dark in every size.
type foliage struct {
	c          Vec
	size, vary float64
	seed       uint32
}

func (f *foliage) at(pt *point) surface {
	p := pt.p.mul(1 / f.size)
	v := noise(p.X, p.Y, p.Z, f.seed) + 0.7*noise(p.X*3.1, p.Y*3.1, p.Z*3.1, f.seed+1)*clamp(2*f.size/pt.foot/6, 0, 1) + 0.6*noise(p.X/9, p.Y/9, p.Z/9, f.seed+2)
	k := math.Max(0.1, 1+f.vary*v)
	return surface{albedo: f.c.mul(k), rough: 1, f0: 0.02, n: pt.n}
}

// garden is hedges, trunks, bushes and a fence behind.
func (r Random) garden(back, k float64) (objs []Object) {
	for range 1 + r.IntN(4) {
		w, h := r.u(800, 6000), r.u(400, 3500)
		objs = append(objs, at(box(w, 600, h, 100), r.grass(), Place{Turn: Vec{0, 0, r.u(-20, 20)}, Move: Vec{r.u(-4000, 4000), back + r.u(300, 4000), 0}}))
	}
	for range r.IntN(7) {
		q := Vec{r.u(-4000, 4000), back + r.u(100, 5000), 0}
		if r.p(0.5) {
			objs = append(objs, at(cylinder(r.u(40, 250), 5000), r.woodLook(r.wood()), Place{Move: q}))
		} else {
			objs = append(objs, at(ball(r.u(200, 1200), r.u(200, 1200)), r.grass(), Place{Move: q.add(Vec{0, 0, r.u(0, 900)})}))
		}
	}
	if r.p(0.3) {
		look := r.woodLook(r.wood())
		step := r.u(90, 200)
		for x := -3500.0; x < 3500; x += step {
			objs = append(objs, at(box(step*0.8, 20, r.u(900, 1000), 2), look, Place{Move: Vec{x, back + 60, 0}}))
		}
	}
	return objs
}

// workshop is racks of boards, boards that lean, machines and a bench behind.
func (r Random) workshop(back, k float64) (objs []Object) {
	for range 3 + r.IntN(10) { // boards against the wall
		x, h := r.u(-2500, 2500), r.u(700, 2600)
		look := shader(r.woodLook(r.wood()))
		objs = append(objs, beam(Vec{x, back - r.u(150, 500), 0}, Vec{x + r.u(-150, 150), back - 20, h}, r.u(60, 350), r.u(18, 60), 1, look))
	}
	if r.p(0.5) { // a rack
		z, x := r.u(400, 1200), r.u(-2000, 1500)
		for i := range 2 + r.IntN(4) {
			for range 2 + r.IntN(6) {
				y := back - r.u(50, 400)
				a := Vec{x - r.u(100, 600), y, z + 350*float64(i) + r.u(0, 120)}
				objs = append(objs, beam(a, a.add(Vec{r.u(900, 2600), 0, r.u(-20, 20)}), r.u(40, 200), r.u(18, 60), 1, r.woodLook(r.wood())))
			}
		}
	}
	for range r.IntN(4) { // machines
		q := Vec{r.u(-2500, 2500), back - r.u(300, 900), 0}
		pn := r.paint()
		h := r.u(600, 1100)
		objs = append(objs, at(box(r.u(300, 800), r.u(300, 700), h, 10), pn, Place{Turn: Vec{0, 0, r.u(-30, 30)}, Move: q}),
			at(box(r.u(500, 1100), r.u(400, 800), 40, 5), r.metal(), Place{Turn: Vec{0, 0, r.u(-30, 30)}, Move: q.add(Vec{0, 0, h})}),
			at(cylinder(r.u(40, 160), r.u(100, 700)), r.paint(), Place{Move: q.add(Vec{r.u(-200, 200), 0, h + 40})}))
	}
	for range r.IntN(3) {
		objs = append(objs, moved(r.person(r.u(1500, 1850)), r.u(0, 360), Vec{r.u(-2000, 2000), back - r.u(200, 900), 0})...)
	}
	return objs
}

// person is a figure of height h with a head, hair, a trunk and limbs.
func (r Random) person(h float64) (objs []Object) {
	skin := &paint{albedo: hsv(r.u(0.02, 0.09), r.u(0.25, 0.7), r.u(0.2, 0.95)), rough: 0.7, f0: 0.03}
	shirt, legs, hair := r.paint(), r.paint(), r.paint()
	put := func(m mesh, lk shader, x, y, z float64) { objs = append(objs, at(m, lk, Place{Move: Vec{x, y, z}})) }
	put(ball(h*0.048, h*0.068), skin, 0, 0, h*0.93)
	put(ball(h*0.052, h*0.06), hair, 0, h*0.012, h*0.945)
	put(ball(h*0.11, h*0.19), shirt, 0, 0, h*0.68)
	put(ball(h*0.10, h*0.12), legs, 0, 0, h*0.52)
	bend := r.u(-0.2, 0.05) * h
	for _, s := range []float64{-1, 1} {
		knee := Vec{s * h * 0.06, bend * 0.6, h * 0.27}
		objs = append(objs, rod(Vec{s * h * 0.05, 0, h * 0.5}, knee, h*0.05, legs), rod(knee, Vec{s * h * 0.07, bend * 0.3, 0}, h*0.038, legs))
		elbow := Vec{s * h * r.u(0.13, 0.2), r.u(-0.1, 0.05) * h, h * r.u(0.58, 0.75)}
		objs = append(objs, rod(Vec{s * h * 0.11, 0, h * 0.8}, elbow, h*0.033, shirt), rod(elbow, elbow.add(Vec{-s * r.u(0, 0.1) * h, -r.u(0, 0.15) * h, r.u(-0.16, 0.16) * h}), h*0.026, skin))
	}
	return objs
}
