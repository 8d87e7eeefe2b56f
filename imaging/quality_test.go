package imaging

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"testing"

	"slabfolio/imaging/pixel"
	"slabfolio/imaging/rendition"
)

// TestQualityPureAgrees compares what the machine's own codecs make with what
// the pure ones make. They may differ by the rounding of two inverse transforms
// and two forward ones at quality 85; half a level on average is allowed.
func TestQualityPureAgrees(t *testing.T) {
	data := table(t, 1500, 1000, -0.6)
	sizes := []rendition.Size{{Name: "jpeg", Width: 800, Format: "jpeg", Quality: 85}}
	_, native := develop(t, &Options{Sizes: sizes}, sizes, Request{Data: data})
	_, pure := develop(t, &Options{Sizes: sizes, Pure: true}, sizes, Request{Data: data})
	a, err := jpeg.Decode(bytes.NewReader(native[0][0].Data))
	if err != nil {
		t.Fatal(err)
	}
	b, err := jpeg.Decode(bytes.NewReader(pure[0][0].Data))
	if err != nil {
		t.Fatal(err)
	}
	if a.Bounds() != b.Bounds() {
		t.Fatalf("native %v, pure %v", a.Bounds(), b.Bounds())
	}
	mean, worst := 0.0, 0.0
	ya, yb := a.(*image.YCbCr).Y, b.(*image.YCbCr).Y
	for i := range ya {
		d := math.Abs(float64(ya[i]) - float64(yb[i]))
		mean += d / float64(len(ya))
		worst = max(worst, d)
	}
	t.Logf("native and pure codecs: luma differs by %.3f levels on average, %.0f at worst", mean, worst)
	if mean > 0.5 {
		t.Errorf("mean difference %.3f levels, want at most 0.5", mean)
	}
}

// TestQualityDetailKept measures the contrast that fine sines keep through
// downscale and sharpening; an ideal downscale keeps all of it. Half the finest
// frequency that the result can hold is the one that makes a picture look crisp.
func TestQualityDetailKept(t *testing.T) {
	const shrink, n = 2.5, 1500
	for _, f := range []float64{0.125, 0.25, 0.35} { // cycles a pixel of the result
		m := pixel.New(n, 40)
		for i := range m.Pix {
			x := float64(i/3%n) + 0.5
			m.Pix[i] = uint16(20000 + 2000*math.Sin(2*math.Pi*x*f/shrink))
		}
		small, err := pixel.Resample(m.Rows(), pixel.Region{W: n / shrink, H: 16})
		if err != nil {
			t.Fatal(err)
		}
		swing := func(amount float64) float64 {
			file, err := rendition.Develop(small, amount).Encode(rendition.Size{Name: "x", Width: 600, Format: "jpeg", Quality: 100},
				rendition.Meta{}, &rendition.Options{Pure: true, Bare: true})
			if err != nil {
				t.Fatal(err)
			}
			out, err := jpeg.Decode(bytes.NewReader(file.Data))
			if err != nil {
				t.Fatal(err)
			}
			y := out.(*image.YCbCr)
			// Amplitude at f along the middle row, by its Fourier sum.
			var re, im, k float64
			for x := 20; x < 580; x++ {
				s, c := math.Sincos(2 * math.Pi * f * (float64(x) + 0.5))
				v := float64(y.Y[8*y.YStride+x])
				re, im, k = re+v*c, im+v*s, k+1
			}
			return 2 * math.Hypot(re, im) / k
		}
		full := (float64(rendition.Luma(22000, 22000, 22000)) - float64(rendition.Luma(18000, 18000, 18000))) / 256 / 2
		plain, sharp := swing(0)/full, swing(rendition.SharpenAmount(shrink))/full
		t.Logf("at %.3f cycles a pixel: %.2f of the contrast is kept, %.2f after sharpening", f, plain, sharp)
		if f == 0.25 && (sharp < 0.9 || sharp > 1.15) {
			t.Errorf("at half the finest frequency %.2f of the contrast is kept, want 0.9 to 1.15", sharp)
		}
	}
}
