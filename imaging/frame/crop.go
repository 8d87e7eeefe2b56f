package frame

import (
	"math"

	"slabfolio/imaging/note"
)

const (
	plainMargin = 0.06 // of the longer side of the piece's box, left free around it
	busyMargin  = 0.12
	surely      = 0.34 // below this confidence a busy scene keeps its whole frame
	littleOf    = 0.02 // share of the frame below which the piece is called small
)

// place sets Subject and Crop from the finding, after straightening.
func (r *Result) place(f finding, opts *Options, c *labCopy) {
	w, h := float64(c.w), float64(c.h)
	sure := f.mask != nil && (f.plain || f.confidence >= surely)
	valid := whole
	if f.mask != nil {
		r.Subject = r.straightBox(c, f)
	}
	if r.Angle != 0 || r.Corners != nil {
		if !f.plain {
			valid = r.inside(w, h)
		}
	}
	switch {
	case opts.Box != nil:
		r.Crop = tidy(*opts.Box)
		return
	case opts.AsShot:
		return
	case !sure:
		r.Crop = valid
		r.Notes = append(r.Notes, note.Note{Code: "frame.whole", Values: map[string]float64{"share": f.share}})
		return
	}
	m := plainMargin
	if !f.plain {
		m = busyMargin
	}
	s := r.Subject
	pad := m * math.Max((s[2]-s[0])*w, (s[3]-s[1])*h)
	crop := [4]float64{s[0] - pad/w, s[1] - pad/h, s[2] + pad/w, s[3] + pad/h}
	if !f.plain {
		crop = c.onlyQuiet(crop)
	}
	for i := range 2 {
		crop[i] = math.Max(crop[i], valid[i])
		crop[i+2] = math.Min(crop[i+2], valid[i+2])
	}
	// A crop that takes off nearly nothing is not worth it.
	if (crop[2]-crop[0])*(crop[3]-crop[1]) > 0.94*(valid[2]-valid[0])*(valid[3]-valid[1]) {
		crop = valid
	}
	r.Crop = crop
	sides := 0
	for _, out := range [4]bool{f.x0 <= 1, f.y0 <= 1, f.x1 >= c.w-1, f.y1 >= c.h-1} {
		if out {
			sides++
		}
	}
	if sides > 0 && f.plain {
		r.Notes = append(r.Notes, note.Note{Code: "frame.cut", Values: map[string]float64{"sides": float64(sides)}})
	}
	if f.share < littleOf {
		r.Notes = append(r.Notes, note.Note{Code: "frame.small", Values: map[string]float64{"share": f.share}})
	}
}

// tidy puts a box in order and inside the photo; a box of no size gives the whole.
func tidy(b [4]float64) [4]float64 {
	for i, v := range b {
		if math.IsNaN(v) {
			return whole
		}
		b[i] = math.Max(0, math.Min(1, v))
	}
	b[0], b[2] = math.Min(b[0], b[2]), math.Max(b[0], b[2])
	b[1], b[3] = math.Min(b[1], b[3]), math.Max(b[1], b[3])
	if b[2]-b[0] < 0.001 || b[3]-b[1] < 0.001 {
		return whole
	}
	return b
}

// straightBox is the box of the mask in the straightened photo, in shares.
func (r *Result) straightBox(c *labCopy, f finding) [4]float64 {
	w, h := float64(c.w), float64(c.h)
	if r.Angle == 0 && r.Corners == nil {
		return [4]float64{float64(f.x0) / w, float64(f.y0) / h, float64(f.x1) / w, float64(f.y1) / h}
	}
	m := r.Source(c.w, c.h).inverse()
	b := [4]float64{w, h, 0, 0}
	for y := f.y0; y < f.y1; y++ {
		for x := f.x0; x < f.x1; x++ {
			if f.mask[y*c.w+x] == 0 {
				continue
			}
			u, v := m.Apply(float64(x)+0.5, float64(y)+0.5)
			b[0], b[1], b[2], b[3] = math.Min(b[0], u-0.5), math.Min(b[1], v-0.5), math.Max(b[2], u+0.5), math.Max(b[3], v+0.5)
		}
	}
	return [4]float64{math.Max(0, b[0]/w), math.Max(0, b[1]/h), math.Min(1, b[2]/w), math.Min(1, b[3]/h)}
}

// inside is the largest centred crop, in shares, whose corners all lie in the
// photo after straightening: where there is no plain backdrop to paint with.
func (r *Result) inside(w, h float64) [4]float64 {
	m := r.Source(int(w), int(h))
	for k := range 200 {
		d := float64(k) * 0.001
		b := [4]float64{d, d, 1 - d, 1 - d}
		ok := true
		for _, p := range [4][2]float64{{b[0], b[1]}, {b[2], b[1]}, {b[2], b[3]}, {b[0], b[3]}} {
			x, y := m.Apply(p[0]*w, p[1]*h)
			ok = ok && x >= -0.01 && y >= -0.01 && x <= w+0.01 && y <= h+0.01
		}
		if ok {
			return b
		}
	}
	return [4]float64{0.2, 0.2, 0.8, 0.8}
}

// onlyQuiet widens a crop so that it takes off quiet strips alone: floor, wall,
// sky. From each edge of the photo it goes in as long as rows (or columns) have
// hardly an edge in them.
func (c *labCopy) onlyQuiet(crop [4]float64) [4]float64 {
	const (
		strong = 7    // L* between neighbours two pixels apart
		some   = 0.02 // share of a row
	)
	rows, cols := make([]int, c.h), make([]int, c.w)
	for y := 1; y < c.h-1; y++ {
		for x := 1; x < c.w-1; x++ {
			i := y*c.w + x
			dx, dy := c.l[i+1]-c.l[i-1], c.l[i+c.w]-c.l[i-c.w]
			if dx*dx+dy*dy > strong*strong {
				rows[y]++
				cols[x]++
			}
		}
	}
	quiet := func(n []int, across int, back bool) float64 {
		for k := range n {
			i := k
			if back {
				i = len(n) - 1 - k
			}
			if float64(n[i]) > some*float64(across) {
				return math.Max(0, float64(k)/float64(len(n))-0.02)
			}
		}
		return 1
	}
	out := [4]float64{
		math.Min(crop[0], quiet(cols, c.h, false)), math.Min(crop[1], quiet(rows, c.w, false)),
		math.Max(crop[2], 1-quiet(cols, c.h, true)), math.Max(crop[3], 1-quiet(rows, c.w, true)),
	}
	// A strip of two colours may be the piece reaching out of the photo.
	x0, y0, x1, y1 := int(out[0]*float64(c.w)), int(out[1]*float64(c.h)), int(math.Ceil(out[2]*float64(c.w))), int(math.Ceil(out[3]*float64(c.h)))
	for k, box := range [4][4]int{{0, 0, x0, c.h}, {0, 0, c.w, y0}, {x1, 0, c.w, c.h}, {0, y1, c.w, c.h}} {
		if c.spread(box) > oneColour {
			out[k] = whole[k]
		}
	}
	return out
}

// oneColour is the most that a strip may vary to be one thing, ΔE.
const oneColour = 7

// spread is the standard deviation of the colour in a box, ΔE; 0 if it is empty.
func (c *labCopy) spread(b [4]int) float64 {
	var sum, square [3]float64
	n := 0.0
	for y := b[1]; y < b[3]; y++ {
		for i := y*c.w + b[0]; i < y*c.w+b[2]; i++ {
			n++
			for k, v := range [3]float32{c.l[i], c.a[i], c.b[i]} {
				sum[k] += float64(v)
				square[k] += float64(v) * float64(v)
			}
		}
	}
	if n == 0 {
		return 0
	}
	var d float64
	for k := range sum {
		d += square[k]/n - sum[k]/n*sum[k]/n
	}
	return math.Sqrt(math.Max(0, d))
}
