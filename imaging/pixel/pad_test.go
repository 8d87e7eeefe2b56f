package pixel

import (
	"math"
	"math/rand/v2"
	"testing"
)

// backdrop draws light falling off over a noisy wall.
func backdrop(w, h int) *Image {
	m, rng := New(w, h), rand.New(rand.NewPCG(4, 4))
	for y := range h {
		for x := range w {
			v := 30000 - 20*float64(x) - 10*float64(y) + 400*rng.NormFloat64()
			for c := range 3 {
				m.Pix[(y*w+x)*3+c] = uint16(v * (1 - 0.05*float64(c)))
			}
		}
	}
	return m
}

func TestPadCarriesTheBackdropOn(t *testing.T) {
	m := backdrop(300, 200)
	out := m.Pad(400, 420, 60, 100, nil)
	for y := range m.H {
		for x := range m.W * 3 {
			if out.Row(100 + y)[180+x] != m.Row(y)[x] {
				t.Fatal("the picture itself has changed")
			}
		}
	}
	// Just outside each edge the mean colour is that just inside, and the noise is
	// there too.
	stats := func(x, y, w, h int) (mean, dev float64) {
		n := float64(w * h)
		for j := y; j < y+h; j++ {
			for i := x; i < x+w; i++ {
				mean += float64(out.Pix[(j*out.W+i)*3]) / n
			}
		}
		for j := y; j < y+h; j++ {
			for i := x; i < x+w; i++ {
				dev += math.Pow(float64(out.Pix[(j*out.W+i)*3])-mean, 2) / n
			}
		}
		return mean, math.Sqrt(dev)
	}
	for name, b := range map[string][2][4]int{
		"left": {{50, 190, 10, 20}, {60, 190, 10, 20}}, "right": {{360, 190, 10, 20}, {350, 190, 10, 20}},
		"top": {{200, 90, 20, 10}, {200, 100, 20, 10}}, "bottom": {{200, 300, 20, 10}, {200, 290, 20, 10}},
	} {
		om, od := stats(b[0][0], b[0][1], b[0][2], b[0][3])
		im, id := stats(b[1][0], b[1][1], b[1][2], b[1][3])
		if math.Abs(om-im) > 300 || od < id/2 || od > id*2 {
			t.Errorf("%s: %.0f ± %.0f outside the edge, %.0f ± %.0f inside", name, om, od, im, id)
		}
	}
}

func TestSteadiness(t *testing.T) {
	all := [4]bool{true, true, true, true}
	m := backdrop(300, 200)
	if s, _ := m.Steadiness(all, nil); s < 0.95 {
		t.Errorf("a lit wall is steady along %.2f of its edges", s)
	}
	for y := 150; y < 200; y++ { // something dark stands on the lower edge
		clear(m.Row(y)[300:600])
	}
	if s, _ := m.Steadiness(all, nil); s > 0.8 {
		t.Errorf("a wall with something before it is steady along %.2f", s)
	}
	if s, _ := m.Steadiness([4]bool{false, true, false, false}, nil); s < 0.95 {
		t.Errorf("its upper edge is steady along %.2f", s)
	}
	steady, open := m.Steadiness(all, dark)
	if steady < 0.95 {
		t.Errorf("without what stands before it, the wall is steady along %.2f", steady)
	}
	if math.Abs(open-2.0/3) > 0.01 {
		t.Errorf("the wall shows along %.2f of its lower edge, want two thirds", open)
	}
	if _, open := m.Steadiness(all, func(x, y int) bool { return true }); open != 0 {
		t.Errorf("where all is covered, %.2f shows", open)
	}
}

// dark is what the tests lay before the wall of backdrop(300, 200).
func dark(x, y int) bool { return x >= 100 && x < 200 && y >= 150 }

// What reaches the edge is not smeared over the border: the wall beside it is
// carried on.
func TestPadLeavesOutWhatIsCovered(t *testing.T) {
	m := backdrop(300, 200)
	plain := m.Pad(400, 300, 60, 20, nil)
	for y := 150; y < 200; y++ {
		clear(m.Row(y)[300:600])
	}
	out := m.Pad(400, 300, 60, 20, dark)
	for x := 0; x < out.W; x += 20 {
		var got, want float64
		for y := 221; y < 300; y++ {
			for i := x; i < x+20; i++ {
				got, want = got+float64(out.Row(y)[i*3]), want+float64(plain.Row(y)[i*3])
			}
		}
		if math.Abs(got/want-1) > 0.06 {
			t.Errorf("the border from column %d on is %.3f times as bright as without the thing", x, got/want)
		}
	}
}
