package imaging

import (
	"math"

	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
	"slabfolio/imaging/spare"
)

// What makes a photo one that nobody can use, measured on its reduced copy. Set
// on 91 real photos of the tests, which lie well on the other side of each, but
// for one taken with the lens cap on and one of a dark room. The other 89 taken 8
// stops short all lie on this one; moved over a thirtieth of their longer side
// while they were taken, 75 of them.
const (
	nothingLit = 0.01  // linear luminance below which 99 of 100 pixels lie: nothing but noise is left of 8 bits
	nearlyNone = 0.001 // and 95 of 100, where no piece is sure to stand on a dark ground
	nothingDim = 0.85  // linear luminance above which 95 of 100 pixels lie: a white sheet
	noEdge     = 0.25  // the steepest step from pixel to pixel, in parts of the steps over coarseStep
	coarseStep = 16    // pixels
	someStep   = 30    // levels of 255 on a square-root scale: below it there is nothing to be sharp
)

// judgeUsable notes what makes the photo one that nobody can use. Codes:
//
//	hopeless.dark   {stops}  it is too dark: so many stops short at the least
//	hopeless.bright          it is nearly all white
//	hopeless.shaken {times}  it has no edge anywhere that is less than so many times as wide as a sharp one
func (p *Photo) judgeUsable() {
	m := p.small
	var hist [4097]int // of the luminance
	level := spare.Take[float64](m.W * m.H)
	defer spare.Give(level)
	for i := range level {
		q := m.Pix[i*3 : i*3+3]
		lum := (0.2126*float64(q[0]) + 0.7152*float64(q[1]) + 0.0722*float64(q[2])) / 65535
		level[i] = 255 * math.Sqrt(lum)
		hist[int(4096*math.Sqrt(lum))]++
	}
	at := func(share float64) float64 {
		left := int(share * float64(len(level)-1))
		for v, n := range hist {
			if left -= n; left < 0 {
				return (float64(v) + 0.5) * (float64(v) + 0.5) / 4096 / 4096
			}
		}
		return 1
	}
	say := func(code string, v map[string]float64) {
		p.Notes = append(p.Notes, note.Note{Code: code, Values: v})
	}
	switch {
	case at(0.99) < nothingLit || !p.Frame.Sure && at(0.95) < nearlyNone:
		stops := -math.Log2(math.Max(at(0.95), 1.0/65535))
		say("hopeless.dark", map[string]float64{"stops": math.Floor(stops)})
		return // what is black has no edges either
	case at(0.05) > nothingDim:
		say("hopeless.bright", nil)
		return
	}
	worst := math.Min(sharpness(level, m, 1), sharpness(level, m, m.W))
	if worst < noEdge {
		say("hopeless.shaken", map[string]float64{"times": math.Round(1 / math.Max(worst, 0.01))})
	}
}

// sharpness compares the steepest steps of a picture from a pixel to the next
// (next is 1: across, or the width: down) with its steps over coarseStep pixels;
// 1 where the picture has no steps to speak of.
func sharpness(level []float64, m *pixel.Image, next int) float64 {
	fine, nf := steps(level, m, next, 1)
	coarse, nc := steps(level, m, next, coarseStep)
	most := func(h *[256]int, n int, share float64) float64 {
		left := int(float64(n) * (1 - share))
		for v := 255; v >= 0; v-- {
			if left -= h[v]; left < 0 {
				return float64(v) + 0.5
			}
		}
		return 0
	}
	c := most(&coarse, nc, 0.995)
	if nc == 0 || c < someStep {
		return 1
	}
	return most(&fine, nf, 0.9998) / c
}

// steps counts how far apart the levels of pixels are that lie far apart one way
// (next as in sharpness), and how many there are.
func steps(level []float64, m *pixel.Image, next, far int) (h [256]int, n int) {
	w, lines := m.W, m.H
	if next == 1 {
		w -= far
	} else {
		lines -= far
	}
	if w <= 0 || lines <= 0 {
		return h, 0
	}
	for y := range lines {
		from := level[y*m.W : y*m.W+w]
		to := level[y*m.W+far*next:][:w]
		for i, v := range from {
			h[uint8(math.Abs(to[i]-v))]++
		}
	}
	return h, w * lines
}

// How alike two photos have to be for one to be the other turned.
const (
	twinSide  = 24
	twinLike  = 0.80 // correlation once turned
	twinOver  = 0.88 // and once turned upside down: sky over ground is alike in many photos
	twinGain  = 0.35 // by how much that is more than without
	twinShape = 0.08 // by how much their sides may differ, as a share
)

// Sideways returns by how many degrees clockwise each photo of a set should be
// turned: those that show, once turned, nearly the same as at least two others
// which agree with each other. 0: there is no evidence that it lies. nil entries
// are passed over.
func Sideways(photos []*Photo) []int {
	thumbs := make([][]float64, len(photos))
	for i, p := range photos {
		if p != nil && p.small != nil {
			thumbs[i] = p.thumb
		}
	}
	turns := make([]int, len(photos))
	for i, p := range photos {
		var votes [4]int
		for j, o := range photos {
			if i == j || thumbs[i] == nil || thumbs[j] == nil {
				continue
			}
			votes[turnTo(p, o, thumbs[i], thumbs[j])]++
		}
		// votes[0] counts those that show something else or the same as it is.
		for k := 1; k < 4; k++ {
			if votes[k] >= 2 && upright(i, photos, thumbs) == 0 {
				turns[i] = 90 * k
			}
		}
	}
	return turns
}

// upright counts the photos that show nearly the same as photo i without a turn.
func upright(i int, photos []*Photo, thumbs [][]float64) (n int) {
	for j := range photos {
		if i != j && thumbs[j] != nil && alike(thumbs[i], thumbs[j]) >= twinLike {
			n++
		}
	}
	return n
}

// turnTo is by how many quarters clockwise p has to be turned to show nearly the
// same as o; 0 where no turn makes it so.
func turnTo(p, o *Photo, a, b []float64) int {
	as := alike(a, b)
	best, like := 0, twinLike
	for k := 1; k < 4; k++ {
		a = quarter(a)
		w, h := float64(p.W), float64(p.H)
		if k%2 == 1 {
			w, h = h, w
		}
		if math.Abs(w/h*float64(o.H)/float64(o.W)-1) > twinShape {
			continue
		}
		if v := alike(a, b); v >= like && v >= as+twinGain && (k != 2 || v >= twinOver) {
			best, like = k, v
		}
	}
	return best
}

// thumb is a tiny picture of the photo's luma, of mean 0 and length 1; nil where
// it is of one tone.
func thumb(m *pixel.Image) []float64 {
	t := make([]float64, twinSide*twinSide)
	mean := 0.0
	for j := range twinSide {
		y0, y1 := j*m.H/twinSide, max((j+1)*m.H/twinSide, j*m.H/twinSide+1)
		for i := range twinSide {
			x0, x1 := i*m.W/twinSide, max((i+1)*m.W/twinSide, i*m.W/twinSide+1)
			sum := 0.0
			for y := y0; y < y1; y++ {
				for x := x0; x < x1; x++ {
					q := m.Row(y)[x*3 : x*3+3]
					sum += 0.2126*float64(q[0]) + 0.7152*float64(q[1]) + 0.0722*float64(q[2])
				}
			}
			t[j*twinSide+i] = math.Sqrt(sum / float64((x1-x0)*(y1-y0)))
			mean += t[j*twinSide+i] / float64(len(t))
		}
	}
	length := 0.0
	for i := range t {
		t[i] -= mean
		length += float64(t[i] * t[i])
	}
	if length < 1 {
		return nil
	}
	for i := range t {
		t[i] /= math.Sqrt(length)
	}
	return t
}

// quarter turns a thumb a quarter clockwise.
func quarter(t []float64) []float64 {
	out := make([]float64, len(t))
	for y := range twinSide {
		for x := range twinSide {
			out[x*twinSide+twinSide-1-y] = t[y*twinSide+x]
		}
	}
	return out
}

// alike is the correlation of two thumbs.
func alike(a, b []float64) float64 {
	s := 0.0
	for i, v := range a {
		s += float64(v * b[i])
	}
	return s
}
