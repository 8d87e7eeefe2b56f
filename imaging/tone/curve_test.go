package tone

import (
	"math"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// greys is a picture of every grey level.
func greys() *pixel.Image {
	m := pixel.New(65536, 1)
	for i := range m.Pix {
		m.Pix[i] = uint16(i / 3)
	}
	return m
}

var treatments = []Treatment{
	AsShot(),
	{EV: 3, White: [3]float64{1.4, 0.95, 0.8}, Black: 0.01},
	{EV: 0.4, White: [3]float64{0.7, 1, 1.5}},
	{EV: -3, White: [3]float64{1, 1, 1}},
	{EV: -0.3, White: [3]float64{1, 1, 1}},
	{EV: -0.5, White: [3]float64{1.2, 1, 0.9}, Black: 0.02},
	{White: [3]float64{0.8, 1, 1.3}},
}

// roundingFall is how far a curve may fall from one level to the next by rounding,
// of 65535; a two hundredth of the step of an 8-bit file.
const roundingFall = 1

func TestCurvesRiseAndClipNothing(t *testing.T) {
	for _, tr := range treatments {
		out := applied(greys(), tr)
		for k := range 3 {
			for i := 1; i < 65536; i++ {
				if int(out.Pix[3*i+k]) < int(out.Pix[3*i-3+k])-roundingFall {
					t.Fatalf("%+v channel %d falls at %d: %d, %d", tr, k, i, out.Pix[3*i-3+k], out.Pix[3*i+k])
				}
			}
			if got := out.Pix[3*65535+k]; got != 65535 {
				t.Errorf("%+v channel %d: white becomes %d", tr, k, got)
			}
			// An 8-bit 254 (linear 64952) is the brightest that is not clipped: it
			// must not come out as 255, which begins at 254.5 (linear 65243), unless
			// it is pulled up beside channels that are.
			if got := out.Pix[3*64952+k]; got > 65243 && tr.EV >= 0 && tr.White == [3]float64{1, 1, 1} {
				t.Errorf("%+v channel %d: 254 becomes %d", tr, k, got)
			}
		}
	}
	if out := applied(greys(), AsShot()); out.Pix[3*1234] != 1234 || out.Pix[3*60000] != 60000 {
		t.Error("no treatment changes levels")
	}
}

func TestGainIsExactBelowTheShoulder(t *testing.T) {
	for _, ev := range []float64{0.5, 1, 2} {
		out := applied(greys(), Treatment{EV: ev, White: [3]float64{1, 1, 1}})
		for _, in := range []int{100, 6000, 20000, 30000, 43000} {
			want := math.Exp2(ev) * float64(in)
			if d := math.Abs(float64(out.Pix[3*in]) - want); want < shoulderFrom*65535 && d > 0.5 {
				t.Errorf("%+.1f EV takes %d to %d", ev, in, out.Pix[3*in])
			}
		}
	}
}

// Where the curve bends there is neither corner nor step, and the steepest step of
// highlights grows by six tenths at most: slopes in log against log.
func TestCurveIsSmooth(t *testing.T) {
	for _, ev := range []float64{-3, -1, -0.5, -0.3, -0.1, 0.2, 0.5, 1, 2, 3} {
		c := newCurve(math.Exp2(ev))
		slope := func(x float64) float64 {
			return math.Log2(c.at(x*1.001)/c.at(x)) / math.Log2(1.001)
		}
		last := slope(0.01)
		for x := 0.01; x < held/1.002; x *= 1.002 {
			s := slope(x)
			if s < 0.01 || s > 1.61 {
				t.Fatalf("%+.1f EV: at %.3f the slope is %.2f", ev, x, s)
			}
			if math.Abs(s-last) > 0.05 {
				t.Fatalf("%+.1f EV: at %.3f the slope goes from %.2f to %.2f", ev, x, last, s)
			}
			last = s
		}
	}
}

// No hue turns in the highlights: the ratios between the channels stay, to the
// rounding, for every colour that is not clipped, whatever the exposure.
func TestHuesStayInHighlights(t *testing.T) {
	for _, ev := range []float64{-1, -0.5, -0.3, 0.5, 1, 2} {
		for _, in := range [][3]uint16{{58000, 40000, 20000}, {30000, 52000, 58000}, {58000, 57000, 30000}} {
			m := &pixel.Image{W: 1, H: 2, Pix: append(in[:], in[:]...)}
			Treatment{EV: ev, White: [3]float64{1, 1, 1}}.Apply(m)
			for k := range 3 {
				want := float64(in[k]) / float64(max(in[0], in[1], in[2])) * float64(max(m.Pix[0], m.Pix[1], m.Pix[2]))
				if math.Abs(want-float64(m.Pix[k])) > 1.01 {
					t.Errorf("%+.1f EV: %v becomes %v", ev, in, m.Pix[:3])
				}
			}
		}
	}
}

// What is blown out in all channels comes out white under every treatment, and
// beside it, where one channel after the other clips, no colour appears that is
// stronger than that of the unclipped paper.
func TestBlownStaysWhite(t *testing.T) {
	for _, w := range [][3]float64{{0.8, 1, 1.3}, {1.3, 1, 0.75}, {1, 1, 1}} {
		for _, ev := range []float64{-1, -0.3, 0, 1} {
			tr := Treatment{EV: ev, White: w}
			// Paper in the light that w undoes, from grey to far beyond white.
			for level := 0.2; level < 4; level *= 1.02 {
				m := pixel.New(1, 2)
				for i := range m.Pix {
					m.Pix[i] = uint16(math.Min(65535, level/w[i%3]*65535))
				}
				tr.Apply(m)
				l, a, b := phototest.Lab(m.Pix[0], m.Pix[1], m.Pix[2])
				if d := phototest.DeltaE(l, a, b, l, 0, 0); d > 5 {
					t.Errorf("white %v %+.1f EV: paper at %.2f has a colour of ΔE00 %.1f: %v", w, ev, level, d, m.Pix[:3])
				}
				if level > 2 && (m.Pix[0] != 65535 || m.Pix[1] != 65535 || m.Pix[2] != 65535) {
					t.Errorf("white %v %+.1f EV: blown paper becomes %v", w, ev, m.Pix[:3])
				}
			}
		}
	}
}
