package blend

import (
	"testing"

	"slabfolio/imaging/pixel"
)

// painted is a picture of 120 × 80 pixels.
func painted(at func(x, y int) uint16) *pixel.Image {
	m := pixel.New(120, 80)
	for y := range m.H {
		for x := range m.W {
			for c := range 3 {
				m.Pix[3*(y*m.W+x)+c] = at(x, y)
			}
		}
	}
	return m
}

// Black and white and nothing else is a mask; a dark photo with a lamp in it, a photo of
// a white board before black cloth with light running over it, and a black one are
// none.
func TestAMaskIsNoFrame(t *testing.T) {
	inside := func(x, y int) bool { return (x-60)*(x-60)+(y-40)*(y-40) < 900 }
	for name, c := range map[string]struct {
		at   func(x, y int) uint16
		mask bool
	}{
		"a mask": {func(x, y int) uint16 {
			if inside(x, y) {
				return 65535
			}
			return 0
		}, true},
		"black": {func(x, y int) uint16 { return 0 }, false},
		"white": {func(x, y int) uint16 { return 65535 }, false},
		"a lit board before black": {func(x, y int) uint16 {
			if inside(x, y) {
				return uint16(30000 + 290*x)
			}
			return 0
		}, false},
		"a small lamp in the dark": {func(x, y int) uint16 {
			if (x-60)*(x-60)+(y-40)*(y-40) < 25 {
				return 65535
			}
			return 0
		}, false},
	} {
		l := lookOf(painted(c.at))
		if l.twoTone() != c.mask {
			t.Errorf("%s: a mask is %v", name, l.twoTone())
		}
	}
}
