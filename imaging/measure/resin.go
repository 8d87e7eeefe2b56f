package measure

import (
	"math"
	"slices"

	"slabfolio/imaging/pixel"
)

// Limits of the search for resin.
const (
	resinKinds = 5     // colours of resin, at most
	woodKinds  = 8     // colours of wood
	leastApart = 7.0   // ΔE between the spots and the rest, or resin is not told from wood
	leastIsle  = 0.001 // of the face: what is smaller is grain or a fleck
	leastStrip = 5.0   // mm: what is narrower is grain
	spotRadius = 3     // pixels of the copy
)

// resin measures the resin from the maker's spots, or looks whether one colour
// of the face stands apart from every wood and proposes a spot.
func (j *job) resin(m plane) error {
	c := j.copy
	var sheet []Point
	// Pixels of the copy to a mm, in the middle of the photo.
	perMM := 1 / (math.Sqrt(m.inverse().areaAt(Point{X: float64(j.m.W) / 2, Y: float64(j.m.H) / 2})) * c.scale)
	if j.r.Sheet != nil {
		sheet = scaled(j.r.Sheet.Corners[:], 1/c.scale)
	}
	face, hidden := c.face(scaled(j.r.Edge, 1/c.scale), sheet)
	if len(j.req.ResinAt) == 0 {
		j.propose(face)
		return nil
	}
	spots, off := c.spots(face, j.req.ResinAt)
	if off > 0 {
		j.doubt("measure.spot-off", map[string]float64{"spots": float64(off)})
	}
	if len(spots) == 0 {
		return nil
	}
	in, apart := c.partResin(face, spots)
	if apart < leastApart {
		j.doubt("measure.resin-unsure", map[string]float64{"apart": apart, "least": leastApart})
		return nil
	}
	in = c.largeParts(in, face, spots, leastStrip*perMM)
	j.resinArea(m, in, face, hidden)
	return nil
}

// face lists the pixels of the top that are seen as 1 in a mask, and those under
// the sheet in another. The sheet's rim is under it too.
func (c *small) face(edge, sheet []Point) (face, hidden []uint8) {
	face, hidden = make([]uint8, c.w*c.h), make([]uint8, c.w*c.h)
	var wide []Point
	for _, p := range sheet {
		at := middle([4]Point(sheet))
		d := math.Max(math.Hypot(p.X-at.X, p.Y-at.Y), 1)
		wide = append(wide, Point{X: p.X + 3*(p.X-at.X)/d, Y: p.Y + 3*(p.Y-at.Y)/d})
	}
	for y := range c.h {
		for _, s := range spansAt(edge, float64(y)+0.5) {
			for x := max(int(math.Ceil(s[0]-0.5)), 0); x < c.w && float64(x)+0.5 <= s[1]; x++ {
				i := y*c.w + x
				if pixel.Inside(wide, Point{X: float64(x) + 0.5, Y: float64(y) + 0.5}) {
					hidden[i] = 1
				} else {
					face[i] = 1
				}
			}
		}
	}
	return face, hidden
}

// spansAt is where a level line at y lies inside the ring.
func spansAt(ring []Point, y float64) [][2]float64 {
	var xs []float64
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > y) != (b.Y > y) {
			xs = append(xs, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
		}
	}
	slices.Sort(xs)
	var out [][2]float64
	for i := 0; i+1 < len(xs); i += 2 {
		out = append(out, [2]float64{xs[i], xs[i+1]})
	}
	return out
}

// spots lists the pixels around the maker's spots, and how many lie off the face.
func (c *small) spots(face []uint8, at []Point) (list []int, off int) {
	for _, p := range at {
		x, y := int(p.X/c.scale), int(p.Y/c.scale)
		if x < 0 || y < 0 || x >= c.w || y >= c.h || face[y*c.w+x] == 0 {
			off++
			continue
		}
		for dy := -spotRadius; dy <= spotRadius; dy++ {
			for dx := -spotRadius; dx <= spotRadius; dx++ {
				if i := (y+dy)*c.w + x + dx; x+dx >= 0 && x+dx < c.w && y+dy >= 0 && y+dy < c.h && face[i] != 0 {
					list = append(list, i)
				}
			}
		}
	}
	return list, off
}

// partResin parts the face into resin and wood: first by the distance from the
// spots' colours, with the limit that parts the two best (Otsu, "A threshold
// selection method", IEEE SMC 9(1), 1979), then three times by palettes of both.
// apart is how far the two lie from each other.
func (c *small) partResin(face []uint8, spots []int) (in []uint8, apart float64) {
	seed := c.paletteOf(spots, 3)
	d := make([]float64, len(face))
	var hist [256]int
	for i, v := range face {
		if v != 0 {
			d[i] = seed.distance(c.colourAt(i))
			hist[min(int(d[i]*4), 255)]++
		}
	}
	limit := 0.0
	if level, ok := pixel.Otsu(&hist); ok {
		limit = float64(level+1) / 4
	}
	in = make([]uint8, len(face))
	for i, v := range face {
		if v != 0 && d[i] < limit {
			in[i] = 1
		}
	}
	for range 3 {
		resin, wood := c.split(face, in)
		if len(resin) == 0 || len(wood) == 0 {
			break
		}
		rp, wp := append(c.paletteOf(resin, resinKinds), seed...), c.paletteOf(wood, woodKinds)
		for i, v := range face {
			in[i] = 0
			if k := c.colourAt(i); v != 0 && rp.distance(k) < wp.distance(k) {
				in[i] = 1
			}
		}
		apart = wp.distance(c.meanOf(spots))
	}
	return in, apart
}

func (c *small) split(face, in []uint8) (resin, wood []int) {
	for i, v := range face {
		switch {
		case v == 0:
		case in[i] != 0:
			resin = append(resin, i)
		default:
			wood = append(wood, i)
		}
	}
	return resin, wood
}

// largeParts keeps what hangs together and is no grain: at its widest at least as
// wide as strip, and either large or marked by a spot.
func (c *small) largeParts(in, face []uint8, spots []int, strip float64) []uint8 {
	whole := 0
	for _, v := range face {
		whole += int(v)
	}
	in = c.close(in, math.Max(strip/4, 1))
	for i, v := range face {
		in[i] &= v
	}
	label, n := c.label(in)
	core := c.shrunk(in, strip/2)
	area, wide, marked := make([]int, n+1), make([]bool, n+1), make([]bool, n+1)
	for i, k := range label {
		area[k]++
		wide[k] = wide[k] || core[i] != 0
	}
	for _, i := range spots {
		marked[label[i]] = true
	}
	out := make([]uint8, len(in))
	for i, k := range label {
		if k > 0 && wide[k] && (marked[k] || float64(area[k]) > leastIsle*float64(whole)) {
			out[i] = 1
		}
	}
	return out
}
