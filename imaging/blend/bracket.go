package blend

import (
	"math"
	"sync"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
)

// bracket fuses exposures after Mertens, Kautz and Van Reeth, "Exposure Fusion",
// Pacific Graphics 2007: every pixel weighs by its contrast, its saturation and
// how well it is exposed, and the frames' Laplacian pyramids are mixed by the
// Gaussian pyramids of their weights (after Burt and Adelson, 1983). As there,
// it works on coded values; only reading and moving the frames is in linear
// light. The frames are gone through twice, since the weights have to be known
// of all before the first can be mixed.
func (j *job) bracket() error {
	used := j.used()
	n := j.w * j.h
	total := make([]float32, n)
	for _, i := range used {
		m, err := j.load(i)
		if err != nil {
			return err
		}
		j.addWeights(i, m, total, nil)
	}
	notes := len(j.r.Notes)
	p := newPyramid(j.w, j.h)
	weight := make([]float32, n)
	few := float32(len(used)) * leastWeight
	for _, i := range used {
		m, err := j.load(i)
		if err != nil {
			return err
		}
		j.addWeights(i, m, nil, weight)
		bands(j.h, func(y0, y1 int) {
			for k := y0 * j.w; k < y1*j.w; k++ {
				weight[k] = (weight[k] + leastWeight) / (total[k] + few)
			}
		})
		p.mix(m, weight)
	}
	j.r.Notes = j.r.Notes[:notes] // said once
	j.read, j.still = nil, nil    // their memory is wanted for the picture
	j.r.Picture = p.addedUp()
	j.shares(func(i, k int) float64 { return wellExposed(float64(colour.Encode(float64(j.looks[i].light[k])))) })
	return nil
}

// leastSeen is added to contrast and saturation: two and a half steps of a file of
// 8 bits. In the paper a grey place weighs nothing in any frame, so that what an
// 8-bit file rounds away decides there; here exposure then decides.
const leastSeen = 0.01

// leastWeight is that of a pixel that no frame shows well: all then count alike.
const leastWeight = 1e-12

func wellExposed(v float64) float64 { return math.Exp(-(v - 0.5) * (v - 0.5) / (2 * 0.2 * 0.2)) }

var exposedTable = func() (t [1025]float32) {
	for i := range t {
		t[i] = float32(wellExposed(float64(i) / 1024))
	}
	return t
}()

// addWeights works out the weight of every pixel of a frame: added to total,
// or put into alone.
func (j *job) addWeights(i int, m *pixel.Image, total, alone []float32) {
	w, h := j.w, j.h
	code := codeTable()
	s := j.req.Frames[i].strength()
	bands(h, func(y0, y1 int) {
		counts := make([]float32, w)
		grey := [3][]float32{make([]float32, w), make([]float32, w), make([]float32, w)}
		fill := func(y int) {
			row, to := m.Row(min(max(y, 0), h-1)), grey[((y%3)+3)%3]
			for x := range w {
				to[x] = (code[row[3*x]] + code[row[3*x+1]] + code[row[3*x+2]]) / 3
			}
		}
		fill(y0 - 1)
		fill(y0)
		for y := y0; y < y1; y++ {
			fill(y + 1)
			up, mid, down := grey[(((y-1)%3)+3)%3], grey[((y%3)+3)%3], grey[(((y+1)%3)+3)%3]
			row := m.Row(y)
			mask := j.weightRow(counts, i, y)
			for x := range w {
				l, r := mid[max(x-1, 0)], mid[min(x+1, w-1)]
				contrast := pixel.Abs(l + r + up[x] + down[x] - 4*mid[x])
				a, b, c := code[row[3*x]], code[row[3*x+1]], code[row[3*x+2]]
				mean := mid[x]
				sat := float32(math.Sqrt(float64(((a-mean)*(a-mean) + (b-mean)*(b-mean) + (c-mean)*(c-mean)) / 3)))
				fit := exposedTable[int(a*1024)] * exposedTable[int(b*1024)] * exposedTable[int(c*1024)]
				v := s * (contrast + leastSeen) * (sat + leastSeen) * fit
				if mask != nil {
					v *= mask[x]
				}
				if total != nil {
					total[y*w+x] += v
				} else {
					alone[y*w+x] = v
				}
			}
		}
	})
}

// codeTable is the sRGB curve from 16-bit linear light to 0 … 1.
var codeTable = sync.OnceValue(func() *[65536]float32 {
	t := new([65536]float32)
	for i := range t {
		t[i] = float32(colour.Encode(float64(i) / 65535))
	}
	return t
})
