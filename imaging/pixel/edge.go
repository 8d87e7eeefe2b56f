package pixel

import (
	"math"
	"slices"
)

// Calm is how calm the picture is along its edges: whether it could be carried
// on there. It is in levels of 255 on a square-root scale, which is
// about how an eye sees steps of light; each is that of the worst edge.
type Calm struct {
	Bend  float64 // by how much the colours along the edge leave a smooth course, all but the worst fiftieth
	Grain float64 // standard deviation of single pixels from that
	Slope float64 // by how much the colours change from the edge inwards
}

// edgeDeep is how deep, as a share of the longer side, an edge is looked at.
const edgeDeep = 0.03

// Edges tells how calm those of the picture's edges (left, top, right, bottom)
// are that are asked for; on tells what stands before the backdrop.
func (m *Image) Edges(asked [4]bool, on Covered) Calm {
	var worst Calm
	deep := max(4, int(edgeDeep*float64(max(m.W, m.H))))
	for i, at := range [4]func(d, i int) (x, y int){
		func(d, i int) (int, int) { return d, i }, func(d, i int) (int, int) { return i, d },
		func(d, i int) (int, int) { return m.W - 1 - d, i }, func(d, i int) (int, int) { return i, m.H - 1 - d },
	} {
		if !asked[i] {
			continue
		}
		n, across := m.H, m.W
		if i%2 == 1 {
			n, across = m.W, m.H
		}
		c := m.edge(n, min(deep, across), at, on)
		worst = Calm{math.Max(worst.Bend, c.Bend), math.Max(worst.Grain, c.Grain), math.Max(worst.Slope, c.Slope)}
	}
	return worst
}

// edge looks at one edge, n pixels long and deep pixels deep.
func (m *Image) edge(n, deep int, at func(d, i int) (x, y int), on Covered) Calm {
	level := make([][3]float64, n*deep) // depth by depth
	free := make([]bool, n*deep)
	for d := range deep {
		for i := range n {
			x, y := at(d, i)
			if on != nil && on(x, y) {
				continue
			}
			k := d*n + i
			free[k] = true
			for ch, v := range m.Row(y)[x*3 : x*3+3] {
				level[k][ch] = 255 * math.Sqrt(float64(v)/65535)
			}
		}
	}
	var c Calm
	for ch := range 3 {
		bend, grain, slope := edgeCalm(level, free, n, deep, ch)
		c.Bend, c.Grain, c.Slope = math.Max(c.Bend, bend), math.Max(c.Grain, grain), math.Max(c.Slope, slope)
	}
	return c
}

// edgeCalm measures one channel of an edge: see Calm.
func edgeCalm(level [][3]float64, free []bool, n, deep, ch int) (bend, grain, slope float64) {
	along, inwards := make([]float64, n), make([]float64, deep)
	seenAlong, seenIn := make([]float64, n), make([]float64, deep)
	var sum, count float64
	for d := range deep {
		for i := range n {
			if v := level[d*n+i][ch]; free[d*n+i] {
				along[i] += v
				inwards[d] += v
				seenAlong[i]++
				seenIn[d]++
				sum += v
				count++
			}
		}
	}
	if count == 0 {
		return 255, 255, 255
	}
	mean, lo, hi := sum/count, math.Inf(1), math.Inf(-1)
	for d := range inwards {
		if seenIn[d] > 0 {
			inwards[d] /= seenIn[d]
			lo, hi = math.Min(lo, inwards[d]), math.Max(hi, inwards[d])
		} else {
			inwards[d] = mean
		}
	}
	for i := range along {
		if along[i] /= math.Max(seenAlong[i], 1); seenAlong[i] == 0 {
			along[i] = mean
		}
	}
	off := make([]float64, n)
	for i, v := range smoothed(along) {
		off[i] = math.Abs(along[i] - v)
	}
	slices.Sort(off)
	var square float64
	for d := range deep {
		for i := range n {
			if free[d*n+i] {
				e := level[d*n+i][ch] - along[i] - inwards[d] + mean
				square += float64(e * e)
			}
		}
	}
	return off[(n-1)*49/50], math.Sqrt(square / count), hi - lo
}

// smoothed is the mean of the values around each.
func smoothed(v []float64) []float64 {
	reach := max(len(v)/lineReach, 1)
	at := func(i int) float64 { return v[min(max(i, 0), len(v)-1)] }
	out := make([]float64, len(v))
	sum := 0.0
	for i := -reach; i <= reach; i++ {
		sum += at(i)
	}
	for i := range v {
		out[i] = sum / float64(2*reach+1)
		sum += at(i+reach+1) - at(i-reach)
	}
	return out
}

// MostOfIt is the share of an edge that has to be of one colour, within so many
// levels as in Calm, for that to be its colour.
const (
	MostOfIt  = 0.60
	withinOne = 14.0
)

// EdgeColour is the colour of a ground that meets the picture at those edges (left,
// top, right, bottom) that are asked for, linear: theirs where most of them is of
// one colour, else white, as of a mount. Where an edge is of many colours their
// mean is nowhere in the picture, and people took a ground of it for a mistake.
// on tells what of the edges does not count; where it covers all, it is not asked.
func (m *Image) EdgeColour(asked [4]bool, on Covered) [3]uint16 {
	px := m.edgeLevels(asked, on)
	if len(px) == 0 {
		px = m.edgeLevels(asked, nil)
	}
	if c, share := dominant(px); share >= MostOfIt {
		return unlevelled(middleNear(px, c))
	}
	return [3]uint16{65535, 65535, 65535}
}

// middleNear is the middle, channel by channel, of the colours that are near to one: of
// white paper, white, though some of its edge is a level or two darker.
func middleNear(px [][3]float64, c [3]float64) (mid [3]float64) {
	var of [3][]float64
	for i := range px {
		if p := &px[i]; isNear(p, &c) {
			for k, v := range p {
				of[k] = append(of[k], v)
			}
		}
	}
	for k, v := range of {
		slices.Sort(v)
		mid[k] = v[len(v)/2]
	}
	return mid
}

func isNear(p, c *[3]float64) bool {
	return math.Abs(p[0]-c[0]) <= withinOne && math.Abs(p[1]-c[1]) <= withinOne && math.Abs(p[2]-c[2]) <= withinOne
}

// EdgeShare is the share of the edges asked for that is of one colour, see EdgeColour.
func (m *Image) EdgeShare(asked [4]bool, on Covered) float64 {
	_, share := m.edgeColour(asked, on)
	return share
}

func (m *Image) edgeColour(asked [4]bool, on Covered) (c [3]float64, share float64) {
	px := m.edgeLevels(asked, on)
	if len(px) == 0 {
		px = m.edgeLevels(asked, nil)
	}
	return dominant(px)
}

// dominant is the colour that the most of the pixels are near to, and their share:
// from the fullest cell of a coarse map of colours, moved to the mean around it.
func dominant(px [][3]float64) (c [3]float64, share float64) {
	var cells [16][16][16]int32
	best := int32(0)
	for _, p := range px {
		n := &cells[int(p[0])>>4][int(p[1])>>4][int(p[2])>>4]
		if *n++; *n > best {
			best = *n
		}
	}
	for i := range 4096 {
		if cells[i>>8][i>>4&15][i&15] == best {
			c = [3]float64{float64(i>>8)*16 + 8, float64(i>>4&15)*16 + 8, float64(i&15)*16 + 8}
			break
		}
	}
	n := 0
	for range 4 {
		n = 0
		for i := range px {
			if isNear(&px[i], &c) {
				n++
			}
		}
		if n == 0 {
			break
		}
		var mean [3]float64
		for i := range px {
			if p := &px[i]; isNear(p, &c) {
				for k, v := range p {
					mean[k] += v / float64(n)
				}
			}
		}
		c = mean
	}
	return c, float64(n) / float64(max(len(px), 1))
}

// unlevelled takes levels, as in Calm, back to linear light.
func unlevelled(c [3]float64) (lin [3]uint16) {
	for k, v := range c {
		lin[k] = uint16(math.Max(0, math.Min(65535, v/255*v/255*65535+0.5)))
	}
	return lin
}

// unlikeBy is from how many levels on, as in Calm, a colour is another.
const unlikeBy = 20

// Unlike tells which pixels of the picture are of another colour.
func (m *Image) Unlike(c [3]uint16) Covered {
	var level [3]float64
	for k, v := range c {
		level[k] = 255 * math.Sqrt(float64(v)/65535)
	}
	return func(x, y int) bool {
		for k, v := range m.Row(y)[x*3 : x*3+3] {
			if math.Abs(255*math.Sqrt(float64(v)/65535)-level[k]) > unlikeBy {
				return true
			}
		}
		return false
	}
}

// Contact is the share of each edge of the picture (left, top, right, bottom) along which
// something covers it, a pixel inwards: the outermost is often a line of its own.
func (m *Image) Contact(on Covered) (share [4]float64) {
	for y := range m.H {
		for i, x := range [2]int{1, m.W - 2} {
			if on(x, y) {
				share[2*i] += 1 / float64(m.H)
			}
		}
	}
	for x := range m.W {
		for i, y := range [2]int{1, m.H - 2} {
			if on(x, y) {
				share[2*i+1] += 1 / float64(m.W)
			}
		}
	}
	return share
}

// edgeLevels lists the colours along the edges asked for, in levels as in Calm.
func (m *Image) edgeLevels(asked [4]bool, on Covered) (px [][3]float64) {
	deep := max(1, min(m.W, m.H)/50)
	px = make([][3]float64, 0, 2*deep*(m.W+m.H))
	take := func(from, to, y int) {
		row := m.Row(y)
		for x := from; x < to; x++ {
			if on != nil && on(x, y) {
				continue
			}
			var c [3]float64
			for k, p := range row[x*3 : x*3+3] {
				c[k] = 255 * math.Sqrt(float64(p)/65535)
			}
			px = append(px, c)
		}
	}
	for y := range m.H {
		if asked[1] && y < deep || asked[3] && y >= m.H-deep {
			take(0, m.W, y)
			continue
		}
		left := 0
		if asked[0] {
			left = min(deep, m.W)
			take(0, left, y)
		}
		if asked[2] {
			take(max(left, m.W-deep), m.W, y)
		}
	}
	return px
}

// How deep, as a share of the longer side, an edge goes over into a ground that is nearly
// of its colour, and by how many levels, as in Calm, what goes over wholly, and not at all, is off.
const (
	fadeDeep            = 0.02
	fadeFully, fadeNone = 8.0, 16.0
)

// FadeInto takes the picture's edges (left, top, right, bottom) that are asked for over into
// a ground that is nearly of their colour, so that no line is seen where they meet; on tells
// what is left as it is.
func (m *Image) FadeInto(c [3]uint16, asked [4]bool, on Covered) {
	deep := max(2, int(fadeDeep*float64(max(m.W, m.H))+0.5))
	var level [3]float64
	for k, v := range c {
		level[k] = math.Sqrt(float64(v) / 65535)
	}
	for y := range m.H {
		row := m.Row(y)
		for x := range m.W {
			d := deep
			for i, at := range [4]int{x, y, m.W - 1 - x, m.H - 1 - y} {
				if asked[i] {
					d = min(d, at)
				}
			}
			if d == deep || on != nil && on(x, y) {
				continue
			}
			p, off := row[3*x:3*x+3], 0.0
			for k, v := range p {
				off = math.Max(off, 255*math.Abs(math.Sqrt(float64(v)/65535)-level[k]))
			}
			t := 1 - (float64(d)+0.5)/float64(deep)
			t *= math.Max(0, math.Min(1, (fadeNone-off)/(fadeNone-fadeFully)))
			for k, v := range p {
				p[k] = uint16(float64(v) + t*(float64(c[k])-float64(v)) + 0.5)
			}
		}
	}
}

// OnGround returns a picture of w × h of one colour with m at (left, top), which
// must fit.
func (m *Image) OnGround(w, h, left, top int, c [3]uint16) *Image {
	out := Unset(w, h)
	bare := make([]uint16, w*3)
	for x := 0; x < len(bare); x += 3 {
		copy(bare[x:], c[:])
	}
	for y := range h {
		row := out.Row(y)
		if y < top || y >= top+m.H {
			copy(row, bare)
			continue
		}
		copy(row[:left*3], bare)
		n := left*3 + copy(row[left*3:], m.Row(y-top))
		copy(row[n:], bare[n:])
	}
	return out
}
