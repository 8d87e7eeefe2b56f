package inspect

import (
	"math"
	"slices"
	"sync"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
	"slabfolio/imaging/spare"
)

// tone is the sRGB curve (IEC 61966-2-1) from 16-bit linear to 0…255.
var tone = sync.OnceValue(func() *[65536]float32 {
	var t [65536]float32
	for i := range t {
		t[i] = float32(255 * colour.Encode(float64(i)/65535))
	}
	return &t
})

// grey is the picture's luminance in 8-bit sRGB levels, as fractions, in memory from spare.
func grey(m *pixel.Image) []float32 {
	t := tone()
	g := spare.Take[float32](m.W * m.H)
	for i := range g {
		p := m.Pix[3*i : 3*i+3 : 3*i+3]
		g[i] = t[(uint32(p[0])*13935+uint32(p[1])*46869+uint32(p[2])*4732+32768)>>16]
	}
	return g
}

// edges measures how wide the sharpest edges are, in pixels, across and down:
// the height of the step at an edge over its steepest slope. It looks along
// rows and columns at places where the slope peaks, on the mask if there is one,
// and takes the sharpest tenth. 0, 0 means there was no edge to judge by.
func edges(m *pixel.Image, mask *pixel.Mask) (x, y float64) {
	g := grey(m)
	defer spare.Give(g)
	on := func(i int) bool {
		return mask == nil || mask.Holds(i%m.W, i/m.W, m.W, m.H)
	}
	return steps(g, m.W, m.H, 1, m.W, on), steps(g, m.H, m.W, m.W, 1, on)
}

// steps measures along lines of n pixels, stride apart; there are lines of
// them, across apart.
func steps(g []float32, n, lines, stride, across int, on func(int) bool) float64 {
	const (
		reach = 12 // pixels either side that a step is followed
		least = 20 // height of a step worth measuring, 8-bit levels
	)
	var widths []float64
	for l := 0; l < lines; l += 2 {
		o := l * across
		for i := 2; i < n-2; i++ {
			at := o + i*stride
			d := g[at+stride] - g[at-stride]
			if d < 6 && d > -6 {
				continue
			}
			sign := float32(1)
			if d < 0 {
				sign, d = -1, -d
			}
			if sign*(g[at+2*stride]-g[at]) >= d || sign*(g[at]-g[at-2*stride]) > d {
				continue // not the steepest place
			}
			// follow the step to its foot and its head
			lo, hi := at, at
			for k := 0; k < reach && lo-stride >= o && sign*(g[lo]-g[lo-stride]) > 0.3; k++ {
				lo -= stride
			}
			for k := 0; k < reach && hi+stride <= o+(n-1)*stride && sign*(g[hi+stride]-g[hi]) > 0.3; k++ {
				hi += stride
			}
			h := sign * (g[hi] - g[lo])
			if h < least || !on(at) {
				continue
			}
			widths = append(widths, float64(h/(d/2)))
		}
	}
	if len(widths) < 40 {
		return 0
	}
	slices.Sort(widths)
	return widths[len(widths)/10]
}

// noise is the standard deviation of the grain in the flattest blocks: the
// Laplacian of Immerkær (1996, from memory) cancels slopes; its median over
// blocks of 16 pixels, lowest fifth, leaves edges and texture out.
func noise(m *pixel.Image) float64 {
	g := grey(m)
	defer spare.Give(g)
	var all []float64
	const b = 16
	for y := 1; y+b < m.H; y += b {
		for x := 1; x+b < m.W; x += b {
			var sum, mean float64
			for j := y; j < y+b; j++ {
				for i := x; i < x+b; i++ {
					k := j*m.W + i
					v := g[k-m.W-1] - 2*g[k-m.W] + g[k-m.W+1] - 2*g[k-1] + 4*g[k] - 2*g[k+1] + g[k+m.W-1] - 2*g[k+m.W] + g[k+m.W+1]
					sum += math.Abs(float64(v))
					mean += float64(g[k])
				}
			}
			if mean /= b * b; mean > 12 && mean < 243 { // clipping hides noise
				all = append(all, sum*math.Sqrt(math.Pi/2)/(6*b*b))
			}
		}
	}
	if len(all) == 0 {
		return 0
	}
	slices.Sort(all)
	return all[len(all)/5]
}

// blownShare is the share of the piece, or of the frame without a mask, that has a
// channel at full scale.
func blownShare(m *pixel.Image, mask *pixel.Mask) float64 {
	n, hot := 0, 0
	for y := range m.H {
		row := m.Row(y)
		for x := range m.W {
			if mask != nil && !mask.Holds(x, y, m.W, m.H) {
				continue
			}
			n++
			if max(row[3*x], row[3*x+1], row[3*x+2]) >= 65000 {
				hot++
			}
		}
	}
	return float64(hot) / float64(max(1, n))
}

// oneColour is how many stops of light the poorest channel lacks beside the
// richest, each at the level that 2 % of the frame exceed. Daylight and lamps
// leave something bright in every channel.
func oneColour(m *pixel.Image) float64 {
	var hist [3][4096]int
	n := 0
	for i := 0; i+2 < len(m.Pix); i += 3 * 7 {
		for k := range hist {
			hist[k][m.Pix[i+k]>>4]++
		}
		n++
	}
	var lv [3]float64
	for k := range lv {
		at := 0
		for v, c := range hist[k] {
			if at += c; at*100 >= n*98 {
				lv[k] = math.Log2(float64(v) + 1)
				break
			}
		}
	}
	return max(lv[0], lv[1], lv[2]) - min(lv[0], lv[1], lv[2])
}
