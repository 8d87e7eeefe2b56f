package pixel

import "math"

// SignedArea is the area within a ring of places by the shoelace formula: positive
// where the ring runs clockwise as seen, y pointing down.
func SignedArea(ring []Point) float64 {
	s := 0.0
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		s += a.X*b.Y - b.X*a.Y
	}
	return s / 2
}

// Area is the area within a ring of places, whichever way it runs.
func Area(ring []Point) float64 { return math.Abs(SignedArea(ring)) }

// Inside reports whether p lies in the ring, by the crossings of a ray.
func Inside(ring []Point, p Point) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
