package scene

import "math"

// Shot returns a scene to be drawn at w×h pixels, and the kind of its piece.
// With cut the piece stands alone on paper, to be set into other pictures.
func (r Random) Shot(cut bool, w, h int) (Scene, string) {
	p := r.Piece()
	for cut && p.Kind == "held board" {
		p = r.Piece()
	}
	none := !cut && !p.Hung && r.p(0.13)
	bare := none && r.p(0.5)
	if none { // a room without a piece, with something else in its place, or nothing but ground
		p = RandomPiece{Kind: None}
		p.Objs, p.R = r.noPiece()
	}
	spin := r.spin(p)
	s := Scene{Seed: r.Uint64(), Subject: moved(p.Objs, spin, Vec{}), Samples: 2, Shaded: 1}
	lo, hi := bounds(s.Subject)
	mid := lo.add(hi).mul(0.5)
	size := hi.sub(lo).len() / 2
	var floor Vec
	if cut {
		s.Samples = 3
		v := r.u(90, 225)
		floor = srgb(v, v, v)
	} else {
		floor = r.paint().albedo
	}
	s.Backdrop = Backdrop{Colour: floor, Bend: 6 * size, Radius: 900}
	if !cut {
		s.Backdrop.Bend = 5000
	}
	s.Lights = r.lights(mid, size)
	s.Fill, s.Level = r.u(0.15, 0.65), r.u(0.5, 1.2)
	s.EV = r.u(-0.6, 0.6)
	s.White = [3]float64{r.u(0.85, 1.2), 1, r.u(0.75, 1.15)}
	s.Top = Top{Outline: Rectangle(1, 1), Height: 0, Place: Place{Move: Vec{mid.X, mid.Y, hi.Z + 5}}}
	s.Sensor = Sensor{Blur: r.u(0, 0.7), Vignette: r.u(0, 0.25)}
	cam := r.camera(p, cut, s.Subject, mid, size, w, h)
	closeUp := !cut && p.Top > 0 && p.HX > 0 && r.p(0.15)
	if closeUp {
		cam = r.near(p, cam, spin)
	}
	if bare {
		cam = r.overGround(cam)
		s.Top.Place.Move.Z = 800
		s.Subject = r.ground()
	}
	cam.At.Z = max(cam.At.Z, 40)
	s.Camera = cam
	if r.p(0.12) {
		r.darkBelow(&s, mid, size)
	}
	if r.p(0.07) { // a flash on the camera
		s.Lights[0] = Light{At: cam.At.add(Vec{r.u(-60, 60), 0, r.u(20, 80)}), Aim: mid, Width: 60, Height: 40, Power: 1}
	}
	if r.p(0.3) {
		s.Camera.Stop = r.u(2, 16)
		if cut {
			s.Camera.Stop = r.u(8, 22)
		}
		s.Camera.Focus = mid
	}
	if cut {
		return s, p.Kind
	}
	r.room(&s, p, spin, size, mid)
	s.Props = append(s.Props, moved(p.By, spin, Vec{})...)
	if closeUp {
		s.Props = append(s.Props, moved(r.laid(p), spin, Vec{})...)
	}
	if none {
		s.Props, s.Subject = append(s.Props, s.Subject...), nil
	}
	if r.p(0.07) { // light painting: one light in the dark
		s.Fill, s.Lights = r.u(0.005, 0.06), s.Lights[:1]
		s.Backdrop.Colour = Vec{0.01, 0.01, 0.01}
	}
	return s, p.Kind
}

// spin is how far a piece is turned from the camera, degrees.
func (r Random) spin(p RandomPiece) float64 {
	spin := r.u(-180, 180)
	if r.p(0.6) {
		spin = r.u(-45, 45)
	}
	if p.Hung {
		return 0
	}
	return spin
}

// camera is where a piece is taken from, so that it fills its share of w×h pixels.
func (r Random) camera(p RandomPiece, cut bool, subject []Object, mid Vec, size float64, w, h int) Camera {
	el := r.u(0.05, 0.75)
	switch {
	case p.Kind == "board" || p.Kind == "cookie" || r.p(0.08):
		el = r.u(0.4, 1.5)
	case p.Hung:
		el = r.u(-0.25, 0.35)
	case r.p(0.3):
		el = r.u(0.02, 0.3)
	}
	az := r.u(-0.5, 0.5)
	dir := Vec{math.Sin(az) * math.Cos(el), -math.Cos(az) * math.Cos(el), math.Sin(el)}
	cam := Camera{LookAt: mid, Focal: r.u(24, 75), Roll: r.u(-2, 2)}
	if r.p(0.3) { // phones, wide lenses
		cam.Focal = r.u(13, 24)
	}
	if r.p(0.1) {
		cam.Roll = r.u(-12, 12)
	}
	fill := r.u(0.72, 0.85)
	ox, oy := 0.0, 0.0
	if !cut {
		fill = r.u(0.4, 0.97)
		if p.Out {
			fill = r.u(0.16, 0.9)
		}
		if r.p(0.1) {
			fill = r.u(0.97, 1.3)
		}
		ox, oy = r.u(-0.5, 0.5)*(1-fill), r.u(-0.4, 0.5)*(1-fill)
	}
	dist := 4 * size
	for range 6 {
		cam.At = cam.LookAt.add(dir.mul(dist))
		v := cam.view(w, h)
		x0, y0, x1, y1 := frameOf(v, subject)
		k := math.Max((x1-x0)/float64(w), (y1-y0)/float64(h)) / fill
		dx, dy := (x0+x1)/2-float64(w)*(0.5+ox), (y0+y1)/2-float64(h)*(0.5+oy)
		cam.LookAt = cam.LookAt.add(v.right.mul(dx * dist / v.scale)).sub(v.up.mul(dy * dist / v.scale))
		dist = math.Max(dist*clamp(k, 0.5, 2), size*1.05)
	}
	cam.At = cam.LookAt.add(dir.mul(dist))
	return cam
}

// None is the kind of a picture that holds no piece.
const None = "none"

// lights are one to three lights round the piece: wide or hard, from the front,
// the side or behind.
func (r Random) lights(mid Vec, size float64) (list []Light) {
	hard := r.p(0.15) // the sun
	for i := range 1 + r.IntN(3) {
		az, el := r.u(0, 2*math.Pi), r.u(0.25, 1.4)
		d := r.u(2, 4) * (size + 300)
		pw := 1.0
		if i > 0 {
			pw = r.u(0.1, 0.7)
		}
		sz := r.u(0.2, 1.2) * size
		if hard && i == 0 {
			d, sz = 8*(size+300), r.u(0.1, 0.25)*size
		}
		k := r.u(0.75, 1.25)
		from := Vec{math.Cos(az) * math.Cos(el), -math.Abs(math.Sin(az)) * math.Cos(el), math.Sin(el)}
		if r.p(0.15) {
			from.Y = -from.Y
		}
		list = append(list, Light{At: mid.add(from.mul(d)), Aim: mid, Width: sz, Height: sz * r.u(0.5, 1.5), Power: pw, Colour: Vec{k, 1, 1 / k}})
	}
	return list
}

// near is a camera so close above a top that the top leaves the frame.
func (r Random) near(p RandomPiece, cam Camera, spin float64) Camera {
	at := Vec{r.u(-0.7, 0.7) * p.HX, r.u(-0.7, 0.7) * p.HY, p.Top}
	cam.LookAt = Place{Turn: Vec{0, 0, spin}}.frame().dir(at)
	el, az := r.u(0.12, 1), r.u(-0.6, 0.6)
	if r.p(0.1) {
		el = r.u(1, 1.5)
	}
	dir := Vec{math.Sin(az) * math.Cos(el), -math.Cos(az) * math.Cos(el), math.Sin(el)}
	across := math.Min(p.HX, p.HY) + math.Max(p.HX, p.HY)*0.5
	cam.At = cam.LookAt.add(dir.mul(across * r.u(0.7, 1.7) * cam.Focal / 28))
	return cam
}

// laid is what lies on a top seen from near: screens, papers, cups, tools.
func (r Random) laid(p RandomPiece) (objs []Object) {
	k := math.Min(p.HX, p.HY)
	for range r.IntN(7) {
		size := math.Min(r.u(0.15, 0.9)*k, 500)
		lies := r.onTop(size)
		if r.p(0.25) {
			lies = r.screen(size)
		}
		objs = append(objs, moved(lies, r.u(-60, 60), Vec{r.u(-0.85, 0.85) * p.HX, r.u(-0.85, 0.85) * p.HY, p.Top})...)
	}
	return objs
}

func bounds(objs []Object) (lo, hi Vec) {
	inf := math.Inf(1)
	lo, hi = Vec{inf, inf, inf}, Vec{-inf, -inf, -inf}
	for _, o := range objs {
		for _, t := range o.mesh {
			q := o.frame.out(t.a)
			lo = Vec{min(lo.X, q.X), min(lo.Y, q.Y), min(lo.Z, q.Z)}
			hi = Vec{max(hi.X, q.X), max(hi.Y, q.Y), max(hi.Z, q.Z)}
		}
	}
	return lo, hi
}

func frameOf(v View, objs []Object) (x0, y0, x1, y1 float64) {
	inf := math.Inf(1)
	x0, y0, x1, y1 = inf, inf, -inf, -inf
	for _, o := range objs {
		step := max(len(o.mesh)/60, 1)
		for i := 0; i < len(o.mesh); i += step {
			t := o.mesh[i]
			for _, q := range []Vec{t.a, t.a.add(t.e1), t.a.add(t.e2)} {
				x, y, ok := v.Project(o.frame.out(q))
				if ok {
					x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x), max(y1, y)
				}
			}
		}
	}
	return
}
