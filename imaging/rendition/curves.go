package rendition

import (
	"math"
	"sync"

	"slabfolio/imaging/colour"
)

// Linear values, 0 to 65535, become sRGB-coded ones in 8.8 fixed point, 0 to
// 65280, by one look-up. The eight bits after the point are rounded away once,
// after sharpening and the change to luma and chroma. No dither is added: the
// noise that a photo has left after a downscale from 16 bits is more than the
// rounding, and JPEG would spend its bytes on a dither only to smooth it away.

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

// Luma returns the luma of one linear pixel, 0 to 65280.
func Luma(r, g, b uint16) uint16 {
	t := srgbTable()
	return uint16((lumaR*uint32(t[r]) + lumaG*uint32(t[g]) + lumaB*uint32(t[b]) + 1<<15) >> 16)
}
