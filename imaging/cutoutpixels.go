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

// pixel works out one pixel of put, at (u, v) of the reduced copy: on the ground
// by its shade, on the piece as it is, and between them by what passes the edge.
func (c *cutout) pixel(dst, src []uint16, u, v float64, ground [3]uint16) {
	e := c.edgeAt(u, v)
	if e.piece == 1 {
		copy(dst, src)
		return
	}
	b := c.litAt(u, v)
	var flat [3]uint16
	shaded(flat[:], src, b, ground)
	if e.bare == 1 {
		copy(dst, flat[:])
		return
	}
	r := [3]float32{float32(float64(src[0]) / b[0]), float32(float64(src[1]) / b[1]), float32(float64(src[2]) / b[2])}
	t := float64(e.passing(r))
	a := 1 - t/math.Max(float64(e.shade), 0.05)
	keep := math.Max(0, math.Min(1, (a-nearlyBare)/(notBare-nearlyBare)))
	piece, bare := float64(e.piece), float64(e.bare)
	for k, g := range ground {
		own := math.Max(0, float64(src[k])-float64(t*b[k])) // what of the pixel is the piece's own light
		soft := float64(keep*(own+float64(float64(g)*math.Min(1, t/fullyLit)))) + float64((1-keep)*float64(flat[k]))
		dst[k] = clipped16(float64(piece*float64(src[k])) + float64(bare*float64(flat[k])) + float64((1-piece-bare)*soft))
	}
}

func clipped16(v float64) uint16 { return uint16(math.Max(0, math.Min(65535, v+0.5))) }
