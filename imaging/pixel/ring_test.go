package pixel

import "testing"

// By hand: an L of three unit squares, clockwise as seen.
func TestRing(t *testing.T) {
	ring := []Point{{0, 0}, {2, 0}, {2, 1}, {1, 1}, {1, 2}, {0, 2}}
	if a := SignedArea(ring); a != 3 {
		t.Errorf("area %v, want 3", a)
	}
	back := []Point{{0, 2}, {1, 2}, {1, 1}, {2, 1}, {2, 0}, {0, 0}}
	if a, b := SignedArea(back), Area(back); a != -3 || b != 3 {
		t.Errorf("the other way round: %v and %v, want -3 and 3", a, b)
	}
	for p, want := range map[Point]bool{{0.5, 0.5}: true, {1.5, 0.5}: true, {0.5, 1.5}: true, {1.5, 1.5}: false, {-0.5, 0.5}: false, {3, 0.5}: false} {
		if Inside(ring, p) != want {
			t.Errorf("%v inside: %v, want %v", p, !want, want)
		}
	}
}
