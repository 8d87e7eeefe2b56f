package frame

import (
	"math"

	"slabfolio/imaging/pixel"
	"slabfolio/imaging/spare"
)

// finding is what the search for the piece found, in pixels of the copy.
type finding struct {
	plain          bool
	mask           []uint8 // nil: nothing told apart
	x0, y0, x1, y1 int     // box of the mask, x1 and y1 exclusive
	share          float64 // of the frame that the mask covers
	contrast       float64 // how far the piece is from the backdrop, in thresholds
	confidence     float64
	sure           bool       // the outline is to be trusted
	seen           bool       // the mask is what a sighting took for the piece
	may            [4]float64 // as Result.May, over the upright photo
	surface        backdrop
}

// What makes a backdrop plain, set on the real photos and the drawn scenes of
// the tests: nearly all of the photo's edge lies on one smooth surface, with
// little texture.
const (
	plainShare    = 0.70 // of the edge; the piece may reach out of the photo on one side
	plainNoise    = 2.6  // ΔE, median
	leastShare    = 0.0012
	darkBackdrop  = 25  // L*
	leastContrast = 1.6 // mean distance from the backdrop over the threshold
)

// subject finds the piece: by its difference from a plain backdrop if there is
// one, else by what stands out.
func (c *labCopy) subject() finding {
	d := c.fitBackdrop(c.ring())
	if d.share >= plainShare && d.noise <= plainNoise && d.corners >= 3 {
		if f, ok := c.beforePlain(&d); ok {
			return f
		}
	}
	return c.findInBusyScene(&d)
}

// beforePlain marks what differs from a plain backdrop.
func (c *labCopy) beforePlain(d *backdrop) (finding, bool) {
	full, lit := c.distance(d)
	defer spare.Give(full)
	defer spare.Give(lit)
	low := float32(min(14, max(5, 3+3.5*d.noise)))
	if d.l[0] < darkBackdrop {
		// Folds and dust of a black cloth are as far apart as a piece before grey
		// paper; what is lit there is much farther.
		low = max(low, min(18, 0.25*meanAbove(full, low)))
	}
	mask := make([]uint8, len(full))
	for i, v := range full {
		if v > low {
			mask[i] = 255
		}
	}
	c.eraseShadow(mask, full, lit, low)
	close3(mask, c.w, c.h)
	c.keepPiece(mask, full, 1.8*low)
	c.fillHoles(mask, lit, low)
	f := finding{plain: true, mask: mask, surface: *d}
	f.measure(c.w, c.h)
	if f.share < leastShare || f.share > 0.92 {
		return f, false
	}
	var sum float64
	for i, v := range mask {
		if v != 0 {
			sum += float64(full[i])
		}
	}
	f.contrast = sum / (f.share * float64(c.w*c.h)) / float64(low)
	if f.contrast < leastContrast {
		return f, false // grain, not a piece
	}
	f.confidence = min(1, d.share*1.1) * min(1, 0.5+f.share*20) * min(1, f.contrast/2.5)
	return f, true
}

// meanAbove is the mean of the values above a level.
func meanAbove(v []float32, level float32) float32 {
	var sum, n float64
	for _, x := range v {
		if x > level {
			sum += float64(x)
			n++
		}
	}
	return float32(sum / math.Max(1, n))
}

// eraseShadow takes soft shadows off the mask: from the backdrop it walks into
// pixels that are only darker, not of another colour, as long as each step is
// gentle. A shadow fades at its outer edge; the piece does not. It may take a little
// colour from what stands beside it, as far as it is darker by as much again.
func (c *labCopy) eraseShadow(mask []uint8, full, lit []float32, low float32) {
	const (
		gentle   = 1.4  // L* a pixel
		untinted = 0.7  // of low
		tinted   = 1.05 // of low, where it is
		little   = 0.55 // of all that it is off
	)
	room := spare.Take[int32](len(mask)) // each pixel comes in once
	defer spare.Give(room)
	queue := room[:0]
	for i, v := range mask {
		if v == 0 {
			queue = append(queue, int32(i))
		}
	}
	for len(queue) > 0 {
		i := int(queue[len(queue)-1])
		queue = queue[:len(queue)-1]
		x, y := i%c.w, i/c.w
		for _, s := range [4][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}} {
			if x+s[0] < 0 || x+s[0] >= c.w || y+s[1] < 0 || y+s[1] >= c.h {
				continue
			}
			j := i + s[1]*c.w + s[0]
			if mask[j] == 0 || lit[j] > low*untinted && (lit[j] > low*tinted || lit[j] > full[j]*little) {
				continue
			}
			if step := c.l[j] - c.l[i]; step > gentle || step < -gentle {
				continue
			}
			mask[j] = 0
			queue = append(queue, int32(j))
		}
	}
}

// keepPiece drops patches that are too weak or too small to be part of the
// piece: dust, noise, a crease of the backdrop. Thin things stay: a patch
// counts by its contrast as well as by its area.
func (c *labCopy) keepPiece(mask []uint8, full []float32, strong float32) {
	labels, list := parts(mask, c.w, c.h, full)
	defer spare.Give(labels)
	best := 0.0
	top := make([]float32, len(list))
	for i, id := range labels {
		if id > 0 {
			top[id-1] = max(top[id-1], full[i])
		}
	}
	for k, p := range list {
		if top[k] > strong {
			best = max(best, p.weight)
		}
	}
	keep := make([]bool, len(list))
	for k, p := range list {
		edgeLine := (p.x1-p.x0 <= 3 || p.y1-p.y0 <= 3) && (p.x0 == 0 || p.y0 == 0 || p.x1 == c.w || p.y1 == c.h)
		keep[k] = top[k] > strong && p.weight > 0.004*best && p.area >= 4 && !edgeLine
	}
	for i, id := range labels {
		if id > 0 && !keep[id-1] {
			mask[i] = 0
		}
	}
}

// fillHoles fills what the mask encloses when it is small, or of another colour
// than the backdrop even in shadow: a shine or a dark hollow of the piece. The
// view between two legs stays open.
func (c *labCopy) fillHoles(mask []uint8, lit []float32, least float32) {
	inv := make([]uint8, len(mask))
	for i, v := range mask {
		if v == 0 {
			inv[i] = 255
		}
	}
	labels, list := parts(inv, c.w, c.h, lit)
	defer spare.Give(labels)
	for i, id := range labels {
		if id == 0 {
			continue
		}
		p := list[id-1]
		open := p.x0 == 0 || p.y0 == 0 || p.x1 == c.w || p.y1 == c.h
		if !open && (p.area < c.w*c.h/4000 || float32(p.weight)/float32(p.area) > least) {
			mask[i] = 255
		}
	}
}

// measure sets the box and the share from the mask.
func (f *finding) measure(w, h int) {
	n := 0
	f.x0, f.y0, f.x1, f.y1 = w, h, 0, 0
	for y := range h {
		for x, v := range f.mask[y*w : (y+1)*w] {
			if v != 0 {
				n++
				f.x0, f.y0, f.x1, f.y1 = min(f.x0, x), min(f.y0, y), max(f.x1, x+1), max(f.y1, y+1)
			}
		}
	}
	f.share = float64(n) / float64(w*h)
	if n == 0 {
		f.mask, f.x0, f.y0, f.x1, f.y1 = nil, 0, 0, w, h
	}
}

// meanColour is the median colour of the backdrop in linear light, channel by
// channel, over the pixels outside the piece and its surroundings.
func meanColour(m *pixel.Image, c *labCopy, f finding) [3]uint16 {
	var hist [3][4096]int
	n := 0
	wide := make([]uint8, len(f.mask))
	copy(wide, f.mask)
	for range 3 {
		tmp := make([]uint8, len(wide))
		spread(wide, tmp, c.w, c.h, false)
		wide = tmp
	}
	for y := range c.h {
		for x := range c.w {
			if wide[y*c.w+x] != 0 {
				continue
			}
			px := m.Row((2*y + 1) * m.H / (2 * c.h))[(2*x+1)*m.W/(2*c.w)*3:]
			n++
			for k := range 3 {
				hist[k][px[k]>>4]++
			}
		}
	}
	var out [3]uint16
	for k := range 3 {
		at := 0
		for v, cnt := range hist[k] {
			if at += cnt; at*2 >= n {
				out[k] = uint16(min(65535, v<<4+8))
				break
			}
		}
	}
	return out
}
