package geometry

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"slabfolio/listing/figure"
	"slabfolio/listing/units"
)

// A CrossingError says that a traced outline crosses or touches itself. Edges
// are named by the points that they join, counted from 1 as the maker wrote
// them; an edge runs from its point to the next, the last back to the first.
type CrossingError struct {
	Edge, Other   int     // 1-based numbers of the points where the two edges start
	EdgeTo, OthTo int     // 1-based numbers of the points where they end
	X, Y          float64 // where they meet, mm, in the maker's coordinates
	Back          bool    // the outline runs back along itself rather than across
}

// Error names both edges and the place, in millimetres first.
func (e *CrossingError) Error() string { return e.Says(units.Millimetres) }

// Says is Error with the place in the given system first.
func (e *CrossingError) Says(first units.System) string {
	deed := "crosses itself"
	if e.Back {
		deed = "runs back along itself"
	}
	mm := fmt.Sprintf("(%.1f, %.1f) mm", e.X, e.Y)
	in := fmt.Sprintf("(%.2f, %.2f) in", e.X/units.MillimetresPerInch, e.Y/units.MillimetresPerInch)
	if !first.Metric() {
		mm, in = in, mm
	}
	return fmt.Sprintf("the traced outline %s: the edge from point %d to point %d meets the edge from point %d to point %d at %s, that is %s",
		deed, e.Edge, e.EdgeTo, e.Other, e.OthTo, mm, in)
}

// Traced returns the outline through the given points in mm, in either sense
// of turning, from any origin. Points that repeat the one before them and
// points on a straight line between their neighbours are dropped. It returns a
// *CrossingError where the outline meets itself. The doubt of every point is
// that of a tape reading.
func Traced(points [][2]float64) (*Outline, error) {
	all := make([]float64, 0, 2*len(points))
	for _, q := range points {
		all = append(all, q[0], q[1])
	}
	return TracedWithin(points, tapeUncertaintyOf(all))
}

// TracedWithin is Traced for points that are each known to within doubt mm
// (90 % range) along x and along y, independently of one another.
func TracedWithin(points [][2]float64, doubt float64) (*Outline, error) {
	if len(points) > maxPoints {
		return nil, fmt.Errorf("the traced outline has %d points; %d are enough for any top", len(points), maxPoints)
	}
	for i, q := range points {
		for _, v := range q {
			if math.IsNaN(v) || math.Abs(v) > maxSize {
				return nil, fmt.Errorf("point %d of the traced outline is not a place on a top", i+1)
			}
		}
	}
	p, number := distinct(points)
	if len(p) < 3 {
		return nil, fmt.Errorf("the traced outline has %d different points; it needs at least three", len(p))
	}
	if err := crossing(p, number); err != nil {
		return nil, err
	}
	p = corners(p)
	lo, hi := box(p)
	if err := cmp.Or(checkSize("length", hi[0]-lo[0]), checkSize("width", hi[1]-lo[1])); err != nil {
		return nil, err
	}
	if SignedArea(p) < 0 {
		slices.Reverse(p)
	}
	p = toOrigin(p)
	o := &Outline{
		kind:      KindTraced,
		polygon:   p,
		length:    figure.PlusMinus(hi[0]-lo[0], doubt*math.Sqrt2, "outline length"),
		width:     figure.PlusMinus(hi[1]-lo[1], doubt*math.Sqrt2, "outline width"),
		area:      tracedArea(p, doubt),
		perimeter: perimeter(p),
		rule:      "shoelace rule over the traced points",
	}
	return o, nil
}

// tracedArea returns the area with the doubt that independent errors of the
// corners give it: each moves the area by half the distance between its
// neighbours.
func tracedArea(p [][2]float64, doubt float64) figure.Uncertain {
	sum := 0.0
	n := len(p)
	for i := range p {
		a, b := p[(i+n-1)%n], p[(i+1)%n]
		sum = math.Hypot(sum, math.Hypot(b[0]-a[0], b[1]-a[1])/2*doubt)
	}
	return figure.PlusMinus(SignedArea(p), sum, "outline points")
}

// distinct drops points that repeat the one before them (or, at the end, the
// first), and returns with each point its number as the maker wrote it.
func distinct(points [][2]float64) (p [][2]float64, number []int) {
	const same = 1e-6 // mm
	for i, q := range points {
		if n := len(p); n > 0 && math.Hypot(q[0]-p[n-1][0], q[1]-p[n-1][1]) <= same {
			continue
		}
		p, number = append(p, q), append(number, i+1)
	}
	for n := len(p); n > 1 && math.Hypot(p[0][0]-p[n-1][0], p[0][1]-p[n-1][1]) <= same; n = len(p) {
		p, number = p[:n-1], number[:n-1]
	}
	return p, number
}

// corners drops the points that lie on the straight line between their
// neighbours, to a millionth of a millimetre.
func corners(p [][2]float64) [][2]float64 {
	out := make([][2]float64, 0, len(p))
	for i, q := range p {
		a := p[(i+len(p)-1)%len(p)]
		if len(out) > 0 {
			a = out[len(out)-1]
		}
		b := p[(i+1)%len(p)]
		if math.Abs(turn(a, q, b)) > 1e-6*math.Hypot(b[0]-a[0], b[1]-a[1]) {
			out = append(out, q)
		}
	}
	if len(out) < 3 {
		return append([][2]float64(nil), p...)
	}
	return out
}

// crossing returns a *CrossingError for the first two edges that meet other
// than at the point that neighbours share.
func crossing(p [][2]float64, number []int) error {
	n := len(p)
	at := func(i, j int, x [2]float64, back bool) error {
		return &CrossingError{number[i], number[j], number[(i+1)%n], number[(j+1)%n], x[0], x[1], back}
	}
	for i := range p {
		a, b, c := p[i], p[(i+1)%n], p[(i+2)%n]
		dot := (b[0]-a[0])*(c[0]-b[0]) + (b[1]-a[1])*(c[1]-b[1])
		if math.Abs(turn(a, b, c)) <= 1e-9*math.Abs(dot) && dot < 0 {
			return at(i, (i+1)%n, b, true)
		}
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue // neighbours round the corner
			}
			if x, meets := meet(a, b, p[j], p[(j+1)%n]); meets {
				return at(i, j, x, false)
			}
		}
	}
	return nil
}

// meet returns a point that two edges share, if there is one; ends count.
func meet(a, b, c, d [2]float64) ([2]float64, bool) {
	if math.Max(a[0], b[0]) < math.Min(c[0], d[0]) || math.Max(c[0], d[0]) < math.Min(a[0], b[0]) ||
		math.Max(a[1], b[1]) < math.Min(c[1], d[1]) || math.Max(c[1], d[1]) < math.Min(a[1], b[1]) {
		return [2]float64{}, false
	}
	t1, t2, t3, t4 := turn(a, b, c), turn(a, b, d), turn(c, d, a), turn(c, d, b)
	if (t1 > 0) != (t2 > 0) && t1 != 0 && t2 != 0 && (t3 > 0) != (t4 > 0) && t3 != 0 && t4 != 0 {
		t := t3 / (t3 - t4)
		return [2]float64{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}, true
	}
	for _, q := range [][2]float64{c, d} {
		if onEdge(a, b, q[0], q[1]) {
			return q, true
		}
	}
	for _, q := range [][2]float64{a, b} {
		if onEdge(c, d, q[0], q[1]) {
			return q, true
		}
	}
	return [2]float64{}, false
}
