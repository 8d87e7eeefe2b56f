package frame

import (
	"math"
	"sync"

	"slabfolio/imaging/pixel"
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

// newCopy shrinks m by the mean of the pixels under each new one, in linear
// light, and takes it to CIELAB.
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
	f := cubeRoot()
	for y := range h {
		y0, y1 := y*m.H/h, (y+1)*m.H/h
		for x := range w {
			var r, g, b, n uint32
			for j := y0; j < y1; j++ {
				row := m.Row(j)[cut[x]*3 : cut[x+1]*3]
				for i := 0; i+2 < len(row); i += 3 {
					r += uint32(row[i])
					g += uint32(row[i+1])
					b += uint32(row[i+2])
				}
			}
			n = uint32((y1 - y0) * (cut[x+1] - cut[x]))
			c.l[y*w+x], c.a[y*w+x], c.b[y*w+x] = lab(f, float32(r)/float32(n), float32(g)/float32(n), float32(b)/float32(n))
		}
	}
	return c
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
