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
	layers *Layers // to be filled; nil: not asked for
	shared *plane  // the rows that the next band has in common with the last one, before the filter; nil: none
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
