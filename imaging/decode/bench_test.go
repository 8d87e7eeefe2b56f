package decode_test

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"math/rand/v2"
	"testing"

	"slabfolio/imaging/decode"
	"slabfolio/imaging/native"
)

// bigPhoto draws a w×h picture of gradients, edges and noise, and writes it as a
// JPEG of 4:2:0.
func bigPhoto(tb testing.TB, w, h int) []byte {
	tb.Helper()
	m := image.NewYCbCr(image.Rect(0, 0, w, h), image.YCbCrSubsampleRatio420)
	r := rand.New(rand.NewPCG(7, 9))
	for y := range h {
		for x := range w {
			v := 40 + x*120/w + y*40/h + r.IntN(12)
			if (x/97+y/61)%5 == 0 {
				v += 40
			}
			m.Y[y*m.YStride+x] = uint8(v)
		}
	}
	for i := range m.Cb {
		m.Cb[i], m.Cr[i] = uint8(110+(i%m.CStride)*20/m.CStride+r.IntN(3)), uint8(140-i*20/len(m.Cr)+r.IntN(3))
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 90}); err != nil {
		tb.Fatal(err)
	}
	return b.Bytes()
}

func BenchmarkDecodeJPEG(b *testing.B) {
	data := bigPhoto(b, 6000, 4000)
	for _, c := range []struct {
		codec string
		opts  decode.Options
	}{
		{"pure", decode.Options{Pure: true}},
		{"native", decode.Options{}},
	} {
		b.Run(fmt.Sprintf("codec=%s/in=6000x4000", c.codec), func(b *testing.B) {
			if !c.opts.Pure && !native.Available() {
				b.Skip("libturbojpeg is not installed here")
			}
			b.SetBytes(24_000_000)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := decode.Decode(data, &c.opts); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
