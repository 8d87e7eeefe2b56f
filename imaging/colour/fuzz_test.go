package colour_test

import (
	"image"
	"os"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/decode"
)

// FuzzProfile: no profile makes NewRows or Row panic, whatever the picture.
func FuzzProfile(f *testing.F) {
	for _, name := range []string{"kov_displayp3.icc", "iccfree_Gray.icc", "iccfree_compatibleWithAdobeRGB1998.icc"} {
		data, err := os.ReadFile(shared(f, "photos", "profiles", name))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	if data, err := os.ReadFile(shared(f, "photos", "profiles", "pizza-jpegli.jpeg")); err == nil {
		if src, err := decode.Decode(data, nil); err == nil {
			f.Add(src.Profile)
		}
	}
	pictures := []image.Image{
		image.NewNRGBA(image.Rect(0, 0, 3, 2)), image.NewGray(image.Rect(0, 0, 3, 2)),
		image.NewCMYK(image.Rect(0, 0, 3, 2)), image.NewYCbCr(image.Rect(0, 0, 3, 2), image.YCbCrSubsampleRatio420),
	}
	f.Fuzz(func(t *testing.T, profile []byte) {
		for _, m := range pictures {
			rows, _ := colour.NewRows(&decode.Source{Image: m, Profile: profile})
			rows.Row(1, make([]uint16, 9))
		}
	})
}
