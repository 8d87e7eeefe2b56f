package imaging

import (
	"image/color"
	"math"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
)

// A cutout knows how to put the piece of one photo on another ground. What a
// camera saw at a pixel is c = a·F + (1−a)·s·B: the piece F over the lit backdrop
// B, in the shade s, with the share a of the piece. On a ground G it would have
// seen a·F + (1−a)·s·G, which is c + (1−a)·s·(G−B): neither F nor a mask with a
// hard edge is needed, the shade that the piece casts stays, and where a is 0 it
// comes to G·c/B, so what the outline missed keeps its colour.
//
// All maps lie over the reduced copy of the upright photo.
type cutout struct {
	w, h  int
	lit   [3][6]float64 // B by channel: a polynomial of second degree in place
	near  [][3]float32  // F: the piece's colour, carried a little beyond its outline
	shade []float32     // s, carried a little under the piece
	zone  []uint8
}

// The zones of a cutout.
const (
	onGround uint8 = iota // surely not the piece
	outside               // within a few pixels of the outline
	within                // the same, on the piece's side of it
	onPiece               // surely the piece
)

// What makes an outline sure enough for another ground.
const (
	edgeReach  = 5    // pixels of the reduced copy on either side of the outline
	edgeStep   = 12.0 // levels of 255 on a square-root scale by which piece and backdrop differ at the outline
	edgeShare  = 0.96 // of the outline along which they do
	litLeast   = 0.10 // linear: before a darker backdrop no shadow is to be seen, and none to be kept
	litSpread  = 0.06 // by how much the lit backdrop may differ from its polynomial, as a share
	fullyLit   = 0.97 // of B from which on a pixel counts as lit: the grain of paper is no shadow
	nearlyBare = 0.10 // of a below which a pixel at the edge is taken for ground
	noShade    = 0.10 // by how much the channels of c/B may differ for it to be a shade, as a share
	sureColour = 0.25 // and from which on it is a colour
	leastSide  = 1000 // pixels: a smaller photo has more JPEG blocks than outline
	bareInside = 0.03 // share of the piece that may look like backdrop: a shine; more is what shows between its spindles
	darkGround = 0.5  // of the luminance of the backdrop: on a darker ground each error of the shade lights up
)

// Why a piece is not put on a ground, the value "why" of ground.refused.
const (
	whyUnsure = 1 // the outline is not sure
	whyRim    = 2 // the piece runs out of the photo
	whyDark   = 3 // the backdrop is too dark to show a shadow
	whyAlike  = 4 // piece and backdrop are too much alike at the outline
	whySmall  = 5 // the photo has too few pixels
	whyGround = 6 // the ground asked for is much darker than the backdrop
)

// newCutout prepares the piece of a photo for another ground; why is 0, or the
// reason that it cannot be done.
func newCutout(p *Photo) (c *cutout, why int) {
	f := p.Frame
	if !f.Sure || !f.Plain || f.Mask == nil {
		return nil, whyUnsure
	}
	if max(p.W, p.H) < leastSide {
		return nil, whySmall
	}
	m := p.small
	c = &cutout{w: m.W, h: m.H, zone: make([]uint8, m.W*m.H)}
	mask := make([]uint8, m.W*m.H)
	in := f.Inside
	for y := range m.H {
		for x := range m.W {
			u, v := (float64(x)+0.5)/float64(m.W), (float64(y)+0.5)/float64(m.H)
			if f.Mask.At(u, v) == 0 {
				continue
			}
			mask[y*m.W+x] = 1
			if u < in[0]+0.004 || v < in[1]+0.004 || u > in[2]-0.004 || v > in[3]-0.004 {
				return nil, whyRim
			}
		}
	}
	c.setZones(mask)
	if !c.learn(m) {
		return nil, whyUnsure
	}
	if mid := c.litAt(float64(m.W)/2, float64(m.H)/2); 0.2126*mid[0]+0.7152*mid[1]+0.0722*mid[2] < litLeast*65535 {
		return nil, whyDark
	}
	if c.clearShare(mask) < edgeShare || c.bareShare(m) > bareInside {
		return nil, whyAlike
	}
	return c, 0
}

// learn takes B, F and s from a picture of the size of the reduced copy; ok is
// false where the backdrop is not smooth.
func (c *cutout) learn(m *pixel.Image) (ok bool) {
	if !c.fitLit(m) {
		return false
	}
	c.extend(m)
	return true
}

// setZones sets the zones by the distance from the outline.
func (c *cutout) setZones(mask []uint8) {
	out, in := grown(mask, c.w, c.h, edgeReach, 1), grown(mask, c.w, c.h, edgeReach/2, 0)
	for i := range mask {
		switch {
		case in[i] != 0:
			c.zone[i] = onPiece
		case mask[i] != 0:
			c.zone[i] = within
		case out[i] != 0:
			c.zone[i] = outside
		}
	}
}

// grown returns the mask with what is v (0 or 1) grown by n pixels each way.
func grown(mask []uint8, w, h, n int, v uint8) []uint8 {
	out := append([]uint8(nil), mask...)
	for _, step := range [2]int{1, w} {
		src := append([]uint8(nil), out...)
		for y := range h {
			for x := range w {
				at, size := x, w
				if step == w {
					at, size = y, h
				}
				for d := -min(n, at); d <= min(n, size-1-at); d++ {
					if src[y*w+x+d*step] == v {
						out[y*w+x] = v
						break
					}
				}
			}
		}
	}
	return out
}

// powers are the six terms of a polynomial at a pixel of the reduced copy.
func (c *cutout) powers(x, y float64) [6]float64 {
	u, v := 2*x/float64(c.w)-1, 2*y/float64(c.h)-1
	return [6]float64{1, u, v, u * v, u * u, v * v}
}

// litAt is B at a pixel of the reduced copy, linear.
func (c *cutout) litAt(x, y float64) (b [3]float64) {
	t := c.powers(x, y)
	for k := range b {
		for i, v := range t {
			b[k] += float64(c.lit[k][i] * v)
		}
		b[k] = math.Max(b[k], 1)
	}
	return b
}

// fitLit fits B through the ground, step by step without what is darker than it:
// shadows. ok tells whether what is left is smooth.
func (c *cutout) fitLit(m *pixel.Image) (ok bool) {
	var rest float64
	for pass := range 5 {
		var a [6][7]float64
		for k := range 3 {
			a = [6][7]float64{}
			var n, off float64
			for y := 1; y < c.h; y += 3 {
				for x := 1; x < c.w; x += 3 {
					if c.zone[y*c.w+x] != onGround {
						continue
					}
					q := m.Row(y)[x*3 : x*3+3]
					if pass > 0 && c.shadowed(q, float64(x), float64(y), 0.10/float64(pass)) {
						continue
					}
					t := c.powers(float64(x), float64(y))
					for i := range 6 {
						for j := range 6 {
							a[i][j] += float64(t[i] * t[j])
						}
						a[i][6] += float64(t[i] * float64(q[k]))
					}
					n++
					if pass > 0 {
						off += math.Abs(float64(q[k])/c.litAt(float64(x), float64(y))[k] - 1)
					}
				}
			}
			if n < 200 {
				return false
			}
			rest = math.Max(rest*float64(min(k, 1)), off/n)
			c.lit[k] = solved(a)
		}
	}
	return rest <= litSpread
}

// shadowed reports whether a pixel of the ground is darker than B by more than
// some share in its luminance, or brighter by twice that.
func (c *cutout) shadowed(q []uint16, x, y, share float64) bool {
	b := c.litAt(x, y)
	is := 0.2126*float64(q[0]) + 0.7152*float64(q[1]) + 0.0722*float64(q[2])
	lit := 0.2126*b[0] + 0.7152*b[1] + 0.0722*b[2]
	return is < lit*(1-share) || is > lit*(1+2*share)
}

// solved solves six equations by elimination with pivoting.
func solved(a [6][7]float64) (x [6]float64) {
	for i := range 6 {
		p := i
		for j := i + 1; j < 6; j++ {
			if math.Abs(a[j][i]) > math.Abs(a[p][i]) {
				p = j
			}
		}
		a[i], a[p] = a[p], a[i]
		if math.Abs(a[i][i]) < 1e-9 {
			continue
		}
		for j := range 6 {
			if j == i {
				continue
			}
			f := a[j][i] / a[i][i]
			for k := i; k < 7; k++ {
				a[j][k] -= float64(f * a[i][k])
			}
		}
	}
	for i := range 6 {
		if math.Abs(a[i][i]) >= 1e-9 {
			x[i] = a[i][6] / a[i][i]
		}
	}
	return x
}

// extend sets F and s: each from where it is seen, carried over the edge by means
// of what is known beside it.
func (c *cutout) extend(m *pixel.Image) {
	c.near, c.shade = make([][3]float32, c.w*c.h), make([]float32, c.w*c.h)
	value := make([][4]float32, c.w*c.h)
	for y := range c.h {
		for x := range c.w {
			i := y*c.w + x
			q := m.Row(y)[x*3 : x*3+3]
			b := c.litAt(float64(x)+0.5, float64(y)+0.5)
			s := (0.2126*float64(q[0]) + 0.7152*float64(q[1]) + 0.0722*float64(q[2])) / (0.2126*b[0] + 0.7152*b[1] + 0.0722*b[2])
			value[i] = [4]float32{float32(q[0]), float32(q[1]), float32(q[2]), float32(math.Min(s/fullyLit, 1))}
		}
	}
	piece := c.spread(value, onPiece)
	bare := c.spread(value, onGround)
	for i := range c.near {
		c.near[i] = [3]float32(piece[i][:3])
		c.shade[i] = bare[i][3]
	}
}

// spread carries the values of one zone outwards over the edge, ring by ring.
func (c *cutout) spread(value [][4]float32, from uint8) [][4]float32 {
	out := append([][4]float32(nil), value...)
	known := make([]bool, len(value))
	var rim []int
	for i, z := range c.zone {
		known[i] = z == from
		if z == within || z == outside {
			rim = append(rim, i)
		}
	}
	for range 4 * edgeReach {
		var next, now []int
		for _, i := range rim {
			var sum [4]float32
			n := float32(0)
			x, y := i%c.w, i/c.w
			for v := max(y-1, 0); v <= min(y+1, c.h-1); v++ {
				for u := max(x-1, 0); u <= min(x+1, c.w-1); u++ {
					if j := v*c.w + u; known[j] {
						for k, p := range out[j] {
							sum[k] += p
						}
						n++
					}
				}
			}
			if n == 0 {
				next = append(next, i)
				continue
			}
			for k := range sum {
				out[i][k] = sum[k] / n
			}
			now = append(now, i)
		}
		for _, i := range now {
			known[i] = true
		}
		if rim = next; len(rim) == 0 || len(now) == 0 {
			break
		}
	}
	return out
}

// clearShare is the share of the outline along which piece and backdrop differ.
func (c *cutout) clearShare(mask []uint8) float64 {
	clear, all := 0.0, 0.0
	for y := 1; y < c.h-1; y++ {
		for x := 1; x < c.w-1; x++ {
			i := y*c.w + x
			if mask[i] == 0 || mask[i-1]&mask[i+1]&mask[i-c.w]&mask[i+c.w] != 0 {
				continue
			}
			all++
			b := c.litAt(float64(x), float64(y))
			d := 0.0
			for k, f := range c.near[i] {
				e := 255 * (math.Sqrt(math.Max(float64(f), 0)/65535) - math.Sqrt(float64(c.shade[i])*b[k]/65535))
				d += float64(e * e)
			}
			if math.Sqrt(d) >= edgeStep {
				clear++
			}
		}
	}
	return clear / math.Max(all, 1)
}

// bareShare is the share of the piece that looks like the lit backdrop.
func (c *cutout) bareShare(m *pixel.Image) float64 {
	bare, all := 0.0, 0.0
	for i, z := range c.zone {
		if z != onPiece {
			continue
		}
		all++
		x, y := i%c.w, i/c.w
		b := c.litAt(float64(x), float64(y))
		lo, hi := math.Inf(1), 0.0
		for k, v := range m.Row(y)[x*3 : x*3+3] {
			r := float64(v) / b[k]
			lo, hi = math.Min(lo, r), math.Max(hi, r)
		}
		if lo > 0.75 && hi < 1.15 && hi-lo < noShade {
			bare++
		}
	}
	return bare / math.Max(all, 1)
}

// shaded is what the ground shows where the camera saw the backdrop: as much
// darker as that was, and of another colour only where that surely had one.
func shaded(dst, src []uint16, b [3]float64, ground [3]uint16) {
	var r [3]float64
	lo, hi := math.Inf(1), 0.0
	for k := range r {
		r[k] = float64(src[k]) / (b[k] * fullyLit)
		lo, hi = math.Min(lo, r[k]), math.Max(hi, r[k])
	}
	shade := 0.2126*r[0] + 0.7152*r[1] + 0.0722*r[2]
	colour := math.Max(0, math.Min(1, ((hi-lo)/math.Max(hi, 1e-6)-noShade)/(sureColour-noShade)))
	for k, g := range ground {
		dst[k] = clipped16(float64(g) * math.Min(1, shade+colour*(r[k]-shade)))
	}
}

// putOnGround returns a picture with the piece on a ground of one linear colour. at tells
// where a pixel of the picture lies in the reduced copy.
func (c *cutout) putOnGround(m *pixel.Image, at func(x, y float64) (float64, float64), ground [3]uint16) *pixel.Image {
	out := pixel.New(m.W, m.H)
	for y := range m.H {
		src, dst := m.Row(y), out.Row(y)
		for x := range m.W {
			u, v := at(float64(x)+0.5, float64(y)+0.5)
			c.pixel(dst[x*3:x*3+3], src[x*3:x*3+3], u, v, ground)
		}
	}
	return out
}

// pixel works out one pixel of put, at (u, v) of the reduced copy.
func (c *cutout) pixel(dst, src []uint16, u, v float64, ground [3]uint16) {
	i := min(max(int(v), 0), c.h-1)*c.w + min(max(int(u), 0), c.w-1)
	if c.zone[i] == onPiece {
		copy(dst, src)
		return
	}
	b := c.litAt(u, v)
	if c.zone[i] == onGround {
		shaded(dst, src, b, ground)
		return
	}
	near, s := c.mixed(u, v)
	var dot, length, off float64
	for k := range b {
		f, d := float64(near[k])-s*b[k], float64(src[k])-s*b[k]
		dot += float64(f * d)
		length += float64(f * f)
		off += float64(d * d)
	}
	a := dot / math.Max(length, 1)
	if c.zone[i] == within { // a piece has more colours than the one beside its edge
		a = math.Sqrt(off / math.Max(length, 1))
	}
	a = math.Max(0, math.Min(1, a))
	a = math.Max(0, a-nearlyBare) / (1 - nearlyBare)
	if a == 0 {
		shaded(dst, src, b, ground)
		return
	}
	for k, g := range ground {
		dst[k] = clipped16(float64(src[k]) + (1-a)*s*(float64(g)-b[k]))
	}
}

// mixed is F and s at a place between four pixels.
func (c *cutout) mixed(u, v float64) (near [3]float32, s float64) {
	x, y := math.Max(u-0.5, 0), math.Max(v-0.5, 0)
	x0, y0 := min(int(x), c.w-1), min(int(y), c.h-1)
	x1, y1 := min(x0+1, c.w-1), min(y0+1, c.h-1)
	fx, fy := float32(x-float64(x0)), float32(y-float64(y0))
	for _, q := range [4]struct {
		i int
		t float32
	}{{y0*c.w + x0, (1 - fx) * (1 - fy)}, {y0*c.w + x1, fx * (1 - fy)}, {y1*c.w + x0, (1 - fx) * fy}, {y1*c.w + x1, fx * fy}} {
		for k, f := range c.near[q.i] {
			near[k] += float32(q.t * f)
		}
		s += float64(q.t * c.shade[q.i])
	}
	return near, s
}

func clipped16(v float64) uint16 { return uint16(math.Max(0, math.Min(65535, v+0.5))) }

// cut settles whether the piece can be put on the grounds that are asked for.
func (p *Photo) cut() {
	asked := p.ground != nil
	for _, s := range p.opts.Sizes {
		asked = asked || s.Ground != nil
	}
	if !asked {
		return
	}
	var why int
	if p.cutout, why = newCutout(p); why == 0 && p.tooDark() {
		p.cutout, why = nil, whyGround
	}
	if why != 0 {
		p.refuseGround(why)
	}
}

func (p *Photo) refuseGround(why int) {
	p.cutout = nil
	p.Notes = append(p.Notes, note.Note{Code: "ground.refused", Values: map[string]float64{"why": float64(why)}})
}

// learnGround looks at the photo again in the light that it comes out in: on the
// ground asked for it stands with that tone.
func (p *Photo) learnGround() {
	if p.cutout == nil {
		return
	}
	m := p.small.Clone()
	p.Tone.Apply(m)
	if !p.cutout.learn(m) {
		p.refuseGround(whyUnsure)
		return
	}
	p.record(true, "ground.put", nil)
}

// tooDark reports whether a ground that is asked for is much darker than the
// backdrop.
func (p *Photo) tooDark() bool {
	b := p.cutout.litAt(float64(p.small.W)/2, float64(p.small.H)/2)
	least := darkGround * (0.2126*b[0] + 0.7152*b[1] + 0.0722*b[2]) / 65535
	dark := func(c *color.NRGBA) bool { return c != nil && luminance(*c) < least }
	if dark(p.ground) {
		return true
	}
	for _, s := range p.opts.Sizes {
		if dark(s.Ground) {
			return true
		}
	}
	return false
}

// groundOf is the ground that a size stands on: its own, else the photo's; nil:
// the photo's own backdrop.
func (p *Photo) groundOf(size *color.NRGBA) *color.NRGBA {
	if size != nil {
		return size
	}
	return p.ground
}

// linearOf is a colour in linear light.
func linearOf(c color.NRGBA) (out [3]uint16) {
	for k, v := range [3]uint8{c.R, c.G, c.B} {
		out[k] = clipped16(65535 * colour.Decode(float64(v)/255))
	}
	return out
}
