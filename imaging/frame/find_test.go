package frame

import (
	"math"
	"testing"

	"slabfolio/imaging/pixel"
)

// paint fills a box of the picture with one linear colour.
func paint(m *pixel.Image, x0, y0, x1, y1 int, r, g, b uint16) {
	for y := max(0, y0); y < min(m.H, y1); y++ {
		row := m.Row(y)
		for x := max(0, x0); x < min(m.W, x1); x++ {
			row[3*x], row[3*x+1], row[3*x+2] = r, g, b
		}
	}
}

// table is a table seen from the front on light paper, with legs of a width.
func table(leg int) *pixel.Image {
	m := pixel.New(768, 512)
	for y := range m.H { // light falls off to the right and to the floor
		for x := range m.W {
			v := uint16(44000 - 12*x - 14*y)
			copy(m.Row(y)[3*x:], []uint16{v, v, v - 900})
		}
	}
	paint(m, 200, 190, 560, 206, 14000, 7000, 3000)
	for _, x := range []int{214, 546 - leg} {
		paint(m, x, 206, x+leg, 380, 1500, 1500, 1600)
	}
	return m
}

func TestThinLegsAreKept(t *testing.T) {
	for _, leg := range []int{2, 3, 6} {
		r := Find(table(leg), nil)
		if !r.Plain {
			t.Fatalf("legs of %d pixels: the backdrop is not taken for plain", leg)
		}
		want := [4]float64{200. / 768, 190. / 512, 560. / 768, 380. / 512}
		for i, v := range r.Subject {
			if math.Abs(v-want[i]) > 0.01 {
				t.Errorf("legs of %d pixels: subject %.3f, want %.3f", leg, r.Subject, want)
				break
			}
		}
		if r.Crop[0] > want[0] || r.Crop[1] > want[1] || r.Crop[2] < want[2] || r.Crop[3] < want[3] {
			t.Errorf("legs of %d pixels: the crop %.3f cuts into the piece", leg, r.Crop)
		}
	}
}

func TestBackdropColour(t *testing.T) {
	r := Find(table(4), nil)
	want := 44000. - 12*384 - 14*256
	for k, v := range r.Backdrop {
		if math.Abs(float64(v)-want) > 1600 {
			t.Errorf("channel %d of the backdrop is %d, about %.0f is right", k, v, want)
		}
	}
}

func TestMakersWishesWin(t *testing.T) {
	m := table(4)
	box := [4]float64{0.05, 0.10, 0.95, 0.90}
	if r := Find(m, &Options{Box: &box}); r.Crop != box || r.Angle != 0 || r.Corners != nil {
		t.Errorf("a box of the maker's gives crop %v, angle %v", r.Crop, r.Angle)
	}
	if r := Find(m, &Options{AsShot: true}); r.Crop != whole || r.Angle != 0 || r.Mask == nil {
		t.Errorf("as shot gives crop %v, angle %v, mask %v", r.Crop, r.Angle, r.Mask != nil)
	}
	upside := [4]float64{0.9, 1.5, 0.1, -3}
	if r := Find(m, &Options{Box: &upside}); r.Crop != [4]float64{0.1, 0, 0.9, 1} {
		t.Errorf("a box upside down gives crop %v", r.Crop)
	}
	nan := [4]float64{math.NaN(), 0, 1, 1}
	if r := Find(m, &Options{Box: &nan}); r.Crop != whole {
		t.Errorf("a box that is no number gives crop %v", r.Crop)
	}
}

// Whatever the picture, there is a result, and a crop inside the photo.
func TestFindNeverFails(t *testing.T) {
	noise := pixel.New(200, 150)
	seed := uint32(1)
	for i := range noise.Pix {
		seed = seed*1664525 + 1013904223
		noise.Pix[i] = uint16(seed >> 16)
	}
	flat := pixel.New(300, 200)
	paint(flat, 0, 0, 300, 200, 9000, 8000, 7000)
	for name, m := range map[string]*pixel.Image{
		"nil": nil, "empty": {}, "one pixel": pixel.New(1, 1), "short": {W: 100, H: 100, Pix: make([]uint16, 30)},
		"black": pixel.New(300, 200), "flat": flat, "noise": noise, "very wide": pixel.New(4000, 16), "very tall": pixel.New(16, 4000),
	} {
		r := Find(m, nil)
		c := r.Crop
		if !(c[0] >= 0 && c[1] >= 0 && c[2] <= 1 && c[3] <= 1 && c[2] > c[0] && c[3] > c[1]) {
			t.Errorf("%s: crop %v", name, c)
		}
		if name == "flat" || name == "black" || name == "nil" {
			if c != whole || r.Plain {
				t.Errorf("%s: crop %v, plain %v; want the whole frame", name, c, r.Plain)
			}
		}
	}
}

// A soft shadow that takes colour from the piece beside it is none of the piece.
func TestTintedShadowIsNoPiece(t *testing.T) {
	m := table(12)
	for y := 300; y < 400; y++ {
		for x := 60; x < 216; x++ {
			d := math.Hypot(float64(x-214)/150, float64(y-372)/60)
			if k := 1 - 0.35*math.Max(0, 1-d); k < 1 {
				row := m.Row(y)[3*x:]
				row[0], row[1], row[2] = uint16(float64(row[0])*k), uint16(float64(row[1])*k*(0.98+0.02*k)), uint16(float64(row[2])*math.Pow(k, 1.45))
			}
		}
	}
	paint(m, 214, 206, 226, 380, 1500, 1500, 1600)
	if r := Find(m, nil); !r.Sure || r.Subject[0] < 0.25 {
		t.Errorf("sure %v, the piece begins at %.3f of the width, want 0.26", r.Sure, r.Subject[0])
	}
}

// A piece that stands some pixels off the edge is not said to come to it, and one that
// does is, with the edge and how much of it.
func TestComesToTheEdge(t *testing.T) {
	cut := func(m *pixel.Image) map[string]float64 {
		for _, n := range Find(m, nil).Notes {
			if n.Code == "frame.cut" {
				return n.Values
			}
		}
		return nil
	}
	lower := func(to int) *pixel.Image {
		m := table(12)
		paint(m, 214, 380, 226, to, 1500, 1500, 1600)
		return m
	}
	for _, free := range []int{8, 16, 60} {
		if v := cut(lower(512 - free)); v != nil {
			t.Errorf("a leg that ends %d pixels off the edge is said to come to it: %v", free, v)
		}
	}
	if v := cut(lower(512)); len(v) != 1 || v["bottom"] < 0.01 || v["bottom"] > 0.03 {
		t.Errorf("a leg of 12 pixels of 768 comes to the bottom edge, and what is said is %v", v)
	}
}

// A crop around a long thin piece is no strip, and holds the piece.
func TestCropIsNoStrip(t *testing.T) {
	for _, c := range []struct{ w, h, x0, y0, x1, y1 int }{{512, 768, 240, 60, 272, 700}, {768, 512, 60, 240, 700, 262}} {
		m := pixel.New(c.w, c.h)
		paint(m, 0, 0, c.w, c.h, 40000, 40000, 39500)
		paint(m, c.x0, c.y0, c.x1, c.y1, 14000, 7000, 3000)
		r := Find(m, &Options{Side: 4000})
		wide, high := (r.Crop[2]-r.Crop[0])*float64(c.w), (r.Crop[3]-r.Crop[1])*float64(c.h)
		if wide > 1.01*mostWide*high || high > 1.01*mostHigh*wide {
			t.Errorf("a piece of %d by %d pixels is cropped to %.0f by %.0f", c.x1-c.x0, c.y1-c.y0, wide, high)
		}
		if !contains(r.Crop, r.Subject) || !r.Sure {
			t.Errorf("crop %.3f, subject %.3f, sure %v", r.Crop, r.Subject, r.Sure)
		}
	}
}
