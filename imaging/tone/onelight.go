package tone

import (
	"math"
	"slices"

	"slabfolio/imaging/pixel"
)

// One light on one paper gives one colour all over, whatever it falls off to. Where
// the colour of a backdrop varies nearly as much as it is off, there are two lights, or the
// paper was never neutral: no one balance puts it right, and what it does to one end it
// spoils at the other. Drawn sets vary by a quarter at most, as a share of how far they
// are off; of the real photos of the tests a violet one by 0.7, and two that people who
// scored them found no better for it by 0.9 and 1.2.
const (
	variesSure, variesNot = 0.6, 1.0
	variesFloor           = 0.10 // stops; what is off by less varies by as much as the rounding of a file
	tintBlock             = 12   // pixels across, within which noise averages out
	blocksLeast           = 10
)

// oneLight tells how surely a backdrop is of one colour all over, 0 to 1, by the colours of
// blocks of it that lie beside the piece and are neither dark nor blown out.
func oneLight(m *pixel.Image, piece *pixel.Mask) float64 {
	var blocks [2][]float64
	for y := 0; y+tintBlock <= m.H; y += tintBlock {
		for x := 0; x+tintBlock <= m.W; x += tintBlock {
			if c, ok := blockTint(m, piece, x, y); ok {
				blocks[0], blocks[1] = append(blocks[0], c[0]), append(blocks[1], c[1])
			}
		}
	}
	n := len(blocks[0])
	if n < blocksLeast {
		return 1 // too little to tell
	}
	middle := func(v []float64) float64 { return slices.Sorted(slices.Values(v))[n/2] }
	mid := [2]float64{middle(blocks[0]), middle(blocks[1])}
	off := math.Hypot(mid[0], mid[1])
	if off == 0 {
		return 1
	}
	along := make([]float64, n) // the way that the middle is off
	for i := range along {
		along[i] = (blocks[0][i]*mid[0] + blocks[1][i]*mid[1]) / off
	}
	slices.Sort(along)
	return ramp((along[(n-1)*9/10]-along[(n-1)/10])/math.Max(off, variesFloor), variesNot, variesSure)
}

// blockTint is the mean colour of a block of the backdrop, in stops of red and blue over
// green; ok is false where too much of it is something else.
func blockTint(m *pixel.Image, piece *pixel.Mask, x0, y0 int) (c [2]float64, ok bool) {
	var r, g, b, n float64
	for y := y0; y < y0+tintBlock; y++ {
		row := m.Row(y)
		for x := x0; x < x0+tintBlock; x++ {
			p := row[3*x : 3*x+3]
			if piece.Holds(x, y, m.W, m.H) || max(p[0], p[1], p[2]) >= clipped || p[1] < 64 || p[0] < 32 || p[2] < 32 {
				continue
			}
			r, g, b, n = r+float64(p[0]), g+float64(p[1]), b+float64(p[2]), n+1
		}
	}
	return [2]float64{math.Log2(r / g), math.Log2(b / g)}, n >= 0.75*tintBlock*tintBlock
}
