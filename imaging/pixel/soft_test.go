package pixel

import (
	"math"
	"testing"
)

// room draws a photo of a wall above a floor, with fine grain, and a thing.
func room(w, h int, thing [4]int) *Image {
	m := New(w, h)
	seed := uint32(1)
	for y := range h {
		for x := range w {
			seed = seed*1664525 + 1013904223
			c := [3]int{40000, 38000, 36000}
			switch {
			case x >= thing[0] && x < thing[2] && y >= thing[1] && y < thing[3]:
				c = [3]int{30000, 3000, 1000}
			case y >= h*2/3:
				c = [3]int{6000, 7000, 9000}
			}
			for k, v := range c {
				m.Row(y)[x*3+k] = uint16(v + v/200*int(seed>>28) - v/25)
			}
		}
	}
	return m
}

// apart is how far two colours are from each other at most, in levels of 255 on a
// square-root scale.
func apart(a, b []uint16) (d float64) {
	for k := range 3 {
		d = math.Max(d, 255*math.Abs(math.Sqrt(float64(a[k])/65535)-math.Sqrt(float64(b[k])/65535)))
	}
	return d
}

// meanOf is the mean colour of a box.
func meanOf(m *Image, x0, y0, x1, y1 int) []uint16 {
	c, _ := m.mean(x0, y0, x1-x0, y1-y0, nil)
	return c[:]
}

// Beside a photo the ground has the colours of its edge at the same height, and no
// line shows where the photo ends.
func TestSoftGroundGoesOn(t *testing.T) {
	m := room(200, 300, [4]int{60, 60, 140, 280})
	out := m.OnSoftGround(300, 300, 50, 0, nil)
	for _, side := range [2]struct{ beyond, within, far int }{{44, 50, 0}, {250, 244, 290}} {
		for _, y := range []int{10, 100, 250, 285} {
			in := meanOf(out, side.within, y-5, side.within+6, y+5)
			if d := apart(meanOf(out, side.beyond, y-5, side.beyond+6, y+5), in); d > 2 {
				t.Errorf("row %d: %.1f levels between the photo and the ground beside it", y, d)
			}
			if d := apart(meanOf(out, side.far, y-5, side.far+10, y+5), in); d > 25 {
				t.Errorf("row %d: %.1f levels between the photo and the far end of the ground", y, d)
			}
		}
	}
	for y := range 300 {
		for x := range 200 {
			if apart(out.Row(y)[(x+50)*3:], m.Row(y)[x*3:]) != 0 {
				t.Fatalf("the photo is not itself at %d, %d", x, y)
			}
		}
	}
}

// What stands before the backdrop leaves no trace beyond the edge that it comes near.
func TestSoftGroundShowsNoGhost(t *testing.T) {
	thing := [4]int{2, 60, 140, 280}
	on := func(x, y int) bool { return x >= thing[0]-2 && x < thing[2]+2 && y >= thing[1]-2 && y < thing[3]+2 }
	red := func(out *Image) (most float64) {
		for y := range 300 {
			for x := range 50 {
				p := out.Row(y)[x*3:]
				most = math.Max(most, float64(p[0])/math.Max(float64(p[1]), 1))
			}
		}
		return most
	}
	m := room(200, 300, thing)
	if r := red(m.OnSoftGround(300, 300, 50, 0, on)); r > 1.3 {
		t.Errorf("red is %.1f times green beside a covered thing", r)
	}
	if r := red(m.OnSoftGround(300, 300, 50, 0, nil)); r < 2 {
		t.Errorf("red is %.1f times green beside a thing that is not covered: the test sees nothing", r)
	}
}

// Nothing is too small, and a photo that is covered all over still lends its colour.
func TestSoftGroundOfLittle(t *testing.T) {
	for _, size := range [][2]int{{1, 1}, {1, 40}, {40, 1}, {7, 5}} {
		m := New(size[0], size[1])
		for i := range m.Pix {
			m.Pix[i] = 20000
		}
		for _, on := range []Covered{nil, func(x, y int) bool { return true }} {
			out := m.OnSoftGround(50, 50, 3, 4, on)
			for i := 0; i < len(out.Pix); i += 3 {
				if apart(out.Pix[i:], m.Pix) > 1 {
					t.Fatalf("%v: grey is carried on as %v", size, out.Pix[i:i+3])
				}
			}
		}
	}
}

func BenchmarkSoftGround(b *testing.B) {
	m := room(800, 1200, [4]int{200, 200, 600, 1100})
	for b.Loop() {
		m.OnSoftGround(1200, 1200, 200, 0, nil).Release()
	}
}
