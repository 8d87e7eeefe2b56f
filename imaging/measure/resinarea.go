package measure

import (
	"math"
	"slices"

	"slabfolio/imaging/pixel"
)

// How much of the face the resin is, and where it lies on the top.

// resinArea sums up the resin: every pixel counts for what it covers on the
// top. What lies under the sheet is carried on from its rim.
func (j *job) resinArea(m plane, in, face, hidden []uint8) {
	c := j.copy
	back := m.inverse()
	var resin, all, under float64
	guess := c.underSheet(in, hidden)
	rim := 0.0
	for i := range in {
		if face[i] == 0 && hidden[i] == 0 {
			continue
		}
		a := back.areaAt(Point{X: (float64(i%c.w) + 0.5) * c.scale, Y: (float64(i/c.w) + 0.5) * c.scale}) * c.scale * c.scale
		all += a
		if hidden[i] != 0 {
			under += a * guess[i]
			continue
		}
		if in[i] != 0 {
			resin += a
			for _, k := range c.beside4(i) {
				if k >= 0 && face[k] != 0 && in[k] == 0 {
					rim += a
					break
				}
			}
		}
	}
	if all == 0 {
		return
	}
	share := (resin + under) / all
	give := math.Hypot(0.5*rim/all, 0.3*under/all)
	give = math.Hypot(give, 0.05*share*(1-share))
	j.r.Share = Value{share, give, []Cause{{"colour", give}}}
	area := share * j.r.Area.Value
	v := Value{Value: area, Error: math.Hypot(give*j.r.Area.Value, share*j.r.Area.Error)}
	v.Causes = []Cause{{"colour", give * j.r.Area.Value}}
	for _, k := range j.r.Area.Causes {
		v.Causes = append(v.Causes, Cause{k.Code, share * k.Error})
	}
	j.r.Resin = &v
	if under > 0.15*(resin+under) {
		j.doubt("measure.sheet-on-resin", map[string]float64{"share": under / (resin + under)})
	}
	j.r.Islands = c.edges(in)
	for i, v := range guess {
		if hidden[i] != 0 && v >= 0.5 {
			in[i] = 1
		}
	}
	in = c.close(in, 4) // the rim of the sheet, which is neither seen nor under it
	for i := range in {
		in[i] &= face[i] | hidden[i]
	}
	whole := c.fill(in)
	for i, v := range in {
		whole[i] -= v
	}
	j.rings = append(c.edges(in), c.edges(whole)...)
}

// layOnTop turns the edges of the resin, and of what is enclosed by it, to mm.
func (j *job) layOnTop() {
	if j.lay == nil {
		return
	}
	for _, ring := range j.rings {
		on := make([]Point, len(ring))
		for i, p := range ring {
			on[i] = j.lay(p)
		}
		j.r.OnTop = append(j.r.OnTop, on)
	}
}

// areaAt is how much a map enlarges areas at a place.
func (m plane) areaAt(p Point) float64 {
	d := m[6]*p.X + m[7]*p.Y + m[8]
	det := m[0]*(m[4]*m[8]-m[5]*m[7]) - m[1]*(m[3]*m[8]-m[5]*m[6]) + m[2]*(m[3]*m[7]-m[4]*m[6])
	return math.Abs(det / (d * d * d))
}

// underSheet marks the hidden pixels that lie on a straight way from resin on
// the rim to resin on the rim: a river that the sheet lies on is carried on so.
func (c *small) underSheet(in, hidden []uint8) []float64 {
	out := make([]float64, len(in))
	const ways = 24
	for i, v := range hidden {
		if v == 0 {
			continue
		}
		for k := range ways {
			sin, cos := math.Sincos(math.Pi * float64(k) / ways)
			if c.walk(in, hidden, i, cos, sin) && c.walk(in, hidden, i, -cos, -sin) {
				out[i] = 1
				break
			}
		}
	}
	return out
}

// walk goes straight from i until it leaves the hidden part and tells whether
// there is resin a little farther on.
func (c *small) walk(in, hidden []uint8, i int, dx, dy float64) bool {
	x, y, past := float64(i%c.w)+0.5, float64(i/c.w)+0.5, 0
	for {
		x, y = x+dx, y+dy
		if x < 0 || y < 0 || x >= float64(c.w) || y >= float64(c.h) {
			return false
		}
		if k := int(y)*c.w + int(x); hidden[k] == 0 {
			if in[k] != 0 {
				return true
			}
			if past++; past > 2 {
				return false
			}
		}
	}
}

// edges are the outer edges of what is in a mask, in pixels of the photo, largest
// first.
func (c *small) edges(in []uint8) (all [][]Point) {
	label, n := c.label(in)
	for k := 1; k <= min(n, 200); k++ {
		one := make([]uint8, len(in))
		area := 0
		for i, l := range label {
			if int(l) == k {
				one[i] = 1
				area++
			}
		}
		if area < 12 {
			continue
		}
		all = append(all, scaled(thinned(atEvenSteps(c.contour(one), 2, 2), 0.4), c.scale))
	}
	slices.SortStableFunc(all, func(a, b []Point) int {
		if x, y := pixel.Area(a), pixel.Area(b); x > y {
			return -1
		} else if x < y {
			return 1
		}
		return 0
	})
	return all
}
