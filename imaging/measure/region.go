package measure

import (
	"math"
	"slices"

	"slabfolio/imaging/pixel"
)

// A region is the top on the copy: 1 on it, 0 off it.
type region struct {
	mask     []uint8
	contrast float64 // how far the wood round the sheet is from the ground, in thresholds
}

// ground describes what lies round the top: colours along the edge of the
// photo, each with the darkening of a shadow forgiven.
type ground struct {
	l, a, b []float32
	noise   float32 // the distance that holds nine in ten of the pixels along the edge
}

// Limits of the search for the top.
const (
	groundColours = 10
	leastContrast = 1.35
	darkest       = 0.35 // of the light that a shadow leaves; below, nothing is forgiven
)

// findTop tells the top from what is below it: what has the colours of the
// photo's edge, in light or in shade, is ground; the rest that hangs together
// with the seeds is the top. least is the width of what is too narrow to be
// part of it, in pixels of the copy: a leg that looks out.
func (c *small) findTop(seeds []int, ring []int, least float64) (region, error) {
	g := c.groundOf(ring)
	d := make([]float32, c.w*c.h)
	for i := range d {
		d[i] = g.distance(c.l[i], c.a[i], c.b[i])
	}
	near := make([]float64, len(seeds))
	for k, i := range seeds {
		near[k] = float64(d[i])
	}
	mid := median(slices.Clone(near))
	slices.Sort(near)
	low := math.Max(float64(g.noise)*1.25, 3.5)
	contrast := mid / low
	if contrast < leastContrast {
		if rest, sides := c.without(ring, seeds); sides > 0 && len(rest) > len(ring)/3 {
			if _, err := c.findTop(seeds, rest, least); err == nil {
				return region{}, refuse("measure.top-cut", map[string]float64{"sides": float64(sides)})
			}
		}
		return region{}, refuse("measure.no-outline", map[string]float64{"contrast": contrast, "least": leastContrast})
	}
	// Between the ground's own spread and what the top is mostly like.
	limit := math.Max(low, math.Min(0.42*mid, 14))
	mask := c.largestPart(above(d, limit), seeds, least)
	// Bark in its own shadow and resin with a shine on it are nearer to the
	// ground than the wood is: what is weakly told apart counts beside the top
	// (half the width of what is too narrow) and in its notches.
	weak := above(d, math.Max(float64(g.noise), 2.5))
	at, notch := c.reach(mask), c.close(mask, 1.6*least)
	for i := range weak {
		if mask[i] == 0 && (weak[i] == 0 || notch[i] == 0 && float64(at[i]) > 0.5*least) {
			weak[i] = 0
			continue
		}
		weak[i] = 1
	}
	return region{c.largestPart(weak, seeds, least), contrast}, nil
}

// above marks the values over a limit.
func above(d []float32, limit float64) []uint8 {
	mask := make([]uint8, len(d))
	for i, v := range d {
		if float64(v) > limit {
			mask[i] = 1
		}
	}
	return mask
}

// without leaves out of the ring what has the colours of the seeds, and tells
// on how many sides of the photo that was.
func (c *small) without(ring, seeds []int) (rest []int, sides int) {
	p := c.paletteOf(seeds, 4)
	var on [4]int
	for _, i := range ring {
		if p.distance(c.colourAt(i)) > 6 {
			rest = append(rest, i)
			continue
		}
		x, y := i%c.w, i/c.w
		d := [4]int{x, c.w - 1 - x, y, c.h - 1 - y}
		on[slices.Index(d[:], slices.Min(d[:]))]++
	}
	for _, n := range on {
		if n > len(ring)/100 {
			sides++
		}
	}
	return rest, sides
}

// groundOf gathers the colours of the ring: far-apart ones first, then the
// means of what is near each (k-means, Lloyd 1982).
func (c *small) groundOf(ring []int) ground {
	var g ground
	add := func(i int) {
		g.l, g.a, g.b = append(g.l, c.l[i]), append(g.a, c.a[i]), append(g.b, c.b[i])
	}
	add(ring[len(ring)/2])
	nearest := func(i int) (int, float32) {
		best, at := float32(math.Inf(1)), 0
		for k := range g.l {
			dl, da, db := (c.l[i]-g.l[k])*0.6, c.a[i]-g.a[k], c.b[i]-g.b[k]
			if v := dl*dl + da*da + db*db; v < best {
				best, at = v, k
			}
		}
		return at, best
	}
	for len(g.l) < groundColours {
		far := make([]float64, len(ring))
		for n, i := range ring {
			_, v := nearest(i)
			far[n] = float64(v)
		}
		order := slices.Clone(far)
		slices.Sort(order)
		want := order[len(order)*97/100]
		if want < 1 {
			break
		}
		for n, i := range ring {
			if far[n] == want {
				add(i)
				break
			}
		}
	}
	for range 8 {
		sum := make([][4]float64, len(g.l))
		for _, i := range ring {
			k, _ := nearest(i)
			sum[k][0] += float64(c.l[i])
			sum[k][1] += float64(c.a[i])
			sum[k][2] += float64(c.b[i])
			sum[k][3]++
		}
		for k, s := range sum {
			if s[3] > 0 {
				g.l[k], g.a[k], g.b[k] = float32(s[0]/s[3]), float32(s[1]/s[3]), float32(s[2]/s[3])
			}
		}
	}
	own := make([]float64, len(ring))
	for n, i := range ring {
		own[n] = float64(g.distance(c.l[i], c.a[i], c.b[i]))
	}
	slices.Sort(own)
	g.noise = float32(own[len(own)*92/100])
	return g
}

// distance is how far a colour is from the nearest of the ground, ΔE 1976 with
// lightness counted less. A shadow multiplies light, so that L*+16, a* and b*
// shrink together: a darker colour is compared with the shaded ground.
func (g *ground) distance(l, a, b float32) float32 {
	best := float32(math.Inf(1))
	for k := range g.l {
		ratio := (l + 16) / (g.l[k] + 16)
		dl, da, db := (l-g.l[k])*0.6, a-g.a[k], b-g.b[k]
		if ratio < 1 && ratio > darkest {
			dl, da, db = dl*0.18, a-ratio*g.a[k], b-ratio*g.b[k]
		}
		best = min(best, dl*dl+da*da+db*db)
	}
	return float32(math.Sqrt(float64(best)))
}

// largestPart keeps the part of the mask that holds most of the seeds, without what is
// narrower than least, and fills its holes.
func (c *small) largestPart(mask []uint8, seeds []int, least float64) []uint8 {
	mask = c.component(c.fill(c.close(mask, 2)), seeds)
	open := c.grown(c.shrunk(mask, least/2), least/2)
	open = c.component(open, seeds)
	return c.fill(c.restore(mask, open, least/2))
}

// restore gives back what opening rounded off: the slivers of the mask that
// nowhere reach far from the opened one. What reaches far is a leg.
func (c *small) restore(mask, open []uint8, r float64) []uint8 {
	rest := make([]uint8, len(mask))
	for i := range mask {
		if mask[i] != 0 && open[i] == 0 {
			rest[i] = 1
		}
	}
	far := c.reach(open)
	label, n := c.label(rest)
	most := make([]float32, n+1)
	for i, k := range label {
		if k > 0 {
			most[k] = max(most[k], far[i])
		}
	}
	out := slices.Clone(open)
	for i, k := range label {
		if k > 0 && float64(most[k]) <= 0.45*r+1 {
			out[i] = 1
		}
	}
	return out
}

// reach is the distance of every pixel from the mask, in two passes of a
// chamfer mask (Borgefors, "Distance transformations in digital images", 1986).
func (c *small) reach(mask []uint8) []float32 {
	d := make([]float32, len(mask))
	for i, v := range mask {
		if v == 0 {
			d[i] = 1e6
		}
	}
	w, rows := c.w, c.h
	row := func(y int) []float32 {
		if y < 0 || y >= rows {
			return nil
		}
		return d[y*w : (y+1)*w]
	}
	for y := range rows {
		reachFrom(row(y), row(y-1), 0, 1)
	}
	for y := rows - 1; y >= 0; y-- {
		reachFrom(row(y), row(y+1), w-1, -1)
	}
	return d
}

// reachFrom brings a row's distances down to what the row before it and its own pixels
// before each allow, from x on by step. Plain comparisons: min looks after NaN.
func reachFrom(row, before []float32, x, step int) {
	const across = 1.4142
	last := float32(math.MaxFloat32)
	for ; uint(x) < uint(len(row)); x += step {
		v := row[x]
		if last+1 < v {
			v = last + 1
		}
		if uint(x) < uint(len(before)) {
			if u := before[x] + 1; u < v {
				v = u
			}
			if x > 0 {
				if u := before[x-1] + across; u < v {
					v = u
				}
			}
			if x+1 < len(before) {
				if u := before[x+1] + across; u < v {
					v = u
				}
			}
		}
		row[x], last = v, v
	}
}

func (c *small) grown(mask []uint8, r float64) []uint8 {
	out := make([]uint8, len(mask))
	for i, v := range c.reach(mask) {
		if float64(v) <= r {
			out[i] = 1
		}
	}
	return out
}

func (c *small) shrunk(mask []uint8, r float64) []uint8 {
	inv := make([]uint8, len(mask))
	for i, v := range mask {
		inv[i] = 1 - v
	}
	out := c.grown(inv, r)
	for i, v := range out {
		out[i] = 1 - v
	}
	return out
}

func (c *small) close(mask []uint8, r float64) []uint8 { return c.shrunk(c.grown(mask, r), r) }

// label numbers the parts of a mask that hang together by their sides.
func (c *small) label(mask []uint8) (label []int32, n int) {
	label = make([]int32, len(mask))
	var stack []int
	for s := range mask {
		if mask[s] == 0 || label[s] != 0 {
			continue
		}
		n++
		label[s] = int32(n)
		stack = append(stack[:0], s)
		for len(stack) > 0 {
			i := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			for _, j := range c.beside4(i) {
				if j >= 0 && mask[j] != 0 && label[j] == 0 {
					label[j] = int32(n)
					stack = append(stack, j)
				}
			}
		}
	}
	return label, n
}

func (c *small) beside4(i int) [4]int {
	out := [4]int{i - 1, i + 1, i - c.w, i + c.w}
	if i%c.w == 0 {
		out[0] = -1
	}
	if i%c.w == c.w-1 {
		out[1] = -1
	}
	if out[3] >= c.w*c.h {
		out[3] = -1
	}
	return out
}

// component keeps the part that holds most of the seeds.
func (c *small) component(mask []uint8, seeds []int) []uint8 {
	label, n := c.label(mask)
	votes := make([]int, n+1)
	for _, i := range seeds {
		votes[label[i]]++
	}
	best := 0
	for k := 1; k <= n; k++ {
		if best == 0 || votes[k] > votes[best] {
			best = k
		}
	}
	out := make([]uint8, len(mask))
	for i, k := range label {
		if k != 0 && int(k) == best {
			out[i] = 1
		}
	}
	return out
}

// fill fills what the mask encloses.
func (c *small) fill(mask []uint8) []uint8 {
	inv := make([]uint8, len(mask))
	for i, v := range mask {
		inv[i] = 1 - v
	}
	label, n := c.label(inv)
	open := make([]bool, n+1)
	for x := range c.w {
		open[label[x]], open[label[(c.h-1)*c.w+x]] = true, true
	}
	for y := range c.h {
		open[label[y*c.w]], open[label[y*c.w+c.w-1]] = true, true
	}
	out := make([]uint8, len(mask))
	for i, k := range label {
		if mask[i] != 0 || !open[k] {
			out[i] = 1
		}
	}
	return out
}

// frameRing lists the pixels along the edge of the copy.
func (c *small) frameRing() []int {
	thick := max(3, min(c.w, c.h)/40)
	var out []int
	for y := 1; y < c.h-1; y++ {
		for x := 1; x < c.w-1; x++ {
			if y <= thick || y >= c.h-1-thick || x <= thick || x >= c.w-1-thick {
				out = append(out, y*c.w+x)
			}
		}
	}
	return out
}

// roundSheet lists the pixels of a band round the sheet: what it lies on.
func (c *small) roundSheet(q [4]Point) []int {
	at := middle(q)
	wide := func(k float64) []Point {
		out := make([]Point, 4)
		for i, p := range q {
			out[i] = Point{X: at.X + k*(p.X-at.X), Y: at.Y + k*(p.Y-at.Y)}
		}
		return out
	}
	in, out := wide(1.08), wide(1.28)
	var list []int
	for y := range c.h {
		for x := range c.w {
			p := Point{X: float64(x) + 0.5, Y: float64(y) + 0.5}
			if pixel.Inside(out, p) && !pixel.Inside(in, p) {
				list = append(list, y*c.w+x)
			}
		}
	}
	return list
}
