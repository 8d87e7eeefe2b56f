package blend

import (
	"bytes"
	"fmt"
	"image/jpeg"
	"testing"

	"slabfolio/imaging/decode"
	"slabfolio/imaging/internal/scene"
	"slabfolio/imaging/linear"
	"slabfolio/imaging/pixel"
)

// To reach: 24 megapixels in 1.5 s a frame on two cores.
func BenchmarkBlend(b *testing.B) {
	file := scene.NoisePhoto(6000, 4000, 3, scene.Exif{}, 90)
	if _, err := jpeg.DecodeConfig(bytes.NewReader(file)); err != nil {
		b.Fatal(err)
	}
	const n = 6
	var fs []Frame
	for range n {
		fs = append(fs, Frame{Open: func() (pixel.Rows, error) {
			src, err := decode.Decode(file, nil)
			if err != nil {
				return nil, err
			}
			rows, _ := linear.NewRows(&src.Encoded)
			return rows, nil
		}})
	}
	for _, how := range []How{Lightest, Added, Bracket} {
		b.Run(fmt.Sprintf("how=%s/frames=%d", how, n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Blend(Request{Frames: fs, How: how}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(b.Elapsed().Seconds()/float64(b.N)/n, "s/frame")
		})
	}
}
