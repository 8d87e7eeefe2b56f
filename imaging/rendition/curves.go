package rendition

import (
	"math"
	"sync"

	"slabfolio/imaging/colour"
)

// Curves take linear values, 0 to 65535, to sRGB-coded ones in 8.8 fixed point,
// 0 to 65280: tone and the sRGB curve in one look-up a channel. The eight bits
// after the point are rounded away once, after sharpening and the change to
// luma and chroma. No dither is added: the noise that a photo has left after a
// downscale from 16 bits is more than the rounding, and JPEG would spend its
// bytes on a dither only to smooth it away.
type Curves [3][]uint16

// newTable returns a table of 65536 values, with room for the vector code to
// read one past the last.
func newTable() []uint16 { return make([]uint16, 65536, 65538) }

// codedWhite is sRGB 255 in 8.8 fixed point.
const codedWhite = 255 << 8

// srgbTable is the sRGB curve for every linear value.
var srgbTable = sync.OnceValue(func() []uint16 {
	t := newTable()
	for i := range t {
		t[i] = uint16(math.Round(colour.Encode(float64(i)/65535) * codedWhite))
	}
	return t
})

// AsShot returns the curves that change no tone.
func AsShot() *Curves {
	t := srgbTable()
	return &Curves{t, t, t}
}

// Toned returns the curves of a tone given as linear to linear, one table of
// 65536 values a channel; a nil table leaves its channel as it is.
func Toned(tone [3][]uint16) *Curves {
	t := srgbTable()
	c := AsShot()
	for ch, lut := range tone {
		if len(lut) != 65536 {
			continue
		}
		coded := newTable()
		for i, v := range lut {
			coded[i] = t[v]
		}
		c[ch] = coded
	}
	return c
}

// Luma returns the luma of one linear pixel, 0 to 65280.
func (c *Curves) Luma(r, g, b uint16) uint16 {
	return uint16((lumaR*uint32(c[0][r]) + lumaG*uint32(c[1][g]) + lumaB*uint32(c[2][b]) + 1<<15) >> 16)
}
