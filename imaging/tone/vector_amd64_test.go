package tone

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// TestVectorToneAgreesWithPlainCode takes rows of every length through drawn
// treatments by both ways: dark, clipped and mixed pixels, value for value.
func TestVectorToneAgreesWithPlainCode(t *testing.T) {
	if !vectors {
		t.Skip("this machine has no AVX2")
	}
	rng := rand.New(rand.NewPCG(3, 5))
	for n := range 300 {
		tr := Treatment{EV: 6*rng.Float64() - 3, White: [3]float64{1, 1, 1}}
		if n%3 > 0 {
			tr.White = [3]float64{0.5 + rng.Float64(), 1, 0.5 + rng.Float64()}
		}
		if n%3 > 1 {
			tr.Black = 0.02 * rng.Float64()
		}
		d := newDeveloper(tr)
		if !d.steady {
			t.Fatalf("%+v has factors too far apart", tr)
		}
		pix := make([]uint16, 3*(1+rng.IntN(90)))
		for i := range pix {
			pix[i] = uint16(rng.Uint32()) >> rng.IntN(16)
			if rng.IntN(4) == 0 {
				pix[i] = 65535 - uint16(rng.IntN(8000))
			}
		}
		fast, plain := slices.Clone(pix), slices.Clone(pix)
		d.apply(fast)
		d.steady = false
		d.apply(plain)
		if !slices.Equal(fast, plain) {
			t.Fatalf("%+v: %v becomes\n%v, by plain code\n%v", tr, pix, fast, plain)
		}
	}
}
