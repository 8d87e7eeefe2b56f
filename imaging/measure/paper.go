package measure

import (
	"math"

	"slabfolio/imaging/note"

	"slabfolio/imaging/pixel"
)

func (j *job) doubt(code string, values map[string]float64) {
	j.r.Notes = append(j.r.Notes, note.Note{Code: code, Values: values})
}

// Limits of a measurement.
const (
	mostTilt  = 35.0 // degrees
	leastWide = 50.0 // mm: what is narrower is a leg that looks out below the top
	mostError = 0.08 // of the area
	leastSeen = 0.25 // of the outline, along which an edge has to be seen
	doubtSeen = 0.5
)

// byPaper measures by the sheet.
func (j *job) byPaper() error {
	if err := j.findSheet(); err != nil {
		return err
	}
	m, ok := j.toPhoto(j.r.Sheet.Corners)
	if !ok {
		return refuse("measure.bad-marks", nil)
	}
	f, _ := j.focal()
	at := poseOf(m, f, float64(j.m.W), float64(j.m.H))
	if j.req.Focal35 > 0 && at.known {
		j.r.Tilt, j.r.Height = at.tilt*180/math.Pi, at.height
	}
	if t := at.tilt * 180 / math.Pi; t > mostTilt && j.req.Focal35 > 0 {
		return refuse("measure.tilt", map[string]float64{"degrees": t, "limit": mostTilt})
	}
	edge, spread, err := j.edge(m)
	if err != nil {
		return err
	}
	if err := j.sizes(edge, spread); err != nil {
		return err
	}
	return j.resin(m)
}

// toPhoto is the map from mm on the top, x along the sheet's longer side and y
// downwards in the photo, to pixels.
func (j *job) toPhoto(q [4]Point) (plane, bool) {
	long, short := j.r.Sheet.Kind.size()
	unit, ok := planeOf([4]Point{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 1, Y: 1}, {X: 0, Y: 1}}, q)
	if !ok {
		return plane{}, false
	}
	f, _ := j.focal()
	w, h := long, short
	if poseOf(unit, f, float64(j.m.W), float64(j.m.H)).ratio < 1 {
		w, h = short, long
	}
	return planeOf([4]Point{{X: 0, Y: 0}, {X: w, Y: 0}, {X: w, Y: h}, {X: 0, Y: h}}, q)
}

// edge finds the outline of the top in pixels of the photo, clockwise as seen,
// and how far its points are spread.
func (j *job) edge(m plane) (ring []Point, spread float64, err error) {
	c := j.copy
	var q [4]Point
	for i, p := range j.r.Sheet.Corners {
		q[i] = Point{X: p.X / c.scale, Y: p.Y / c.scale}
	}
	seeds := c.roundSheet(q)
	if c.sheetBelow(q, seeds) {
		return nil, 0, refuse("measure.sheet-below", nil)
	}
	perMM := math.Sqrt(pixel.Area(q[:]) / (297 * 210))
	if ring, spread, err = j.trace(seeds, leastWide*perMM); err != nil {
		if !j.r.Sheet.Given && offAnyPaper(j.r.Sheet.Ratio) && c.onGround(q) {
			j.r.Notes = nil // what was said of it as a sheet
			return nil, 0, refuse("measure.sheet-is-top", map[string]float64{"ratio": j.r.Sheet.Ratio})
		}
		return nil, 0, err
	}
	if j.hangsOver(ring) {
		return nil, 0, refuse("measure.sheet-over", nil)
	}
	ring = j.withStrip(ring, perMM*c.scale)
	j.sharpen(ring, settleReach, settleMost)
	return ring, spread, nil
}

// trace finds the top that holds the seeds and its edge.
func (j *job) trace(seeds []int, least float64) (ring []Point, spread float64, err error) {
	c := j.copy
	top, err := c.findTop(seeds, c.frameRing(), least)
	if err != nil {
		return nil, 0, err
	}
	if sides := c.sidesTouched(top.mask); sides > 0 {
		return nil, 0, refuse("measure.top-cut", map[string]float64{"sides": float64(sides)})
	}
	if c.cutAtRim(top.mask, c.frameRing(), seeds) {
		return nil, 0, refuse("measure.top-cut", map[string]float64{"sides": 1})
	}
	ring = atEvenSteps(withoutSpikes(atEvenSteps(c.contour(top.mask), 2, 2.5), 2, 1.6*least), 2, 2.5)
	ring = scaled(ring, c.scale)
	if len(ring) < 40 {
		return nil, 0, refuse("measure.no-outline", map[string]float64{"contrast": top.contrast, "least": leastContrast})
	}
	spread, edges := j.sharpen(ring, math.Max(3.2*c.scale, 3), anyFar)
	ring = bridged(ring, edges)
	ring = scaled(atEvenSteps(withoutSpikes(scaled(ring, 1/c.scale), 2, 1.2*least), 2, 1.5), c.scale)
	seen := share(edges)
	if seen > doubtSeen {
		spread, edges = j.sharpen(ring, math.Max(1.6*c.scale, 2.5), anyFar)
		ring, seen = bridged(ring, edges), share(edges)
	}
	if u := c.unclear(scaled(ring, 1/c.scale)); u > mostUnclear {
		return nil, 0, refuse("measure.unclear", map[string]float64{"percent": 100 * u, "limit": 100 * mostUnclear})
	} else if u > doubtUnclear {
		j.doubt("measure.partly-unclear", map[string]float64{"percent": 100 * u})
	}
	if seen < leastSeen {
		return nil, 0, refuse("measure.no-edge", map[string]float64{"share": seen, "least": leastSeen})
	}
	if seen < doubtSeen {
		spread = math.Max(spread, c.scale)
		j.doubt("measure.soft-edge", map[string]float64{"share": seen})
	}
	return ring, spread, nil
}

// sheetBelow reports whether the sheet lies on the ground: what is round it is
// like the edge of the photo, and something else, large, is not.
func (c *small) sheetBelow(q [4]Point, seeds []int) bool {
	g := c.groundOf(c.frameRing())
	if !c.likeGround(g, seeds) {
		return false
	}
	limit := math.Max(float64(g.noise)*1.25, 3.5)
	mask := make([]uint8, c.w*c.h)
	for i := range mask {
		p := Point{X: float64(i%c.w) + 0.5, Y: float64(i/c.w) + 0.5}
		if float64(g.distance(c.l[i], c.a[i], c.b[i])) > 2*limit && !pixel.Inside(q[:], p) {
			mask[i] = 1
		}
	}
	label, n := c.label(mask)
	area := make([]int, n+1)
	for _, k := range label {
		area[k]++
	}
	for k := 1; k <= n; k++ {
		if area[k] > len(mask)/20 {
			return true
		}
	}
	return false
}

// sidesTouched is on how many sides of the photo the mask ends.
func (c *small) sidesTouched(mask []uint8) int {
	var n [4]int
	for x := range c.w {
		n[0] += int(mask[c.w+x])
		n[1] += int(mask[(c.h-2)*c.w+x])
	}
	for y := range c.h {
		n[2] += int(mask[y*c.w+1])
		n[3] += int(mask[y*c.w+c.w-2])
	}
	sides := 0
	for _, k := range n {
		if k > 3 {
			sides++
		}
	}
	return sides
}

// scaled multiplies the points of a ring.
func scaled(ring []Point, k float64) []Point {
	out := make([]Point, len(ring))
	for i, p := range ring {
		out[i] = Point{X: p.X * k, Y: p.Y * k}
	}
	return out
}
