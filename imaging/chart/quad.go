package chart

import (
	"math"
	"slices"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
)

// quadRound is the quadrangle round a convex ring: side by side is dropped and its
// neighbours drawn out until they meet, the one first that adds least area.
func quadRound(ring []pixel.Point) (q [4]pixel.Point, ok bool) {
	ring = slices.Clone(ring)
	for len(ring) > 4 {
		best, at, n := math.Inf(1), -1, len(ring)
		var tip pixel.Point
		for i := range ring {
			a, b, c, d := ring[(i+n-1)%n], ring[i], ring[(i+1)%n], ring[(i+2)%n]
			p, met := outwards(a, b, d, c)
			if !met {
				continue
			}
			if more := pixel.Area([]pixel.Point{b, p, c}); more < best {
				best, at, tip = more, i, p
			}
		}
		if at < 0 {
			return q, false
		}
		ring[at] = tip
		ring = slices.Delete(ring, (at+1)%n, (at+1)%n+1)
	}
	if len(ring) < 4 {
		return q, false
	}
	return [4]pixel.Point(ring), true
}

// outwards is where the way from a over b meets that from d over c.
func outwards(a, b, d, c pixel.Point) (pixel.Point, bool) {
	ux, uy, vx, vy := b.X-a.X, b.Y-a.Y, c.X-d.X, c.Y-d.Y
	det := ux*vy - uy*vx
	if math.Abs(det) < 1e-9 {
		return pixel.Point{}, false
	}
	t := ((c.X-b.X)*vy - (c.Y-b.Y)*vx) / det
	s := ((c.X-b.X)*uy - (c.Y-b.Y)*ux) / det
	if t < 0 || s < 0 {
		return pixel.Point{}, false
	}
	return pixel.Point{X: b.X + t*ux, Y: b.Y + t*uy}, true
}

// likeARectangle reports whether a quadrangle can be one that is seen askew:
// opposite sides nearly alike, no corner too sharp, not too narrow.
func likeARectangle(q [4]pixel.Point) bool {
	var l [4]float64
	for i := range q {
		l[i] = apart(q[i], q[(i+1)%4])
	}
	for i := range q {
		a, b, c := q[(i+3)%4], q[i], q[(i+1)%4]
		sin := math.Abs((a.X-b.X)*(c.Y-b.Y)-(a.Y-b.Y)*(c.X-b.X)) / math.Max(l[(i+3)%4]*l[i], 1e-9)
		if sin < 0.5 || l[i] < cardSide || l[i] < 0.74*l[(i+2)%4] {
			return false
		}
	}
	x, y := l[0]+l[2], l[1]+l[3]
	return math.Max(x, y) < 5*math.Min(x, y)
}

// at is the place of a quadrangle at shares u and v of its sides.
func at(q [4]pixel.Point, u, v float64) pixel.Point {
	mix := func(a, b, c, d float64) float64 { return (a*(1-u)+b*u)*(1-v) + (d*(1-u)+c*u)*v }
	return pixel.Point{X: mix(q[0].X, q[1].X, q[2].X, q[3].X), Y: mix(q[0].Y, q[1].Y, q[2].Y, q[3].Y)}
}

// sides looks at the sides of a quadrangle: seen is the share of the side that
// stands out least from what lies beside it, bent how far the edge of the one that is
// bent most stands off a straight line, pixels, rms.
func sides(m *pixel.Image, q [4]pixel.Point, mean [3]float64) (seen, bent float64) {
	var own [3]float64
	for c := range own {
		own[c] = 255 * colour.Encode(mean[c])
	}
	mid := at(q, 0.5, 0.5)
	seen = 1
	for s := range q {
		a, b := q[s], q[(s+1)%4]
		l := apart(a, b)
		nx, ny := (b.Y-a.Y)/l, -(b.X-a.X)/l
		if (mid.X-a.X)*nx+(mid.Y-a.Y)*ny > 0 {
			nx, ny = -nx, -ny // outwards
		}
		const steps = 32
		var ts, ds []float64
		for k := range steps {
			t := 0.06 + 0.88*(float64(k)+0.5)/steps
			if d, ok := stepAt(m, a.X+t*(b.X-a.X), a.Y+t*(b.Y-a.Y), nx, ny, own); ok {
				ts, ds = append(ts, t), append(ds, d)
			}
		}
		seen, bent = math.Min(seen, float64(len(ts))/steps), math.Max(bent, offLine(ts, ds))
	}
	return seen, bent
}

// stepAt is how far out along a direction the colour has left the card's by half of
// what it is beside it.
func stepAt(m *pixel.Image, x, y, nx, ny float64, own [3]float64) (float64, bool) {
	const from, to, step = -3.0, 4.5, 0.5
	var off [int((to-from)/step) + 1]float64
	for i := range off {
		d := from + step*float64(i)
		px, py := x+d*nx-0.5, y+d*ny-0.5
		if px < 0 || py < 0 || px >= float64(m.W-1) || py >= float64(m.H-1) {
			return 0, false
		}
		j, k := int(px), int(py)
		fx, fy := px-float64(j), py-float64(k)
		for c := range own {
			o := 3*(k*m.W+j) + c
			up := float64(m.Pix[o])*(1-fx) + float64(m.Pix[o+3])*fx
			down := float64(m.Pix[o+3*m.W])*(1-fx) + float64(m.Pix[o+3*m.W+3])*fx
			off[i] = math.Max(off[i], math.Abs(255*colour.Encode((up*(1-fy)+down*fy)/65535)-own[c]))
		}
	}
	last := off[len(off)-1]
	if last < cardApart {
		return 0, false
	}
	for i := 1; i < len(off); i++ {
		if off[i] >= last/2 && off[i-1] < last/2 {
			return from + step*(float64(i)-(off[i]-last/2)/math.Max(off[i]-off[i-1], 1e-9)), true
		}
	}
	return 0, false
}

// offLine is how far values stand off a straight line through them, rms, without the
// eighth that do so most.
func offLine(ts, ds []float64) float64 {
	if len(ts) < 8 {
		return math.Inf(1)
	}
	var s, sx, sy, sxx, sxy float64
	for i, t := range ts {
		s, sx, sy, sxx, sxy = s+1, sx+t, sy+ds[i], sxx+t*t, sxy+t*ds[i]
	}
	slope := (s*sxy - sx*sy) / math.Max(s*sxx-sx*sx, 1e-9)
	rest := make([]float64, len(ts))
	for i, t := range ts {
		d := ds[i] - sy/s - slope*(t-sx/s)
		rest[i] = d * d
	}
	slices.Sort(rest)
	rest = rest[:len(rest)-len(rest)/8]
	sum := 0.0
	for _, v := range rest {
		sum += v
	}
	return math.Sqrt(sum / float64(len(rest)))
}
