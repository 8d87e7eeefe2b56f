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

// A palette is a few colours in CIELAB.
type palette [][3]float64

// lightness counts less than hue: grain, shine and shade move it most.
func (p palette) distance(c [3]float64) float64 {
	best := math.Inf(1)
	for _, k := range p {
		l, a, b := 0.55*(c[0]-k[0]), c[1]-k[1], c[2]-k[2]
		best = math.Min(best, l*l+a*a+b*b)
	}
	return math.Sqrt(best)
}

func (c *small) colourAt(i int) [3]float64 {
	return [3]float64{float64(c.l[i]), float64(c.a[i]), float64(c.b[i])}
}

// paletteOf is up to n colours of the pixels listed: far-apart ones first, then
// the means of what is near each (k-means, Lloyd 1982).
func (c *small) paletteOf(list []int, n int) palette {
	if len(list) == 0 {
		return nil
	}
	step := max(len(list)/4000, 1)
	p := palette{c.meanOf(list)}
	for len(p) < n {
		far, at := 4.0, -1
		var d []float64
		for k := 0; k < len(list); k += step {
			d = append(d, p.distance(c.colourAt(list[k])))
		}
		limit := slices.Clone(d)
		slices.Sort(limit)
		most := limit[len(limit)*98/100] // not the farthest, which is a fleck
		for k, v := range d {
			if v <= most && v > far {
				far, at = v, k*step
			}
		}
		if at < 0 {
			break
		}
		p = append(p, c.colourAt(list[at]))
	}
	for range 6 {
		sum, count := make(palette, len(p)), make([]float64, len(p))
		for k := 0; k < len(list); k += step {
			v := c.colourAt(list[k])
			near := p.nearest(v)
			count[near]++
			for i := range v {
				sum[near][i] += v[i]
			}
		}
		for k := range p {
			if count[k] > 0 {
				for i := range p[k] {
					p[k][i] = sum[k][i] / count[k]
				}
			}
		}
	}
	return p
}

func (p palette) nearest(c [3]float64) int {
	best, at := math.Inf(1), 0
	for k := range p {
		if d := (palette{p[k]}).distance(c); d < best {
			best, at = d, k
		}
	}
	return at
}

func (c *small) meanOf(list []int) (m [3]float64) {
	for _, i := range list {
		v := c.colourAt(i)
		for k := range m {
			m[k] += v[k] / float64(len(list))
		}
	}
	return m
}

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
				if inside(wide, Point{X: float64(x) + 0.5, Y: float64(y) + 0.5}) {
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
		if x, y := areaOf(a), areaOf(b); x > y {
			return -1
		} else if x < y {
			return 1
		}
		return 0
	})
	return all
}

// propose looks for one colour of the face that is no wood: the hues of wood,
// bare, oiled or stained, lie between red and yellow (common practice, no
// source). It names the spot where that colour lies thickest.
func (j *job) propose(face []uint8) {
	c := j.copy
	odd := make([]uint8, len(face))
	n, whole := 0, 0
	for i, v := range face {
		if v == 0 {
			continue
		}
		whole++
		if notWood(c.colourAt(i)) {
			odd[i] = 1
			n++
		}
	}
	if whole == 0 || float64(n) < 0.02*float64(whole) {
		return
	}
	inv := make([]uint8, len(odd))
	for i, v := range odd {
		inv[i] = 1 - v
	}
	best, at := float32(0), 0
	for i, d := range c.reach(inv) {
		if d > best {
			best, at = d, i
		}
	}
	if best < 4 {
		return
	}
	j.doubt("measure.resin-proposed", map[string]float64{
		"x": (float64(at%c.w) + 0.5) / float64(c.w), "y": (float64(at/c.w) + 0.5) / float64(c.h), "share": float64(n) / float64(whole)})
}

// notWood reports whether a colour is clearly of a hue that no wood has.
func notWood(v [3]float64) bool {
	chroma := math.Hypot(v[1], v[2])
	hue := math.Atan2(v[2], v[1]) * 180 / math.Pi
	return chroma > 8 && (hue < -10 || hue > 118)
}
