package blend

import (
	"math"

	"slabfolio/imaging/pixel"
)

// cutRim cuts off the rim that not every frame reaches: there a light is missing, and
// the picture would go darker in a step. It knows the moves, so it comes last.
func (j *job) cutRim() {
	x0, y0, x1, y1 := 0, 0, j.w, j.h
	for _, i := range j.used() {
		a, b, c, d := j.moves[i].reach(j.w, j.h)
		x0, y0, x1, y1 = max(x0, a), max(y0, b), min(x1, c), min(y1, d)
	}
	if x0 == 0 && y0 == 0 && x1 == j.w && y1 == j.h || x1 <= x0 || y1 <= y0 {
		return
	}
	m := j.r.Picture
	w, h := x1-x0, y1-y0
	for y := range h { // into the same memory: no row goes to where one is still to be read
		copy(m.Pix[3*y*w:3*(y+1)*w], m.Row(y0 + y)[3*x0:3*x1])
	}
	j.r.Picture = &pixel.Image{W: w, H: h, Pix: m.Pix[:3*w*h]}
	j.r.CutLeft, j.r.CutTop = x0, y0
	j.note("blend.rim", map[string]float64{"most": float64(max(x0, y0, j.w-x1, j.h-y1))})
}

// reach is the part of the reference, of w × h, that a frame covers which stands off by
// the move: from (x0, y0) to before (x1, y1), a rectangle within what is turned.
func (m move) reach(w, h int) (x0, y0, x1, y1 int) {
	if m == (move{}) {
		return 0, 0, w, h
	}
	tx, ty := math.Abs(m.turn)*float64(h)/2, math.Abs(m.turn)*float64(w)/2
	// As within: a pixel's middle lies 1 from the frame's rim at least.
	x0, x1 = int(math.Ceil(0.5-m.dx+tx)), int(math.Floor(float64(w)-1.5-m.dx-tx))+1
	y0, y1 = int(math.Ceil(0.5-m.dy+ty)), int(math.Floor(float64(h)-1.5-m.dy-ty))+1
	return max(x0, 0), max(y0, 0), min(x1, w), min(y1, h)
}
