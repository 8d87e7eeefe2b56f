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

// How much of an edge has to be of one colour, within so many levels as in Calm,
// for that to be its colour; and how far apart the colours of another edge may be
// for their mean to be a colour that the eye finds there, and for it to be none.
const (
	oneOfMany  = 0.30
	withinOne  = 14.0
	oneColour  = 15.0
	manyColour = 45.0
	leastOfIt  = 0.3 // what is left of the mean's colour then
)

// EdgeColour is the colour along the picture's edge, linear, where on leaves it
// free; all of it where on covers all. Where a good part of the edge is of one
// colour, a backdrop that something stands before, it is the mean of that part.
// Where the edge is of many colours, their mean is one that is nowhere in the
// picture, so it goes towards a grey of the same luminance.
func (m *Image) EdgeColour(on Covered) [3]uint16 {
	px := m.edgeLevels(on)
	if len(px) == 0 {
		px = m.edgeLevels(nil)
	}
	if c, ok := dominant(px); ok {
		return unlevelled(c)
	}
	mean, spread := averaged(px)
	c := unlevelled(mean)
	grey := 0.2126*float64(c[0]) + 0.7152*float64(c[1]) + 0.0722*float64(c[2])
	keep := 1 - (1-leastOfIt)*math.Max(0, math.Min(1, (spread-oneColour)/(manyColour-oneColour)))
	for k, v := range c {
		c[k] = uint16(math.Max(0, math.Min(65535, grey+keep*(float64(v)-grey)+0.5)))
	}
	return c
}

// dominant is the colour that a good part of the pixels are near to: from the
// fullest cell of a coarse map of colours, moved to the mean around it.
func dominant(px [][3]float64) (c [3]float64, ok bool) {
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
		var near [][3]float64
		for _, p := range px {
			if math.Abs(p[0]-c[0]) <= withinOne && math.Abs(p[1]-c[1]) <= withinOne && math.Abs(p[2]-c[2]) <= withinOne {
				near = append(near, p)
			}
		}
		if n = len(near); n == 0 {
			break
		}
		c, _ = averaged(near)
	}
	return c, float64(n) >= oneOfMany*float64(len(px))
}

// averaged is the mean of colours and the largest standard deviation of a channel.
func averaged(px [][3]float64) (mean [3]float64, spread float64) {
	var square [3]float64
	n := float64(max(len(px), 1))
	for _, p := range px {
		for k, v := range p {
			mean[k] += v / n
			square[k] += float64(v*v) / n
		}
	}
	for k := range mean {
		spread = math.Max(spread, math.Sqrt(math.Max(0, square[k]-float64(mean[k]*mean[k]))))
	}
	return mean, spread
}

// unlevelled takes levels, as in Calm, back to linear light.
func unlevelled(c [3]float64) (lin [3]uint16) {
	for k, v := range c {
		lin[k] = uint16(math.Max(0, math.Min(65535, v/255*v/255*65535+0.5)))
	}
	return lin
}

// edgeLevels lists the colours along the picture's edge, in levels as in Calm.
func (m *Image) edgeLevels(on Covered) (px [][3]float64) {
	deep := max(1, min(m.W, m.H)/50)
	for y := range m.H {
		for x := 0; x < m.W; x++ {
			if y >= deep && y < m.H-deep && x == deep {
				x = max(x, m.W-deep)
			}
			if x >= m.W || on != nil && on(x, y) {
				continue
			}
			var c [3]float64
			for k, p := range m.Row(y)[x*3 : x*3+3] {
				c[k] = 255 * math.Sqrt(float64(p)/65535)
			}
			px = append(px, c)
		}
	}
	return px
}

// OnGround returns a picture of w × h of one colour with m at (left, top), which
// must fit.
func (m *Image) OnGround(w, h, left, top int, c [3]uint16) *Image {
	out := New(w, h)
	for y := range h {
		row := out.Row(y)
		for x := 0; x < len(row); x += 3 {
			copy(row[x:x+3], c[:])
		}
		if y >= top && y < top+m.H {
			copy(row[left*3:], m.Row(y-top))
		}
	}
	return out
}
