package imaging

import (
	"math"

	"slabfolio/imaging/pixel"
)

// The piece on another ground, pixel by pixel.

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
