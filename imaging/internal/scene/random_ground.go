package scene

import "math"

// ground is what lies before the camera where there is no piece at all: a
// road, a terrace, steps, a rug, or nothing but the floor, to the edge of the
// frame and beyond.
func (r Random) ground() (objs []Object) {
	strip := func(x, w, h float64, look shader) {
		objs = append(objs, at(box(w, 60000, h+20, 1), look, Place{Move: Vec{x, 0, -20}}))
	}
	switch r.IntN(6) {
	case 0, 1: // a road or a path, with lines, kerbs, a pavement
		w := r.u(900, 7000)
		v := r.u(0.05, 0.5)
		look := &paint{albedo: srgb(255*v, 255*v*r.u(0.9, 1), 255*v*r.u(0.8, 1.05)), rough: 1, f0: 0.02, grain: r.u(0, 0.3), seed: r.seed()}
		strip(0, w, 4, look)
		for _, x := range []float64{-0.45, 0, 0.45} {
			if r.p(0.4) {
				strip(x*w, r.u(60, 160), 6, &whitePage)
			}
		}
		for _, sd := range []float64{-1, 1} {
			if r.p(0.5) {
				strip(sd*(w/2+70), 140, r.u(30, 150), r.paint())
				strip(sd*(w/2+1000), 1720, r.u(20, 120), r.tiles(false))
			}
		}
	case 2, 3: // a terrace, a jetty, a stage, of boards or stone
		w, d, h := r.u(1500, 7000), r.u(1500, 9000), r.u(30, 500)
		objs = append(objs, at(box(w, d, h, 2), r.tiles(false), Place{Move: Vec{r.u(-0.3, 0.3) * w, r.u(-0.4, 0.4) * d, 0}}))
		if r.p(0.3) {
			objs = append(objs, r.fence(d*0.45, w/2)...)
		}
	case 4: // steps
		n, rise, tread := 2+r.IntN(7), r.u(100, 190), r.u(240, 420)
		w, look := r.u(1200, 6000), r.tiles(false)
		for i := range n {
			z := rise * float64(i+1)
			objs = append(objs, at(box(w, tread*float64(n-i), z, 2), look, Place{Move: Vec{0, tread * float64(n+i) / 2, 0}}))
		}
	}
	return moved(objs, r.u(-60, 60), Vec{r.u(-800, 800), 0, 0})
}

// overGround is a camera held over the ground, looking along it or down at it.
func (r Random) overGround(cam Camera) Camera {
	h, el := r.u(500, 1800), r.u(0.02, 0.9)
	if r.p(0.15) {
		h, el = r.u(150, 500), r.u(-0.05, 0.4)
	}
	az := r.u(-0.7, 0.7)
	cam.At = Vec{r.u(-500, 500), r.u(-3500, -1500), h}
	cam.LookAt = cam.At.add(Vec{math.Sin(az) * math.Cos(el), math.Cos(az) * math.Cos(el), -math.Sin(el)}.mul(3000))
	cam.Focal = r.u(16, 50)
	return cam
}
