package decode

import (
	"image"

	"slabfolio/imaging/colour"
)

// videoRange is the coding of VP8: BT.601 weights, luma 16 to 235 (RFC 6386,
// section 9.2).
var videoRange = colour.Coding{Limited: true}

// webpImage takes what the WebP reader returns. VP8 frames come as YCbCr planes
// in video range, which the reader does not say; with alpha they become NRGBA.
func webpImage(m image.Image) (image.Image, colour.Coding) {
	switch m := m.(type) {
	case *image.YCbCr:
		return m, videoRange
	case *image.NYCbCrA:
		return joinAlpha(m, videoRange), colour.Coding{}
	}
	return asNRGBA(m), colour.Coding{}
}

// joinAlpha turns planes with alpha into NRGBA, chroma repeated: such a picture
// is a cut-out or a logo, not a photo of a table.
func joinAlpha(m *image.NYCbCrA, c colour.Coding) *image.NRGBA {
	b := m.Bounds()
	out := image.NewNRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	k := c.Factors()
	for y := range b.Dy() {
		d := out.Pix[y*out.Stride:]
		for x := range b.Dx() {
			ci := m.COffset(b.Min.X+x, b.Min.Y+y)
			yy := k.Y * (float64(m.Y[m.YOffset(b.Min.X+x, b.Min.Y+y)]) - k.Black)
			cb, cr := float64(m.Cb[ci])-128, float64(m.Cr[ci])-128
			d[4*x] = round8(yy + k.RCr*cr)
			d[4*x+1] = round8(yy - k.GCb*cb - k.GCr*cr)
			d[4*x+2] = round8(yy + k.BCb*cb)
			d[4*x+3] = m.A[m.AOffset(b.Min.X+x, b.Min.Y+y)]
		}
	}
	return out
}

func round8(v float64) uint8 { return uint8(min(max(v, 0), 255) + 0.5) }
