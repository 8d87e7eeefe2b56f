package frame

import (
	"math"
	"slices"

	"slabfolio/imaging/pixel"
	"slabfolio/imaging/spare"
)

// findInBusyScene looks for what stands out where no plain backdrop helps: how hard it
// is to reach a pixel from the edge of the photo without crossing a contrast
// (the minimum barrier distance), sharpened by the colours of inside and
// outside. Its box is generous and its confidence modest by design.
func (c *labCopy) findInBusyScene(d *backdrop) finding {
	s := c.half()
	barrier := s.barrier()
	score := s.colours(barrier)
	cut := thresholdOf(score)
	mask := make([]uint8, len(score))
	for i, v := range score {
		if v > cut {
			mask[i] = 255
		}
	}
	f := finding{surface: *d}
	f.confidence = s.keepSalient(mask, score)
	// back to the size of the copy
	big := make([]uint8, c.w*c.h)
	for y := range c.h {
		for x := range c.w {
			big[y*c.w+x] = mask[min(s.h-1, y/2)*s.w+min(s.w-1, x/2)]
		}
	}
	f.mask = big
	f.measure(c.w, c.h)
	if f.share < leastShare || f.share > 0.85 {
		return finding{surface: *d, x1: c.w, y1: c.h, share: f.share}
	}
	return f
}

// half is the copy at half its size.
func (c *labCopy) half() *labCopy {
	w, h := (c.w+1)/2, (c.h+1)/2
	s := &labCopy{w: w, h: h, l: make([]float32, w*h), a: make([]float32, w*h), b: make([]float32, w*h)}
	for k, src := range [3][]float32{c.l, c.a, c.b} {
		dst := [3][]float32{s.l, s.a, s.b}[k]
		for y := range h {
			y0, y1 := 2*y*c.w, min(2*y+1, c.h-1)*c.w
			for x := range w {
				x0, x1 := 2*x, min(2*x+1, c.w-1)
				dst[y*w+x] = (src[y0+x0] + src[y0+x1] + src[y1+x0] + src[y1+x1]) / 4
			}
		}
	}
	return s
}

// barrier is the minimum barrier distance of each pixel from the edge of the
// photo, summed over L*, a* and b*: the least span of values that a path from
// the edge must cross. Three raster passes approximate it (Zhang et al., ICCV
// 2015, describe the scan).
func (c *labCopy) barrier() []float32 {
	n := c.w * c.h
	sum := make([]float32, n)
	dist, hi, lo := make([]float32, n), make([]float32, n), make([]float32, n)
	for k, p := range [3][]float32{c.l, c.a, c.b} {
		weight := [3]float32{1, 1.5, 1.5}[k]
		for i := range n {
			x, y := i%c.w, i/c.w
			hi[i], lo[i] = p[i], p[i]
			if x == 0 || y == 0 || x == c.w-1 || y == c.h-1 {
				dist[i] = 0
			} else {
				dist[i] = math.MaxFloat32
			}
		}
		try := func(i, j int) {
			h, l := max(hi[j], p[i]), min(lo[j], p[i])
			if v := h - l; v < dist[i] {
				dist[i], hi[i], lo[i] = v, h, l
			}
		}
		for pass := range 4 {
			if pass%2 == 0 {
				for y := 1; y < c.h-1; y++ {
					for x := 1; x < c.w-1; x++ {
						i := y*c.w + x
						try(i, i-1)
						try(i, i-c.w)
					}
				}
			} else {
				for y := c.h - 2; y > 0; y-- {
					for x := c.w - 2; x > 0; x-- {
						i := y*c.w + x
						try(i, i+1)
						try(i, i+c.w)
					}
				}
			}
		}
		for i, v := range dist {
			sum[i] += weight * v
		}
	}
	return sum
}

const colourBins = 16 * 12 * 12

// colourClass is the colour class of a pixel.
func (c *labCopy) colourClass(i int) int {
	q := func(v, lo, step float32, n int) int { return max(0, min(n-1, int((v-lo)/step))) }
	return (q(c.l[i], 0, 6.3, 16)*12+q(c.a[i], -48, 8, 12))*12 + q(c.b[i], -48, 8, 12)
}

// colours turns the barrier distance into a probability-like score, by asking
// how much more often a pixel's colour occurs where the distance is high than
// along the edge, and weighing by place: a piece is seldom at the very rim.
func (c *labCopy) colours(barrier []float32) []float32 {
	n := c.w * c.h
	sorted := slices.Clone(barrier)
	slices.Sort(sorted)
	top := max(1, sorted[n*98/100])
	score := make([]float32, n)
	bins := make([]int, n)
	for i, v := range barrier {
		score[i] = min(1, v/top)
		bins[i] = c.colourClass(i)
	}
	for range 2 {
		var in, out [colourBins]float64
		var sumIn, sumOut float64
		for i, v := range score {
			f := float64(v * v)
			in[bins[i]] += f
			out[bins[i]] += float64((1 - v) * (1 - v))
			sumIn += f
			sumOut += float64((1 - v) * (1 - v))
		}
		for i := range score {
			x, y := float64(i%c.w)/float64(c.w)-0.5, float64(i/c.w)/float64(c.h)-0.5
			place := math.Exp(-2.5 * (x*x + y*y))
			a, b := in[bins[i]]/(sumIn+1e-9)+1e-6, out[bins[i]]/(sumOut+1e-9)+1e-6
			like := a / (a + b)
			score[i] = float32((0.6*like + 0.4*float64(min(1, barrier[i]/top))) * place)
		}
		c.smooth(score)
	}
	return score
}

// smooth is a 5×5 box mean.
func (c *labCopy) smooth(p []float32) {
	tmp := make([]float32, len(p))
	for y := range c.h {
		for x := range c.w {
			var s, n float32
			for k := max(0, x-2); k <= min(c.w-1, x+2); k++ {
				s += p[y*c.w+k]
				n++
			}
			tmp[y*c.w+x] = s / n
		}
	}
	for y := range c.h {
		for x := range c.w {
			var s, n float32
			for k := max(0, y-2); k <= min(c.h-1, y+2); k++ {
				s += tmp[k*c.w+x]
				n++
			}
			p[y*c.w+x] = s / n
		}
	}
}

// thresholdOf is the threshold that splits values into the two tightest groups.
func thresholdOf(p []float32) float32 {
	var hist [256]int
	for _, v := range p {
		hist[max(0, min(255, int(v*255)))]++
	}
	cut, ok := pixel.Otsu(&hist)
	if !ok {
		cut = 127
	}
	return (float32(cut) + 0.5) / 255
}

// keepSalient keeps the strongest patch and those of some weight beside it, and
// says how sure that is: one compact, strong patch is surest.
func (c *labCopy) keepSalient(mask []uint8, score []float32) float64 {
	labels, list := parts(mask, c.w, c.h, score)
	defer spare.Give(labels)
	best, all := 0.0, 0.0
	for _, p := range list {
		best = max(best, p.weight)
		all += p.weight
	}
	if best == 0 {
		return 0
	}
	for i, id := range labels {
		if id > 0 && list[id-1].weight < 0.08*best {
			mask[i] = 0
		}
	}
	var in, out, n float64
	for i, v := range score {
		if mask[i] != 0 {
			in += float64(v)
			n++
		} else {
			out += float64(v)
		}
	}
	contrast := in/max(1, n) - out/max(1, float64(len(score))-n)
	return 0.6 * best / all * min(1, max(0, contrast*1.6))
}
