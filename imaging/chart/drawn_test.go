package chart

import (
	"math"
	"math/rand/v2"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
)

// drawnChart draws a chart of the published colours seen through a matrix, turned
// by degrees, leaning by a share, on a ground of restless wood colour.
func drawnChart(w, h int, pitch, degrees, lean float64, through colour.Matrix) *pixel.Image {
	m := pixel.New(w, h)
	rng := rand.New(rand.NewPCG(1, 2))
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	want := published()
	for y := range h {
		for x := range w {
			dx, dy := float64(x)-float64(w)/2, float64(y)-float64(h)/2
			k := 1 + lean*dx/float64(w)
			i, j := (dx*cos+dy*sin)*k/pitch+3, (-dx*sin+dy*cos)*k/pitch+2
			c := [3]float64{0.30, 0.17, 0.08}
			noise := 0.25
			if i > -0.3 && i < 6.3 && j > -0.3 && j < 4.3 {
				c, noise = [3]float64{0.02, 0.02, 0.02}, 0.01
				if u, v := i-math.Floor(i), j-math.Floor(j); i > 0 && i < 6 && j > 0 && j < 4 && u > 0.1 && u < 0.9 && v > 0.1 && v < 0.9 {
					c = want.linear[int(j)*6+int(i)]
				}
			}
			c = through.Apply(c)
			for k := range c {
				m.Pix[3*(y*w+x)+k] = uint16(min(max(c[k]*(1+noise*rng.NormFloat64()), 0), 1)*65535 + 0.5)
			}
		}
	}
	return m
}

// A chart drawn through a known matrix gives its inverse back, whichever way the
// chart lies, and the colours come out as published: the truth is the matrix.
func TestDrawnChartGivesTheMatrixBack(t *testing.T) {
	cast := colour.Matrix{{0.78, 0.10, 0.02}, {0.05, 0.70, 0.05}, {0.02, 0.12, 0.45}}
	for _, degrees := range []float64{0, 7, 90, 172, 270} {
		c := Find(drawnChart(640, 480, 62, degrees, 0.12, cast))
		if c == nil {
			t.Errorf("%g degrees: not found", degrees)
			continue
		}
		t.Logf("%g degrees: ΔE %.2f before, %.2f after, %.2f held, worst %.2f", degrees, c.Before, c.After, c.Held, c.Worst)
		if c.Before < 6 || c.After > 0.8 || c.Held > 1.2 || !c.Helps() {
			t.Errorf("%g degrees: ΔE %.2f before, %.2f after, %.2f held", degrees, c.Before, c.After, c.Held)
		}
		// Matrix times cast is a grey's own light times the unit matrix.
		both := c.Matrix.Times(cast)
		s := (both[0][0] + both[1][1] + both[2][2]) / 3
		for i := range 3 {
			for j := range 3 {
				want := 0.0
				if i == j {
					want = s
				}
				if math.Abs(both[i][j]-want) > 0.03*s {
					t.Errorf("%g degrees: at %d,%d %.3f, want %.3f", degrees, i, j, both[i][j]/s, want/s)
				}
			}
		}
		grey := c.Matrix.Apply(cast.Apply([3]float64{0.4, 0.4, 0.4}))
		if got, had := luma(grey), luma(cast.Apply([3]float64{0.4, 0.4, 0.4})); math.Abs(got/had-1) > 0.02 {
			t.Errorf("%g degrees: a grey's light changed by %.3f", degrees, got/had)
		}
	}
}

// Other things in six by four are no chart: the same fields in mixed colours, or
// all of one, or half of the chart hidden.
func TestWhatIsNoChart(t *testing.T) {
	one := colour.Matrix{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}
	whole := drawnChart(640, 480, 62, 0, 0, one)
	repaint := func(how func(k int) [3]float64) *pixel.Image {
		m := whole.Clone()
		for j := range 4 {
			for i := range 6 {
				c := how(j*6 + i)
				for y := 116 + 62*j + 8; y < 116+62*(j+1)-8; y++ {
					for x := 134 + 62*i + 8; x < 134+62*(i+1)-8; x++ {
						for k := range c {
							m.Pix[3*(y*640+x)+k] = uint16(max(c[k], 0) * 65535)
						}
					}
				}
			}
		}
		return m
	}
	want := published().linear
	rng := rand.New(rand.NewPCG(3, 4))
	for range 6 {
		order := rng.Perm(24)
		if c := Find(repaint(func(k int) [3]float64 { return want[order[k]] })); c != nil {
			t.Errorf("colours mixed up %v: taken for a chart, ΔE %.1f", order, c.After)
		}
	}
	if Find(repaint(func(int) [3]float64 { return want[21] })) != nil {
		t.Error("24 grey tiles are taken for a chart")
	}
	if Find(repaint(func(k int) [3]float64 { return [3]float64{0.05 * float64(k%6), 0.2, 0.1 * float64(k/6)} })) != nil {
		t.Error("a fan of colours is taken for a chart")
	}
	half := whole.Clone()
	for y := range 480 {
		for x := range 330 {
			for k := range 3 {
				half.Pix[3*(y*640+x)+k] = uint16(2000 + rng.IntN(9000))
			}
		}
	}
	if Find(half) != nil {
		t.Error("half a chart is taken for one")
	}
	if Find(pixel.New(3, 2)) != nil || Find(pixel.New(64, 64)) != nil {
		t.Error("a chart in nothing")
	}
}
