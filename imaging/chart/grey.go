package chart

import (
	"math"

	"slabfolio/imaging/pixel"
)

// evenGrey is the mean linear colour of the middle of a quadrangle, where light
// falls on it evenly or in one slope, and nothing else is to be seen on it.
func evenGrey(m *pixel.Image, q [4]pixel.Point) (mean [3]float64, ok bool) {
	const cells, per = 5, 5 // places a side, samples a side of each
	var cell [3][cells * cells]float64
	var grain [3]float64
	for j := range cells {
		for i := range cells {
			var sum, squares [3]float64
			for k := range per * per {
				p := at(q, 0.1+0.8*(float64(i)+(float64(k%per)+0.5)/per)/cells, 0.1+0.8*(float64(j)+(float64(k/per)+0.5)/per)/cells)
				o := 3 * (min(max(int(p.Y), 0), m.H-1)*m.W + min(max(int(p.X), 0), m.W-1))
				for c := range 3 {
					v := float64(m.Pix[o+c]) / 65535
					sum[c], squares[c] = sum[c]+v, squares[c]+v*v
				}
			}
			for c := range 3 {
				v := sum[c] / (per * per)
				cell[c][j*cells+i] = v
				mean[c] += v / (cells * cells)
				grain[c] += math.Max(squares[c]/(per*per)-v*v, 0) / (cells * cells)
			}
		}
	}
	var slope [3][2]float64
	for c := range 3 {
		if mean[c] <= 0 || math.Sqrt(grain[c]) > cardGrain*mean[c]+0.002 {
			return mean, false
		}
		var rest float64
		slope[c], rest = slopeOf(cell[c][:], cells, mean[c])
		if rest > cardUneven+0.0006/mean[c] || math.Hypot(slope[c][0], slope[c][1]) > cardSlope*math.Ln2 {
			return mean, false
		}
	}
	for _, c := range [2]int{0, 2} {
		if math.Hypot(slope[c][0]-slope[1][0], slope[c][1]-slope[1][1]) > cardHueSlope*math.Ln2 {
			return mean, false
		}
	}
	return mean, true
}

// slopeOf fits an even slope to n × n values, as shares of their mean from end to
// end, and tells how far they stand off it.
func slopeOf(v []float64, n int, mean float64) (slope [2]float64, rest float64) {
	var sx, sy, sxx float64
	for k, c := range v {
		x, y := (float64(k%n)+0.5)/float64(n)-0.5, (float64(k/n)+0.5)/float64(n)-0.5
		sx, sy, sxx = sx+x*c, sy+y*c, sxx+x*x
	}
	slope = [2]float64{sx / sxx / mean, sy / sxx / mean}
	for k, c := range v {
		x, y := (float64(k%n)+0.5)/float64(n)-0.5, (float64(k/n)+0.5)/float64(n)-0.5
		d := c/mean - 1 - slope[0]*x - slope[1]*y
		rest += d * d
	}
	return slope, math.Sqrt(rest / float64(len(v)))
}

// grey reports whether a colour can be that of a grey card under some lamp, and its
// light that of one: less than white would have, and more than black. Something in
// the photo has to be brighter, or it is white paper that was exposed too little.
func grey(m *pixel.Image, v [3]float64) bool {
	red, blue := math.Log2(v[0]/v[1]), math.Log2(v[2]/v[1])
	y := luma(v)
	if math.Abs(red-blue) > cardAlong || math.Abs(red+blue)/2 > cardAcross || y < cardDark || y > cardLight {
		return false
	}
	var all, own levels // of all, and of what has its hue
	for i := 0; i+2 < len(m.Pix); i += 3 {
		p := [3]float64{float64(m.Pix[i]) / 65535, float64(m.Pix[i+1]) / 65535, float64(m.Pix[i+2]) / 65535}
		l := luma(p)
		all.add(l)
		r, g, b := p[0]/v[0], p[1]/v[1], p[2]/v[2]
		if most := math.Max(r, math.Max(g, b)); most < 1.12*math.Min(r, math.Min(g, b)) {
			own.add(l)
		}
	}
	if y*cardUnder > all.below(0.003) {
		return false
	}
	white := own.below(0.02)
	return own.n*100 < 6*all.n || white < y*1.25 || y < cardBelow*white && y > cardFaint*white
}

// levels count light by 512 steps of full scale.
type levels struct {
	count [512]int
	n     int
}

func (l *levels) add(v float64) {
	l.count[min(int(v*512), 511)]++
	l.n++
}

// below is the level that a share of them lies above.
func (l *levels) below(share float64) float64 {
	left := int(share * float64(l.n))
	for k := len(l.count) - 1; k >= 0; k-- {
		if left -= l.count[k]; left < 0 {
			return (float64(k) + 0.5) / 512
		}
	}
	return 0
}
