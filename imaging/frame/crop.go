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

// limitStraightening takes the straightening back where it would cost too much, and sets
// Inside and Subject.
func (r *Result) limitStraightening(f finding, opts *Options, c *labCopy) {
	if r.Inside != whole {
		r.Notes = append(r.Notes, note.Note{Code: "frame.border"})
	}
	if !r.turned() {
		r.Subject = r.subjectBox(c, f)
		return
	}
	photo := r.Inside
	in, ok := r.inside(float64(c.w), float64(c.h))
	r.Inside, r.Subject = in, r.subjectBox(c, f)
	if ok && (!f.sure || contains(in, r.Subject)) && (opts.Box == nil || contains(in, r.mapped(tidy(*opts.Box), c))) {
		return
	}
	for i, n := range r.Notes {
		switch n.Code {
		case "frame.straightened":
			r.Notes[i].Code = "frame.leaning"
		case "frame.converging":
			n.Values["corrected"] = 0
		}
	}
	r.Angle, r.Corners, r.Inside = 0, nil, photo
	r.Subject = r.subjectBox(c, f)
}

func (r *Result) turned() bool { return r.Angle != 0 || r.Corners != nil }

// contains reports whether a holds b, to a thousandth.
func contains(a, b [4]float64) bool {
	const e = 0.001
	return a[0] <= b[0]+e && a[1] <= b[1]+e && a[2] >= b[2]-e && a[3] >= b[3]-e
}

// subjectBox is the box of the piece in the straightened photo; the whole frame
// when nothing was told apart.
func (r *Result) subjectBox(c *labCopy, f finding) [4]float64 {
	if f.mask == nil {
		return whole
	}
	return r.straightBox(c, f)
}

// mapped is the box of what a box of the upright photo becomes when straightened.
func (r *Result) mapped(b [4]float64, c *labCopy) [4]float64 {
	if !r.turned() {
		return b
	}
	w, h := float64(c.w), float64(c.h)
	m := r.Source(c.w, c.h).inverse()
	out := [4]float64{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, p := range [4][2]float64{{b[0], b[1]}, {b[2], b[1]}, {b[2], b[3]}, {b[0], b[3]}} {
		x, y := m.Apply(p[0]*w, p[1]*h)
		out[0], out[1], out[2], out[3] = math.Min(out[0], x/w), math.Min(out[1], y/h), math.Max(out[2], x/w), math.Max(out[3], y/h)
	}
	return out
}

// place sets Crop from the finding, after straightening.
func (r *Result) place(f finding, opts *Options, c *labCopy) {
	r.Crop = r.Inside
	switch {
	case opts.Box != nil:
		r.Crop, r.Kept = clipped(r.mapped(tidy(*opts.Box), c), r.Inside), true
		return
	case opts.AsShot:
		r.Kept = true
		return
	case f.mask == nil || !f.sure && (f.plain || opts.Part || f.confidence < surely):
		r.Notes = append(r.Notes, note.Note{Code: "frame.whole", Values: map[string]float64{"share": f.share}})
		return
	}
	r.crop(f, opts, c)
	r.noteLie(f, c)
}

// crop cuts the photo to the piece, with some room around it, where that takes
// off more than a little. Where the outline is not sure it takes off quiet
// strips alone.
func (r *Result) crop(f finding, opts *Options, c *labCopy) {
	w, h := float64(c.w), float64(c.h)
	m := plainMargin
	if !f.sure {
		m = busyMargin
	}
	s := r.Subject
	pad := m * math.Max((s[2]-s[0])*w, (s[3]-s[1])*h)
	crop := [4]float64{s[0] - pad/w, s[1] - pad/h, s[2] + pad/w, s[3] + pad/h}
	if !f.sure {
		crop = c.onlyQuiet(crop)
	}
	crop = clipped(r.notTooLong(clipped(crop, r.Inside), w, h), r.Inside)
	if side := float64(opts.Side); side > 0 {
		need := math.Min(enoughPixels, leastLeft*side)
		if f.plain {
			need = math.Min(enoughPlain, leastPlain*side)
		}
		crop = r.notTooSmall(crop, w, h, side, need)
	}
	in := r.Inside
	most := mostLeft
	if (s[2]-s[0])/(in[2]-in[0]) >= filled || (s[3]-s[1])/(in[3]-in[1]) >= filled {
		most = mostFilled
	}
	if area(crop) <= most*area(in) && gains(s, in, crop) {
		r.Crop = crop
	}
}

// A page shows a strip small, however large the piece stands in it: a crop is no more
// than so many times as wide as it is high, or as high as it is wide, where the photo has more.
const (
	mostWide = 2.75
	mostHigh = 1.6
)

// notTooLong is a crop of a photo, in shares, with as much more beside a long thin piece
// as keeps it from being a strip; w and h are the photo's sides to any scale.
func (r *Result) notTooLong(crop [4]float64, w, h float64) [4]float64 {
	wide, high := (crop[2]-crop[0])*w, (crop[3]-crop[1])*h
	crop[0], crop[2] = widened(crop[0], crop[2], high/mostHigh/w, r.Inside[0], r.Inside[2])
	crop[1], crop[3] = widened(crop[1], crop[3], wide/mostWide/h, r.Inside[1], r.Inside[3])
	return crop
}

// widened is lo…hi made at least so long, about its middle, as far as in0…in1 goes.
func widened(lo, hi, need, in0, in1 float64) (float64, float64) {
	if hi-lo >= need {
		return lo, hi
	}
	need = math.Min(need, in1-in0)
	lo = math.Max(in0, math.Min(in1-need, (lo+hi-need)/2))
	return lo, lo + need
}

// Where a photo has fewer pixels than a page or a sheet shows, what a crop makes
// larger it makes softer too: of a room it leaves most of them. Before a plain
// backdrop there is nothing else to see, and a page shows it no smaller.
const (
	enoughPixels = 1340 // along the longer side: 170 mm on a sheet at 200 dots an inch
	leastLeft    = 0.8  // of the longer side of a photo that has fewer, at the least
	enoughPlain  = 480  // both before a plain backdrop
	leastPlain   = 0.75
)

// notTooSmall is a crop of a photo, in shares, that leaves the pixels needed along its
// longer side; w and h are the photo's sides to any scale, side the longer one in pixels.
func (r *Result) notTooSmall(crop [4]float64, w, h, side, need float64) [4]float64 {
	k := side / math.Max(w, h)
	have := k * math.Max((crop[2]-crop[0])*w, (crop[3]-crop[1])*h)
	if have >= need || have <= 0 {
		return crop
	}
	for i := range 2 {
		crop[i], crop[i+2] = widened(crop[i], crop[i+2], (crop[i+2]-crop[i])*need/have, r.Inside[i], r.Inside[i+2])
	}
	return crop
}

// What a crop has to gain, one of them: else the maker's own frame is as good, with
// more air.
const (
	gainSize    = 1.08 // the piece stands so much larger between its nearest edges
	gainArea    = 1.50 // so much was around it
	gainBalance = 0.03 // its middle comes so much nearer to that of the picture, as a share of it
)

// gains reports whether a piece at s is clearly shown better by a crop than by all
// of in.
func gains(s, in, crop [4]float64) bool {
	fill := func(b [4]float64) float64 {
		return math.Max((s[2]-s[0])/(b[2]-b[0]), (s[3]-s[1])/(b[3]-b[1]))
	}
	off := func(b [4]float64) float64 {
		return math.Max(math.Abs((s[0]+s[2]-2*b[0])/(b[2]-b[0])-1), math.Abs((s[1]+s[3]-2*b[1])/(b[3]-b[1])-1)) / 2
	}
	return fill(crop) >= gainSize*fill(in) || area(in) >= gainArea*area(crop) || off(in)-off(crop) >= gainBalance
}

func area(b [4]float64) float64 { return (b[2] - b[0]) * (b[3] - b[1]) }

// A crop is made where it leaves at most so much of the photo. A piece that fills
// the photo from side to side, or from top to bottom, was framed by its maker:
// there it has to take off more, or it is one frame for another.
const (
	mostLeft   = 0.94
	filled     = 0.88
	mostFilled = 0.80
)

func clipped(b, in [4]float64) [4]float64 {
	for i := range 2 {
		b[i], b[i+2] = math.Max(b[i], in[i]), math.Min(b[i+2], in[i+2])
	}
	return b
}

// noteLie notes what is worth knowing of how the piece lies in the photo.
func (r *Result) noteLie(f finding, c *labCopy) {
	if f.plain {
		at := map[string]float64{}
		for i, share := range c.onEdges(f.mask) {
			if share >= reaches {
				at[sides[i]] = share
			}
		}
		if len(at) > 0 {
			r.Notes = append(r.Notes, note.Note{Code: "frame.cut", Values: at})
		}
	}
	if f.share < littleOf {
		r.Notes = append(r.Notes, note.Note{Code: "frame.small", Values: map[string]float64{"share": f.share}})
	}
}

// sides names the edges of a photo, in the order of a box.
var sides = [4]string{"left", "top", "right", "bottom"}

// reaches is the share of an edge along which the mask comes to it from which on that is
// worth telling, and edgeNear how near that is, in pixels of the copy.
const (
	reaches  = 0.01
	edgeNear = 2
)

// onEdges is the share of each edge of the photo to which a mask comes.
func (c *labCopy) onEdges(mask []uint8) (share [4]float64) {
	comes := func(x, y, dx, dy int) bool {
		for d := range edgeNear {
			if mask[(y+d*dy)*c.w+x+d*dx] != 0 {
				return true
			}
		}
		return false
	}
	for y := range c.h {
		if comes(0, y, 1, 0) {
			share[0] += 1 / float64(c.h)
		}
		if comes(c.w-1, y, -1, 0) {
			share[2] += 1 / float64(c.h)
		}
	}
	for x := range c.w {
		if comes(x, 0, 0, 1) {
			share[1] += 1 / float64(c.w)
		}
		if comes(x, c.h-1, 0, -1) {
			share[3] += 1 / float64(c.w)
		}
	}
	return share
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

// mostLost is the most that straightening may take off either side of the photo,
// as a share.
const mostLost = 0.06

// inside is the largest centred part, in shares, that shows nothing but photo
// after straightening, given what of the upright photo is photo; ok tells whether it loses no more than mostLost a side.
func (r *Result) inside(w, h float64) (best [4]float64, ok bool) {
	m, photo := r.Source(int(w), int(h)), r.Inside
	all := func(b [4]float64) bool {
		for _, p := range [4][2]float64{{b[0], b[1]}, {b[2], b[1]}, {b[2], b[3]}, {b[0], b[3]}} {
			x, y := m.Apply(p[0]*w, p[1]*h)
			if x < photo[0]*w || y < photo[1]*h || x > photo[2]*w || y > photo[3]*h {
				return false
			}
		}
		return true
	}
	best, most := whole, 0.0
	for i := 0.0; i <= mostLost; i += 0.0005 {
		for k := 0.0; k <= mostLost; k += 0.0005 {
			if b := [4]float64{i, k, 1 - i, 1 - k}; (1-2*i)*(1-2*k) > most && all(b) {
				best, most = b, (1-2*i)*(1-2*k)
				break
			}
		}
	}
	return best, most > 0
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
