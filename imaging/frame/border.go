package frame

import (
	"math"

	"slabfolio/imaging/pixel"
)

// A line drawn around a photo, or the rim of a scan, is no backdrop and no piece.
const (
	lineStep  = 5.0  // levels of 255 on a square-root scale by which it differs from the photo beside it
	lineAlong = 0.95 // share of the side along which it does
	calmAlong = 0.8  // share of the side along which the photo beside it is calm
	lineMost  = 4    // pixels of the reduced copy that it is wide at most
	lineSure  = 3.0  // levels that the photo beside it may change by itself
)

// border finds lines along the edges of a photo, a pixel or a few wide and of
// one tone all along, and returns the part of the photo within them, in shares.
func border(m *pixel.Image) [4]float64 {
	b := whole
	for side := range 4 {
		n, deep := m.H, m.W
		if side%2 == 1 {
			n, deep = m.W, m.H
		}
		if deep < 16*lineMost {
			continue
		}
		k := lineAt(m, side, n)
		if k == 0 {
			continue
		}
		share := float64(k) / float64(deep)
		if side < 2 {
			b[side] = share
		} else {
			b[side] = 1 - share
		}
	}
	return b
}

// lineAt is how many pixels wide a line along one side (left, top, right,
// bottom) of n pixels is; 0: there is none.
func lineAt(m *pixel.Image, side, n int) int {
	level := func(d, i int) float64 {
		x, y := d, i
		switch side {
		case 1:
			x, y = i, d
		case 2:
			x, y = m.W-1-d, i
		case 3:
			x, y = i, m.H-1-d
		}
		p := m.Row(y)[x*3 : x*3+3]
		return 255 * math.Sqrt((0.2126*float64(p[0])+0.7152*float64(p[1])+0.0722*float64(p[2]))/65535)
	}
	wide := 0
	for d := range lineMost {
		darker, lighter, calm := 0, 0, 0
		for i := range n {
			beside, further := level(lineMost+1, i), level(2*lineMost, i)
			switch step := level(d, i) - beside; {
			case step <= -lineStep:
				darker++
			case step >= lineStep:
				lighter++
			}
			if math.Abs(beside-further) <= lineSure {
				calm++
			}
		}
		if float64(max(darker, lighter)) < lineAlong*float64(n) || float64(calm) < calmAlong*float64(n) {
			break
		}
		wide = d + 1
	}
	if wide == 0 || wide == lineMost {
		return 0
	}
	return wide + 1 // what the reduction smeared of it
}
