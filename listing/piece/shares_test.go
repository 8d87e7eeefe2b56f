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

func TestTheSameWoodTwiceIsOne(t *testing.T) {
	of := func(name string, pct float64) Wood { return Wood{Species: Of(name), Share: Of(units.Percent(pct))} }
	silent := func(name string) Wood { return Wood{Species: Of(name)} }
	quarter := of("ash", 50)
	quarter.Cut = Of("quarter-sawn")
	for _, c := range []struct {
		in   []Wood
		want []float64 // shares of what is left, 0 where none is said
	}{
		{nil, nil}, {[]Wood{of("ash", 100)}, []float64{100}}, {[]Wood{of("ash", 50), of("ash", 50)}, []float64{100}},
		{[]Wood{of("ash", 30), of("elm", 40), of("ash", 30)}, []float64{60, 40}}, {[]Wood{of("ash", 50), quarter}, []float64{50, 50}},
		{[]Wood{silent("ash"), silent("ash")}, []float64{0}}, {[]Wood{silent("ash"), silent("ash"), silent("elm")}, []float64{0, 0, 0}},
	} {
		got := Together(c.in)
		for i := range got {
			if len(got) != len(c.want) || float64(got[i].Share.V) != c.want[i] {
				t.Errorf("%v became %v, want shares of %v", c.in, got, c.want)
				break
			}
		}
	}
	given := []Wood{of("ash", 50), of("ash", 50)}
	if Together(given); given[0].Share.V != 50 {
		t.Error("the spec itself was changed")
	}
}
