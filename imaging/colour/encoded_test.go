package colour

import (
	"math"
	"testing"
)

// The factors of BT.601 and BT.709 as their standards and every handbook of video
// print them, in full range and in video range.
func TestFactorsOfYCbCr(t *testing.T) {
	for name, c := range map[string]struct {
		in   Coding
		want Factors
	}{
		"JPEG, ITU-T T.871":       {Coding{}, Factors{1, 0, 1.402, 0.344136, 0.714136, 1.772}},
		"BT.709":                  {Coding{Kr: 0.2126, Kb: 0.0722}, Factors{1, 0, 1.5748, 0.187324, 0.468124, 1.8556}},
		"BT.601, video range":     {Coding{Limited: true}, Factors{1.164384, 16, 1.596027, 0.391762, 0.812968, 2.017232}},
		"BT.709, video range":     {Coding{Limited: true, Kr: 0.2126, Kb: 0.0722}, Factors{1.164384, 16, 1.792741, 0.213249, 0.532909, 2.112402}},
		"no red in luma, by hand": {Coding{Kb: 0.5}, Factors{1, 0, 2, 1, 0, 1}},
		"no blue, by hand":        {Coding{Kr: 0.5}, Factors{1, 0, 1, 0, 1, 2}},
	} {
		f := c.in.Factors()
		got, want := [6]float64{f.Y, f.Black, f.RCr, f.GCb, f.GCr, f.BCb}, [6]float64{c.want.Y, c.want.Black, c.want.RCr, c.want.GCb, c.want.GCr, c.want.BCb}
		for i := range got {
			if math.Abs(got[i]-want[i]) > 2e-6 {
				t.Errorf("%s: factors %.6f, want %.6f", name, got, want)
				break
			}
		}
	}
}
