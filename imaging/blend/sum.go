package blend

import (
	"math"

	"slabfolio/imaging/pixel"
)

// Limits of the sum of lights.
const (
	ambientShare = 0.985 // of the places where the ambient frame is the darkest
	ambientMost  = 0.8   // of the mean light of the others
	roomFor      = 0.998 // of the places are to be below white
	shoulder     = 0.80  // of white: from there highlights roll off
)

// sum adds the lights of the frames above the ambient one; even weighs each so
// that none gives more light than another.
func (j *job) sum() error {
	used := j.used()
	ambient := j.ambient(used)
	weight := j.weights(used, ambient)
	n := 3 * j.w * j.h
	acc := make([]float32, n)
	total := float32(0) // of the weights
	for _, i := range used {
		total += weight[i]
	}
	err := j.throughFrames(used, func(i int, m *pixel.Image) {
		// A + Σ wᵢ(Fᵢ − A) = Σ wᵢFᵢ + (1 − Σ wᵢ)A
		g := weight[i]
		if i == ambient {
			g = 1 - (total - weight[i])
		}
		bands(j.h, func(y0, y1 int) { j.addBand(m, i, g, y0, y1, acc) })
	})
	if err != nil {
		return err
	}
	j.r.Gain = float64(j.finish(acc))
	j.sharesOfSum(used, ambient, weight)
	return nil
}

func (j *job) addBand(m *pixel.Image, i int, g float32, y0, y1 int, acc []float32) {
	counts := make([]float32, j.w)
	for y := y0; y < y1; y++ {
		weight := j.weightRow(counts, i, y)
		at := 3 * y * j.w
		row := m.Row(y)
		for x, v := range row {
			k := g
			if weight != nil {
				k *= weight[x/3]
			}
			acc[at+x] += k * float32(v)
		}
	}
}

// ambient finds the frame that no lamp lit: the darkest one at nearly all places.
// −1 where there is none.
func (j *job) ambient(used []int) int {
	dark := used[0]
	for _, i := range used {
		if j.looks[i].mean < j.looks[dark].mean {
			dark = i
		}
	}
	var means []float64
	l := &j.looks[dark]
	below := 0
	for k, v := range l.light {
		ok := true
		for _, i := range used {
			if i != dark && j.looks[i].light[k] < 0.93*v-0.002 {
				ok = false
				break
			}
		}
		if ok {
			below++
		}
	}
	for _, i := range used {
		if i != dark {
			means = append(means, j.looks[i].mean)
		}
	}
	if len(means) > 0 && float64(below) >= ambientShare*float64(len(l.light)) && l.mean < ambientMost*medianOf(means) {
		j.r.Frames[dark].Ambient = true
		return dark
	}
	j.note("blend.no-ambient", map[string]float64{"frames": float64(len(used))})
	return -1
}

// weights are the factors of the lights: the maker's strengths, and for even
// such that each gives as much light as the geometric mean of all.
func (j *job) weights(used []int, ambient int) []float32 {
	w := make([]float32, len(j.looks))
	light := make([]float64, len(j.looks))
	logs, n := 0.0, 0
	for _, i := range used {
		w[i] = j.req.Frames[i].strength()
		if i == ambient {
			w[i] = 0
			continue
		}
		light[i] = j.looks[i].mean
		if ambient >= 0 {
			light[i] -= j.looks[ambient].mean
		}
		light[i] = math.Max(light[i], 1e-5)
		logs, n = logs+math.Log(light[i]), n+1
	}
	if j.req.How != Even || n == 0 {
		return w
	}
	mean := math.Exp(logs / float64(n))
	for _, i := range used {
		if i != ambient {
			w[i] *= float32(math.Min(mean/light[i], 8)) // a frame that is nearly black is mostly noise
		}
	}
	return w
}

// sharesOfSum is what part of the sum's light each frame gave.
func (j *job) sharesOfSum(used []int, ambient int, weight []float32) {
	total := 0.0
	for _, i := range used {
		g := float64(weight[i])
		if i == ambient {
			g = 1
		}
		for k := range j.looks[i].light {
			v := float64(j.lit(i, k)) / float64(j.req.Frames[i].strength())
			if ambient >= 0 && i != ambient {
				v = math.Max(v-float64(j.looks[ambient].light[k]), 0)
			}
			j.r.Frames[i].Share += g * v
		}
		total += j.r.Frames[i].Share
	}
	for _, i := range used {
		j.r.Frames[i].Share /= math.Max(total, 1e-12)
	}
}

// finish brings the sum down so that its lights have room, rolls off what is
// near white, and makes the picture. It returns the factor.
func (j *job) finish(acc []float32) float32 {
	var hist [4096]int
	const top = 16.0 // times white
	for k := 0; k < len(acc); k += 3 {
		v := max(acc[k], acc[k+1], acc[k+2]) / 65535
		hist[min(int(max(v, 0)/top*4095), 4095)]++
	}
	above := int((1 - roomFor) * float64(len(acc)/3))
	level, seen := 4095, 0
	for ; level > 0; level-- {
		if seen += hist[level]; seen > above {
			break
		}
	}
	gain := min(1, 1/max(float32(level+1)/4095*top, 1e-3))
	out := pixel.New(j.w, j.h)
	bands(j.h, func(y0, y1 int) {
		for k := 3 * y0 * j.w; k < 3*y1*j.w; k += 3 {
			rollOff(acc[k:k+3], gain/65535, out.Pix[k:k+3])
		}
	})
	j.r.Picture = out
	return gain
}

// rollOff brings a colour below white along a curve that is straight up to the
// shoulder and bends towards white above it; all channels by one factor, so that
// its hue stays.
func rollOff(v []float32, gain float32, to []uint16) {
	most := max(v[0], v[1], v[2]) * gain
	k := gain
	if most > shoulder {
		bent := shoulder + (1-shoulder)*(1-float32(math.Exp(-float64((most-shoulder)/(1-shoulder)))))
		k *= bent / most
	}
	for c := range to {
		to[c] = uint16(min(max(v[c]*k, 0), 1)*65535 + 0.5)
	}
}
