package linear

import (
	"image"
	"math/rand/v2"
	"slices"
	"testing"

	"slabfolio/imaging/colour"
)

// TestSegmentsAgreeWithVectorCode takes every level of every kind of curve through the
// vector code and through a table of the same segments, and holds both to the curve.
func TestSegmentsAgreeWithVectorCode(t *testing.T) {
	if _, ok := newBent(namedSpace("gamma:1.8", scale12).curve); ok {
		t.Error("a curve that is as steep as it likes at black passes for smooth")
	}
	for _, space := range []string{"", "display-p3"} {
		m := image.NewYCbCr(image.Rect(0, 0, 256, 1), image.YCbCrSubsampleRatio422)
		for i := range m.Y {
			m.Y[i] = uint8(i)
		}
		curve := namedSpace(space, scale12).curve
		b, ok := newBent(curve)
		if !ok {
			t.Fatalf("%q cannot be told by segments", space)
		}
		off := 0
		for level, v := range curve[:4081] {
			d := int(b.at(level)) - int(colour.Scale16(v))
			if d > 1 || d < -1 {
				t.Fatalf("%q at %d is %d, by the curve %d", space, level, b.at(level), colour.Scale16(v))
			}
			if d != 0 {
				off++
			}
		}
		if off > 150 {
			t.Errorf("%q: %d of 4081 levels lie beside", space, off)
		}
		f := &fused{m: m, k: fix(colour.Coding{}), plain: true, bent: b}
		for i := range f.curve {
			f.curve[i] = b.at(min(max(i-wideZero, 0), 4080))
		}
		fast, plain := make([]uint16, 768), make([]uint16, 768)
		for c := range 256 {
			for i := range m.Cb {
				m.Cb[i], m.Cr[i] = uint8(c), uint8(255-c)
			}
			f.row(0, fast)
			was := vectors
			vectors = false
			f.row(0, plain)
			vectors = was
			if !slices.Equal(fast, plain) {
				t.Fatalf("%q, chroma %d: the vector code gives other values", space, c)
			}
		}
	}
}

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
		src := &colour.Encoded{Image: m, Coding: colour.Coding{Limited: rng.IntN(2) == 0}, Space: []string{"", "display-p3", "adobe-rgb"}[rng.IntN(3)]}
		rows, _ := NewRows(src)
		fast, plain := make([]uint16, 3*m.Rect.Dx()), make([]uint16, 3*m.Rect.Dx())
		for y := range m.Rect.Dy() {
			rows.Row(fast, y)
			vectors = false
			rows.Row(plain, y)
			vectors = true
			if !slices.Equal(fast, plain) {
				t.Fatalf("row %d of %v, %v differs", y, m.Rect, ratio)
			}
			was := widest
			widest = false
			rows.Row(fast, y)
			widest = was
			if !slices.Equal(fast, plain) {
				t.Fatalf("row %d of %v, %v differs without the widest code", y, m.Rect, ratio)
			}
		}
	}
}
