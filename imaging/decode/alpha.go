package decode

import "image"

// videoRange is the coding of VP8: BT.601 weights, luma 16 to 235 (RFC 6386,
// section 9.2).
var videoRange = Coding{Limited: true}

// webpImage takes what the WebP reader returns. VP8 frames come as YCbCr planes
// in video range, which the reader does not say; with alpha they become NRGBA.
func webpImage(m image.Image) (image.Image, Coding) {
	switch m := m.(type) {
	case *image.YCbCr:
		return m, videoRange
	case *image.NYCbCrA:
		return joinAlpha(m, videoRange), Coding{}
	}
	return asNRGBA(m), Coding{}
}

// joinAlpha turns planes with alpha into NRGBA, chroma repeated: such a picture
// is a cut-out or a logo, not a photo of a table.
func joinAlpha(m *image.NYCbCrA, c Coding) *image.NRGBA {
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

// Factors are the numbers that turn YCbCr of a Coding into RGB on the scale of 0
// to 255: R = Y(y−Black) + RCr(cr−128), G = Y(y−Black) − GCb(cb−128) −
// GCr(cr−128), B = Y(y−Black) + BCb(cb−128).
type Factors struct{ Y, Black, RCr, GCb, GCr, BCb float64 }

// Factors returns the factors of c (ITU-R BT.601 and BT.709, section 3: chroma
// is the colour difference over 2(1−K)).
func (c Coding) Factors() Factors {
	kr, kb := c.Kr, c.Kb
	if kr == 0 && kb == 0 {
		kr, kb = 0.299, 0.114
	}
	kg := 1 - kr - kb
	f := Factors{Y: 1, RCr: 2 * (1 - kr), GCb: 2 * kb * (1 - kb) / kg, GCr: 2 * kr * (1 - kr) / kg, BCb: 2 * (1 - kb)}
	if c.Limited {
		f.Y, f.Black = 255.0/219, 16
		s := 255.0 / 224
		f.RCr, f.GCb, f.GCr, f.BCb = f.RCr*s, f.GCb*s, f.GCr*s, f.BCb*s
	}
	return f
}
