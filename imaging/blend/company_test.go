package blend

import (
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/pixel"
)

// Lamps that stand 20 pixels apart, in one frame or in two, and hot pixels that lie side
// by side in the dark. The truth is the lightest of the frames without them.
func TestLampsAndHotPixelsInCompany(t *testing.T) {
	d := drawn()
	for _, c := range []struct {
		name  string
		lamps [][3]float64 // frame, x, y
		hot   [][3]int     // frame, x, y
		most  float64      // of 255
	}{
		{"two lamps in two frames", [][3]float64{{1, 60, 60}, {3, 80, 60}}, nil, 25},
		{"two lamps in one frame", [][3]float64{{1, 60, 60}, {1, 80, 60}}, nil, 25},
		{"three lamps in three frames", [][3]float64{{1, 60, 60}, {3, 80, 60}, {5, 70, 76}}, nil, 25},
		{"a lamp before a lit place, beyond which it is dark", [][3]float64{{5, 70, 76}}, nil, 35},
		{"hot pixels in pairs", nil, [][3]int{{0, 40, 30}, {0, 41, 30}, {1, 300, 40}, {1, 300, 41}, {2, 200, 20}, {2, 201, 21}, {3, 340, 20}, {3, 341, 20}}, 12},
		{"hot pixels in threes", nil, [][3]int{{0, 40, 30}, {0, 41, 30}, {0, 42, 30}, {1, 300, 40}, {1, 300, 41}, {1, 300, 42}, {2, 200, 20}, {2, 201, 21}, {2, 202, 22},
			{3, 340, 20}, {3, 341, 20}, {3, 340, 21}, {4, 120, 24}, {4, 121, 25}, {4, 122, 24}}, 12},
	} {
		var ms, clean []*pixel.Image
		for i, m := range d.noisy {
			ms, clean = append(ms, cut(m, 0, 0)), append(clean, cut(d.clean[i], 0, 0))
		}
		for _, l := range c.lamps {
			ms[int(l[0])] = withLamp(ms[int(l[0])], l[1], l[2], 7)
		}
		for _, h := range c.hot {
			ms[h[0]].Pix[3*(h[2]*ms[0].W+h[1])] = 65535
		}
		r := run(t, Request{Frames: frames(ms)})
		for n, m := range clean {
			clean[n] = r.kept(m)
		}
		truth := want(clean, Lightest, 1)
		worst, n, sum := 0.0, 0.0, 0.0
		look := func(x0, y0, by int) {
			for y := max(y0-by-r.CutTop, 0); y < min(y0+by-r.CutTop+1, r.Picture.H); y++ {
				for x := max(x0-by-r.CutLeft, 0); x < min(x0+by-r.CutLeft+1, r.Picture.W); x++ {
					for k := 3 * (y*r.Picture.W + x); k < 3*(y*r.Picture.W+x)+3; k++ {
						over := 255 * (colour.Encode(float64(r.Picture.Pix[k])/65535) - colour.Encode(truth(k)))
						worst, n, sum = max(worst, over), n+1, sum+max(over, 0)
					}
				}
			}
		}
		for _, l := range c.lamps {
			look(int(l[1]), int(l[2]), 30)
		}
		for _, h := range c.hot {
			look(h[1], h[2], 1)
		}
		t.Logf("%s: at most %.0f of 255 too bright, %.1f on average", c.name, worst, sum/n)
		if worst > c.most {
			t.Errorf("%s: %.0f of 255 remain", c.name, worst)
		}
	}
}
