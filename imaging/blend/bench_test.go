package blend

import (
	"bytes"
	"fmt"
	"image"
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
	frame := func(file []byte) Frame {
		return Frame{Open: func() (pixel.Rows, error) {
			src, err := decode.Decode(file, nil)
			if err != nil {
				return nil, err
			}
			rows, _ := linear.NewRows(&src.Encoded)
			return rows, nil
		}}
	}
	still, moved := make([]Frame, n), make([]Frame, n)
	for i := range n {
		still[i], moved[i] = frame(file), frame(cutOut(b, file, 3*i, 2*i))
	}
	for _, set := range []struct {
		name   string
		frames []Frame
	}{{"still", still}, {"moved", moved}} {
		for _, how := range []How{Lightest, Added, Bracket} {
			b.Run(fmt.Sprintf("how=%s/frames=%d/%s", how, n, set.name), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if _, err := Blend(Request{Frames: set.frames, How: how}); err != nil {
						b.Fatal(err)
					}
				}
				b.ReportMetric(b.Elapsed().Seconds()/float64(b.N)/n, "s/frame")
			})
		}
	}
}

// cutOut takes part of a photo out, as a camera that was bumped sees it: x and y pixels
// farther on.
func cutOut(b *testing.B, file []byte, x, y int) []byte {
	m, err := jpeg.Decode(bytes.NewReader(file))
	if err != nil {
		b.Fatal(err)
	}
	part := m.(*image.YCbCr).SubImage(image.Rect(x, y, x+m.Bounds().Dx()-32, y+m.Bounds().Dy()-32))
	var out bytes.Buffer
	if err := jpeg.Encode(&out, part, &jpeg.Options{Quality: 90}); err != nil {
		b.Fatal(err)
	}
	return out.Bytes()
}
