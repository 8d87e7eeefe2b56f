package blend

import (
	"math"
	"sync"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
)

// bracket fuses exposures after Mertens, Kautz and Van Reeth, "Exposure Fusion",
// Pacific Graphics 2007: every pixel weighs by its contrast, its saturation and
// how well it is exposed (see exposedTables), and the frames' Laplacian pyramids are mixed by the
// Gaussian pyramids of their weights (after Burt and Adelson, 1983). As there,
// it works on coded values; only reading and moving the frames is in linear
// light. The frames are gone through twice, since the weights have to be known
// of all before the first can be mixed.
func (j *job) bracket() error {
	used := j.used()
	n := j.w * j.h
	total := make([]float32, n)
	j.exposed = j.exposedTables(used)
	err := j.throughFrames(used, func(i int, m *pixel.Image) { j.addWeights(i, m, total, nil) })
	if err != nil {
		return err
	}
	p := newPyramid(j.w, j.h)
	weight := make([]float32, n)
	few := float32(len(used)) * leastWeight
	err = j.throughFrames(used, func(i int, m *pixel.Image) {
		j.addWeights(i, m, nil, weight)
		bands(j.h, func(y0, y1 int) {
			for k := y0 * j.w; k < y1*j.w; k++ {
				weight[k] = (weight[k] + leastWeight) / (total[k] + few)
			}
		})
		p.mix(m, weight)
	})
	if err != nil {
		return err
	}
	j.now, j.still = nil, nil // their memory is wanted for the picture
	j.r.Picture = p.addedUp()
	j.shares(func(i, k int) float64 { return float64(j.exposed[i][int(j.looks[i].light[k]*65535)>>4]) })
	return nil
}

// leastSeen is added to contrast and saturation: twenty-five steps of a file of 8 bits. In
// the paper a grey place weighs nothing in any frame, so that what an 8-bit file rounds
// away decides there, and the noise of the dark frames weighs as contrast; here exposure
// then decides.
const leastSeen = 0.1

// leastWeight is that of a pixel that no frame shows well: all then count alike.
const leastWeight = 1e-12

// addWeights works out the weight of every pixel of a frame: added to total,
// or put into alone.
func (j *job) addWeights(i int, m *pixel.Image, total, alone []float32) {
	w, h := j.w, j.h
	s := j.req.Frames[i].strength()
	bands(h, func(y0, y1 int) {
		counts, weights := make([]float32, w), make([]float32, w)
		var lines [3]seenLine
		for k := range lines {
			lines[k] = seenLine{make([]float32, w+2), make([]float32, w), j.exposed[i]}
		}
		at := func(y int) seenLine { return lines[((y%3)+3)%3] }
		fill := func(y int) { at(y).fill(m.Row(min(max(y, 0), h-1))) }
		fill(y0 - 1)
		fill(y0)
		for y := y0; y < y1; y++ {
			fill(y + 1)
			to := weights
			if alone != nil {
				to = alone[y*w : y*w+w]
			}
			weigh(to, at(y-1).grey, at(y).grey, at(y+1).grey, at(y).seen, s)
			if mask := j.weightRow(counts, i, y); mask != nil {
				for x, v := range mask {
					to[x] *= v
				}
			}
			if total != nil {
				sum := total[y*w : y*w+w]
				for x, v := range to {
					sum[x] += v
				}
			}
		}
	})
}

// weigh sets dst to the weights of a row of strength s, by its contrast to the rows above and below.
func weigh(dst, up, mid, down, seen []float32, s float32) {
	left, right := mid[:len(dst)], mid[2:len(dst)+2]
	up, mid, down, seen = up[1:len(dst)+1], mid[1:len(dst)+1], down[1:len(dst)+1], seen[:len(dst)]
	for x, g := range mid {
		contrast := pixel.Abs(left[x] + right[x] + up[x] + down[x] - 4*g)
		dst[x] = s * (contrast + leastSeen) * seen[x]
	}
}

// A seenLine is what a row of a frame weighs by: its grey, the first and the last
// value twice, and saturation and exposure as one factor.
type seenLine struct {
	grey, seen []float32
	exposed    *exposedTable // of the frame
}

func (l seenLine) fill(row []uint16) {
	code, exposed := codeTable(), l.exposed
	grey, seen := l.grey, l.seen
	for x := range seen {
		p := row[3*x : 3*x+3 : 3*x+3]
		a, b, c := code[p[0]], code[p[1]], code[p[2]]
		mean := (a + b + c) * (1.0 / 3)
		da, db, dc := a-mean, b-mean, c-mean
		sat := float32(math.Sqrt(float64((da*da + db*db + dc*dc) * (1.0 / 3))))
		grey[x+1] = mean
		seen[x] = (sat + leastSeen) * exposed[p[0]>>4] * exposed[p[1]>>4] * exposed[p[2]>>4]
	}
	grey[0], grey[len(seen)+1] = grey[1], grey[len(seen)]
}

// codeTable is the sRGB curve from 16-bit linear light to 0 … 1.
var codeTable = sync.OnceValue(func() *[65536]float32 {
	t := new([65536]float32)
	for i := range t {
		t[i] = float32(colour.Encode(float64(i) / 65535))
	}
	return t
})
