package scene

import (
	"math"
	"runtime"
	"sync"

	"slabfolio/imaging/pixel"
)

// margin is how many rows beyond a band are drawn for its filters.
const margin = 34

// plane holds what is known of each pixel of a band.
type plane struct {
	w, h   int
	albedo []float32 // 3 a pixel
	light  []float32 // 4 a pixel: irradiance, and how free the mirror's view is
	gloss  []float32 // 3 a pixel
	extra  []float32 // 3 a pixel
	n      []float32 // 3 a pixel
	behind []float32 // 3 a pixel: the backdrop's light where it shares the pixel with something; kept for Layers alone
	depth  []float32
	object []int32 // −3: several things in one pixel, left out of the filter
}

func newPlane(w, h int) *plane {
	n := w * h
	return &plane{w: w, h: h, albedo: make([]float32, 3*n), light: make([]float32, 4*n), gloss: make([]float32, 3*n), extra: make([]float32, 3*n),
		n: make([]float32, 3*n), behind: make([]float32, 3*n), depth: make([]float32, n), object: make([]int32, n)}
}

// rows is a copy of n rows from y on.
func (p *plane) rows(y, n int) *plane {
	q := newPlane(p.w, n)
	q.take(0, p, y, n)
	return q
}

// take copies n rows of another plane, from its row y on, to row at of its own.
func (p *plane) take(at int, from *plane, y, n int) {
	for _, c := range []struct {
		to, from []float32
		each     int
	}{{p.albedo, from.albedo, 3}, {p.light, from.light, 4}, {p.gloss, from.gloss, 3}, {p.extra, from.extra, 3}, {p.n, from.n, 3}, {p.behind, from.behind, 3}, {p.depth, from.depth, 1}} {
		copy(c.to[at*p.w*c.each:], c.from[y*p.w*c.each:(y+n)*p.w*c.each])
	}
	copy(p.object[at*p.w:], from.object[y*p.w:(y+n)*p.w])
}

// eachRow calls do for the rows from a to b, spread over the processors. Rows
// share nothing, so the order does not show.
func eachRow(a, b int, do func(y int)) {
	var wg sync.WaitGroup
	next := make(chan int)
	for range max(min(runtime.GOMAXPROCS(0), b-a), 1) {
		wg.Go(func() {
			for y := range next {
				do(y)
			}
		})
	}
	for y := a; y < b; y++ {
		next <- y
	}
	close(next)
	wg.Wait()
}

// band draws rows y0 to y1 of the picture. The rows that it shares with the band
// above, the margins of both, were drawn there.
func (t *tracer) band(img *pixel.Image, mask []uint8, w, h, y0, y1 int) {
	a, b := max(y0-margin, 0), min(y1+margin, h)
	p := newPlane(w, b-a)
	drawn := a
	if t.shared != nil {
		p.take(0, t.shared, 0, t.shared.h)
		drawn += t.shared.h
	}
	eachRow(drawn, b, func(y int) { t.row(p, mask, y, y-a) })
	t.shared = nil
	if y1 < h {
		t.shared = p.rows(y1-margin-a, b-y1+margin)
	}
	for pass := range 4 {
		p.smooth(1 << pass)
	}
	lit := make([]float32, 3*w*(b-a))
	eachRow(0, b-a, func(y int) { p.compose(lit, y) })
	if t.layers != nil {
		t.layers.band(t, p, lit, a, y0, y1)
	}
	lit = blur(lit, w, b-a, t.s.Sensor.Blur)
	eachRow(y0, y1, func(y int) { t.expose(img.Row(y), lit[(y-a)*w*3:(y-a+1)*w*3], y, w, h) })
}

// row draws one row of pixels.
func (t *tracer) row(p *plane, mask []uint8, y, at int) {
	for x := range p.w {
		k := at*p.w + x
		if t.s.only != nil && !t.s.only(x, y) {
			p.object[k] = -3
			continue
		}
		c := t.pixel(x, y)
		put(p.albedo[3*k:], c.albedo)
		put(p.light[4*k:], c.light)
		p.light[4*k+3] = float32(c.free)
		put(p.gloss[3*k:], c.gloss)
		put(p.extra[3*k:], c.extra)
		put(p.n[3*k:], c.n)
		put(p.behind[3*k:], c.behind)
		p.depth[k], p.object[k] = float32(c.depth), c.object
		mask[y*p.w+x] = uint8(c.cover*255 + 0.5)
	}
}

// pixelMean is what the samples of a pixel have in common.
type pixelMean struct {
	sample
	cover  float64 // share of the samples that met the subject
	behind Vec     // light of the backdrop, where the pixel holds something else too
}

// pixel follows the rays of a pixel and returns their mean.
func (t *tracer) pixel(x, y int) pixelMean {
	var m pixelMean
	var lit, normal Vec
	lights, mixed := 0.0, false
	for i := range t.s.Samples {
		known := int32(nothingKnown)
		if i >= t.s.Shaded && !mixed {
			known = m.object
		}
		s := t.sample(x, y, i, known)
		if i == 0 {
			m.object = s.object
		}
		mixed = mixed || s.object != m.object
		if s.unlit {
			s.light, s.free = m.light.mul(1/lights), m.free/lights
			s.extra = m.extra.mul(1 / lights)
			lit = lit.add(s.albedo.had(s.light))
		} else {
			lit = lit.add(s.albedo.had(s.light))
			m.light, m.free, m.extra = m.light.add(s.light), m.free+s.free, m.extra.add(s.extra)
			lights++
		}
		m.albedo, m.gloss, normal = m.albedo.add(s.albedo), m.gloss.add(s.gloss), normal.add(s.n)
		m.depth += min(s.depth, 1e6)
		if s.object >= 0 && int(s.object) < t.props {
			m.cover++
		}
		if s.object < 0 {
			m.behind = m.behind.add(s.albedo.had(s.light))
		}
	}
	inv := 1 / float64(t.s.Samples)
	m.light, m.free, m.extra = m.light.mul(1/lights), m.free/lights, m.extra.mul(1/lights)
	m.albedo, m.gloss, m.depth, m.cover, m.behind = m.albedo.mul(inv), m.gloss.mul(inv), m.depth*inv, m.cover*inv, m.behind.mul(inv)
	normal = normal.mul(inv)
	// Several things in a pixel, or faces that look away from each other, have
	// no common light: keep the product.
	if mixed || normal.dot(normal) < 0.5 {
		m.object, m.albedo, m.light = -3, lit.mul(inv), Vec{1, 1, 1}
	}
	m.n = normal.unit()
	return m
}

func put(to []float32, v Vec) { to[0], to[1], to[2] = float32(v.X), float32(v.Y), float32(v.Z) }

// A lit is what the filter asks of a pixel, side by side in memory.
type lit struct {
	n   [3]float32
	sum float32 // of the irradiance's three
	of  [4]float32
}

// smooth evens the noise out of the light alone (not of the colours), over
// neighbours of the same thing that lie in one plane: one pass of the
// edge-avoiding à-trous filter of Dammertz and others (2010).
func (p *plane) smooth(step int) {
	all := make([]lit, p.w*p.h)
	eachRow(0, p.h, func(y int) {
		for k := y * p.w; k < (y+1)*p.w; k++ {
			l := [4]float32(p.light[4*k:])
			all[k] = lit{[3]float32(p.n[3*k:]), l[0] + l[1] + l[2], l}
		}
	})
	out := make([]float32, len(p.light))
	eachRow(0, p.h, func(y int) {
		for x := range p.w {
			k := y*p.w + x
			if p.object[k] < -1 {
				copy(out[4*k:4*k+4], p.light[4*k:4*k+4])
				continue
			}
			even := p.evened(all, x, y, step)
			copy(out[4*k:4*k+4], even[:])
		}
	})
	p.light = out
}

// evened is the light of a pixel of one thing after a pass.
func (p *plane) evened(all []lit, x, y, step int) [4]float32 {
	kernel := [5]float32{0.0625, 0.25, 0.375, 0.25, 0.0625}
	k := y*p.w + x
	o, me := p.object[k], &all[k]
	n0, n1, n2, l0, scale := me.n[0], me.n[1], me.n[2], me.sum, me.sum+0.3
	var s0, s1, s2, s3, weight float32
	for j, kj := range kernel {
		yy := y + (j-2)*step
		if yy < 0 || yy >= p.h {
			continue
		}
		objects, lits := p.object[yy*p.w:(yy+1)*p.w], all[yy*p.w:(yy+1)*p.w]
		for i, ki := range kernel {
			xx := x + (i-2)*step
			if uint(xx) >= uint(len(objects)) || uint(xx) >= uint(len(lits)) || objects[xx] != o {
				continue
			}
			q := &lits[xx]
			c := q.n[0]*n0 + q.n[1]*n1 + q.n[2]*n2
			if c < 0.8 {
				continue
			}
			d := (q.sum - l0) / scale
			g := ki * kj * c * c / (1 + 2.5*d*d)
			weight += g
			s0 += g * q.of[0]
			s1 += g * q.of[1]
			s2 += g * q.of[2]
			s3 += g * q.of[3]
		}
	}
	return [4]float32{s0 / weight, s1 / weight, s2 / weight, s3 / weight}
}

// compose puts colour, light and gloss together.
func (p *plane) compose(to []float32, y int) {
	for x := range p.w {
		k := y*p.w + x
		free := p.light[4*k+3]
		for c := range 3 {
			to[3*k+c] = p.albedo[3*k+c]*p.light[4*k+c] + p.gloss[3*k+c]*free + p.extra[3*k+c]
		}
	}
}

// blur is a Gaussian over linear light.
func blur(pix []float32, w, h int, sigma float64) []float32 {
	if sigma <= 0 {
		return pix
	}
	r := min(int(math.Ceil(3*sigma)), margin)
	kernel := make([]float32, 2*r+1)
	var sum float32
	for i := range kernel {
		d := float64(i-r) / sigma
		kernel[i] = float32(math.Exp(-d * d / 2))
		sum += kernel[i]
	}
	mid, out := make([]float32, len(pix)), make([]float32, len(pix))
	eachRow(0, h, func(y int) {
		for x := range w {
			for c := range 3 {
				var v float32
				for i, g := range kernel {
					v += g * pix[(y*w+min(max(x+i-r, 0), w-1))*3+c]
				}
				mid[(y*w+x)*3+c] = v / sum
			}
		}
	})
	eachRow(0, h, func(y int) {
		for x := range w * 3 {
			var v float32
			for i, g := range kernel {
				v += g * mid[min(max(y+i-r, 0), h-1)*w*3+x]
			}
			out[y*w*3+x] = v / sum
		}
	})
	return out
}

// expose makes 16-bit values of a row: vignetting, exposure, white balance,
// noise, clipping.
func (t *tracer) expose(to []uint16, lit []float32, y, w, h int) {
	gain := math.Exp2(t.s.EV)
	sn := t.s.Sensor
	cx, cy := float64(w)/2, float64(h)/2
	for x := range w {
		dx, dy := float64(x)+0.5-cx, float64(y)+0.5-cy
		fall := 1 - sn.Vignette*(dx*dx+dy*dy)/(cx*cx+cy*cy)
		hash := mix64(mix64(uint64(y)<<32|uint64(x)) ^ t.s.Seed*0x2545f4914f6cdd1d ^ 0x5eed)
		for c := range 3 {
			v := float64(lit[3*x+c]) * fall * gain * t.s.White[c]
			if sn.Shot > 0 || sn.Read > 0 {
				hash = mix64(hash + 0x9e3779b97f4a7c15)
				v += normal(hash) * math.Sqrt(sn.Shot*max(v, 0)+sn.Read*sn.Read)
			}
			to[3*x+c] = uint16(clamp(v, 0, 1)*65535 + 0.5)
		}
	}
}

// normal makes a number of standard deviation 1 from 64 random bits: the sum
// of four even ones, near enough to a bell for a sensor.
func normal(h uint64) float64 {
	s := float64(h&0xffff) + float64(h>>16&0xffff) + float64(h>>32&0xffff) + float64(h>>48)
	return (s/65536 - 2) * math.Sqrt(3) // four even numbers have variance 4/12
}
