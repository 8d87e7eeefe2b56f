package colour

import "image"

// An Encoded is a picture as a file holds it, with what the file says of the
// colours that its values mean. Orientation is as stored.
type Encoded struct {
	// Image is one of *image.YCbCr, *image.Gray, *image.Gray16, *image.NRGBA,
	// *image.NRGBA64 and *image.CMYK (255 = full ink), with bounds from (0, 0).
	Image image.Image
	// Coding says how a *image.YCbCr is coded; nothing for other images.
	Coding Coding
	// Profile is the embedded ICC profile, as found; nil when there is none.
	Profile []byte
	// Space names the colour space when there is no profile: "" (unknown),
	// "srgb", "adobe-rgb", "display-p3", "lab" (an *image.NRGBA or *image.NRGBA64
	// holding CIE L*a*b* D50) or "gamma:2.2" (sRGB primaries, a pure power).
	Space string
}

// A Coding is the meaning of the three planes of a YCbCr picture. The zero
// value is that of JPEG: BT.601 weights, full range.
type Coding struct {
	// Limited is true when luma runs from 16 to 235 and chroma from 16 to 240.
	Limited bool
	// Kr and Kb are the luma weights of red and blue; both 0 means BT.601's 0.299
	// and 0.114.
	Kr, Kb float64
}

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
