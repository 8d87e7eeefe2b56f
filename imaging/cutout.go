package imaging

import (
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
	near  [][3]float32  // F: the piece's colour, carried a little beyond its outline, to tell whether it differs from B
	shade []float32     // s, carried a little under the piece
	soft  [][4]float32  // what t is of c/B: see soften
	zone  []uint8
	open  []uint8 // 1 where the backdrop is seen, in light or in shade
	solid []uint8 // 1 on the piece
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
	nearlyBare = 0.10 // of a below which a pixel at the edge is taken for ground …
	notBare    = 0.30 // … and from which on it keeps all of the piece's light: a JPEG's colour runs over the edge
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
	if !c.fitLit(m) {
		return nil, whyUnsure
	}
	c.extend(m)
	if c.refine(c.ratios(m), mask) > mostTaken {
		return nil, whyAlike
	}
	if !c.learn(m) {
		return nil, whyUnsure
	}
	if mid := c.litAt(float64(m.W)/2, float64(m.H)/2); 0.2126*mid[0]+0.7152*mid[1]+0.0722*mid[2] < litLeast*65535 {
		return nil, whyDark
	}
	if c.clearShare(c.solid) < edgeShare || c.bareShare(m) > bareInside {
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
	ratio := c.ratios(m)
	c.soften(ratio, c.known(ratio))
	return true
}
