package measure

import (
	"math"
	"slices"

	"slabfolio/imaging/pixel"
)

// A shape is an outline laid along x, anticlockwise, box from (0, 0).
type shape struct {
	ring                []Point
	length, width, area float64
	turn                float64 // radians by which it was turned back
	lo                  Point   // the lower left corner of the box, after the turn
}

// toRing takes a place to where it is in the shape's ring.
func (s shape) toRing(p Point) Point {
	sin, cos := math.Sincos(s.turn)
	return Point{X: p.X*cos + p.Y*sin - s.lo.X, Y: -p.X*sin + p.Y*cos - s.lo.Y}
}

// shapeOf lays a ring along x by its smallest box and measures it. A round one has no
// longer side: it lies as it is seen, level being the direction of the photo's rows.
func shapeOf(ring []Point, level float64) shape {
	if roundish(ring) {
		return shapeAt(ring, level)
	}
	return shapeAt(ring, steadied(ring, smallestBox(pixel.Hull(ring))))
}

// roundish reports whether a ring is as wide whichever way it is measured.
func roundish(ring []Point) bool {
	const ways = 12
	h := pixel.Hull(ring)
	least, most := math.Inf(1), 0.0
	for k := range ways {
		l, _ := extents(h, math.Pi*float64(k)/ways)
		least, most = math.Min(least, l), math.Max(most, l)
	}
	return most-least < mostOval*most
}

// A ring that was seen has a spike or a blunt corner here and there, and the smallest
// box leans on those: by half a degree a metre grows by 4 mm. What most of the ring
// says is asked instead.
const (
	steadyReach  = 1.5  // degrees about the smallest box
	steadyStep   = 0.05 // degrees
	steadyShare  = 0.03 // of the ring that its outermost places are the mean of, at each side
	steadyPoints = 600
)

// steadied is the direction near phi whose box is smallest, the sides of which lie not
// at the outermost points of a ring but at the mean of the outermost of them.
func steadied(ring []Point, phi float64) float64 {
	p := spaced(ring, steadyPoints)
	few := max(int(steadyShare*float64(len(p))), 1)
	along := func(dx, dy float64) float64 {
		v := make([]float64, len(p))
		for i, q := range p {
			v[i] = q.X*dx + q.Y*dy
		}
		slices.Sort(v)
		sum := 0.0
		for i := range few {
			sum += v[len(v)-1-i] - v[i]
		}
		return sum / float64(few)
	}
	best, at := math.Inf(1), phi
	for k := -steadyReach / steadyStep; k <= steadyReach/steadyStep; k++ {
		turn := phi + k*steadyStep*math.Pi/180
		sin, cos := math.Sincos(turn)
		if a := along(cos, sin) * along(-sin, cos); a < best {
			best, at = a, turn
		}
	}
	return at
}

// spaced is n places of a ring, at even steps along it.
func spaced(ring []Point, n int) []Point {
	at := make([]float64, len(ring)+1)
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		at[i+1] = at[i] + math.Hypot(q.X-p.X, q.Y-p.Y)
	}
	out, i := make([]Point, n), 0
	for k := range out {
		s := at[len(ring)] * float64(k) / float64(n)
		for i < len(ring)-1 && at[i+1] <= s {
			i++
		}
		t, q := (s-at[i])/math.Max(at[i+1]-at[i], 1e-12), ring[(i+1)%len(ring)]
		out[k] = Point{X: ring[i].X + t*(q.X-ring[i].X), Y: ring[i].Y + t*(q.Y-ring[i].Y)}
	}
	return out
}

// shapeAt turns a ring by −phi and measures it.
func shapeAt(ring []Point, phi float64) shape {
	s := shape{turn: phi, area: pixel.Area(ring)}
	sin, cos := math.Sincos(phi)
	lo, hi := Point{X: math.Inf(1), Y: math.Inf(1)}, Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, p := range ring {
		q := Point{X: p.X*cos + p.Y*sin, Y: -p.X*sin + p.Y*cos}
		lo = Point{X: math.Min(lo.X, q.X), Y: math.Min(lo.Y, q.Y)}
		hi = Point{X: math.Max(hi.X, q.X), Y: math.Max(hi.Y, q.Y)}
		s.ring = append(s.ring, q)
	}
	for i := range s.ring {
		s.ring[i].X, s.ring[i].Y = s.ring[i].X-lo.X, s.ring[i].Y-lo.Y
	}
	if pixel.SignedArea(s.ring) < 0 {
		slices.Reverse(s.ring)
	}
	s.length, s.width, s.lo = hi.X-lo.X, hi.Y-lo.Y, lo
	return s
}

// smallestBox is the direction, from −90° to 90°, of the longer side of the box
// of least area round a hull; one side of that box lies on a side of the hull
// (Freeman and Shapira, CACM 18(7), 1975).
func smallestBox(h []Point) float64 {
	best, turn := math.Inf(1), 0.0
	for i, a := range h {
		b := h[(i+1)%len(h)]
		if math.Hypot(b.X-a.X, b.Y-a.Y) < 1e-9 {
			continue
		}
		phi := math.Atan2(b.Y-a.Y, b.X-a.X)
		l, w := extents(h, phi)
		if v := l * w; v < best*(1-1e-9) {
			best, turn = v, phi
			if w > l {
				turn += math.Pi / 2
			}
		}
	}
	for turn > math.Pi/2 {
		turn -= math.Pi
	}
	for turn <= -math.Pi/2 {
		turn += math.Pi
	}
	return turn
}

// extents are the sides of the box round points, one side along phi.
func extents(p []Point, phi float64) (l, w float64) {
	sin, cos := math.Sincos(phi)
	x0, x1, y0, y1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, q := range p {
		x, y := q.X*cos+q.Y*sin, -q.X*sin+q.Y*cos
		x0, x1, y0, y1 = math.Min(x0, x), math.Max(x1, x), math.Min(y0, y), math.Max(y1, y)
	}
	return x1 - x0, y1 - y0
}
