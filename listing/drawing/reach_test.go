package drawing

import (
	"math"
	"testing"
)

// Extension lines begin at the farthest point of the outline near an end: within
// half a hundredth of the size and half a millimetre, from both sides.
func TestWhereExtensionLinesBegin(t *testing.T) {
	for _, c := range []struct {
		off  float64 // mm from the end, of 1,000 by 400
		near bool
	}{{5.49, true}, {5.51, false}, {0, true}} {
		// A corner at the left end's middle, and one above it so far in.
		s := &sketch{Options: options(10), piece: &Piece{Length: 1000, Width: 400, Outline: [][2]float64{{0, 200}, {c.off, 390}, {500, 400}, {500, 0}}}}
		want := -20.0
		if c.near {
			want = -39
		}
		if got := s.reach(0); math.Abs(got-want) > 1e-9 {
			t.Errorf("%.2f mm in: the line begins at %.2f, want %.2f", c.off, got, want)
		}
	}
	for _, c := range []struct {
		off  float64 // mm from the level
		near bool
	}{{2.49, true}, {2.51, false}} {
		s := &sketch{Options: options(10), piece: &Piece{Length: 1000, Width: 400, Outline: [][2]float64{{300, 0}, {700, c.off}, {900, 200}}}}
		want := 30.0
		if c.near {
			want = 70
		}
		if got := s.side(0); math.Abs(got-want) > 1e-9 {
			t.Errorf("%.2f mm off: the line begins at %.2f, want %.2f", c.off, got, want)
		}
	}
	// Four millimetres of paper from the level, an outline that reaches the right
	// end is near enough.
	for level, want := range map[float64]float64{39: 100, 41: 30} {
		s := &sketch{Options: options(10), piece: &Piece{Length: 1000, Width: 400, Outline: [][2]float64{{300, 0}, {1000, level}, {985, 300}}}}
		if got := s.side(0); math.Abs(got-want) > 1e-9 {
			t.Errorf("an end %.0f mm off the level: the line begins at %.2f, want %.2f", level, got, want)
		}
	}
	// What counts as the end is the last fiftieth of the length.
	for x, want := range map[float64]float64{979: 97.9, 981: 100} {
		s := &sketch{Options: options(10), piece: &Piece{Length: 1000, Width: 400, Outline: [][2]float64{{300, 400}, {x, 0}}}}
		if got := s.side(0); math.Abs(got-want) > 1e-9 {
			t.Errorf("the outline ends at %.0f: the line begins at %.2f, want %.2f", x, got, want)
		}
	}
}
