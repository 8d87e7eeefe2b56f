package measure

import (
	"math"

	"slabfolio/imaging/pixel"
)

// mostOval is how far, of a diameter, a top may be off a circle and still be round,
// however wide the error of what was measured.
const mostOval = 0.015

// Diameter is the diameter of the circle of the same area, where the outline is
// round: no width and no radius is off that circle by more than the error of the
// length, or a hundredth and a half of it. Otherwise ok is false.
func (r Result) Diameter() (d Value, ok bool) {
	if len(r.Outline) < 12 || r.Length.Value <= 0 {
		return d, false
	}
	ring := dense(r.Outline)
	area := pixel.SignedArea(ring)
	var cx, cy float64 // of the area
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		k := p.X*q.Y - q.X*p.Y
		cx, cy = cx+(p.X+q.X)*k/(6*area), cy+(p.Y+q.Y)*k/(6*area)
	}
	d.Value = 2 * math.Sqrt(math.Abs(area)/math.Pi)
	d.Error = math.Max(r.Length.Error, r.Width.Error)
	most := math.Min(d.Error, mostOval*d.Value)
	for _, p := range ring {
		if math.Abs(math.Hypot(p.X-cx, p.Y-cy)-d.Value/2) > most {
			return Value{}, false
		}
	}
	const ways = 36
	for k := range ways {
		if l, _ := extents(ring, math.Pi*float64(k)/ways); math.Abs(l-d.Value) > most {
			return Value{}, false
		}
	}
	d.Causes = r.Length.Causes
	return d, true
}
