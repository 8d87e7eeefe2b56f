package blend

import (
	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
)

// A plane is a picture of some channels in float.
type plane struct {
	w, h, n int
	v       []float32
}

func newPlane(w, h, n int) *plane { return &plane{w, h, n, make([]float32, w*h*n)} }

// levelsOf is how many times a picture is halved until it is about 8 pixels.
func levelsOf(w, h int) int {
	n := 1
	for side := min(w, h); side > 16; side /= 2 {
		n++
	}
	return n
}

func newPyramid(w, h, levels, n int) []*plane {
	var p []*plane
	for range levels {
		p = append(p, newPlane(w, h, n))
		w, h = (w+1)/2, (h+1)/2
	}
	return p
}

// down halves a plane by the kernel 1 4 6 4 1.
func (p *plane) down() *plane {
	out := newPlane((p.w+1)/2, (p.h+1)/2, p.n)
	bands(out.h, func(y0, y1 int) {
		mid := make([]float32, p.w*p.n)
		for y := y0; y < y1; y++ {
			clear(mid)
			for k, g := range [5]float32{1, 4, 6, 4, 1} {
				row := p.row(2*y + k - 2)
				for x, v := range row {
					mid[x] += g * v
				}
			}
			to := out.v[y*out.w*p.n : (y+1)*out.w*p.n]
			for x := range out.w {
				for c := range p.n {
					at := func(d int) float32 { return mid[min(max(2*x+d, 0), p.w-1)*p.n+c] }
					to[x*p.n+c] = (at(-2) + 4*at(-1) + 6*at(0) + 4*at(1) + at(2)) / 256
				}
			}
		}
	})
	return out
}

func (p *plane) row(y int) []float32 {
	y = min(max(y, 0), p.h-1)
	return p.v[y*p.w*p.n : (y+1)*p.w*p.n]
}

// upRow is row y of a plane twice as large, w wide.
func (p *plane) upRow(dst []float32, y, w int) {
	n := p.n
	mix := func(x, c int) float32 { // the column filter at a column of the small plane
		k := y / 2
		x = min(max(x, 0), p.w-1)
		if y%2 == 0 {
			return (p.row(k - 1)[x*n+c] + 6*p.row(k)[x*n+c] + p.row(k + 1)[x*n+c]) / 8
		}
		return (p.row(k)[x*n+c] + p.row(k + 1)[x*n+c]) / 2
	}
	for c := range n {
		a, b := mix(-1, c), mix(0, c)
		for x := 0; x < w; x += 2 {
			next := mix(x/2+1, c)
			dst[x*n+c] = (a + 6*b + next) / 8
			if x+1 < w {
				dst[(x+1)*n+c] = (b + next) / 2
			}
			a, b = b, next
		}
	}
}

// mixInto adds the Laplacian pyramid of a frame's coded values, weighed by the
// Gaussian pyramid of its weight, to sum.
func mixInto(sum []*plane, m *pixel.Image, weight []float32, w, h, levels int) {
	code := codeTable()
	g := newPlane(w, h, 3)
	bands(h, func(y0, y1 int) {
		for k := 3 * y0 * w; k < 3*y1*w; k++ {
			g.v[k] = code[m.Pix[k]]
		}
	})
	wt := &plane{w, h, 1, weight}
	for l := range levels {
		var next, nextW *plane
		if l < levels-1 {
			next, nextW = g.down(), wt.down()
		}
		to := sum[l]
		bands(g.h, func(y0, y1 int) {
			up := make([]float32, g.w*3)
			for y := y0; y < y1; y++ {
				if next != nil {
					next.upRow(up, y, g.w)
				}
				for x := range g.w {
					k := y*g.w + x
					for c := range 3 {
						to.v[3*k+c] += wt.v[k] * (g.v[3*k+c] - up[3*x+c])
					}
				}
			}
		})
		g, wt = next, nextW
	}
}

// addedUp adds the levels up and takes the picture back to linear light.
func addedUp(p []*plane) *pixel.Image {
	for l := len(p) - 2; l >= 0; l-- {
		fine, coarse := p[l], p[l+1]
		bands(fine.h, func(y0, y1 int) {
			up := make([]float32, fine.w*3)
			for y := y0; y < y1; y++ {
				coarse.upRow(up, y, fine.w)
				row := fine.row(y)
				for x, v := range up {
					row[x] += v
				}
			}
		})
	}
	out := pixel.New(p[0].w, p[0].h)
	const steps = 8192
	var back [steps + 1]uint16
	for i := range back {
		back[i] = uint16(colour.Decode(float64(i)/steps)*65535 + 0.5)
	}
	bands(out.H, func(y0, y1 int) {
		for k := 3 * y0 * out.W; k < 3*y1*out.W; k++ {
			f := min(max(p[0].v[k], 0), 1) * steps
			i := min(int(f), steps-1)
			d := f - float32(i)
			out.Pix[k] = uint16(float32(back[i])*(1-d) + float32(back[i+1])*d + 0.5)
		}
	})
	return out
}
