package scene

import "math"

// A Slab is a top, a board or a panel of wood, with or without resin. Its own
// coordinates are those of its outline, z from the underside to the top face.
type Slab struct {
	Outline   Outline
	Thickness float64 // mm
	Log       Log
	River     *River
	Share     float64 // wanted share of the resin in the top's face; 0: as the river is drawn
	LiveNear  float64 // how far the bark side slopes, mm; 0: sawn square
	LiveFar   float64
	Widest    float64 // how far down a bark side reaches out most, a share of the thickness; 0.55 when 0, 0 when negative: undercut all the way
	Ease      float64 // rounding of sawn edges, mm; 1.5 when 0
	Plumb     bool    // the ends are sawn upright through live edges too; else a flank ends square to itself
	Rough     float64 // of the finish; 0.36 (satin) when 0
	Place     Place
}

// slabShader is the look of a slab's sawn faces.
type slabShader struct {
	log    Log
	river  *River
	length float64
	thick  float64
	rough  float64
}

// liveShader is the look of its bark side.
type liveShader struct{ slabShader }

// usual is the slab with what is not said of it.
func (s Slab) usual() Slab {
	if s.Rough == 0 {
		s.Rough = 0.36
	}
	if s.Ease == 0 {
		s.Ease = 1.5
	}
	switch {
	case s.Widest == 0:
		s.Widest = 0.55
	case s.Widest < 0:
		s.Widest = 0
	}
	return s
}

// Objects returns the slab as things to draw.
func (s Slab) Objects() []Object {
	s = s.usual()
	shader := slabShader{s.Log, nil, s.Outline.length(), s.Thickness, s.Rough}
	if s.River != nil {
		r := *s.River
		if s.Share > 0 {
			r.grow = growth(s, r)
		}
		shader.river = &r
	}
	body, near, far := s.mesh()
	f := s.Place.frame()
	objs := []Object{{mesh: body, shader: &shader, frame: f}}
	for i, side := range []mesh{near, far} {
		live := []float64{s.LiveNear, s.LiveFar}[i]
		if live > 0 {
			objs = append(objs, Object{mesh: side, shader: &liveShader{shader}, frame: f})
		} else {
			objs = append(objs, Object{mesh: side, shader: &shader, frame: f})
		}
	}
	return objs
}

// rows are the heights of the profile, as shares of the thickness from the
// top, between the two eased edges.
var rows = []float64{0, 0.05, 0.14, 0.26, 0.4, 0.55, 0.7, 0.85, 0.95, 1}

// Seen returns the slab's outline as it is seen straight from above from far away: at
// each station the edge of the row that reaches out most. Outline is what it would be
// without what varies along a live edge.
func (s Slab) Seen() Outline {
	var o Outline
	for k, r := range s.usual().edges() {
		for i := range r.near {
			if k == 0 {
				o.Near, o.Far = append(o.Near, r.near[i]), append(o.Far, r.far[i])
				continue
			}
			if r.near[i][1] < o.Near[i][1] {
				o.Near[i] = r.near[i]
			}
			if r.far[i][1] > o.Far[i][1] {
				o.Far[i] = r.far[i]
			}
		}
	}
	return o
}

// A row is the two edges of a slab at one height.
type row struct {
	z         float64
	near, far [][2]float64
}

// edges are the rows of the slab from its top down.
func (s Slab) edges() []row {
	var rs []row
	for k, t := range rows {
		ease, z := 0.0, s.Thickness*(1-t)
		switch k {
		case 0, len(rows) - 1:
			ease = s.Ease
		case 1:
			z = s.Thickness - s.Ease
		case len(rows) - 2:
			z = s.Ease
		}
		in := func(live float64, edge [][2]float64, seed uint32) func(int) float64 {
			return func(i int) float64 {
				if live == 0 {
					return ease
				}
				x := edge[i][0]
				bevel := live * (1 + 0.55*noise1(x/170, seed))
				switch {
				case t < s.Widest:
					bevel *= math.Pow(1-t/s.Widest, 1.5)
				case s.Widest < 1:
					bevel *= 0.4 * math.Pow((t-s.Widest)/(1-s.Widest), 2)
				default:
					bevel = 0
				}
				return math.Max(bevel, 0) + ease*0.8 + 0.05*live*noise(x/23, t*4, 0.5, seed+1)*smooth(0, 0.2, t)
			}
		}
		r := row{z,
			offset(s.Outline.Near, 1, ease, in(s.LiveNear, s.Outline.Near, s.Log.Seed+60)),
			offset(s.Outline.Far, -1, ease, in(s.LiveFar, s.Outline.Far, s.Log.Seed+70))}
		if s.Plumb {
			lo, hi := s.Outline.Bounds()
			sawnOff(r.near, lo[0]+ease, hi[0]-ease)
			sawnOff(r.far, lo[0]+ease, hi[0]-ease)
		}
		rs = append(rs, r)
	}
	return rs
}

// sawnOff ends an edge at x0 and x1: what reaches past is taken back along it, an end that
// does not reach so far is carried on straight.
func sawnOff(edge [][2]float64, x0, x1 float64) {
	n := len(edge)
	for i, p := range edge {
		if p[0] < x0 || i == 0 {
			edge[i] = [2]float64{x0, heightAt(edge, x0)}
		}
		if p[0] > x1 || i == n-1 {
			edge[i] = [2]float64{x1, heightAt(edge, x1)}
		}
	}
}

// heightAt is y of an edge at x, carried on straight past its ends.
func heightAt(edge [][2]float64, x float64) float64 {
	i, n := 1, len(edge)
	for i < n-1 && edge[i][0] <= x {
		i++
	}
	for i < n-1 && edge[i][0]-edge[i-1][0] < 1e-6 {
		i++
	}
	p, q := edge[i-1], edge[i]
	if q[0]-p[0] < 1e-6 {
		return p[1]
	}
	return p[1] + (q[1]-p[1])*(x-p[0])/(q[0]-p[0])
}

// mesh builds the body (faces and ends) and the two long sides.
func (s Slab) mesh() (body, near, far mesh) {
	n, rs := len(s.Outline.Near), s.edges()
	at := func(e [][2]float64, i int, z float64) Vec { return Vec{e[i][0], e[i][1], z} }
	top, bottom := rs[0], rs[len(rs)-1]
	for i := 0; i < n-1; i++ {
		body.quad(at(top.near, i, top.z), at(top.near, i+1, top.z), at(top.far, i+1, top.z), at(top.far, i, top.z))
		body.quad(at(bottom.far, i, bottom.z), at(bottom.far, i+1, bottom.z), at(bottom.near, i+1, bottom.z), at(bottom.near, i, bottom.z))
	}
	nearGrid, farGrid := make([][]Vec, len(rs)), make([][]Vec, len(rs))
	for k, r := range rs {
		for i := range n {
			nearGrid[k] = append(nearGrid[k], at(r.near, i, r.z))
			farGrid[k] = append(farGrid[k], at(r.far, n-1-i, r.z))
		}
		if k == 0 {
			continue
		}
		up := rs[k-1]
		body.quad(at(r.far, 0, r.z), at(r.near, 0, r.z), at(up.near, 0, up.z), at(up.far, 0, up.z))
		body.quad(at(r.near, n-1, r.z), at(r.far, n-1, r.z), at(up.far, n-1, up.z), at(up.near, n-1, up.z))
	}
	near.grid(nearGrid)
	far.grid(farGrid)
	return body, near, far
}

// growth finds what has to be added to the river's half width so that the
// mean of the shares on both faces is as wanted.
func growth(s Slab, r River) float64 {
	lo, hi := -400.0, 400.0
	for range 24 {
		r.grow = (lo + hi) / 2
		if resinShare(s.Outline, &r, s.Thickness) < s.Share {
			lo = r.grow
		} else {
			hi = r.grow
		}
	}
	return (lo + hi) / 2
}

// resinShare counts the resin on both faces, on a grid of 240 columns.
func resinShare(o Outline, r *River, thick float64) float64 {
	in, all := 0.0, 0.0
	lo, _ := o.Bounds()
	length := o.length()
	const columns, lines = 240, 120
	for i := range columns {
		x := lo[0] + (float64(i)+0.5)/columns*length
		a, b := edgeAt(o.Near, x), edgeAt(o.Far, x)
		all += 2 * (b - a)
		for j := range lines {
			y := a + (float64(j)+0.5)/lines*(b-a)
			for _, depth := range []float64{0, thick} {
				if r.edge(x, y, depth, length) < 0 {
					in += (b - a) / lines
				}
			}
		}
	}
	return in / all
}

// edgeAt returns y on an edge at x.
func edgeAt(e [][2]float64, x float64) float64 {
	for i := 1; i < len(e); i++ {
		if x <= e[i][0] || i == len(e)-1 {
			p, q := e[i-1], e[i]
			return p[1] + (q[1]-p[1])*clamp((x-p[0])/math.Max(q[0]-p[0], 1e-9), 0, 1)
		}
	}
	return e[0][1]
}

func (s *slabShader) at(pt *point) surface {
	if s.river != nil && s.river.edge(pt.p.X, pt.p.Y, s.thick-pt.p.Z, s.length) < 0 {
		d := pt.d.refract(pt.n, 1/resinIndex)
		return surface{albedo: s.look(pt.p, d, pt.foot), rough: s.river.Resin.Rough, f0: resinF0, n: pt.n}
	}
	along := Vec{1, 0, 0}
	if s.log.Swap {
		along = Vec{0, 1, 0}
	}
	if s.log.Up {
		along = Vec{0, 0, 1}
	}
	end := smooth(0.6, 0.95, math.Abs(pt.n.dot(along)))
	h := s.log.at(pt.p, pt.foot, end)
	// The gloss breaks over the fibres: tip the normal across the grain.
	n := pt.n.add(Vec{0, 0.05 * h.tilt, 0}).unit()
	return surface{albedo: h.colour, rough: s.rough + 0.25*h.pore + 0.25*end, f0: 0.04 * (1 - 0.7*h.pore), n: n}
}

// The refractive index of cured epoxy is 1.50 to 1.57 (general technical
// data, from memory); f0 is what it mirrors straight on.
const (
	resinIndex = 1.53
	resinF0    = (resinIndex - 1) * (resinIndex - 1) / ((resinIndex + 1) * (resinIndex + 1))
)

func (s *liveShader) at(pt *point) surface {
	p, seed := pt.p, s.log.Seed
	h := s.log.at(p, pt.foot, 0)
	ridge := noise(p.X/75, p.Y/6, p.Z/6, seed+80) + 0.5*noise(p.X/28, p.Y/3.5, p.Z/3.5, seed+83)
	fine := noise(p.X/16, p.Y/1.6, p.Z/1.6, seed+81) * clamp(1.6/pt.foot-0.3, 0, 1)
	deep := smooth(0.05, 0.5, 1-p.Z/s.thick)
	c := h.colour.mix(s.log.Wood.Bark, 0.25+0.5*deep+0.2*ridge)
	c = c.mul(1 + 0.28*ridge + 0.18*fine)
	patch := smooth(0.1, 0.5, noise(p.X/120, p.Y/14, p.Z/14, seed+82)) // bark that would not come off
	c = c.mix(s.log.Wood.Bark.mul(0.55), 0.45*patch)
	n := pt.n.add(Vec{0.16 * fine, 0.1 * ridge, 0.34*ridge + 0.2*fine}).unit()
	return surface{albedo: c, rough: s.rough + 0.12, f0: 0.035, n: n}
}
