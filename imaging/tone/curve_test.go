package tone

import (
	"math"
	"testing"
)

func TestCurvesRiseAndClipNothing(t *testing.T) {
	for _, tr := range []Treatment{
		neutralTreatment(),
		{EV: 3, White: [3]float64{1.4, 0.95, 0.8}, Black: 0.01, Shoulder: knee},
		{EV: 0.4, White: [3]float64{0.7, 1, 1.5}},
		{EV: -3, White: [3]float64{1, 1, 1}},
		{EV: -0.5, White: [3]float64{1.2, 1, 0.9}, Black: 0.02},
	} {
		for k, lut := range tr.LUTs() {
			if lut[65535] != 65535 {
				t.Errorf("%+v channel %d: full scale becomes %d", tr, k, lut[65535])
			}
			for i := 1; i < len(lut); i++ {
				if lut[i] < lut[i-1] {
					t.Fatalf("%+v channel %d falls at %d", tr, k, i)
				}
			}
			// An 8-bit 254 (linear 64952) is the brightest that is not clipped: it
			// must not come out as 255, which begins at 254.5 (linear 65243).
			if lut[64952] > 65243 {
				t.Errorf("%+v channel %d: 254 becomes %d", tr, k, lut[64965])
			}
		}
	}
	for i, v := range neutralTreatment().LUTs()[0] {
		if int(v) != i {
			t.Fatalf("no treatment changes %d to %d", i, v)
		}
	}
}

func TestGainIsExactBelowTheKnee(t *testing.T) {
	tr := Treatment{EV: 1, White: [3]float64{1, 1, 1}, Shoulder: knee}
	lut := tr.LUTs()[1]
	for _, in := range []int{100, 6000, 20000, 26000} {
		if d := math.Abs(float64(lut[in]) - 2*float64(in)); d > 0.5 {
			t.Errorf("+1 EV takes %d to %d", in, lut[in])
		}
	}
}
