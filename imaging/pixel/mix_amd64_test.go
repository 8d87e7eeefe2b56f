package pixel

import (
	"math/rand/v2"
	"slices"
	"testing"
)

func TestVectorsAgreeWithPlainCode(t *testing.T) {
	if !vectors {
		t.Skip("this machine has no AVX2")
	}
	rng := rand.New(rand.NewPCG(5, 6))
	for range 200 {
		m := New(1+rng.IntN(300), 1+rng.IntN(90))
		for i := range m.Pix {
			m.Pix[i] = uint16(rng.Uint32())
			if rng.IntN(4) == 0 {
				m.Pix[i] = uint16(0) - uint16(rng.IntN(2)) // 0 or 65535
			}
		}
		x0, y0 := rng.Float64()*float64(m.W)/3, rng.Float64()*float64(m.H)/3
		v := Region{W: 1 + rng.IntN(m.W), H: 1 + rng.IntN(m.H), Quad: Box(x0, y0, x0+0.6*float64(m.W)+1, y0+0.6*float64(m.H)+1)}
		if rng.IntN(3) == 0 {
			v.Quad[1].Y += 0.05 * float64(m.H)
		}
		fast, err := Resample(m.Rows(), v)
		if err != nil {
			t.Fatal(err)
		}
		vectors = false
		plain, err := Resample(m.Rows(), v)
		vectors = true
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(fast.Pix, plain.Pix) {
			t.Fatalf("%d × %d taken as %+v differs", m.W, m.H, v)
		}
		was := widest
		widest = false
		fast, err = Resample(m.Rows(), v)
		widest = was
		if err != nil || !slices.Equal(fast.Pix, plain.Pix) {
			t.Fatalf("%d × %d taken as %+v differs without the widest code (%v)", m.W, m.H, v, err)
		}
	}
}

// Reduce gives the same with the vector code as without, in white too, whose sums are
// the largest, and where a block has no or one pixel more than the next.
func TestReduceAgreesWithPlainCode(t *testing.T) {
	if !vectors {
		t.Skip("this machine has no AVX2")
	}
	rng := rand.New(rand.NewPCG(7, 8))
	for i := range 120 {
		m := New(1+rng.IntN(400), 1+rng.IntN(40))
		if i == 0 {
			m = New(70000, 3) // a block with a sum of more than 32 bits
		}
		for i := range m.Pix {
			m.Pix[i] = uint16(rng.Uint32()) | uint16(-(rng.IntN(2)))
		}
		if i < 20 {
			for i := range m.Pix {
				m.Pix[i] = 65535
			}
		}
		side := 1 + rng.IntN(max(m.W, m.H)+9)
		if i == 0 {
			side = 1
		}
		fast, err := Reduce(m.Rows(), 1, side)
		if err != nil {
			t.Fatal(err)
		}
		vectors = false
		plain, err := Reduce(m.Rows(), 1, side)
		vectors = true
		if err != nil || !slices.Equal(fast.Pix, plain.Pix) {
			t.Fatalf("%d × %d reduced to %d differs (%v)", m.W, m.H, side, err)
		}
		if i < 20 && fast.Pix[0] != 65535 {
			t.Fatalf("white of %d × %d reduced to %d is %d", m.W, m.H, side, fast.Pix[0])
		}
	}
}
