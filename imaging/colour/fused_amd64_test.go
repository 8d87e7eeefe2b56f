package colour

import (
	"image"
	"math/rand/v2"
	"slices"
	"testing"

	"slabfolio/imaging/decode"
)

func TestVectorRowsAgreeWithPlainCode(t *testing.T) {
	if !vectors {
		t.Skip("this machine has no AVX2")
	}
	rng := rand.New(rand.NewPCG(8, 9))
	for range 60 {
		ratio := []image.YCbCrSubsampleRatio{image.YCbCrSubsampleRatio420, image.YCbCrSubsampleRatio422}[rng.IntN(2)]
		m := image.NewYCbCr(image.Rect(0, 0, 1+rng.IntN(130), 1+rng.IntN(9)), ratio)
		for _, plane := range [][]uint8{m.Y, m.Cb, m.Cr} {
			for i := range plane {
				plane[i] = uint8(rng.Uint32())
				if rng.IntN(3) == 0 {
					plane[i] = uint8(rng.IntN(2) * 255)
				}
			}
		}
		src := &decode.Source{Image: m, W: m.Rect.Dx(), H: m.Rect.Dy(), Coding: decode.Coding{Limited: rng.IntN(2) == 0}, Space: []string{"", "display-p3", "adobe-rgb"}[rng.IntN(3)]}
		rows, _ := NewRows(src)
		fast, plain := make([]uint16, 3*src.W), make([]uint16, 3*src.W)
		for y := range src.H {
			rows.Row(y, fast)
			vectors = false
			rows.Row(y, plain)
			vectors = true
			if !slices.Equal(fast, plain) {
				t.Fatalf("row %d of %v, %v differs", y, m.Rect, ratio)
			}
		}
	}
}
