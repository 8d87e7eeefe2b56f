package measure

import "math"

// Limits of a measurement by tape.
const (
	mostSkew   = 0.12 // by which the two scales may differ
	doubtSkew  = 0.03 // from which it is said
	seedShare  = 0.10 // of the photo about its middle, which the top must cover
	tiltAtBest = 0.01 // of the area, for the tilt that a taped length and width do not show
)

// tapeTolerance is to within what a length read off a tape is known: 1 mm and half a
// thousandth (common practice, no source).
func tapeTolerance(mm float64) float64 { return 1 + 0.0005*mm }

// byTape measures by a taped length and width: the box round the top has these
// sides. A tilt of the camera cannot be taken out, it only shows where the two
// scales differ.
func (j *job) byTape() error {
	c := j.copy
	var seeds []int
	for y := range c.h {
		for x := range c.w {
			if math.Abs(float64(x)/float64(c.w)-0.5) < seedShare/2 && math.Abs(float64(y)/float64(c.h)-0.5) < seedShare/2 {
				seeds = append(seeds, y*c.w+x)
			}
		}
	}
	ring, spread, err := j.trace(seeds, 0.02*float64(c.w))
	if err != nil {
		return err
	}
	flip := make([]Point, len(ring))
	for i, p := range ring {
		flip[i] = Point{X: p.X, Y: -p.Y}
	}
	s := shapeOf(flip, 0)
	kx, ky := j.req.LengthMM/s.length, j.req.WidthMM/s.width
	skew := math.Abs(kx/ky - 1)
	if skew > mostSkew {
		return refuse("measure.skew", map[string]float64{"skew": skew, "limit": mostSkew})
	}
	if skew > doubtSkew {
		j.doubt("measure.askew", map[string]float64{"skew": skew})
	}
	for i := range s.ring {
		s.ring[i].X, s.ring[i].Y = s.ring[i].X*kx, s.ring[i].Y*ky
	}
	j.lay = func(p Point) Point {
		q := s.toRing(Point{X: p.X, Y: -p.Y})
		return Point{X: q.X * kx, Y: q.Y * ky}
	}
	r := j.r
	r.Edge, r.Outline = ring, thinned(s.ring, 0.15)
	r.Length.Value, r.Width.Value, r.Area.Value = j.req.LengthMM, j.req.WidthMM, s.area*kx*ky*1e-6
	gl, gw := tapeTolerance(r.Length.Value), tapeTolerance(r.Width.Value)
	mm2 := r.Area.Value * 1e6
	// All of the skew: where the line leaves the edge on one side it is no tilt, and the area is off by that much.
	r.add("tilt", 0, 0, mm2*math.Hypot(tiltAtBest, skew))
	r.add("tape", gl, gw, mm2*math.Hypot(gl/r.Length.Value, gw/r.Width.Value))
	r.add("edge", 0, 0, 0.7*perimeter(s.ring)*0.5*(spread+1)*kx)
	return j.resinByTape(kx, ky)
}

// resinByTape measures the resin in the plane of the photo.
func (j *job) resinByTape(kx, ky float64) error {
	m := plane{1 / kx, 0, 0, 0, 1 / ky, 0, 0, 0, 1}
	return j.resin(m)
}
