package measure

import (
	"math"
	"sync"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
)

// copySide is the longer side of the copy that sheet and top are looked for on.
const copySide = 1000

// A small is a reduced copy: CIELAB, and how like paper each pixel is. Wood and
// its finishes are weak in blue, whatever the light; paper is not: the lowest
// of the three coded channels tells them apart better than brightness.
type small struct {
	w, h    int
	scale   float64 // pixels of the photo to a pixel of the copy
	l, a, b []float32
	low     []float32 // lowest sRGB-coded channel, 0 to 255
	top     float64   // level of the brightest hundredth of low, once asked for
}

func newCopy(m *pixel.Image, side int) *small {
	w, h := pixel.FitWithin(m.W, m.H, side, side)
	c := &small{w: w, h: h, scale: float64(m.W) / float64(w)}
	n := w * h
	c.l, c.a, c.b, c.low = make([]float32, n), make([]float32, n), make([]float32, n), make([]float32, n)
	code := coded()
	for y := range h {
		y0, y1 := y*m.H/h, max((y+1)*m.H/h, y*m.H/h+1)
		for x := range w {
			p := mean(m, x*m.W/w, y0, max((x+1)*m.W/w, x*m.W/w+1), y1)
			lab := colour.Linear16ToLab(p[0], p[1], p[2])
			i := y*w + x
			c.l[i], c.a[i], c.b[i] = float32(lab.L), float32(lab.A), float32(lab.B)
			c.low[i] = code[min(p[0], p[1], p[2])]
		}
	}
	return c
}

// mean is the mean of the pixels from (x0, y0) to (x1, y1).
func mean(m *pixel.Image, x0, y0, x1, y1 int) [3]uint16 {
	var r, g, b, n uint64
	for y := y0; y < y1; y++ {
		row := m.Row(y)[3*x0 : 3*x1]
		for i := 0; i+2 < len(row); i += 3 {
			r, g, b, n = r+uint64(row[i]), g+uint64(row[i+1]), b+uint64(row[i+2]), n+1
		}
	}
	return [3]uint16{uint16(r / n), uint16(g / n), uint16(b / n)}
}

// coded is the sRGB curve from 16-bit linear light to 0 … 255, not rounded.
var coded = sync.OnceValue(func() *[65536]float32 {
	t := new([65536]float32)
	for i := range t {
		t[i] = float32(255 * colour.Encode(float64(i)/65535))
	}
	return t
})

// at is plane p at a place of the copy, between pixels by straight lines.
func (c *small) at(p []float32, x, y float64) float64 {
	x, y = clamp(x-0.5, 0, float64(c.w-1)), clamp(y-0.5, 0, float64(c.h-1))
	i, j := min(int(x), c.w-2), min(int(y), c.h-2)
	fx, fy := x-float64(i), y-float64(j)
	k := j*c.w + i
	up := float64(p[k])*(1-fx) + float64(p[k+1])*fx
	down := float64(p[k+c.w])*(1-fx) + float64(p[k+c.w+1])*fx
	return up*(1-fy) + down*fy
}

func clamp(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }

// lightAt reads the photo between pixels, 0 to 1 a channel.
func lightAt(m *pixel.Image, x, y float64) (v [3]float64) {
	x, y = clamp(x-0.5, 0, float64(m.W-1)), clamp(y-0.5, 0, float64(m.H-1))
	i, j := min(int(x), m.W-2), min(int(y), m.H-2)
	fx, fy := x-float64(i), y-float64(j)
	p, q := m.Pix[(j*m.W+i)*3:], m.Pix[((j+1)*m.W+i)*3:]
	for k := range v {
		up := float64(p[k])*(1-fx) + float64(p[3+k])*fx
		down := float64(q[k])*(1-fx) + float64(q[3+k])*fx
		v[k] = (up*(1-fy) + down*fy) / 65535
	}
	return v
}
