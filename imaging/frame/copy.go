package frame

import (
	"math"
	"sync"

	"slabfolio/imaging/pixel"
	"slabfolio/imaging/spare"
)

// analysisSide is the longer side of the copy that the search works on. At this
// size a leg of 2 pixels in a 768-pixel picture still keeps half its contrast.
const analysisSide = 384

// A labCopy is a small picture in CIELAB (D65), where distances are what an eye
// sees. Planes are row by row.
type labCopy struct {
	w, h    int
	l, a, b []float32
}

// cubeRoot is the f of CIE 1976 L*a*b* over 16-bit values.
var cubeRoot = sync.OnceValue(func() *[65536]float32 {
	var t [65536]float32
	for i := range t {
		v := float64(i) / 65535
		if v > 216.0/24389 {
			t[i] = float32(math.Cbrt(v))
		} else {
			t[i] = float32(841.0/108*v + 4.0/29)
		}
	}
	return &t
})

// The copy is brought to this mean luminance, or its bright parts to this level
// if that is less, before it is taken to CIELAB: the search should find the same
// in a photo that came out darker or brighter, and not dig in the noise of one
// that is black for the most part.
const (
	evenMean   = 0.34
	evenBright = 0.85
)

// newCopy shrinks m by the mean of the pixels under each new one, in linear
// light, evens out its exposure, and takes it to CIELAB.
func newCopy(m *pixel.Image) *labCopy {
	w, h := m.W, m.H
	if s := max(w, h); s > analysisSide {
		w, h = max(1, w*analysisSide/s), max(1, h*analysisSide/s)
	}
	c := &labCopy{w: w, h: h, l: make([]float32, w*h), a: make([]float32, w*h), b: make([]float32, w*h)}
	cut := make([]int, w+1)
	for x := range cut {
		cut[x] = x * m.W / w
	}
	var total float64
	for y := range h {
		y0, y1 := y*m.H/h, (y+1)*m.H/h
		for x := range w {
			var r, g, b uint32
			for j := y0; j < y1; j++ {
				row := m.Row(j)[cut[x]*3 : cut[x+1]*3]
				for i := 0; i+2 < len(row); i += 3 {
					r += uint32(row[i])
					g += uint32(row[i+1])
					b += uint32(row[i+2])
				}
			}
			n := 1 / float32((y1-y0)*(cut[x+1]-cut[x]))
			i := y*w + x
			c.l[i], c.a[i], c.b[i] = float32(r)*n, float32(g)*n, float32(b)*n
			total += float64(0.2126*c.l[i] + 0.7152*c.a[i] + 0.0722*c.b[i])
		}
	}
	bright := spare.Take[float32](len(c.l)) // luminance
	defer spare.Give(bright)
	for i := range bright {
		bright[i] = 0.2126*c.l[i] + 0.7152*c.a[i] + 0.0722*c.b[i]
	}
	gain := min(evenMean*65535*float32(w*h)/max(1, float32(total)), evenBright*65535/max(1, percentile(bright, 0.95)))
	gain = max(0.25, min(64, gain))
	f := cubeRoot()
	for i := range c.l {
		c.l[i], c.a[i], c.b[i] = lab(f, c.l[i]*gain, c.a[i]*gain, c.b[i]*gain)
	}
	return c
}

// percentile is the value of a 16-bit level below which share p of the pixels lie.
func percentile(v []float32, p float64) float32 {
	var hist [4097]int
	for _, x := range v {
		hist[min(4096, int(math.Sqrt(float64(x))*16))]++
	}
	n := 0
	for i, c := range hist {
		if n += c; float64(n) >= p*float64(len(v)) {
			return float32(i*i) / 256
		}
	}
	return 65535
}

// lab turns linear sRGB, 0 to 65535, into CIELAB; the rows of the matrix are
// those of IEC 61966-2-1 divided by the D65 white, so each sums to 1.
func lab(f *[65536]float32, r, g, b float32) (float32, float32, float32) {
	x := f[clip16(0.4338874*r+0.3762240*g+0.1898886*b)]
	y := f[clip16(0.2126390*r+0.7151687*g+0.0721923*b)]
	z := f[clip16(0.0177500*r+0.1094477*g+0.8728023*b)]
	return 116*y - 16, 500 * (x - y), 200 * (y - z)
}

func clip16(v float32) int { return max(0, min(65535, int(v+0.5))) }
