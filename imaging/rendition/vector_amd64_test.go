package rendition

import (
	"bytes"
	"math/rand/v2"
	"slices"
	"testing"

	"slabfolio/imaging/pixel"
)

func TestVectorsAgreeWithPlainCode(t *testing.T) {
	if !vectors {
		t.Skip("this machine has no AVX2")
	}
	rng := rand.New(rand.NewPCG(1, 9))
	for range 100 {
		w, h := 1+rng.IntN(70), 1+rng.IntN(9)
		y := make([]uint16, w*h)
		for i := range y {
			y[i] = uint16(rng.IntN(codedWhite + 1))
			if rng.IntN(3) == 0 {
				y[i] = uint16(rng.IntN(2) * codedWhite)
			}
		}
		amount := rng.Float64()
		fast, plain := slices.Clone(y), slices.Clone(y)
		fast8, plain8 := make([]uint8, w*h), make([]uint8, w*h)
		sharpen(fast, w, h, amount)
		toLevels(fast8, fast)
		vectors = false
		sharpen(plain, w, h, amount)
		toLevels(plain8, plain)
		vectors = true
		if !slices.Equal(fast, plain) || !bytes.Equal(fast8, plain8) {
			t.Fatalf("a plane of %d × %d sharpened by %.3f differs", w, h, amount)
		}
	}
}

func TestVectorsDevelopAsPlainCode(t *testing.T) {
	if !vectors {
		t.Skip("this machine has no AVX2")
	}
	rng := rand.New(rand.NewPCG(2, 9))
	for range 40 {
		m := pixel.New(1+rng.IntN(70), 1+rng.IntN(9))
		for i := range m.Pix {
			m.Pix[i] = uint16(rng.Uint32())
			if rng.IntN(3) == 0 {
				m.Pix[i] = uint16(0) - uint16(rng.IntN(2))
			}
		}
		fast := Develop(m, 0)
		vectors = false
		plain := Develop(m, 0)
		vectors = true
		if !slices.Equal(fast.y, plain.y) || !slices.Equal(fast.cb, plain.cb) || !slices.Equal(fast.cr, plain.cr) {
			t.Fatalf("a picture of %d × %d differs", m.W, m.H)
		}
	}
}
