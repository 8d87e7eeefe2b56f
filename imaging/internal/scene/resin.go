package scene

import "math"

// A Resin is a casting in a slab: dyed, more or less clear, cured to a gloss.
type Resin struct {
	Colour Vec     // of the light that passes 25 mm of it, linear
	Milk   float64 // share of the light that a thickness of 25 mm throws back
	Body   Vec     // colour of that light
	Rough  float64 // of its polished face; about 0.1
}

// A River is where the resin lies: a band that follows a centre line given at
// equal steps along the length.
type River struct {
	Resin  Resin
	Centre []float64 // y of the middle, mm, at equal steps along the outline's length
	Width  []float64 // mm, likewise; 0 and less: no resin there
	Slope  float64   // how far each bank comes in per mm of depth (a live edge under resin)
	Wander float64   // mm, how ragged the banks are
	Seed   uint32
	grow   float64 // mm added to the width, to reach a wanted share of the face
}

// edge is how far a place lies outside the resin in mm; negative inside.
func (r *River) edge(x, y, depth, length float64) float64 {
	t := x / length * float64(len(r.Centre)-1)
	c, w := spline(r.Centre, t), spline(r.Width, t)
	off := y - c
	plain := math.Abs(off) - w/2 - r.grow + r.Slope*depth
	if math.Abs(plain) > 2.2*r.Wander {
		return plain // too far from the bank for its raggedness to matter
	}
	side := 0.0
	if off < 0 {
		side = 9.1
	}
	rag := r.Wander * (noise(x/85, side, 1.5, r.Seed) + 0.45*noise(x/27, side, 2.5, r.Seed+1) + 0.18*noise(x/9, side, depth/14, r.Seed+2))
	return plain + rag
}

// spline runs smoothly through values at 0, 1, 2 … (Catmull and Rom, 1974).
func spline(v []float64, t float64) float64 {
	n := len(v)
	if n == 1 {
		return v[0]
	}
	t = clamp(t, 0, float64(n-1))
	i := min(int(t), n-2)
	t -= float64(i)
	p1, p2 := v[i], v[i+1]
	p0, p3 := 2*p1-p2, 2*p2-p1
	if i > 0 {
		p0 = v[i-1]
	}
	if i+2 < n {
		p3 = v[i+2]
	}
	return p1 + 0.5*t*(p2-p0+t*(2*p0-5*p1+4*p2-p3+t*(3*(p1-p2)+p3-p0)))
}

// look follows a ray (unit, in the slab's coordinates, already bent at the
// face) through the resin and returns what comes back of the light that falls
// on the slab, as if it were the colour of the face.
func (s *slabShader) look(p, d Vec, foot float64) Vec {
	r, thick, length := s.river, s.thick, s.length
	const steps = 14
	step := math.Min(thick*1.3/steps/math.Max(math.Abs(d.Z), 0.25), 12)
	trav, hitWall := 0.0, false
	q := p
	for i := 0; i < 4*steps; i++ {
		q2 := q.add(d.mul(step))
		trav += step
		if q2.Z < 0 || q2.Z > thick || q2.X < 0 || q2.X > length {
			q = q2
			break
		}
		if r.edge(q2.X, q2.Y, thick-q2.Z, length) > 0 {
			lo, hi := 0.0, step // find the bank itself
			for range 5 {
				m := (lo + hi) / 2
				a := q.add(d.mul(m))
				if r.edge(a.X, a.Y, thick-a.Z, length) > 0 {
					hi = m
				} else {
					lo = m
				}
			}
			trav += hi - step
			q, hitWall = q.add(d.mul(hi)), true
			break
		}
		q = q2
	}
	const unit = 25.0
	depth := clamp(thick-q.Z, 0, thick)
	through := pow(r.Resin.Colour, (trav+1.1*depth)/unit)
	milk := 1 - math.Pow(1-clamp(r.Resin.Milk, 0, 0.98), trav/unit)
	var back Vec
	if hitWall {
		w := s.log.at(q, math.Max(foot, 0.6), 0).colour
		ridge := 1 + 0.35*noise(q.X/16, q.Y/5, q.Z/5, r.Seed+5)
		back = w.mix(s.log.Wood.Bark, 0.55).mul(0.85 * ridge)
	} else {
		back = Vec{0.16, 0.16, 0.16} // light that comes up from the floor below
		through = pow(r.Resin.Colour, trav/unit)
	}
	// Pigment settles in slow swirls.
	sx, sy := 0.8*noise(q.X/95, q.Y/95, 0.5, r.Seed+7), 0.8*noise(q.X/95, q.Y/95, 5.5, r.Seed+8)
	cloud := 1 + 0.55*noise(q.X/120+sx, q.Y/55+sy, q.Z/45, r.Seed+6) + 0.3*noise(q.X/48+2*sx, q.Y/22+2*sy, q.Z/30, r.Seed+9)
	return back.had(through).mul(1 - milk).add(r.Resin.Body.mul(milk * cloud))
}

func pow(c Vec, e float64) Vec {
	return Vec{math.Pow(c.X, e), math.Pow(c.Y, e), math.Pow(c.Z, e)}
}
