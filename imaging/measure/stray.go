package measure

import "math"

// Limits of a sheet that hangs over the edge of the top.
const (
	overEdge = 0.10 // of the sheet's outline that the outline of the top follows
	overNear = 0.02 // of the sheet's shorter side: how near that is
)

// hangsOver reports whether the outline of the top follows that of the sheet for a
// while: there the sheet reaches past the top, or lies flush with its edge, and the edge
// is not seen.
func (j *job) hangsOver(ring []Point) bool {
	q := j.r.Sheet.Corners
	near := math.Inf(1)
	for i := range q {
		near = math.Min(near, overNear*math.Hypot(q[i].X-q[(i+1)%4].X, q[i].Y-q[(i+1)%4].Y))
	}
	near = math.Max(near, 1.5*j.copy.scale)
	with := 0.0
	for i, p := range ring {
		if next := ring[(i+1)%len(ring)]; nearRing(q[:], p) < near && nearRing(q[:], next) < near {
			with += math.Hypot(next.X-p.X, next.Y-p.Y)
		}
	}
	return with > overEdge*perimeter(q[:])
}

// nearRing is the distance of a place from the nearest side of a ring.
func nearRing(ring []Point, p Point) float64 {
	best := math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		l2 := math.Max((b.X-a.X)*(b.X-a.X)+(b.Y-a.Y)*(b.Y-a.Y), 1e-12)
		t := clamp(((p.X-a.X)*(b.X-a.X)+(p.Y-a.Y)*(b.Y-a.Y))/l2, 0, 1)
		best = math.Min(best, math.Hypot(p.X-a.X-t*(b.X-a.X), p.Y-a.Y-t*(b.Y-a.Y)))
	}
	return best
}
