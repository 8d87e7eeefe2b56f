package measure

import (
	"cmp"
	"math"
	"slices"

	"slabfolio/imaging/pixel"
)

// A candidate is four edges that could be those of a sheet, with the brighter
// side within.
type candidate struct {
	corners [4]Point // of the copy, clockwise
	score   float64
	cut     bool    // one of the edges is that of the photo
	inside  float64 // coded value within
	step    float64 // how much brighter it is within than without, coded
	ratio   float64
	area    float64 // pixels of the copy
}

// Limits of what is taken for a sheet.
const (
	leastShare  = 0.45  // of a side that must be seen
	leastArea   = 0.004 // of the photo
	mostArea    = 0.85
	leastStep   = 7.0  // coded
	leastAspect = 1.12 // of the sides, after the tilt was taken out
	mostAspect  = 1.68
	leastScore  = 0.30
)

// candidates joins lines to quadrangles, clockwise, each corner a right angle
// seen askew, and scores them. border adds the edges of the photo as lines.
func (c *small) candidates(lines []edgeLine, border bool, f float64) []candidate {
	if border {
		lines = append(slices.Clone(lines), c.frameLines()...)
	}
	next := c.turns(lines)
	side := func(l int, p, q Point) bool {
		k := &lines[l]
		along := (q.X-p.X)*k.dir.X + (q.Y-p.Y)*k.dir.Y
		return along > 12 && k.share(p, q) >= leastShare
	}
	var out []candidate
	for i := range lines {
		for _, b := range next[i] {
			for _, d := range next[b.to] {
				if !side(b.to, b.at, d.at) || d.to == i {
					continue
				}
				for _, e := range next[d.to] {
					// i is the lowest of the four, so that each is found once.
					if e.to <= i || b.to <= i || d.to <= i || e.to == b.to || !side(d.to, d.at, e.at) {
						continue
					}
					for _, a := range next[e.to] {
						if a.to != i || !side(e.to, e.at, a.at) || !side(i, a.at, b.at) {
							continue
						}
						q := candidate{corners: [4]Point{a.at, b.at, d.at, e.at}}
						q.cut = lines[i].border || lines[b.to].border || lines[d.to].border || lines[e.to].border
						seen := lines[i].share(a.at, b.at) + lines[b.to].share(b.at, d.at) + lines[d.to].share(d.at, e.at) + lines[e.to].share(e.at, a.at)
						if c.judge(&q, seen/4, f) {
							out = append(out, q)
						}
					}
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b candidate) int { return cmp.Compare(b.score, a.score) })
	return out
}

// A turn leads from one line into another where they cross.
type turn struct {
	to int
	at Point
}

// turns lists for each line those that it can turn right into, by 27° to 153°,
// within the photo.
func (c *small) turns(lines []edgeLine) [][]turn {
	next := make([][]turn, len(lines))
	for i := range lines {
		for j := range lines {
			d := lines[i].dir.X*lines[j].dir.Y - lines[i].dir.Y*lines[j].dir.X
			if d < 0.45 || lines[i].border && lines[j].border {
				continue
			}
			if p, ok := lines[i].cross(&lines[j]); ok && p.X > -2 && p.Y > -2 && p.X < float64(c.w)+2 && p.Y < float64(c.h)+2 {
				next[i] = append(next[i], turn{j, p})
			}
		}
	}
	return next
}

// frameLines are the four edges of the photo, clockwise.
func (c *small) frameLines() []edgeLine {
	w, h := float64(c.w), float64(c.h)
	mk := func(x, y, dx, dy float64) edgeLine {
		return edgeLine{at: Point{X: x, Y: y}, dir: Point{X: dx, Y: dy}, border: true}
	}
	return []edgeLine{mk(0, 0, 1, 0), mk(w, 0, 0, 1), mk(w, h, -1, 0), mk(0, h, 0, -1)}
}

// judge scores a candidate: how much of its sides is seen, how steadily it is
// brighter within than without, how bright it is among all there is, and
// whether its sides are as long as those of a sheet.
func (c *small) judge(q *candidate, seen, f float64) bool {
	q.area = pixel.Area(q.corners[:])
	whole := float64(c.w * c.h)
	if q.area < leastArea*whole || q.area > mostArea*whole {
		return false
	}
	// What is left of a sheet that is cut off may be of any shape.
	if q.ratio = c.ratio(q.corners, f); !q.cut && (q.ratio < leastAspect || q.ratio > mostAspect) {
		return false
	}
	var steps [4]float64
	q.inside = 0
	for s := range 4 {
		in, out := c.beside(q, s)
		steps[s] = in - out
		q.inside += in / 4
	}
	least, mid := steps[0], 0.0
	for _, v := range steps {
		least, mid = math.Min(least, v), mid+v/4
	}
	if q.cut {
		least = mid
	}
	if q.step = mid; least < leastStep {
		return false
	}
	fit := math.Exp(-math.Pow(math.Max(0, math.Min(math.Abs(q.ratio-297.0/210), math.Abs(q.ratio-279.4/215.9))-0.02)/0.10, 2))
	if q.cut {
		fit = 0.6
	}
	even := least / (least + 12)
	q.score = seen * even * (0.25 + 0.75*fit) * clamp(q.inside/math.Max(c.bright(), 1), 0, 1)
	return q.score > 0
}

// beside is the median coded value within and without side s, near it and
// farther off: a printed line has a step, but not one that stays.
func (c *small) beside(q *candidate, s int) (in, out float64) {
	a, b := q.corners[s], q.corners[(s+1)%4]
	l := math.Hypot(b.X-a.X, b.Y-a.Y)
	nx, ny := -(b.Y-a.Y)/l, (b.X-a.X)/l // inwards
	far := clamp(0.07*math.Sqrt(q.area), 4, 40)
	var ins, outs []float64
	for k := range 24 {
		t := 0.06 + 0.88*(float64(k)+0.5)/24
		x, y := a.X+t*(b.X-a.X), a.Y+t*(b.Y-a.Y)
		for _, d := range [3]float64{2.5, 0.5*far + 1, far} {
			ins = append(ins, c.at(c.low, x+d*nx, y+d*ny))
			if x-d*nx > 0 && y-d*ny > 0 && x-d*nx < float64(c.w) && y-d*ny < float64(c.h) {
				outs = append(outs, c.at(c.low, x-d*nx, y-d*ny))
			}
		}
	}
	in = median(ins)
	if len(outs) < 8 {
		return in, in
	}
	return in, median(outs)
}

// bright is the level of the brightest hundredth of the copy.
func (c *small) bright() float64 {
	if c.top == 0 {
		v := slices.Clone(c.low)
		slices.Sort(v)
		c.top = float64(v[len(v)*99/100])
	}
	return c.top
}

func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	return v[len(v)/2]
}
