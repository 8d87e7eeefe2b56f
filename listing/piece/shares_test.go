package piece

import (
	"math"
	"testing"

	"slabfolio/listing/units"
)

func TestShares(t *testing.T) {
	w := func(pct float64) Wood { return Wood{Share: Of(units.Percent(pct))} }
	for _, c := range []struct {
		in   []Wood
		want []float64
	}{
		{[]Wood{{}}, []float64{1}}, {[]Wood{{}, {}}, []float64{0.5, 0.5}}, {[]Wood{w(70), {}}, []float64{0.7, 0.3}},
		{[]Wood{w(60), w(60)}, []float64{0.5, 0.5}}, {[]Wood{w(0), w(0)}, []float64{0.5, 0.5}}, {nil, nil}, {[]Wood{w(100), {}}, []float64{1, 0}},
	} {
		for i, v := range Shares(c.in) {
			if math.Abs(v-c.want[i]) > 1e-12 {
				t.Errorf("share %d of %v is %v, want %v", i, c.in, v, c.want[i])
			}
		}
	}
}
