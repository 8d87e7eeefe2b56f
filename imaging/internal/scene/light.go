package scene

import "math"

// light is a Light with its sides worked out.
type light struct {
	c, u, v, n   Vec // centre, half sides, normal
	hu, hv, area float64
	radiance     Vec
}

func newLight(l Light) light {
	n := l.Aim.sub(l.At).unit()
	u, v := Vec{0, 0, 1}.cross(n).unit(), Vec{}
	if u.len() < 0.5 {
		u = Vec{1, 0, 0}
	}
	v = n.cross(u)
	c := l.Colour
	if c == (Vec{}) {
		c = Vec{1, 1, 1}
	}
	return light{l.At, u.mul(l.Width / 2), v.mul(l.Height / 2), n, l.Width / 2, l.Height / 2, l.Width * l.Height, c.mul(l.Power)}
}

// meter scales the lights so that a white card in the middle of the top comes
// out at the scene's level, with the wanted share of fill.
func (t *tracer) meter() {
	f := t.s.Top.Place.frame()
	at := Vec{0, 0, 1}
	if len(t.s.Top.Outline.Near) > 0 {
		lo, hi := t.s.Top.Outline.Bounds()
		at = f.out(Vec{(lo[0] + hi[0]) / 2, (lo[1] + hi[1]) / 2, t.s.Top.Height + 0.5})
	}
	const n = 1024
	up := Vec{0, 0, 1}
	t.fill = 0
	var key float64
	for i := range n {
		k := t.direct(at, up, newSequence(1, 2, i, 77))
		key += k.Y / n
	}
	if key > 0 {
		k := (1 - t.s.Fill) * math.Pi * t.s.Level / key
		for i := range t.lights {
			t.lights[i].radiance = t.lights[i].radiance.mul(k)
		}
	}
	// The fill comes from the surroundings and from the backdrop: solve for
	// the part that is missing.
	var bounce, dome float64
	for i := range n {
		seq := newSequence(3, 4, i, 78)
		t.fill = 0
		bounce += t.around(at, up, seq).Y / n
		t.fill = 1
		dome += t.around(at, up, seq).Y / n
	}
	dome -= bounce
	t.fill = 0
	if dome > 0 {
		t.fill = math.Max(t.s.Fill*math.Pi*t.s.Level-bounce, 0) / dome
	}
	// What the backdrop throws back may alone be more than the wanted fill.
	total := (1-t.s.Fill)*math.Pi*t.s.Level + bounce + t.fill*dome
	if key == 0 {
		total = bounce + t.fill*dome
	}
	if total > 0 {
		k := math.Pi * t.s.Level / total
		t.fill *= k
		for i := range t.lights {
			t.lights[i].radiance = t.lights[i].radiance.mul(k)
		}
	}
}

// direct returns the irradiance of the lights at p with normal n, one shadow
// ray a light.
func (t *tracer) direct(p, n Vec, seq sequence) Vec {
	var e Vec
	for i := range t.lights {
		l := &t.lights[i]
		a, b := seq.pair(uint64(10 + i))
		q := l.c.add(l.u.mul(2*a - 1)).add(l.v.mul(2*b - 1))
		d := q.sub(p)
		dist := d.len()
		d = d.mul(1 / dist)
		cs, cl := d.dot(n), -d.dot(l.n)
		if cs <= 0 || cl <= 0 {
			continue
		}
		if _, tri, _, _ := t.tree.hit(p.add(n.mul(0.02)), d, dist, true); tri >= 0 {
			continue
		}
		e = e.add(l.radiance.mul(cs * cl * l.area / (dist * dist)))
	}
	return e
}

// open is the irradiance of the lights at p as if nothing stood in the way.
func (t *tracer) open(p, n Vec) Vec {
	var e Vec
	for i := range t.lights {
		l := &t.lights[i]
		d := l.c.sub(p)
		dist := d.len()
		d = d.mul(1 / dist)
		cs, cl := d.dot(n), -d.dot(l.n)
		if cs > 0 && cl > 0 {
			e = e.add(l.radiance.mul(cs * cl * l.area / (dist*dist + l.area/math.Pi)))
		}
	}
	return e
}

// around returns the irradiance from everything but the lights: one ray over
// the hemisphere, one bounce.
func (t *tracer) around(p, n Vec, seq sequence) Vec {
	a, b := seq.pair(30)
	s, c := math.Sincos(2 * math.Pi * a)
	r := math.Sqrt(b)
	u, v := n.basis()
	d := u.mul(r * c).add(v.mul(r * s)).add(n.mul(math.Sqrt(1 - b)))
	return t.far(p.add(n.mul(0.02)), d).mul(math.Pi)
}

// far returns the light that comes along a ray from the surroundings, without
// the lights themselves.
func (t *tracer) far(p, d Vec) Vec {
	if dist, tri, _, _ := t.tree.hit(p, d, math.Inf(1), false); tri >= 0 {
		m := &t.tree.tris[tri]
		n := m.n
		if n.dot(d) > 0 {
			n = n.mul(-1)
		}
		e := t.open(p.add(d.mul(dist)), n).mul(0.5 / math.Pi)
		f := 0.55 * t.fill
		return t.mean[m.object].had(e.add(Vec{f, f, f}))
	}
	if dist, n, ok := t.s.Backdrop.hit(p, d); ok {
		return t.paper(p.add(d.mul(dist)), n)
	}
	return t.dome(d)
}

// paper is about what a place on the backdrop sends out.
func (t *tracer) paper(p, n Vec) Vec {
	f := 0.75 * t.fill
	return t.s.Backdrop.Colour.had(t.open(p, n).mul(1 / math.Pi).add(Vec{f, f, f}))
}

// dome is the room round the set: brighter above.
func (t *tracer) dome(d Vec) Vec {
	f := t.fill * (0.6 + 0.6*clamp(d.Z, 0, 1))
	return Vec{f, f, f}
}

// gloss returns what a surface of the given roughness mirrors along d.
func (t *tracer) gloss(p, d Vec, rough float64) Vec {
	var c Vec
	if dist, n, ok := t.s.Backdrop.hit(p, d); ok {
		q := p.add(d.mul(dist))
		c = t.paper(q, n).mix(t.dome(d), smooth(0.4*rollTop, rollTop, q.Z))
	} else {
		c = t.dome(d)
	}
	for i := range t.lights {
		l := &t.lights[i]
		down := -d.dot(l.n)
		if down <= 0.02 {
			continue
		}
		dist := p.sub(l.c).dot(l.n) / down
		if dist <= 0 {
			continue
		}
		q := p.add(d.mul(dist)).sub(l.c)
		blur := 0.9*rough*dist/math.Sqrt(down) + 90 // a softbox fades towards its rim
		m := window(q.dot(l.u)/l.hu, l.hu, blur) * window(q.dot(l.v)/l.hv, l.hv, blur)
		c = c.add(l.radiance.mul(m))
	}
	return c
}

// window is how much of a strip −half … half a blurred eye at x sees.
func window(x, half, blur float64) float64 {
	return smooth(-blur, blur, half+x) + smooth(-blur, blur, half-x) - 1
}
