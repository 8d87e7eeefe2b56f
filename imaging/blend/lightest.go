package blend

import (
	"math"

	"slabfolio/imaging/pixel"
)

// sharpness of the choice between frames: a frame half as bright as the best at
// a place has 2^-sharpness of its say.
const sharpness = 14

// ratioSteps is how finely the say of a frame is read from a table.
const ratioSteps = 4096

func sayTable() *[ratioSteps + 1]float32 {
	t := new([ratioSteps + 1]float32)
	for i := range t {
		t[i] = float32(math.Pow(float64(i)/ratioSteps, sharpness))
	}
	return t
}

// lightest takes at every place the frame that is lit best there. How well a
// frame is lit is judged on its light over five pixels, so that noise does not
// win (the maximum of many noisy values is brighter than any of them should be),
// and frames that are nearly as bright share a place, which evens their noise
// out. The sums are kept relative to the brightest frame so far.
func (j *job) lightest() error {
	n := j.w * j.h
	best, say, acc := make([]float32, n), make([]float32, n), make([]float32, 3*n)
	table := sayTable()
	err := j.throughFrames(j.used(), func(i int, m *pixel.Image) {
		s := j.req.Frames[i].strength()
		bands(j.h, func(y0, y1 int) {
			j.lightestBand(m, i, s, y0, y1, best, say, acc, table)
		})
	})
	if err != nil {
		return err
	}
	out := pixel.New(j.w, j.h)
	bands(j.h, func(y0, y1 int) {
		for k := y0 * j.w; k < y1*j.w; k++ {
			if say[k] > 0 {
				for c := range 3 {
					out.Pix[3*k+c] = uint16(min(acc[3*k+c]/say[k]+0.5, 65535))
				}
			}
		}
	})
	j.r.Picture = out
	j.shares(func(i, k int) float64 { return math.Pow(float64(j.lit(i, k)), sharpness) })
	j.tellOneForAll()
	return nil
}

// lit is the light of frame i at a place of the copies, as far as it counts.
func (j *job) lit(i, k int) float32 {
	l := &j.looks[i]
	v := l.light[k] * j.req.Frames[i].strength()
	if l.lamp != nil {
		v *= 1 - l.lamp[k]
	}
	if m := j.req.Frames[i].Mask; m != nil {
		v *= maskAt(m, (float32(k%l.w)+0.5)/float32(l.w), (float32(k/l.w)+0.5)/float32(l.h))
	}
	return v
}

func (j *job) lightestBand(m *pixel.Image, i int, s float32, y0, y1 int, best, say, acc []float32, table *[ratioSteps + 1]float32) {
	w := j.w
	// Luminance of five rows, blurred along the row by 1 4 6 4 1.
	ring := make([][]float32, 5)
	for k := range ring {
		ring[k] = make([]float32, w)
	}
	lum := make([]float32, w+4)
	fill := func(y int) {
		row := m.Row(min(max(y, 0), j.h-1))
		for x := range w {
			lum[x+2] = luminance(row[3*x], row[3*x+1], row[3*x+2])
		}
		lum[0], lum[1], lum[w+2], lum[w+3] = lum[2], lum[2], lum[w+1], lum[w+1]
		to := ring[((y%5)+5)%5]
		for x := range w {
			to[x] = (lum[x] + 4*lum[x+1] + 6*lum[x+2] + 4*lum[x+3] + lum[x+4]) / 16
		}
	}
	for y := y0 - 2; y < y0+2; y++ {
		fill(y)
	}
	counts := make([]float32, w)
	for y := y0; y < y1; y++ {
		fill(y + 2)
		r := func(d int) []float32 { return ring[(((y+d)%5)+5)%5] }
		a, b, c, d, e := r(-2), r(-1), r(0), r(1), r(2)
		weight := j.weightRow(counts, i, y)
		row := m.Row(y)
		for x := range w {
			lit := s * (a[x] + 4*b[x] + 6*c[x] + 4*d[x] + e[x]) / 16
			if weight != nil {
				if weight[x] <= 0 {
					continue
				}
				lit *= weight[x]
			}
			lit += 1 // of 65535: black everywhere is shared by all
			k := y*w + x
			g := float32(1)
			switch {
			case lit > best[k]:
				f := table[int(best[k]/lit*ratioSteps)]
				say[k] *= f
				acc[3*k], acc[3*k+1], acc[3*k+2] = acc[3*k]*f, acc[3*k+1]*f, acc[3*k+2]*f
				best[k] = lit
			default:
				g = table[int(lit/best[k]*ratioSteps)]
			}
			if weight != nil {
				g *= weight[x]
			}
			say[k] += g
			g *= s
			acc[3*k] += g * float32(row[3*x])
			acc[3*k+1] += g * float32(row[3*x+1])
			acc[3*k+2] += g * float32(row[3*x+2])
		}
	}
}

// shares works out, on the copies, what part of the result's light each frame
// gave; say is how much a frame counts at a place.
func (j *job) shares(say func(i, k int) float64) {
	used := j.used()
	total := 0.0
	got := make([]float64, len(j.looks))
	for k := range j.looks[j.ref].light {
		sum, part := 0.0, make([]float64, len(used))
		for n, i := range used {
			part[n] = say(i, k)
			sum += part[n]
		}
		if sum <= 0 {
			continue
		}
		for n, i := range used {
			v := part[n] / sum * float64(j.lit(i, k))
			got[i] += v
			total += v
		}
	}
	for i := range got {
		if total > 0 {
			j.r.Frames[i].Share = got[i] / total
		}
	}
}
