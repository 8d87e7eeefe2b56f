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
// one tone all along, or a mat around it, and returns the part of the photo within
// them, in shares.
func border(m *pixel.Image) [4]float64 {
	b := whole
	mat := matOf(m)
	for side := range 4 {
		n, deep := m.H, m.W
		if side%2 == 1 {
			n, deep = m.W, m.H
		}
		if deep < 16*lineMost {
			continue
		}
		k := max(lineAt(m, side, n), mat[side])
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
		p := fromSide(m, side, d, i)
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

// fromSide is the pixel d away from a side (left, top, right, bottom), the ith along it.
func fromSide(m *pixel.Image, side, d, i int) []uint16 {
	x, y := d, i
	switch side {
	case 1:
		x, y = i, d
	case 2:
		x, y = m.W-1-d, i
	case 3:
		x, y = i, m.H-1-d
	}
	return m.Row(y)[x*3 : x*3+3]
}

// A mat is a frame of one colour around all of a photo, or two black bars at
// opposite sides, as programs put there. No piece and no backdrop ends in such a
// straight line, of one colour to the last pixel, as far from either side.
const (
	matMost  = 0.04 // of the longer side that a frame is wide at most
	barMost  = 0.16 // and a bar
	matEven  = 7.0  // levels by which its pixels differ at most, nearly all of them
	matAlong = 0.98 // of them
	matEnds  = 0.7  // of the pixels along it, for the photo to begin there
	matOther = 16.0 // levels by which the photo next to it differs
	matRings = 8    // pixels at its inner edge that the coding of a JPEG may have spoilt
	barBlack = 12.0 // level of a bar at most
)

// matOf is how many pixels wide a mat is at each side; nothing where there is none.
func matOf(m *pixel.Image) (wide [4]int) {
	var colour [4][3]float64
	found := [4]bool{}
	for side := range 4 {
		wide[side], colour[side] = bandAt(m, side)
		found[side] = wide[side] > 0
	}
	alike := func(a, b int) bool {
		return max(wide[a]-wide[b], wide[b]-wide[a]) <= 2 && farthest(colour[a], colour[b]) <= matEven
	}
	black := func(k int) bool { return farthest(colour[k], [3]float64{}) <= barBlack }
	most := max(wide[0], wide[1], wide[2], wide[3])
	switch {
	case found == [4]bool{true, true, true, true} && alike(0, 2) && alike(1, 3) && farthest(colour[0], colour[1]) <= matEven &&
		most <= int(matMost*float64(max(m.W, m.H))):
	case found == [4]bool{true, false, true, false} && alike(0, 2) && black(0):
	case found == [4]bool{false, true, false, true} && alike(1, 3) && black(1):
	default:
		return [4]int{}
	}
	for side, n := range wide {
		if n > 0 {
			wide[side] = n + 1 // what the reduction smeared of it
		}
	}
	return wide
}

// bandAt is how many pixels wide a band of one colour along a side is, and its colour;
// 0 where there is none, or where it does not end in a straight line.
func bandAt(m *pixel.Image, side int) (wide int, colour [3]float64) {
	n, deep := m.H, m.W
	if side%2 == 1 {
		n, deep = m.W, m.H
	}
	at := func(d, i int) (c [3]float64) {
		for k, v := range fromSide(m, side, d, i) {
			c[k] = 266 * (math.Sqrt(float64(v)/65535+0.0016) - 0.04) // near to the coded level, in the dark too
		}
		return c
	}
	for i := range n {
		for k, v := range at(0, i) {
			colour[k] += v / float64(n)
		}
	}
	most := int(barMost * float64(deep))
	// off is the share of a row that is not of the colour, between what may be bands of other sides.
	off := func(d, from, to int, by float64) float64 {
		other := 0
		for i := from; i < to; i++ {
			if farthest(at(d, i), colour) > by {
				other++
			}
		}
		return float64(other) / float64(max(1, to-from))
	}
	for wide < most && off(wide, 0, n, matEven) <= 1-matAlong {
		wide++
	}
	if wide == 0 || wide == most {
		return 0, colour
	}
	for d := wide; d <= wide+matRings; d++ {
		if off(d, n/6, n-n/6, matOther) >= matEnds {
			return d, colour
		}
	}
	return 0, colour
}

// farthest is by how much two colours differ in the channel where they differ most.
func farthest(a, b [3]float64) (most float64) {
	for k := range a {
		most = math.Max(most, math.Abs(a[k]-b[k]))
	}
	return most
}
