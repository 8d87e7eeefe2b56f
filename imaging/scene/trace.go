package scene

import "math"

// tracer holds a scene made ready: triangles, lights, levels.
type tracer struct {
	s      *Scene
	view   View
	tree   *bvh
	objs   []Object
	mean   []Vec // mean colour of each object, for the light it throws on others
	props  int   // index of the first object that is not of the subject
	lights []light
	fill   float64 // radiance of the surroundings
	lens   float64 // radius, mm
	focus  float64 // distance along the axis, mm
}

// light is a Light with its sides worked out.
type light struct {
	c, u, v, n   Vec // centre, half sides, normal
	hu, hv, area float64
	radiance     Vec
}

func newTracer(s *Scene, v View) *tracer {
	t := &tracer{s: s, view: v}
	t.objs = append(append([]Object{}, s.Subject...), s.Props...)
	t.props = len(s.Subject)
	var tris []triangle
	for i, o := range t.objs {
		sum := Vec{}
		step := max(len(o.mesh)/12, 1)
		count := 0.0
		for k, m := range o.mesh {
			if k%step == 0 {
				c := m.a.add(m.e1.add(m.e2).mul(1.0 / 3))
				sum = sum.add(o.shader.at(&point{p: c, n: m.n, d: m.n.mul(-1), foot: 20}).albedo)
				count++
			}
			f := o.frame
			tris = append(tris, triangle{f.out(m.a), f.dir(m.e1), f.dir(m.e2), f.dir(m.n), f.dir(m.na), f.dir(m.nb), f.dir(m.nc), int32(i)})
		}
		t.mean = append(t.mean, sum.mul(1/max(count, 1)))
	}
	t.tree = newBVH(tris)
	for _, l := range s.Lights {
		t.lights = append(t.lights, newLight(l))
	}
	if s.Camera.Stop > 0 {
		t.lens = s.Camera.Focal / s.Camera.Stop / 2
		at := s.Camera.Focus
		if at == (Vec{}) {
			at = s.Camera.LookAt
		}
		t.focus = at.sub(v.at).dot(v.ahead)
	}
	t.meter()
	return t
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

// rollTop is the height at which the roll of paper hangs, mm.
const rollTop = 3200

// hit returns where a ray meets the backdrop, and its normal there.
func (b Backdrop) hit(o, d Vec) (dist float64, n Vec, ok bool) {
	if d.Z < 0 {
		s := -o.Z / d.Z
		if y := o.Y + s*d.Y; s > 0 && y <= b.Bend {
			return s, Vec{0, 0, 1}, true
		}
	}
	// The curve: part of a lying cylinder.
	oy, oz := o.Y-b.Bend, o.Z-b.Radius
	k := d.Y*d.Y + d.Z*d.Z
	if k > 0 {
		h := oy*d.Y + oz*d.Z
		q := h*h - k*(oy*oy+oz*oz-b.Radius*b.Radius)
		if q >= 0 {
			s := (-h + math.Sqrt(q)) / k
			y, z := oy+s*d.Y, oz+s*d.Z
			if s > 1e-6 && y >= 0 && z <= 0 {
				return s, Vec{0, -y / b.Radius, -z / b.Radius}, true
			}
		}
	}
	if d.Y > 0 {
		s := (b.Bend + b.Radius - o.Y) / d.Y
		if z := o.Z + s*d.Z; s > 0 && z >= b.Radius && z < rollTop {
			return s, Vec{0, -1, 0}, true
		}
	}
	return 0, Vec{}, false
}

// A sample is what one ray through a pixel finds.
type sample struct {
	albedo, light Vec // diffuse colour, and irradiance over pi
	gloss         Vec // mirrored light, if nothing stands in its way
	free          float64
	extra         Vec // mirrored light of other parts of the piece
	n             Vec
	depth         float64
	unlit         bool
	object        int32 // −1 for the backdrop, −2 for nothing
}

// nothingKnown is no object's index.
const nothingKnown = -9

// sample follows the i-th ray of pixel (x, y). Where it meets the known
// object, whose light in this pixel has been found, it leaves out the light
// and the view of the mirror (unlit).
func (t *tracer) sample(x, y, i int, known int32) sample {
	seq := newSequence(x, y, i, t.s.Seed)
	a, b := seq.pair(0)
	o, d := t.view.at, t.view.ray(float64(x)+a, float64(y)+b)
	if t.lens > 0 {
		a, b = seq.pair(1)
		s, c := math.Sincos(2 * math.Pi * a)
		r := t.lens * math.Sqrt(b)
		sharp := o.add(d.mul(t.focus / d.dot(t.view.ahead)))
		o = o.add(t.view.right.mul(r * c)).add(t.view.up.mul(r * s))
		d = sharp.sub(o).unit()
	}
	dist, tri, u, v := t.tree.hit(o, d, math.Inf(1), false)
	if tri < 0 {
		return t.ground(o, d, seq, known)
	}
	m := &t.tree.tris[tri]
	n, side := m.na.mul(1-u-v).add(m.nb.mul(u)).add(m.nc.mul(v)).unit(), m.n
	if side.dot(d) > 0 {
		side, n = side.mul(-1), n.mul(-1)
	}
	if n.dot(d) > -0.02 {
		n = side
	}
	p := o.add(d.mul(dist))
	obj := &t.objs[m.object]
	f := obj.frame
	pt := point{f.in(p), f.dirIn(n), f.dirIn(d), dist / t.view.scale}
	sf := obj.shader.at(&pt)
	shine := f.dir(sf.n)
	cos := clamp(-d.dot(shine), 0.02, 1)
	// Schlick (1994), held down where the surface is rough.
	fresnel := sf.f0 + math.Max((1-sf.rough)*(1-sf.rough)-sf.f0, 0)*math.Pow(1-cos, 5)
	tint := Vec{fresnel, fresnel, fresnel}
	if sf.metal != (Vec{}) {
		k := math.Pow(1-cos, 5)
		tint = sf.metal.mix(Vec{1, 1, 1}, k*(1-sf.rough))
	}
	out := sample{albedo: sf.albedo.mul(1 - fresnel), n: n, depth: dist, object: m.object, free: 1}
	r := d.reflect(shine)
	if r.dot(side) < 0.02 {
		r = r.add(side.mul(0.04 - r.dot(side))).unit()
	}
	out.gloss = t.gloss(p, r, sf.rough).had(tint)
	if out.unlit = known == out.object; out.unlit {
		return out
	}
	// Light for the diffuse part uses a normal that the bumps tip a little.
	nd := n.mix(shine, 0.6).unit()
	out.light = t.direct(p.add(side.mul(0.02)), nd, seq).add(t.around(p.add(side.mul(0.02)), n, seq)).mul(1 / math.Pi)
	a, b = seq.pair(40)
	s, c := math.Sincos(2 * math.Pi * a)
	ru, rv := r.basis()
	wide := sf.rough * sf.rough * math.Sqrt(b)
	jit := r.add(ru.mul(wide * c)).add(rv.mul(wide * s)).unit()
	if jit.dot(side) > 0.01 {
		if far, tri, _, _ := t.tree.hit(p.add(side.mul(0.05)), jit, math.Inf(1), false); tri >= 0 {
			hm := &t.tree.tris[tri]
			e := t.open(p.add(jit.mul(far)), hm.n).mul(0.3 / math.Pi).add(Vec{t.fill, t.fill, t.fill}.mul(0.5))
			out.free, out.extra = 0, t.mean[hm.object].had(e).had(tint)
		}
	}
	return out
}

// ground is a ray that meets the backdrop.
func (t *tracer) ground(o, d Vec, seq sequence, known int32) sample {
	dist, n, ok := t.s.Backdrop.hit(o, d)
	if !ok {
		return sample{object: -2, depth: math.Inf(1), gloss: t.dome(d), free: 1, n: d.mul(-1)}
	}
	p := o.add(d.mul(dist))
	out := sample{n: n, depth: dist, object: -1, free: 1}
	mottle := 0.012*noise(p.X/210, p.Y/210, p.Z/210, 901) + 0.007*noise(p.X/31, p.Y/31, p.Z/31, 902)
	out.albedo = t.s.Backdrop.Colour.mul(1 + mottle)
	if out.unlit = known == -1; !out.unlit {
		out.light = t.direct(p, n, seq).add(t.around(p, n, seq)).mul(1 / math.Pi)
	}
	return out
}
