package measure

import (
	"math"
	"slices"
)

// A palette is a few colours in CIELAB.
type palette [][3]float64

// lightness counts less than hue: grain, shine and shade move it most.
func (p palette) distance(c [3]float64) float64 {
	best := math.Inf(1)
	for _, k := range p {
		l, a, b := 0.55*(c[0]-k[0]), c[1]-k[1], c[2]-k[2]
		best = math.Min(best, l*l+a*a+b*b)
	}
	return math.Sqrt(best)
}

func (c *small) colourAt(i int) [3]float64 {
	return [3]float64{float64(c.l[i]), float64(c.a[i]), float64(c.b[i])}
}

// paletteOf is up to n colours of the pixels listed: far-apart ones first, then
// the means of what is near each (k-means, Lloyd 1982).
func (c *small) paletteOf(list []int, n int) palette {
	if len(list) == 0 {
		return nil
	}
	step := max(len(list)/4000, 1)
	p := palette{c.meanOf(list)}
	for len(p) < n {
		far, at := 4.0, -1
		var d []float64
		for k := 0; k < len(list); k += step {
			d = append(d, p.distance(c.colourAt(list[k])))
		}
		limit := slices.Clone(d)
		slices.Sort(limit)
		most := limit[len(limit)*98/100] // not the farthest, which is a fleck
		for k, v := range d {
			if v <= most && v > far {
				far, at = v, k*step
			}
		}
		if at < 0 {
			break
		}
		p = append(p, c.colourAt(list[at]))
	}
	for range 6 {
		sum, count := make(palette, len(p)), make([]float64, len(p))
		for k := 0; k < len(list); k += step {
			v := c.colourAt(list[k])
			near := p.nearest(v)
			count[near]++
			for i := range v {
				sum[near][i] += v[i]
			}
		}
		for k := range p {
			if count[k] > 0 {
				for i := range p[k] {
					p[k][i] = sum[k][i] / count[k]
				}
			}
		}
	}
	return p
}

func (p palette) nearest(c [3]float64) int {
	best, at := math.Inf(1), 0
	for k := range p {
		if d := (palette{p[k]}).distance(c); d < best {
			best, at = d, k
		}
	}
	return at
}

func (c *small) meanOf(list []int) (m [3]float64) {
	for _, i := range list {
		v := c.colourAt(i)
		for k := range m {
			m[k] += v[k] / float64(len(list))
		}
	}
	return m
}
