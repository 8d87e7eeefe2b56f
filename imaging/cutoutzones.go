package imaging

import (
	"math"

	"slabfolio/imaging/pixel"
)

// What lies on the ground, on the piece and between: the zones, and what is
// carried over the edge from one into the other.

// setZones sets the zones by the distance from the outline.
func (c *cutout) setZones(mask []uint8) {
	out, in := grown(mask, c.w, c.h, edgeReach, 1), grown(mask, c.w, c.h, edgeReach/2+1, 0)
	for i := range mask {
		switch {
		case in[i] != 0:
			c.zone[i] = onPiece
		case mask[i] != 0:
			c.zone[i] = within
		case out[i] != 0:
			c.zone[i] = outside
		}
	}
}

// grown returns the mask with what is v (0 or 1) grown by n pixels each way.
func grown(mask []uint8, w, h, n int, v uint8) []uint8 {
	out := append([]uint8(nil), mask...)
	for _, step := range [2]int{1, w} {
		src := append([]uint8(nil), out...)
		for y := range h {
			for x := range w {
				at, size := x, w
				if step == w {
					at, size = y, h
				}
				for d := -min(n, at); d <= min(n, size-1-at); d++ {
					if src[y*w+x+d*step] == v {
						out[y*w+x] = v
						break
					}
				}
			}
		}
	}
	return out
}

// extend sets F and s: each from where it is seen, carried over the edge by means
// of what is known beside it.
func (c *cutout) extend(m *pixel.Image) {
	c.near, c.shade = make([][3]float32, c.w*c.h), make([]float32, c.w*c.h)
	value := make([][4]float32, c.w*c.h)
	for y := range c.h {
		for x := range c.w {
			i := y*c.w + x
			q := m.Row(y)[x*3 : x*3+3]
			b := c.litAt(float64(x)+0.5, float64(y)+0.5)
			s := (0.2126*float64(q[0]) + 0.7152*float64(q[1]) + 0.0722*float64(q[2])) / (0.2126*b[0] + 0.7152*b[1] + 0.0722*b[2])
			value[i] = [4]float32{float32(q[0]), float32(q[1]), float32(q[2]), float32(math.Min(s/fullyLit, 1))}
		}
	}
	piece := c.spread(value, onPiece)
	bare := c.spread(value, onGround)
	for i := range c.near {
		c.near[i] = [3]float32(piece[i][:3])
		c.shade[i] = bare[i][3]
	}
}

// spread carries the values of one zone outwards over the edge, ring by ring.
func (c *cutout) spread(value [][4]float32, from uint8) [][4]float32 {
	out := append([][4]float32(nil), value...)
	known := make([]bool, len(value))
	var rim []int
	for i, z := range c.zone {
		known[i] = z == from
		if z == within || z == outside {
			rim = append(rim, i)
		}
	}
	for range 4 * edgeReach {
		var next, now []int
		for _, i := range rim {
			var sum [4]float32
			n := float32(0)
			x, y := i%c.w, i/c.w
			for v := max(y-1, 0); v <= min(y+1, c.h-1); v++ {
				for u := max(x-1, 0); u <= min(x+1, c.w-1); u++ {
					if j := v*c.w + u; known[j] {
						for k, p := range out[j] {
							sum[k] += p
						}
						n++
					}
				}
			}
			if n == 0 {
				next = append(next, i)
				continue
			}
			for k := range sum {
				out[i][k] = sum[k] / n
			}
			now = append(now, i)
		}
		for _, i := range now {
			known[i] = true
		}
		if rim = next; len(rim) == 0 || len(now) == 0 {
			break
		}
	}
	return out
}

// clearShare is the share of the outline along which piece and backdrop differ.
func (c *cutout) clearShare(mask []uint8) float64 {
	clear, all := 0.0, 0.0
	for y := 1; y < c.h-1; y++ {
		for x := 1; x < c.w-1; x++ {
			i := y*c.w + x
			if mask[i] == 0 || mask[i-1]&mask[i+1]&mask[i-c.w]&mask[i+c.w] != 0 {
				continue
			}
			all++
			b := c.litAt(float64(x), float64(y))
			d := 0.0
			for k, f := range c.near[i] {
				e := 255 * (math.Sqrt(math.Max(float64(f), 0)/65535) - math.Sqrt(float64(c.shade[i])*b[k]/65535))
				d += float64(e * e)
			}
			if math.Sqrt(d) >= edgeStep {
				clear++
			}
		}
	}
	return clear / math.Max(all, 1)
}

// bareShare is the share of the piece that looks like the lit backdrop.
func (c *cutout) bareShare(m *pixel.Image) float64 {
	bare, all := 0.0, 0.0
	for i, z := range c.zone {
		if z != onPiece {
			continue
		}
		all++
		x, y := i%c.w, i/c.w
		b := c.litAt(float64(x), float64(y))
		lo, hi := math.Inf(1), 0.0
		for k, v := range m.Row(y)[x*3 : x*3+3] {
			r := float64(v) / b[k]
			lo, hi = math.Min(lo, r), math.Max(hi, r)
		}
		if lo > 0.75 && hi < 1.15 && hi-lo < noShade {
			bare++
		}
	}
	return bare / math.Max(all, 1)
}
