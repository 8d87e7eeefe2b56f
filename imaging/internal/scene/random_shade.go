package scene

import "math"

// shade turns the first light into a sun and puts something between it and the
// piece: all of the piece lies in shade before bright ground, or an edge, leaves
// or bars throw their shadows across it. It does nothing where that would stand
// between the camera and the piece.
func (r Random) shade(s *Scene, mid Vec, size float64) (objs []Object) {
	az, el := r.u(-2.6, 2.6), r.u(0.5, 1.3) // round from where the camera stands
	to := Vec{math.Sin(az) * math.Cos(el), -math.Cos(az) * math.Cos(el), math.Sin(el)}
	kind := r.IntN(5)
	rad := size * r.u(1.2, 2)
	if kind == 2 {
		rad = size * r.u(1.5, 3)
	}
	far := 0.0
	for k := 1.2; k < 8 && far == 0; k *= 1.3 {
		if clearOf(s.Camera.At, mid, size, mid.add(to.mul(k*size+rad)), rad) {
			far = k*size + rad
		}
	}
	if far == 0 {
		return nil
	}
	d := 120 * (size + 300)
	k := r.u(0.9, 1.2)
	sun := Light{At: mid.add(to.mul(d)), Aim: mid, Width: d * r.u(0.005, 0.04), Power: 1, Colour: Vec{k, 1, 1 / k}}
	sun.Height = sun.Width
	s.Lights = []Light{sun}
	s.Fill, s.Level = r.u(0.06, 0.4), r.u(0.6, 1.2)
	a, b := to.basis()
	s.Top.Place.Move = mid.add(to.mul(far + 2.5*rad)) // metered in the sun
	c := mid.add(to.mul(far))
	put := func(x, y, w, h float64) { // a sheet across the light
		objs = append(objs, beam(c.add(a.mul(x-w/2)).add(b.mul(y)), c.add(a.mul(x+w/2)).add(b.mul(y)), h, h*0.3+2, 0, r.grass()))
	}
	switch kind {
	case 0, 1: // a roof or a tree over all of it
		objs = append(objs, at(ball(rad, rad*0.3), r.grass(), Place{Move: c}))
		if r.p(0.4) {
			objs = append(objs, at(ball(rad, rad*0.4), r.grass(), Place{Move: c.add(Vec{r.u(-1, 1) * rad, r.u(-1, 1) * rad, 0})}))
		}
	case 2: // an edge of shade across it
		t := r.u(0, 2*math.Pi)
		by := a.mul(math.Cos(t)).add(b.mul(math.Sin(t))).mul(rad + r.u(-0.6, 0.6)*size)
		objs = append(objs, at(ball(rad, rad), r.grass(), Place{Move: c.add(by)}))
	case 3: // leaves
		for range 30 + r.IntN(90) {
			t, q, w := r.u(0, 2*math.Pi), rad*math.Sqrt(r.Float64()), size*r.u(0.02, 0.16)
			objs = append(objs, at(ball(w, w*0.4), &paint{albedo: Vec{0.05, 0.12, 0.03}, rough: 1}, Place{Move: c.add(a.mul(q * math.Cos(t))).add(b.mul(q * math.Sin(t)))}))
		}
	case 4: // bars: a window's, a blind's
		step := size * r.u(0.12, 0.8)
		w := step * r.u(0.15, 0.6)
		for y := -rad; y < rad; y += step {
			put(0, y, 2*rad, w)
		}
	}
	return objs
}

// clearOf tells whether a ball about c leaves the sight from an eye to a ball of
// the given size about mid free.
func clearOf(eye, mid Vec, size float64, c Vec, rad float64) bool {
	a, b := mid.sub(eye), c.sub(eye)
	da, db := a.len(), b.len()
	if db < 1.1*rad {
		return false
	}
	if db > da+rad {
		return true
	}
	apart := math.Acos(clamp(a.dot(b)/(da*db), -1, 1))
	return apart > math.Asin(min(1, size/da))+math.Asin(min(1, rad/db))
}

// darkBelow lights the scene from above alone, so that legs stand in the dark.
func (r Random) darkBelow(s *Scene, mid Vec, size float64) {
	d := r.u(1.5, 3) * (size + 300)
	w := r.u(0.3, 1) * size
	s.Lights = []Light{{At: mid.add(Vec{r.u(-0.3, 0.3) * d, r.u(-0.3, 0.4) * d, d}), Aim: mid, Width: w, Height: w, Power: 1}}
	s.Fill = r.u(0.01, 0.12)
}
