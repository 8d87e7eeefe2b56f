// Package pixel is the linear-light picture that all the other photo packages
// work on.
package pixel

import (
	"slices"

	"slabfolio/imaging/spare"
)

// An Image is a picture in linear light: sRGB primaries, D65 white, three
// interleaved 16-bit channels, 65535 = diffuse white of the encoding (sRGB 255).
// Its origin is always (0, 0) and its rows are contiguous: pixel (x, y) starts
// at Pix[(y*W+x)*3].
type Image struct {
	W, H int
	Pix  []uint16
}

// New returns a black picture.
func New(w, h int) *Image { return &Image{w, h, make([]uint16, w*h*3)} }

// Unset returns a picture of no content: whoever asks for it sets every pixel.
func Unset(w, h int) *Image { return &Image{w, h, spare.Take[uint16](w * h * 3)} }

// Release gives the picture's memory to the next. The picture is gone then, and so
// is every other that shares its pixels.
func (m *Image) Release() {
	spare.Give(m.Pix)
	*m = Image{}
}

// Clone returns a copy of the picture.
func (m *Image) Clone() *Image { return &Image{m.W, m.H, slices.Clone(m.Pix)} }

// Row returns row y, three values a pixel.
func (m *Image) Row(y int) []uint16 { return m.Pix[y*m.W*3 : (y+1)*m.W*3 : (y+1)*m.W*3] }
