package tone

import (
	"math"
	"slices"
	"testing"

	"slabfolio/imaging/frame"
	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// paper is a brown piece before paper of a linear colour, in the light w.
func paper(back, piece float64, w [3]float64) *pixel.Image {
	m := pixel.New(300, 200)
	seed := uint32(3)
	for y := range m.H {
		for x := range m.W {
			c := [3]float64{back, back, back}
			if x > 90 && x < 220 && y > 70 && y < 150 {
				c = [3]float64{piece * 1.5, piece, piece * 0.55}
			}
			for k := range 3 {
				seed = seed*1664525 + 1013904223
				m.Pix[(y*m.W+x)*3+k] = uint16(math.Min(65535, c[k]*w[k]*(0.98+0.04*float64(seed>>16)/65536)*65535))
			}
		}
	}
	return m
}

func sample(m *pixel.Image) Sample {
	f := frame.Find(m, nil)
	return Sample{Small: m, Piece: f.Mask, Plain: f.Plain, Sure: f.Confidence}
}

func TestLightingGroups(t *testing.T) {
	day, lamp := [3]float64{1, 1, 1}, [3]float64{1.1, 1, 0.82}
	ts := Plan([]Sample{sample(paper(0.5, 0.15, day)), sample(paper(0.4, 0.12, lamp)), sample(paper(0.3, 0.09, day)), sample(paper(0.55, 0.165, lamp))})
	if g := [4]int{ts[0].Group, ts[1].Group, ts[2].Group, ts[3].Group}; g != [4]int{0, 1, 0, 1} {
		t.Errorf("groups %v, want day and lamp apart", g)
	}
	// All four backdrops come to one level and to grey: to the aim, or as near as it
	// can be come without the brightest of the set running into white.
	var levels []float64
	for i, m := range []*pixel.Image{paper(0.5, 0.15, day), paper(0.4, 0.12, lamp), paper(0.3, 0.09, day), paper(0.55, 0.165, lamp)} {
		out := applied(m, ts[i])
		l, a, b := phototest.Lab(out.Pix[3000], out.Pix[3001], out.Pix[3002])
		if d := phototest.DeltaE(l, a, b, l, 0, 0); d > 1.5 {
			t.Errorf("photo %d: backdrop %.1f %.1f %.1f is not grey", i, l, a, b)
		}
		if aim := 116*math.Cbrt(math.Exp2(backAim)) - 16; l > aim+1.5 || l < aim-2.5 {
			t.Errorf("photo %d: backdrop L* %.1f, want %.1f or a little less", i, l, aim)
		}
		levels = append(levels, l)
	}
	if apart := slices.Max(levels) - slices.Min(levels); apart > 1.5 { // the design's figure for a set
		t.Errorf("the backdrops are %.1f apart", apart)
	}
}

func TestAsShotIsLeftAlone(t *testing.T) {
	s := sample(paper(0.2, 0.05, [3]float64{1.2, 1, 0.8}))
	s.AsShot = true
	got := Plan([]Sample{s})[0]
	if out := applied(s.Small, got); !slices.Equal(out.Pix, s.Small.Pix) {
		t.Error("pixels are changed")
	}
}

func TestRetakeBeyondTheLimit(t *testing.T) {
	got := Plan([]Sample{sample(paper(0.03, 0.008, [3]float64{1, 1, 1}))})[0]
	if got.EV != MaxEV {
		t.Errorf("gain %.2f, want the limit", got.EV)
	}
	found := false
	for _, n := range got.Notes {
		found = found || n.Code == "tone.retake" && n.Values["ev"] > MaxEV
	}
	if !found {
		t.Errorf("nothing says that it should be taken again: %v", got.Notes)
	}
}

// A piece lit out of the dark keeps its black, whatever the gain.
func TestDarkStaysDark(t *testing.T) {
	for _, ev := range []float64{0, -1.5} {
		m, _ := phototest.Push(paper(0.004, 0.2, [3]float64{1, 1, 1}), ev)
		got := Plan([]Sample{sample(m)})[0]
		if !got.Dark {
			t.Errorf("%+.1f EV: not taken for dark by intent", ev)
		}
		before, after := m.Pix[3001], applied(m, got).Pix[3001]
		if after > before+30 {
			t.Errorf("%+.1f EV: black %d is lifted to %d", ev, before, after)
		}
		if ev == 0 && got.EV != 0 {
			t.Errorf("a well-lit one is changed by %+.2f EV", got.EV)
		}
	}
}

func TestCardFaults(t *testing.T) {
	m := paper(0.5, 0.15, [3]float64{1, 1, 1})
	for _, c := range []struct {
		box  [4]float64
		code string
	}{
		{[4]float64{2, 2, 3, 3}, "tone.grey-outside"},
		{[4]float64{0.25, 0.3, 0.38, 0.5}, "tone.grey-uneven"}, // half card, half piece
		{[4]float64{math.NaN(), 0, 1, 1}, "tone.grey-outside"},
	} {
		s := sample(m)
		s.Grey = &c.box
		found := false
		for _, n := range Plan([]Sample{s})[0].Notes {
			found = found || n.Code == c.code
		}
		if !found {
			t.Errorf("box %v: want %s", c.box, c.code)
		}
	}
	hot, _ := phototest.Push(m, 2)
	s := sample(hot)
	s.Grey = &[4]float64{0.02, 0.02, 0.2, 0.2}
	found := false
	for _, n := range Plan([]Sample{s})[0].Notes {
		found = found || n.Code == "tone.grey-clipped"
	}
	if !found {
		t.Error("a blown card is taken for good")
	}
}

func TestPlanNeverFails(t *testing.T) {
	got := Plan([]Sample{{}, {Small: pixel.New(1, 1)}, {Small: pixel.New(64, 64)}, sample(pixel.New(64, 64))})
	for i, tr := range got {
		if math.IsNaN(tr.EV) || math.Abs(tr.EV) > MaxEV || math.IsNaN(tr.White[0]) {
			t.Errorf("photo %d: %+v", i, tr)
		}
	}
	if len(Plan(nil)) != 0 {
		t.Error("no photos give treatments")
	}
}

// A pale piece that stands alone before pale paper, rightly exposed, stays pale:
// maple and ash reflect about half the light (common practice, no source).
func TestPalePieceStaysPale(t *testing.T) {
	for _, back := range []float64{0.45, 0.6} {
		if plan := Plan([]Sample{sample(paper(back, 0.47, [3]float64{1, 1, 1}))})[0]; math.Abs(plan.EV) > 0.4 {
			t.Errorf("before paper of %.2f it is changed by %+.2f stops", back, plan.EV)
		}
	}
}
