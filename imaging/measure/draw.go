package measure

import (
	"math"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
)

// Colours of what was found, 8-bit sRGB: each on a dark casing, so that it is
// seen on light wood and on dark.
var (
	casing     = [3]uint8{20, 20, 20}
	inkOutline = [3]uint8{255, 90, 60}
	inkSheet   = [3]uint8{60, 190, 255}
	inkResin   = [3]uint8{255, 225, 70}
)

// Draw returns the photo, no side longer than side pixels, with what was found
// drawn over it: the outline, the sheet with a ring at its first corner, and
// the edges of the resin.
func Draw(m *pixel.Image, r Result, side int) (*pixel.Image, error) {
	w, h := pixel.FitWithin(m.W, m.H, side, side)
	out, err := pixel.Resample(m.Rows(), pixel.Region{W: w, H: h})
	if err != nil {
		return nil, err
	}
	p := pen{out, float64(w) / float64(m.W)}
	width := math.Max(1.2, float64(max(w, h))/640)
	draw := func(ring []Point, ink [3]uint8) {
		p.ring(ring, width*2.2, casing)
		p.ring(ring, width, ink)
	}
	for _, isle := range r.Islands {
		draw(isle, inkResin)
	}
	if len(r.Edge) > 0 {
		draw(r.Edge, inkOutline)
	}
	if r.Sheet != nil {
		draw(r.Sheet.Corners[:], inkSheet)
		c, around := r.Sheet.Corners[0], make([]Point, 24)
		for i := range around {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / 24)
			around[i] = Point{X: c.X + 5*width*cos/p.scale, Y: c.Y + 5*width*sin/p.scale}
		}
		draw(around, inkSheet)
	}
	return out, nil
}

// A pen draws into a picture; its places are those of the photo.
type pen struct {
	m     *pixel.Image
	scale float64
}

// ring draws a closed line of a width in pixels of the picture.
func (p pen) ring(ring []Point, width float64, ink [3]uint8) {
	for i, a := range ring {
		p.line(a, ring[(i+1)%len(ring)], width, ink)
	}
}

func (p pen) line(a, b Point, width float64, ink [3]uint8) {
	ax, ay, bx, by := a.X*p.scale, a.Y*p.scale, b.X*p.scale, b.Y*p.scale
	r := width/2 + 1
	dec := colour.DecodeTable()
	l2 := math.Max((bx-ax)*(bx-ax)+(by-ay)*(by-ay), 1e-9)
	x1, y1 := min(int(math.Max(ax, bx)+r), p.m.W-1), min(int(math.Max(ay, by)+r), p.m.H-1)
	for y := max(int(math.Min(ay, by)-r), 0); y <= y1; y++ {
		for x := max(int(math.Min(ax, bx)-r), 0); x <= x1; x++ {
			fx, fy := float64(x)+0.5, float64(y)+0.5
			t := clamp(((fx-ax)*(bx-ax)+(fy-ay)*(by-ay))/l2, 0, 1)
			d := math.Hypot(fx-ax-t*(bx-ax), fy-ay-t*(by-ay))
			cover := clamp(width/2+0.5-d, 0, 1)
			if cover == 0 {
				continue
			}
			px := p.m.Row(y)[3*x : 3*x+3]
			for c := range px {
				px[c] = uint16(float64(px[c])*(1-cover) + float64(dec[ink[c]])*cover + 0.5)
			}
		}
	}
}
