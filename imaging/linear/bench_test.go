package linear_test

import (
	"fmt"
	"image"
	"os"
	"path/filepath"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/linear"
)

// BenchmarkRows reads all rows of a 24-megapixel picture of 4:2:0 on one core.
func BenchmarkRows(b *testing.B) {
	m := image.NewYCbCr(image.Rect(0, 0, 6000, 4000), image.YCbCrSubsampleRatio420)
	for i := range m.Y {
		m.Y[i] = uint8(i * 7)
	}
	for i := range m.Cb {
		m.Cb[i], m.Cr[i] = uint8(i*3), uint8(i*5)
	}
	for _, name := range []string{"", "kov_displayp3.icc", "colord_AdobeRGB1998.icc"} {
		src := &colour.Encoded{Image: m}
		if name != "" {
			data, err := os.ReadFile(filepath.Join("../../../shared/photos/profiles", name))
			if err != nil {
				b.Skip("the reference profiles are not here")
			}
			src.Profile = data
		}
		b.Run(fmt.Sprintf("profile=%s", name), func(b *testing.B) {
			b.SetBytes(24_000_000)
			b.ReportAllocs()
			row := make([]uint16, 3*6000)
			for b.Loop() {
				rows, _ := linear.NewRows(src)
				for y := range 4000 {
					rows.Row(row, y)
				}
			}
		})
	}
}
