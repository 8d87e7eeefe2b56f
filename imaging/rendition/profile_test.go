package rendition

import (
	"image"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/linear"
)

// TestProfileIsSRGB reads the profile with the ICC engine that reads the photos'
// own (Go's prism; LittleCMS was asked once as well and changed no 8-bit value):
// through it a picture is the same linear light as without a profile.
func TestProfileIsSRGB(t *testing.T) {
	m := image.NewNRGBA(image.Rect(0, 0, 256, 6))
	for x := range 256 {
		v, w := uint8(x), uint8(255-x)
		for y, c := range [6][3]uint8{{v, v, v}, {v, 0, 0}, {0, v, 0}, {0, 0, v}, {v, w, 128}, {w, 90, v}} {
			copy(m.Pix[m.PixOffset(x, y):], []uint8{c[0], c[1], c[2], 255})
		}
	}
	plain, _ := linear.NewRows(&colour.Encoded{Image: m, Space: "srgb"})
	tagged, notes := linear.NewRows(&colour.Encoded{Image: m, Profile: profile()})
	if len(notes) > 0 {
		t.Fatalf("reading the profile: %v", notes)
	}
	a, b := make([]uint16, 768), make([]uint16, 768)
	for y := range 6 {
		plain.Row(a, y)
		tagged.Row(b, y)
		for i := range a {
			if d := int(a[i]) - int(b[i]); d > 40 || d < -40 { // 40 of 65535: a sixth of a level at mid-grey
				t.Fatalf("row %d, value %d: %d through the profile, %d without", y, i, b[i], a[i])
			}
		}
	}
	if n := len(profile()); n > 600 {
		t.Errorf("the profile has %d bytes", n)
	}
}
