package pixel

import (
	"math"
	"testing"
)

// An edge of four colours in turn, a quarter each: their mean keeps of its colour
// three tenths where they are far apart, and the more the nearer they are, by the
// standard deviation of the coded values: a step of 2a between them is one of
// a times the root of 5. The linear values are those of IEC 61966-2-1.
func TestEdgeOfManyColoursGoesTowardsGrey(t *testing.T) {
	linear := func(v float64) float64 { return 65535 * math.Pow((v/255+0.055)/1.055, 2.4) }
	for _, deviation := range []float64{20, 30, 40, 45, 50} {
		m := New(64, 64)
		for i := range m.W * m.H {
			d := deviation / math.Sqrt(5) * float64((i%m.W+i/m.W)%4*2-3)
			for k, v := range []float64{150 + d, 110 + d, 110 - d} {
				m.Pix[3*i+k] = uint16(linear(v) + 0.5)
			}
		}
		keep := 1 - 0.7*math.Min(1, (deviation-15)/(45-15))
		r, g, b := linear(150), linear(110), linear(110)
		grey := 0.2126*r + 0.7152*g + 0.0722*b
		got := m.EdgeColour(nil)
		for k, v := range []float64{r, g, b} {
			if want := grey + keep*(v-grey); math.Abs(float64(got[k])-want) > 0.01*65535 {
				t.Errorf("deviation %g: channel %d is %d, want %.0f", deviation, k, got[k], want)
			}
		}
	}
}
