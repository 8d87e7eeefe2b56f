package rendition

import (
	"image"

	"slabfolio/imaging/pixel"
	"slabfolio/imaging/spare"
)

// A Picture is sRGB-coded and ready to encode: luma in every pixel, chroma in
// every second one of every second row, in 8.8 fixed point, by the weights and
// full range of JFIF (BT.601).
type Picture struct {
	W, H   int
	cw     int // chroma samples a row
	y      []uint16
	cb, cr []uint16
}

// Luma weights of BT.601 in 16-bit fixed point; they add up to one.
const (
	lumaR = 19595
	lumaG = 38470
	lumaB = 7471
)

// Chroma weights of BT.601, full range, in 16-bit fixed point.
const (
	cbR, cbG, cbB = -11059, -21709, 32768
	crR, crG, crB = 32768, -27439, -5329
)

// Develop gives m the sRGB curve and sharpens its luma by amount
// (see SharpenAmount). Chroma is the mean of each 2 × 2 pixels.
func Develop(m *pixel.Image, amount float64) *Picture {
	return DevelopPart(m, 0, 0, m.W, m.H, amount)
}

// DevelopPart is Develop for the part of w × h at (x, y), which must lie in m.
func DevelopPart(m *pixel.Image, x, y, w, h int, amount float64) *Picture {
	p := &Picture{W: w, H: h, cw: (w + 1) / 2}
	ch := (h + 1) / 2
	p.y, p.cb, p.cr = spare.Take[uint16](w*h), spare.Take[uint16](p.cw*ch), spare.Take[uint16](p.cw*ch)
	sum, srgb := newSums(p.cw), srgbTable()
	for j := range ch {
		sum.clear()
		y0, y1 := 2*j, min(2*j+1, h-1) // the last row of an odd height counts twice
		p.lumaRow(m.Row(y + y0)[3*x:3*(x+w)], y0, sum, srgb)
		p.lumaRow(m.Row(y + y1)[3*x:3*(x+w)], y1, sum, srgb)
		sum.chroma(p.cb[j*p.cw:(j+1)*p.cw], p.cr[j*p.cw:(j+1)*p.cw])
	}
	if amount > 0 {
		sharpen(p.y, w, h, amount)
	}
	return p
}

// Release gives the picture's memory to the next. The picture is gone then.
func (p *Picture) Release() {
	for _, b := range [][]uint16{p.cr, p.cb, p.y} {
		spare.Give(b)
	}
	*p = Picture{}
}

// sums are the colours of a row of chroma samples, each of four pixels.
type sums struct{ r, g, b []uint32 }

func newSums(n int) *sums { return &sums{make([]uint32, n), make([]uint32, n), make([]uint32, n)} }

func (s *sums) clear() {
	clear(s.r)
	clear(s.g)
	clear(s.b)
}

// lumaRow codes a row of linear pixels, sets the row's luma and adds its
// colours to sum, two pixels to a chroma sample.
func (p *Picture) lumaRow(row []uint16, y int, sum *sums, srgb []uint16) {
	luma := p.y[y*p.W : (y+1)*p.W]
	t := srgb[:65536]
	for x := codeVector(luma, row, sum, srgb); x < len(luma); x++ {
		in := row[3*x : 3*x+3 : 3*x+3]
		r, g, b := uint32(t[in[0]]), uint32(t[in[1]]), uint32(t[in[2]])
		luma[x] = uint16((lumaR*r + lumaG*g + lumaB*b + 1<<15) >> 16)
		if x%2 == 0 && x+1 == len(luma) { // the last column of an odd width counts twice
			r, g, b = 2*r, 2*g, 2*b
		}
		sum.r[x/2] += r
		sum.g[x/2] += g
		sum.b[x/2] += b
	}
}

// chroma makes a row of chroma of the sums.
func (s *sums) chroma(cb, cr []uint16) {
	n := len(cb)
	cr, sr, sg, sb := cr[:n], s.r[:n], s.g[:n], s.b[:n]
	const half = 128<<8<<18 + 1<<17
	for i := range cb {
		r, g, b := int64(sr[i]), int64(sg[i]), int64(sb[i])
		cb[i] = uint16((cbR*r + cbG*g + cbB*b + half) >> 18)
		cr[i] = uint16((crR*r + crG*g + crB*b + half) >> 18)
	}
}

// full returns the picture in the 8 bits and full range that JPEG wants.
// Its planes are given back by giveBack.
func (p *Picture) full() *image.YCbCr {
	m := p.planes()
	toLevels(m.Y, p.y)
	toLevels(m.Cb, p.cb)
	toLevels(m.Cr, p.cr)
	return m
}

// limited returns the picture in the range that WebP wants: luma from 16 to
// 235, chroma from 16 to 240. Its planes are given back by giveBack.
func (p *Picture) limited() *image.YCbCr {
	m := p.planes()
	const lumaScale, chromaScale = 56283, 57569 // 219/255 and 224/255 in 16 bits
	for i, v := range p.y {
		m.Y[i] = uint8((uint32(v)*lumaScale + 16<<24 + 1<<23) >> 24)
	}
	limit := func(dst []uint8, src []uint16) {
		for i, v := range src {
			d := int64(v) - 128<<8
			dst[i] = uint8((d*chromaScale + 128<<24 + 1<<23) >> 24)
		}
	}
	limit(m.Cb, p.cb)
	limit(m.Cr, p.cr)
	return m
}

// planes are planes for the picture in 8 bits, whatever they hold.
func (p *Picture) planes() *image.YCbCr {
	return &image.YCbCr{
		Y: spare.Take[uint8](len(p.y)), Cb: spare.Take[uint8](len(p.cb)), Cr: spare.Take[uint8](len(p.cr)),
		YStride: p.W, CStride: p.cw, SubsampleRatio: image.YCbCrSubsampleRatio420, Rect: image.Rect(0, 0, p.W, p.H),
	}
}

// giveBack gives the memory of planes to the next picture.
func giveBack(m *image.YCbCr) {
	for _, plane := range [][]uint8{m.Y, m.Cb, m.Cr} {
		spare.Give(plane)
	}
}
