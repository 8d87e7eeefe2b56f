package assembly

import "math"

// A Stand is how the piece stands: where its weight sits and what tips it.
// It is for the maker alone: in print a tipping load would read as a rating.
type Stand struct {
	CentreOfMass Point   // in the outline's own coordinates, mm
	CentreHeight float64 // above the floor, mm
	Kg           float64 // of everything counted
	TipLoadKg    float64 // least load, put straight down on the worst spot, that tips the empty piece; 0 when it does not stand by itself
	Edge         string  // end, side or corner: where that spot is
	Cases        map[string]float64
	Tips         bool // false when no load on the top tips it: the top nowhere reaches beyond the feet

	PushN      float64 // least level force at PushHeight that tips the empty piece, over whichever side of the feet
	PushHeight float64 // mm: its upper edge, or as high as published tests push
}

// TallAndNarrow reports whether a piece is so tall for its depth that a push at
// its upper edge is what tips it; slender is the narrower side of its feet, mm.
func (t Tables) TallAndNarrow(heightMM, slenderMM float64) bool {
	return heightMM >= t.Rules["tall"].Value && slenderMM > 0 && heightMM >= t.Rules["narrow"].Value*slenderMM
}

// pushForce fills in what level force at the upper edge tips the piece: F*h = W*b.
func (t Tables) pushForce(s *Stand, in Input, feet []Point) {
	s.PushHeight = math.Min(in.BaseHeight+in.Thickness, t.Rules["push_height"].Value)
	b := math.Inf(1)
	for i := range feet {
		_, inside := tippingLine(feet, i, s.CentreOfMass)
		b = math.Min(b, inside)
	}
	s.PushN = s.Kg * t.Rules["gravity"].Value * math.Max(0, b) / s.PushHeight
}

// feetOf returns where the feet stand, counter-clockwise: at the corners of the
// footprint, centred under mid; or three, two at one side of it and one at the
// middle of the other, their own middle under mid.
func feetOf(in Input, mid Point) []Point {
	l, w := in.FootLength/2, in.FootWidth/2
	if in.ThreeFeet {
		return []Point{{mid.X - l, mid.Y - 2*w/3}, {mid.X + l, mid.Y - 2*w/3}, {mid.X, mid.Y + 4*w/3}}
	}
	return []Point{{mid.X - l, mid.Y - w}, {mid.X + l, mid.Y - w}, {mid.X + l, mid.Y + w}, {mid.X - l, mid.Y + w}}
}

// Stability returns how the piece stands, or why that cannot be known. The feet
// stand as feetOf says, centred under the bounding box of the outline; the piece
// is rigid and the floor level.
//
// A load F at the distance a beyond the tipping line lifts the piece when
// F*a = W*b, where b is the distance of the centre of mass inside the line.
func (t Tables) Stability(in Input) (*Stand, string) {
	switch {
	case !in.HasBase:
		return nil, "no base is described"
	case in.FootLength <= 0 || in.FootWidth <= 0:
		return nil, "base.footprint is not given, so where the feet stand is not known"
	case in.BaseHeight <= 0:
		return nil, "base.height is not given"
	case in.TopKg <= 0 || in.BaseKg <= 0:
		return nil, "the weight of the top or of the base is not known"
	}
	lo, hi := bounds(in.Outline)
	mid := Point{(lo.X + hi.X) / 2, (lo.Y + hi.Y) / 2}
	feet := feetOf(in, mid)
	com, z, kg := centreOfMass(in, mid)
	s := &Stand{CentreOfMass: com, CentreHeight: z, Kg: kg, Cases: map[string]float64{}, TipLoadKg: math.Inf(1)}
	for _, q := range in.Outline {
		load, line, ok := tipLoad(feet, com, kg, q)
		if !ok {
			continue
		}
		where := nameOfSpot(q, line, lo, hi)
		if old, seen := s.Cases[where]; !seen || load < old {
			s.Cases[where] = load
		}
		if load < s.TipLoadKg {
			s.TipLoadKg, s.Edge = load, where
		}
		s.Tips = true
	}
	t.pushForce(s, in, feet)
	loadEdges(s, feet, com, kg, lo, hi, in.Outline)
	t.drawerCases(s, in, mid)
	if !s.Tips {
		s.TipLoadKg = 0
		if len(s.Cases) == 0 {
			return s, "the top nowhere reaches beyond the feet, so no load put down on it tips the piece"
		}
	}
	return s, ""
}

// loadEdges loads the middle of each end and side: the spot of the outline that
// reaches furthest, taken at the middle of the piece where somebody would lean.
func loadEdges(s *Stand, feet []Point, com Point, kg float64, lo, hi Point, outline []Point) {
	mid := Point{(lo.X + hi.X) / 2, (lo.Y + hi.Y) / 2}
	for _, e := range []struct {
		name string
		p    Point
	}{{"end", Point{lo.X, mid.Y}}, {"end", Point{hi.X, mid.Y}}, {"side", Point{mid.X, lo.Y}}, {"side", Point{mid.X, hi.Y}}} {
		p := toOutline(mid, e.p, outline)
		load, _, ok := tipLoad(feet, com, kg, p)
		if !ok {
			continue
		}
		if old, seen := s.Cases[e.name]; !seen || load < old {
			s.Cases[e.name] = load
		}
		// On a rectangle of feet a corner tips no sooner than its edge; the edge names it then.
		if load <= s.TipLoadKg+1e-9 {
			s.TipLoadKg, s.Edge = load, e.name
		}
		s.Tips = true
	}
}

// toOutline returns where the ray from the inside through p leaves the outline
// for the last time.
func toOutline(from, p Point, outline []Point) Point {
	best, out := -1.0, p
	dx, dy := p.X-from.X, p.Y-from.Y
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		ex, ey := b.X-a.X, b.Y-a.Y
		den := dx*ey - dy*ex
		if den == 0 {
			continue
		}
		u := ((a.X-from.X)*ey - (a.Y-from.Y)*ex) / den
		v := ((a.X-from.X)*dy - (a.Y-from.Y)*dx) / den
		if u > best && v >= -1e-9 && v <= 1+1e-9 {
			best, out = u, Point{from.X + u*dx, from.Y + u*dy}
		}
	}
	return out
}

// nameOfSpot names the spot: a corner lies in the outer tenth of both directions.
func nameOfSpot(q, normal, lo, hi Point) string {
	nearX := math.Min(q.X-lo.X, hi.X-q.X) < (hi.X-lo.X)/10
	nearY := math.Min(q.Y-lo.Y, hi.Y-q.Y) < (hi.Y-lo.Y)/10
	switch {
	case nearX && nearY:
		return "corner"
	case math.Abs(normal.X) > math.Abs(normal.Y):
		return "end"
	}
	return "side"
}

func centreOfMass(in Input, mid Point) (Point, float64, float64) {
	c, _ := centroid(in.Outline)
	kg := in.TopKg + in.BaseKg
	x, y := in.TopKg*c.X+in.BaseKg*mid.X, in.TopKg*c.Y+in.BaseKg*mid.Y
	z := in.TopKg*(in.BaseHeight+in.Thickness/2) + in.BaseKg*in.BaseHeight/2
	for _, p := range in.Parts {
		kg += p.Kg
		x += p.Kg * mid.X
		y += p.Kg * mid.Y
		below := p.BelowTop
		if below == 0 { // not said: it hangs against the top
			below = p.Height
		}
		z += p.Kg * math.Max(0, in.BaseHeight-below+p.Height/2)
	}
	return Point{x / kg, y / kg}, z / kg, kg
}

// drawerCases opens each drawer to its full depth, to the nearer side, empty and
// full, and presses on the top's edge above it and on its own front.
func (t Tables) drawerCases(s *Stand, in Input, mid Point) {
	front := mid.Y - in.FootWidth/2 // a drawer's face is taken flush with the base
	lo, hi := bounds(in.Outline)
	feet := []Point{{lo.X - 1e6, front}, {hi.X + 1e6, front}, {hi.X + 1e6, front + in.FootWidth}, {lo.X - 1e6, front + in.FootWidth}}
	var open, depth, load float64 // kg of drawers, mm, kg inside
	for _, p := range in.Parts {
		if !IsDrawer(p.Name) || p.Width <= 0 || p.Length <= 0 || p.Kg <= 0 {
			continue
		}
		open += p.Kg
		depth = math.Max(depth, p.Width)
		inside := math.Max(0, p.Length-2*p.Wall) * math.Max(0, p.Width-2*p.Wall) * math.Max(0, p.Height-p.Wall) / 1e6
		load += inside * t.Rules["drawer_load"].Value * float64(max(1, p.Count))
	}
	if open == 0 {
		return
	}
	for _, c := range []struct {
		name string
		kg   float64
	}{{"drawer open", 0}, {"drawer open and full", load}} {
		kg := s.Kg + c.kg
		// The drawers sat at mid in the sum above; open they sit half their depth in front of the base.
		y := (s.CentreOfMass.Y*s.Kg - open*mid.Y + (open+c.kg)*(front-depth/2)) / kg
		com := Point{s.CentreOfMass.X, y}
		if f, _, ok := tipLoad(feet, com, kg, Point{mid.X, lo.Y}); ok {
			s.Cases[c.name+", top pressed"] = f
		}
		if f, _, ok := tipLoad(feet, com, kg, Point{mid.X, front - depth}); ok {
			s.Cases[c.name+", drawer pressed"] = f
		}
	}
}

// tipLoad returns the least load in kg that, put straight down at q, tips a body
// of kg with its centre of mass over com, standing on the convex polygon feet
// (counter-clockwise); and the outward normal of the line that it tips over. ok
// is false when no load at q tips it. A body that falls by itself has load 0.
func tipLoad(feet []Point, com Point, kg float64, q Point) (load float64, normal Point, ok bool) {
	load = math.Inf(1)
	for i, p := range feet {
		n, b := tippingLine(feet, i, com)
		if n == (Point{}) {
			continue
		}
		a := (q.X-p.X)*n.X + (q.Y-p.Y)*n.Y // beyond it
		if b <= 0 {
			return 0, n, true
		}
		if a > 1e-9 && kg*b/a < load {
			load, normal, ok = kg*b/a, n, true
		}
	}
	return load, normal, ok
}

// tippingLine is the line from foot i to the next: its outward normal, and how far
// a point lies inside it. Two feet on one spot have none.
func tippingLine(feet []Point, i int, at Point) (normal Point, inside float64) {
	p, r := feet[i], feet[(i+1)%len(feet)]
	n := Point{r.Y - p.Y, p.X - r.X}
	l := math.Hypot(n.X, n.Y)
	if l == 0 {
		return Point{}, math.Inf(1)
	}
	n.X, n.Y = n.X/l, n.Y/l
	return n, (p.X-at.X)*n.X + (p.Y-at.Y)*n.Y
}
