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

// A pyramid mixes frames by their weights. Its finest level, which is three
// quarters of it, is kept in steps of 1/fineOne and never in float; what a frame
// needs at its own finest level is worked out a row at a time.
type pyramid struct {
	w, h       int
	code       *[65536]float32
	fine       []int16  // sum of the weighed Laplacians at full size
	sum        []*plane // the same from half size down
	frame, say []*plane // of the frame in hand: its picture and its weight, from half size down
}

// fineOne is 1 in the finest level of the sum; a Laplacian lies within ±1.
const fineOne = 16384

func newPyramid(w, h int) *pyramid {
	p := &pyramid{w: w, h: h, code: codeTable(), fine: make([]int16, 3*w*h)}
	pw, ph := (w+1)/2, (h+1)/2
	for range max(levelsOf(w, h)-1, 1) {
		p.sum = append(p.sum, newPlane(pw, ph, 3))
		p.frame, p.say = append(p.frame, newPlane(pw, ph, 3)), append(p.say, newPlane(pw, ph, 1))
		pw, ph = (pw+1)/2, (ph+1)/2
	}
	return p
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

// coded puts a row of a picture, in coded values from 0 to 1, into dst.
func (p *pyramid) coded(dst []float32, m *pixel.Image, y int) {
	row := m.Row(y)
	dst = dst[:len(row)]
	for x, v := range row {
		dst[x] = p.code[v]
	}
}

// halve fills a plane with the picture of w × h that fill gives row by row, halved
// by the kernel 1 4 6 4 1.
func (p *plane) halve(w, h int, fill func(dst []float32, y int)) {
	n := p.n
	bands(p.h, func(y0, y1 int) {
		var ring [5][]float32
		for k := range ring {
			ring[k] = make([]float32, w*n)
		}
		at := func(y int) []float32 { return ring[((y%5)+5)%5] }
		next := func(y int) { fill(at(y), min(max(y, 0), h-1)) }
		for y := 2*y0 - 2; y < 2*y0+1; y++ {
			next(y)
		}
		mid := make([]float32, (w+4)*n) // two pixels more on either side
		for y := y0; y < y1; y++ {
			next(2*y + 1)
			next(2*y + 2)
			a, b, c, d, e := at(2*y-2), at(2*y - 1)[:w*n], at(2 * y)[:w*n], at(2*y + 1)[:w*n], at(2*y + 2)[:w*n]
			down := mid[2*n : 2*n+w*n]
			for i, v := range a[:w*n] {
				down[i] = v + e[i] + 4*(b[i]+d[i]) + 6*c[i]
			}
			for i := range n {
				mid[i], mid[n+i] = mid[2*n+i], mid[2*n+i]
				mid[(w+2)*n+i], mid[(w+3)*n+i] = mid[(w+1)*n+i], mid[(w+1)*n+i]
			}
			p.across(p.row(y), mid)
		}
	})
}

// across halves a row that has two pixels more on either side.
func (p *plane) across(to, mid []float32) {
	if p.n == 1 {
		for x := range p.w {
			t := mid[2*x : 2*x+5 : 2*x+5]
			to[x] = (t[0] + t[4] + 4*(t[1]+t[3]) + 6*t[2]) / 256
		}
		return
	}
	for x := range p.w { // three channels
		t, o := mid[6*x:6*x+15:6*x+15], to[3*x:3*x+3:3*x+3]
		o[0] = (t[0] + t[12] + 4*(t[3]+t[9]) + 6*t[6]) / 256
		o[1] = (t[1] + t[13] + 4*(t[4]+t[10]) + 6*t[7]) / 256
		o[2] = (t[2] + t[14] + 4*(t[5]+t[11]) + 6*t[8]) / 256
	}
}

func (p *plane) row(y int) []float32 {
	y = min(max(y, 0), p.h-1)
	return p.v[y*p.w*p.n : (y+1)*p.w*p.n]
}

// upRow is row y of a plane of three channels twice as large, w wide; col is room
// for a row of the plane and a pixel more on either side.
func (p *plane) upRow(dst, col []float32, y, w int) {
	n, k := p.n, y/2
	in := col[n : n+p.w*n]
	up, mid, down := p.row(k - 1)[:len(in)], p.row(k)[:len(in)], p.row(k + 1)[:len(in)]
	if y%2 == 0 {
		for i := range in {
			in[i] = (up[i] + 6*mid[i] + down[i]) / 8
		}
	} else {
		for i := range in {
			in[i] = (mid[i] + down[i]) / 2
		}
	}
	copy(col[:n], in[:n])
	copy(col[n+p.w*n:], in[len(in)-n:])
	for x := range w / 2 {
		t, to := col[3*x:3*x+9:3*x+9], dst[6*x:6*x+6:6*x+6]
		to[0], to[1], to[2] = (t[0]+6*t[3]+t[6])/8, (t[1]+6*t[4]+t[7])/8, (t[2]+6*t[5]+t[8])/8
		to[3], to[4], to[5] = (t[3]+t[6])/2, (t[4]+t[7])/2, (t[5]+t[8])/2
	}
	if w%2 == 1 {
		t, to := col[3*(w/2):], dst[3*(w-1):]
		to[0], to[1], to[2] = (t[0]+6*t[3]+t[6])/8, (t[1]+6*t[4]+t[7])/8, (t[2]+6*t[5]+t[8])/8
	}
}

// room is what upRow works in.
func (p *plane) room(w int) (dst, col []float32) {
	return make([]float32, w*p.n), make([]float32, (p.w+2)*p.n)
}

// mix adds the Laplacian pyramid of a frame's coded values, weighed by the
// Gaussian pyramid of its weight, to the sum.
func (p *pyramid) mix(m *pixel.Image, weight []float32) {
	p.frame[0].halve(p.w, p.h, func(dst []float32, y int) { p.coded(dst, m, y) })
	p.say[0].halve(p.w, p.h, func(dst []float32, y int) { copy(dst, weight[y*p.w:]) })
	p.mixFine(m, weight)
	for l, g := range p.frame {
		var coarse *plane
		if l+1 < len(p.frame) {
			coarse = p.frame[l+1]
			coarse.halve(g.w, g.h, func(dst []float32, y int) { copy(dst, g.row(y)) })
			p.say[l+1].halve(g.w, g.h, func(dst []float32, y int) { copy(dst, p.say[l].row(y)) })
		}
		mixLevel(p.sum[l], g, coarse, p.say[l])
	}
}

// mixFine is mix at full size.
func (p *pyramid) mixFine(m *pixel.Image, weight []float32) {
	coarse := p.frame[0]
	bands(p.h, func(y0, y1 int) {
		up, col := coarse.room(p.w)
		g := make([]float32, 3*p.w)
		for y := y0; y < y1; y++ {
			coarse.upRow(up, col, y, p.w)
			p.coded(g, m, y)
			fine := p.fine[3*y*p.w : 3*(y+1)*p.w]
			for x, w := range weight[y*p.w : (y+1)*p.w] {
				to, a, b := fine[3*x:3*x+3:3*x+3], g[3*x:3*x+3:3*x+3], up[3*x:3*x+3:3*x+3]
				w *= fineOne
				to[0] += nearest(w * (a[0] - b[0]))
				to[1] += nearest(w * (a[1] - b[1]))
				to[2] += nearest(w * (a[2] - b[2]))
			}
		}
	})
}

// nearest rounds to the nearest whole number, halves upwards.
func nearest(v float32) int16 { return int16(int32(v+32768.5) - 32768) }

// mixLevel is mix at a level from half size down; the coarsest is mixed as it is.
func mixLevel(to, g, coarse, say *plane) {
	bands(g.h, func(y0, y1 int) {
		up, col := make([]float32, 3*g.w), []float32(nil)
		if coarse != nil {
			up, col = coarse.room(g.w)
		}
		for y := y0; y < y1; y++ {
			if coarse != nil {
				coarse.upRow(up, col, y, g.w)
			}
			sum, from := to.row(y), g.row(y)
			for x, w := range say.row(y) {
				s, a, b := sum[3*x:3*x+3:3*x+3], from[3*x:3*x+3:3*x+3], up[3*x:3*x+3:3*x+3]
				s[0] += w * (a[0] - b[0])
				s[1] += w * (a[1] - b[1])
				s[2] += w * (a[2] - b[2])
			}
		}
	})
}

// addedUp adds the levels up and takes the picture back to linear light.
func (p *pyramid) addedUp() *pixel.Image {
	for l := len(p.sum) - 2; l >= 0; l-- {
		fine, coarse := p.sum[l], p.sum[l+1]
		bands(fine.h, func(y0, y1 int) {
			up, col := coarse.room(fine.w)
			for y := y0; y < y1; y++ {
				coarse.upRow(up, col, y, fine.w)
				row := fine.row(y)
				for x, v := range up {
					row[x] += v
				}
			}
		})
	}
	const steps = 8192
	var back [steps + 1]uint16
	for i := range back {
		back[i] = uint16(colour.Decode(float64(i)/steps)*65535 + 0.5)
	}
	out := pixel.New(p.w, p.h)
	bands(p.h, func(y0, y1 int) {
		up, col := p.sum[0].room(p.w)
		for y := y0; y < y1; y++ {
			p.sum[0].upRow(up, col, y, p.w)
			to := out.Row(y)
			for x, v := range p.fine[3*y*p.w : 3*(y+1)*p.w] {
				f := min(max(up[x]+float32(v)/fineOne, 0), 1) * steps
				i := min(int(f), steps-1)
				d := f - float32(i)
				to[x] = uint16(float32(back[i])*(1-d) + float32(back[i+1])*d + 0.5)
			}
		}
	})
	return out
}
