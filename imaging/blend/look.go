package blend

import (
	"math"
	"slices"
	"sync"

	"slabfolio/imaging/pixel"
	"slabfolio/imaging/spare"
)

// lookSide is the longer side of the copy that a frame is looked at on.
const lookSide = 512

// A smallCopy is what is kept of a frame: a small copy in linear light, 0 to 1.
type smallCopy struct {
	w, h   int
	light  []float32 // luminance
	edges  []float32 // contrast of edges on a copy half as large, whatever the brightness; see edgesOf
	ew, eh int       // its size
	mean   float64
	bright float64 // the level of its brightest hundredth
	lamp   []float32
}

// openAll opens every frame once. All must have one size.
func (j *job) openAll() error {
	n := len(j.req.Frames)
	j.looks = make([]smallCopy, n)
	if err := j.lookAt(0); err != nil { // it tells the size
		return err
	}
	errs := make([]error, n)
	each(n-1, func(k int) { errs[k+1] = j.lookAt(k + 1) })
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// lookAt opens frame i for the first time.
func (j *job) lookAt(i int) error {
	rows, err := j.req.Frames[i].Open()
	if err != nil {
		return err
	}
	w, h := rows.Size()
	if i == 0 {
		j.w, j.h = w, h
	}
	if err := j.sized(i, w, h); err != nil {
		return err
	}
	m, err := pixel.Reduce(rows, 1, lookSide)
	if err != nil {
		return err
	}
	j.looks[i] = lookOf(m)
	f := &j.r.Frames[i]
	f.Seen, f.SeenW, f.SeenH = seen(m)
	return nil
}

// sized refuses a frame of another size than the first.
func (j *job) sized(i, w, h int) error {
	if w == j.w && h == j.h {
		return nil
	}
	return refuse("blend.size", map[string]float64{"frame": float64(i + 1), "width": float64(w), "height": float64(h), "want_width": float64(j.w), "want_height": float64(j.h)})
}

func lookOf(m *pixel.Image) smallCopy {
	l := smallCopy{w: m.W, h: m.H, light: spare.Take[float32](m.W * m.H)}
	sum := 0.0
	for i := range l.light {
		v := luminance(m.Pix[3*i], m.Pix[3*i+1], m.Pix[3*i+2]) / 65535
		l.light[i] = v
		sum += float64(v)
	}
	l.mean = sum / float64(len(l.light))
	l.bright = percentile(l.light, 99)
	half, w, h := halved(l.light, l.w, l.h)
	defer spare.Give(half)
	l.edges, l.ew, l.eh = edgesOf(half, w, h, float32(l.bright)), w, h
	return l
}

// percentile is the level, in steps of a 16-bit one, below which n of a hundred
// values from 0 to 1 lie.
func percentile(values []float32, n int) float64 {
	count := spare.Take[int32](65536)
	defer spare.Give(count)
	clear(count)
	for _, v := range values {
		count[int(v*65535+0.5)]++
	}
	left := int32(len(values) * n / 100)
	for level, c := range count {
		if left -= c; left < 0 {
			return float64(level) / 65535
		}
	}
	return 1
}

// A Look is what Likeness compares of a picture.
type Look struct{ smallCopy }

// LookAt looks at a small copy in linear light.
func LookAt(m *pixel.Image) *Look { return &Look{lookOf(m)} }

// Release gives the memory of the look to the next. It compares nothing any more.
func (p *Look) Release() {
	spare.Give(p.light)
	spare.Give(p.edges)
	p.smallCopy = smallCopy{}
}

// Likeness compares two small copies in linear light of one size: how like their
// edges are, whatever the light (1 for one view, about 0 for two), and how like
// their light is. Both are 0 for copies of different sizes.
func (p *Look) Likeness(q *Look) (edges, light float64) {
	if p.w != q.w || p.h != q.h {
		return 0, 0
	}
	return correlation(p.edges, q.edges, p.ew, p.eh, 0, 0), correlation(p.light, q.light, p.w, p.h, 0, 0)
}

// halved is the mean of each 2 × 2 pixels, in memory from spare.
func halved(v []float32, w, h int) (out []float32, ow, oh int) {
	ow, oh = max(w/2, 1), max(h/2, 1)
	out = spare.Take[float32](ow * oh)
	for y := range oh {
		for x := range ow {
			x1, y1 := min(2*x+1, w-1), min(2*y+1, h-1)
			out[y*ow+x] = (v[2*y*w+2*x] + v[2*y*w+x1] + v[y1*w+2*x] + v[y1*w+x1]) / 4
		}
	}
	return out, ow, oh
}

// luminance of linear sRGB (IEC 61966-2-1).
func luminance(r, g, b uint16) float32 {
	return 0.2126*float32(r) + 0.7152*float32(g) + 0.0722*float32(b)
}

// edgesOf is the steepness of the light against its own level nearby: a light
// from another side changes the level and leaves outlines and grain. What is
// darker than a fiftieth of bright counts for less, since it is noise.
func edgesOf(v []float32, w, h int, bright float32) []float32 {
	even := boxed(v, w, h, 4)
	defer spare.Give(even)
	out := spare.Take[float32](len(v))
	clear(out[:min(w, len(out))])
	clear(out[max(len(out)-w, 0):])
	floor := 0.02*bright + 1e-4
	for y := 1; y < h-1; y++ {
		out[y*w], out[(y+1)*w-1] = 0, 0
		for x := 1; x < w-1; x++ {
			i := y*w + x
			dx, dy := v[i+1]-v[i-1], v[i+w]-v[i-w]
			e := float32(math.Sqrt(float64(dx*dx+dy*dy))) / (even[i] + floor)
			out[i] = min(e, 1)
		}
	}
	return out
}

// boxed is the mean over a square of 2r+1 pixels, in memory from spare.
func boxed(v []float32, w, h, r int) []float32 {
	mid, out := spare.Take[float32](len(v)), spare.Take[float32](len(v))
	defer spare.Give(mid)
	for y := range h {
		row := v[y*w : (y+1)*w]
		var sum float64
		for x := -r; x < w; x++ {
			if x+r < w {
				sum += float64(row[x+r])
			}
			if x-r-1 >= 0 {
				sum -= float64(row[x-r-1])
			}
			if x >= 0 {
				mid[y*w+x] = float32(sum / float64(min(x+r, w-1)-max(x-r, 0)+1))
			}
		}
	}
	for x := range w {
		var sum float64
		for y := -r; y < h; y++ {
			if y+r < h {
				sum += float64(mid[(y+r)*w+x])
			}
			if y-r-1 >= 0 {
				sum -= float64(mid[(y-r-1)*w+x])
			}
			if y >= 0 {
				out[y*w+x] = float32(sum / float64(min(y+r, h-1)-max(y-r, 0)+1))
			}
		}
	}
	return out
}

// A patch is a square of the reference at full size that other frames are laid
// onto.
type patch struct {
	x, y     int // of its upper left corner
	spectrum *spectrum
}

const patchSide = 256

// Limits of what belongs together.
const (
	leastLike = 0.3  // correlation of the edges
	mostShift = 0.04 // of the longer side
	leastMove = 0.3  // pixels: resampling softens, so less is left alone
)

// choose takes the reference, the frame whose edges are most like all others',
// and leaves out those that are not like it.
func (j *job) choose() {
	n := len(j.looks)
	j.leaveOutMasks()
	shift := make([][][2]float64, n)
	like := make([][]float64, n)
	for a := range n {
		shift[a], like[a] = make([][2]float64, n), make([]float64, n)
	}
	// Comparing all with all takes the square of their number: the reference is
	// looked for among four or so, evenly spread.
	step := max(n/4, 1)
	best, score := 0, math.Inf(-1)
	spectra := make([]*spectrum, n)
	for i := range j.looks {
		spectra[i] = spectrumOf(j.looks[i].edges, j.looks[i].ew, j.looks[i].eh)
	}
	for a := 0; a < n; a += step {
		if j.r.Frames[a].LeftOut && a+step < n {
			continue
		}
		var all []float64
		for b := range n {
			if a != b {
				shift[a][b], like[a][b] = j.compare(spectra, a, b)
				all = append(all, like[a][b])
			}
		}
		slices.Sort(all)
		if m := all[len(all)/2]; m > score {
			best, score = a, m
		}
	}
	j.ref = best
	j.r.Frames[best].Like = 1
	j.compareByNeighbours(spectra, shift[best], like[best])
	scale := float64(j.w) / float64(j.looks[best].ew)
	for i := range n {
		if i == best || j.r.Frames[i].LeftOut {
			continue
		}
		f := &j.r.Frames[i]
		f.ShiftX, f.ShiftY, f.Like = shift[best][i][0]*scale, shift[best][i][1]*scale, like[best][i]
		off := math.Hypot(f.ShiftX, f.ShiftY)
		switch {
		case f.Like < leastLike && !(j.req.How == Bracket && j.looks[i].empty()):
			f.LeftOut = true
			j.note("blend.left-out", map[string]float64{"frame": float64(i + 1), "like": f.Like, "least": leastLike})
		case off > mostShift*float64(max(j.w, j.h)):
			f.LeftOut = true
			j.note("blend.far", map[string]float64{"frame": float64(i + 1), "shift": off})
		}
	}
	if k := len(j.used()); k < 2 {
		j.note("blend.few", map[string]float64{"frames": float64(k)})
	}
}

// compareByNeighbours compares a frame that is not like the reference with those that are: the
// shortest exposure of a bracket has little in common with the longest, and
// something with the one beside it.
func (j *job) compareByNeighbours(spectra []*spectrum, shift [][2]float64, like []float64) {
	n := len(j.looks)
	var in, out []int
	for i := range n {
		if i == j.ref || like[i] >= leastLike {
			in = append(in, i)
		} else {
			out = append(out, i)
		}
	}
	for changed := true; changed && len(out) > 0; {
		changed = false
		var still []int
		for _, i := range out {
			for _, k := range in {
				if s, l := j.compare(spectra, k, i); l >= leastLike && l > like[i] {
					like[i], shift[i] = l, [2]float64{s[0] + shift[k][0], s[1] + shift[k][1]}
				}
			}
			if like[i] >= leastLike {
				in, changed = append(in, i), true
			} else {
				still = append(still, i)
			}
		}
		out = still
	}
}

// empty reports whether a frame is black or white nearly all over, so that there
// is nothing to compare it by.
func (l *smallCopy) empty() bool {
	n := 0
	for _, v := range l.light {
		if v > 0.003 && v < 0.97 {
			n++
		}
	}
	return n < len(l.light)/5
}

// compare is how far frame b stands off frame a, in pixels of the copy, and how
// like their edges then are.
func (j *job) compare(s []*spectrum, a, b int) (shift [2]float64, like float64) {
	dx, dy := s[a].shift(s[b])
	la, lb := &j.looks[a], &j.looks[b]
	like = correlation(la.edges, lb.edges, la.ew, la.eh, dx, dy)
	if still := correlation(la.edges, lb.edges, la.ew, la.eh, 0, 0); still >= like {
		return [2]float64{}, still
	}
	return [2]float64{dx, dy}, like
}

// correlation is that of two maps, the second shifted by (dx, dy).
func correlation(a, b []float32, w, h int, dx, dy float64) float64 {
	ix, iy := int(math.Round(dx)), int(math.Round(dy))
	var n, sa, sb, saa, sbb, sab float64
	for y := max(0, -iy); y < min(h, h-iy); y++ {
		for x := max(0, -ix); x < min(w, w-ix); x++ {
			u, v := float64(a[y*w+x]), float64(b[(y+iy)*w+x+ix])
			n, sa, sb, saa, sbb, sab = n+1, sa+u, sb+v, saa+u*u, sbb+v*v, sab+u*v
		}
	}
	va, vb := n*saa-sa*sa, n*sbb-sb*sb
	if n == 0 || va <= 0 || vb <= 0 {
		return 0
	}
	return (n*sab - sa*sb) / math.Sqrt(va*vb)
}

// bands does rows 0 to h in two bands side by side. A row depends on no other's
// result, so the bytes do not show it.
func bands(h int, do func(y0, y1 int)) {
	if h < 64 {
		do(0, h)
		return
	}
	var wg sync.WaitGroup
	wg.Go(func() { do(0, h/2) })
	do(h/2, h)
	wg.Wait()
}

// each does 0 to n-1, two at a time. What one does, no other may need.
func each(n int, do func(i int)) {
	var wg sync.WaitGroup
	half := func(i int) {
		for ; i < n; i += 2 {
			do(i)
		}
	}
	wg.Go(func() { half(1) })
	half(0)
	wg.Wait()
}
