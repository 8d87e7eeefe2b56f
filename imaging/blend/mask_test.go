package blend

import (
	"math"
	"testing"

	"slabfolio/imaging/pixel"
)

// A frame that was moved counts up to a pixel from its own rim, and no further.
func TestNothingIsKnownBeyondTheRim(t *testing.T) {
	const w, h = 12, 8
	for _, c := range []struct {
		move           move
		x0, x1, y0, y1 int // what counts, in pixels of the result
	}{
		{move{}, 0, 12, 0, 8},     // not moved: all of it counts
		{move{dx: 3}, 0, 8, 1, 7}, // the middle of the outermost pixels lies half a pixel from the rim
		{move{dx: -3}, 4, 12, 1, 7},
		{move{dy: 2}, 1, 11, 0, 5},
		{move{dy: -2}, 1, 11, 3, 8},
		{move{dx: 0.5, dy: -0.5}, 1, 11, 1, 7}, // to a pixel from the rim exactly: that counts
	} {
		j := &job{req: Request{Frames: make([]Frame, 1)}, w: w, h: h, looks: make([]smallCopy, 1), moves: map[int]move{0: c.move}}
		for y := range h {
			dst := make([]float32, w)
			row := j.weightRow(dst, 0, y)
			for x := range w {
				got := float32(1)
				if row != nil {
					got = row[x]
				}
				want := float32(0)
				if x >= c.x0 && x < c.x1 && y >= c.y0 && y < c.y1 {
					want = 1
				}
				if c.move == (move{dx: 0.5, dy: -0.5}) && (x == 0 || y == h-1) { // 1 and h−1 to the hair
					want = 1
				}
				if c.move == (move{dx: 0.5, dy: -0.5}) && (x == w-1 || y == 0) {
					want = 0
				}
				if got != want {
					t.Errorf("moved by %v: (%d, %d) counts %v, want %v", c.move, x, y, got, want)
				}
			}
		}
	}
}

// Where nothing takes weight away there is no row of weights, and a mask is read
// between its pixels: by hand, at the middles of four pixels over a mask of two.
func TestWeightsOfAMask(t *testing.T) {
	j := &job{req: Request{Frames: make([]Frame, 1)}, w: 4, h: 1, looks: make([]smallCopy, 1)}
	if row := j.weightRow(make([]float32, 4), 0, 0); row != nil {
		t.Errorf("weights of a frame without a mask: %v", row)
	}
	j.req.Frames[0].Mask = &pixel.Mask{W: 2, H: 1, Pix: []uint8{255, 255}}
	if row := j.weightRow(make([]float32, 4), 0, 0); row != nil {
		t.Errorf("weights of a mask that is white all over: %v", row)
	}
	j.req.Frames[0].Mask = &pixel.Mask{W: 2, H: 1, Pix: []uint8{0, 255}}
	row := j.weightRow(make([]float32, 4), 0, 0)
	for x, want := range []float32{0, 0.25, 0.75, 1} {
		if math.Abs(float64(row[x]-want)) > 1e-6 {
			t.Errorf("weight %d is %.3f, want %.3f", x, row[x], want)
		}
	}
	j.looks[0] = smallCopy{w: 4, h: 1, lamp: []float32{0, 0, 0.5, 0.5}}
	row = j.weightRow(make([]float32, 4), 0, 0)
	for x, want := range []float32{0, 0.25, 0.375, 0.5} {
		if math.Abs(float64(row[x]-want)) > 1e-6 {
			t.Errorf("weight %d beside a lamp is %.3f, want %.3f", x, row[x], want)
		}
	}
}

// spotted is a dark copy of 100 × 100 with a square of light, side pixels wide, at
// (x, y), and around it light of another level.
func spotted(x, y, side int, light, around float32) *smallCopy {
	l := &smallCopy{w: 100, h: 100, light: make([]float32, 10000)}
	for v := range l.h {
		for u := range l.w {
			l.light[v*l.w+u] = around
			if u >= x && u < x+side && v >= y && v < y+side {
				l.light[v*l.w+u] = light
			}
		}
	}
	return l
}

// What is taken for a lamp, from both sides of each limit.
func TestWhatIsALamp(t *testing.T) {
	yes := func(p, q int) bool { return true }
	for _, c := range []struct {
		name          string
		l             *smallCopy
		others        float32
		plain         func(p, q int) bool
		lamp          bool
		least, atMost int // area of the mask, in pixels
	}{
		{"a spot of 6", spotted(40, 40, 6, 1, 0.05), 0.05, yes, true, 36, 250},
		{"at the corner", spotted(0, 0, 6, 1, 0.05), 0.05, yes, true, 36, 150},
		{"at the far corner", spotted(94, 94, 6, 1, 0.05), 0.05, yes, true, 36, 150},
		{"just blown out", spotted(40, 40, 6, 0.94, 0.05), 0.05, yes, true, 36, 250},
		{"not blown out", spotted(40, 40, 6, 0.92, 0.05), 0.05, yes, false, 0, 0},
		{"others nearly as bright", spotted(40, 40, 6, 1, 0.05), 0.41, yes, false, 0, 0},
		{"others not so bright", spotted(40, 40, 6, 1, 0.05), 0.39, yes, true, 36, 250},
		{"484 of 10,000 pixels", spotted(40, 40, 22, 1, 0.05), 0.05, yes, true, 484, 1100},
		{"529 of 10,000 pixels", spotted(40, 40, 23, 1, 0.05), 0.05, yes, false, 0, 0},
		{"falls to 0.59", spotted(40, 40, 6, 1, 0.59), 0.05, yes, true, 36, 10000},
		{"falls to 0.61", spotted(40, 40, 6, 1, 0.61), 0.05, yes, false, 0, 0},
		{"the others show an outline there", spotted(40, 40, 6, 1, 0.05), 0.05, func(p, q int) bool { return false }, false, 0, 0},
		// Three sides of four are steep, or two.
		{"steep on three sides", spotted(40, 40, 6, 1, 0.05), 0.05, func(p, q int) bool { return q%100 >= 40 }, true, 36, 250},
		{"steep on two sides", spotted(40, 40, 6, 1, 0.05), 0.05, func(p, q int) bool { return q%100 >= 40 && q/100 >= 40 }, false, 0, 0},
	} {
		others := func(int) float32 { return c.others }
		mask, share := c.l.maskLamps(c.l.lamps(others, c.plain), others)
		if (mask != nil) != c.lamp {
			t.Errorf("%s: taken for a lamp %v, want %v", c.name, mask != nil, c.lamp)
			continue
		}
		if area := math.Round(share * 10000); area < float64(c.least) || area > float64(c.atMost) {
			t.Errorf("%s: masked over %.0f pixels, want %d to %d", c.name, area, c.least, c.atMost)
		}
		for k, v := range c.l.light {
			if mask != nil && v >= lampCore && mask[k] != 1 {
				t.Errorf("%s: the lamp itself is masked by %.2f at %d", c.name, mask[k], k)
				break
			}
		}
	}
}

// A mask of a lamp falls to nothing over three pixels: three quarters, a half, a
// quarter. Pixels that touch at a corner are one spot.
func TestLampFadesOut(t *testing.T) {
	l := &smallCopy{w: 30, h: 30, light: make([]float32, 900)}
	core := make([]bool, 900)
	for _, k := range []int{10*30 + 10, 11*30 + 11, 12*30 + 12, 20*30 + 20} {
		core[k], l.light[k] = true, 1
	}
	blob := l.blob(core, make([]bool, 900), 10*30+10)
	if len(blob) != 3 {
		t.Errorf("%d pixels are one spot, want 3", len(blob))
	}
	core = make([]bool, 900)
	for k := range core {
		core[k] = true
	}
	if blob := l.blob(core, make([]bool, 900), 455); len(blob) != 900 {
		t.Errorf("%d of 900 pixels are one spot", len(blob))
	}
	mask := make([]float32, 900)
	in := l.glow(mask, []int{15*30 + 15}, func(int) float32 { return 1 })
	// The rim of the spot itself belongs to it: all within its radius and four pixels.
	reach := math.Sqrt(1/math.Pi) + 1 + 3
	want, last := 0, 0
	for y := range 30 {
		for x := range 30 {
			if math.Hypot(float64(x-15), float64(y-15)) < reach {
				want++
				if y == 15 {
					last = max(last, x)
				}
			}
		}
	}
	if in != want {
		t.Errorf("the glow is %d pixels, want %d", in, want)
	}
	for i, v := range []float32{1, 0.75, 0.5, 0.25, 0} {
		if got := mask[15*30+last+i]; math.Abs(float64(got-v)) > 1e-6 {
			t.Errorf("%d pixels beside the glow the mask is %.3f, want %.3f", i, got, v)
		}
	}
}
