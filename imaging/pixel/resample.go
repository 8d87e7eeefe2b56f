package pixel

import (
	"fmt"
	"math"
	"sync"

	"slabfolio/imaging/spare"
)

// maxSide bounds what Resample makes, so that a wrong size is an error rather than
// an allocation.
const maxSide = 1 << 15

// A Point is a place in a picture, in pixels from its top left corner; the
// middle of the first pixel is at (0.5, 0.5).
type Point struct{ X, Y float64 }

// A Quad is the four corners of the part of a picture to take: top left, top
// right, bottom right, bottom left. A crop is an upright rectangle, a
// straightened crop a turned one, a corrected perspective any convex figure.
type Quad [4]Point

// Box returns the upright quad from (x0, y0) to (x1, y1).
func Box(x0, y0, x1, y1 float64) Quad {
	return Quad{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// Bounds returns the smallest box around the quad.
func (q Quad) Bounds() (x0, y0, x1, y1 float64) {
	x0, y0, x1, y1 = q[0].X, q[0].Y, q[0].X, q[0].Y
	for _, p := range q[1:] {
		x0, x1 = math.Min(x0, p.X), math.Max(x1, p.X)
		y0, y1 = math.Min(y0, p.Y), math.Max(y1, p.Y)
	}
	return x0, y0, x1, y1
}

// upright reports whether the quad is a box, to a hundredth of a pixel.
func (q Quad) upright() bool {
	x0, y0, x1, y1 := q.Bounds()
	for i, p := range Box(x0, y0, x1, y1) {
		if math.Abs(p.X-q[i].X) > 0.01 || math.Abs(p.Y-q[i].Y) > 0.01 {
			return false
		}
	}
	return true
}

// A Region says which part of a picture to take and how large to make it.
type Region struct {
	Orientation int  // of the rows, as in Exif, 1 to 8; 0 means 1
	Quad        Quad // in the upright picture; the zero Quad means all of it
	W, H        int  // wanted, upright
}

// Resample returns the part of r that v asks for, upright, filtered in linear
// light. One pass over the rows does crop and downscale; the orientation is
// put right on the small side, and a turn or a perspective on a copy slightly
// larger than the result. The bytes do not depend on how many cores there are.
// It returns an error for an empty or absurd size or quad.
func Resample(r Rows, v Region) (*Image, error) {
	w, h := r.Size()
	if w <= 0 || h <= 0 || v.W <= 0 || v.H <= 0 || max(w, h) > 1<<20 || max(v.W, v.H) > maxSide {
		return nil, fmt.Errorf("cannot take %d × %d pixels from a picture of %d × %d", v.W, v.H, w, h)
	}
	uw, uh := Upright(w, h, v.Orientation)
	if v.Quad == (Quad{}) {
		v.Quad = Box(0, 0, float64(uw), float64(uh))
	}
	x0, y0, x1, y1 := v.Quad.Bounds()
	if !(x1-x0 >= 0.01 && y1-y0 >= 0.01 && x0 > -float64(uw) && x1 < 2*float64(uw) && y0 > -float64(uh) && y1 < 2*float64(uh)) {
		return nil, fmt.Errorf("cannot take the part from (%.1f, %.1f) to (%.1f, %.1f) of a picture of %d × %d", x0, y0, x1, y1, uw, uh)
	}
	if !v.Quad.upright() {
		return resampleWarped(r, v, uw, uh)
	}
	s := storedBox(x0, y0, x1, y1, uw, uh, v.Orientation)
	sw, sh := Upright(v.W, v.H, v.Orientation) // a transposition is its own inverse
	m := scale(r, s, sw, sh)
	out := Orient(m, v.Orientation)
	if out != m {
		m.Release()
	}
	return out, nil
}

// scale takes box {x0, y0, x1, y1} of the stored rows to ow × oh. Two bands of
// output rows are made side by side; a band's rows depend on nothing else.
func scale(r Rows, box [4]float64, ow, oh int) *Image {
	w, h := r.Size()
	fx, fy := newFilter(box[0], box[2], w, ow), newFilter(box[1], box[3], h, oh)
	fx.setLanes()
	out := Unset(ow, oh)
	if oh < 64 {
		scaleBand(r, fx, fy, out, 0, oh)
		return out
	}
	var wg sync.WaitGroup
	wg.Go(func() { scaleBand(r, fx, fy, out, 0, oh/2) })
	scaleBand(r, fx, fy, out, oh/2, oh)
	wg.Wait()
	return out
}

// scaleBand makes the output rows from y0 to y1. Input rows live in a ring just
// large enough for the taps of one output row; the vertical filter runs first,
// over the columns that the horizontal one will read.
func scaleBand(r Rows, fx, fy *filter, out *Image, y0, y1 int) {
	w, h := r.Size()
	const pad = 32 // lets the vector code read whole vectors past the last column
	direct, _ := r.(imageRows)
	stride := w*3 + pad
	ring := spare.Take[uint16](fy.taps * stride)
	defer spare.Give(ring)
	have := make([]int, fy.taps)
	for i := range have {
		have[i] = -1
	}
	lo := int(fx.first[0]) * 3
	hi := min(int(fx.first[len(fx.first)-1])+fx.taps, w) * 3
	mid := make([]uint16, stride)
	rows := make([][]uint16, fy.taps)
	for y := y0; y < y1; y++ {
		first := int(fy.first[y])
		weight := fy.weight[y*fy.taps : (y+1)*fy.taps]
		for k := range rows {
			in := min(first+k, h-1)
			if direct.m != nil && len(direct.m.Pix)-in*w*3 >= stride {
				rows[k] = direct.m.Pix[in*w*3:][:stride]
				continue
			}
			slot := in % fy.taps
			row := ring[slot*stride : (slot+1)*stride]
			if weight[k] != 0 && have[slot] != in {
				r.Row(row[:w*3], in)
				have[slot] = in
			}
			rows[k] = row
		}
		mixRows(mid[lo:hi], rows, weight, lo)
		shrinkRow(out.Row(y), mid, fx)
	}
}
