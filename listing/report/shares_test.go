package report

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Shares of one whole, as printed, add up to it, and each is the next figure below or
// above its own: the method of largest remainders, as seats of a parliament are given out.
func TestPrintedSharesAddUp(t *testing.T) {
	check := func(raw []float64) {
		t.Helper()
		var of []Material
		for _, v := range raw {
			of = append(of, Material{Share: v})
		}
		roundShares(of)
		sum, step := 0.0, 1.0
		for _, v := range raw {
			if v > 0 && v < 10 {
				step = 0.1
			}
		}
		for i, m := range of {
			sum += m.Share
			if math.Abs(m.Share-raw[i]) >= step+1e-9 {
				t.Errorf("%v: %.3g is printed as %.3g", raw, raw[i], m.Share)
			}
			if (m.Share == 0) != (raw[i] == 0) {
				t.Errorf("%v: %.3g is printed as %.3g", raw, raw[i], m.Share)
			}
		}
		if math.Abs(sum-100) > 1e-6 {
			t.Errorf("%v is printed as %v, which adds up to %.4g", raw, of, sum)
		}
	}
	check([]float64{27.639, 27.639, 27.722, 17})
	check([]float64{99.5, 0.5})
	check([]float64{33, 33.0, 34})
	check([]float64{100})
	check([]float64{95.61, 4.39})
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		raw := make([]float64, 2+r.IntN(5))
		sum := 0.0
		for i := range raw {
			raw[i] = 0.2 + r.Float64()*r.Float64()*20
			sum += raw[i]
		}
		for i := range raw {
			raw[i] *= 100 / sum
		}
		check(raw)
	}
	// What does not make up all of it stays as it is known.
	some := []Material{{Share: 0}, {Share: 17.4}}
	if roundShares(some); some[1].Share != 17 || some[0].Share != 0 {
		t.Errorf("17.4 of a whole that is not said is printed as %v", some)
	}
}
