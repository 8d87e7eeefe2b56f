package frame

import (
	"math"
	"testing"
)

func TestFit(t *testing.T) {
	for _, c := range []struct {
		name          string
		crop, subject [4]float64
		plain         bool
		w, h, rw, rh  int
		want          Placement
	}{
		{"a wide piece before a plain backdrop is padded to a square",
			[4]float64{0, 0.1, 1, 0.9}, [4]float64{0.05, 0.2, 0.95, 0.8}, true, 3000, 2000, 1, 1,
			Placement{[4]float64{0, -500, 3000, 2500}, true, true}},
		{"a small piece stays inside the photo without padding",
			[4]float64{0.4, 0.3, 0.6, 0.6}, [4]float64{0.42, 0.32, 0.58, 0.58}, true, 3000, 2000, 1, 1,
			Placement{[4]float64{1200, 600, 1800, 1200}, false, true}},
		{"near an edge the square moves inside before it is padded",
			[4]float64{0, 0.3, 0.3, 0.4}, [4]float64{0.02, 0.32, 0.28, 0.38}, true, 3000, 2000, 1, 1,
			Placement{[4]float64{0, 250, 900, 1150}, false, true}},
		{"without a plain backdrop the square follows the piece",
			[4]float64{0, 0, 1, 1}, [4]float64{0.6, 0.2, 0.95, 0.8}, false, 3000, 2000, 1, 1,
			Placement{[4]float64{850, 0, 2850, 2000}, false, true}},
		{"a piece wider than the square is centred and said not to be whole",
			[4]float64{0, 0, 1, 1}, [4]float64{0.1, 0.2, 1, 0.8}, false, 3000, 2000, 1, 1,
			Placement{[4]float64{650, 0, 2650, 2000}, false, false}},
		{"portrait 4:5 of an upright photo",
			[4]float64{0.1, 0.1, 0.9, 0.9}, [4]float64{0.2, 0.2, 0.8, 0.8}, false, 2000, 3000, 4, 5,
			Placement{[4]float64{40, 300, 1960, 2700}, false, true}},
	} {
		got := Fit(c.crop, c.subject, c.plain, c.w, c.h, c.rw, c.rh)
		for i := range got.Source {
			if math.Abs(got.Source[i]-c.want.Source[i]) > 0.01 {
				t.Errorf("%s: got %v, want %v", c.name, got.Source, c.want.Source)
				break
			}
		}
		if got.Padded != c.want.Padded || got.Whole != c.want.Whole {
			t.Errorf("%s: padded %v whole %v, want %v %v", c.name, got.Padded, got.Whole, c.want.Padded, c.want.Whole)
		}
	}
}

func TestSourceTurnsBack(t *testing.T) {
	// A photo that leans 2° clockwise: a level line of the scene drops to the right.
	r := Result{Angle: 2}
	m := r.Source(1000, 600)
	x0, y0 := m.Apply(500, 300)
	x1, y1 := m.Apply(900, 300)
	if math.Abs(x0-500) > 1e-9 || math.Abs(y0-300) > 1e-9 {
		t.Errorf("the centre moved to %v, %v", x0, y0)
	}
	if got := math.Atan2(y1-y0, x1-x0) * 180 / math.Pi; math.Abs(got-2) > 1e-9 {
		t.Errorf("a level line lies at %v° in the upright photo, want 2", got)
	}
	u, v := m.inverse().Apply(x1, y1)
	if math.Abs(u-900) > 1e-6 || math.Abs(v-300) > 1e-6 {
		t.Errorf("there and back gives %v, %v", u, v)
	}
	q := [4][2]float64{{0.1, 0.05}, {0.9, 0}, {1, 1}, {0, 0.95}}
	k := Result{Corners: &q}.Source(1000, 600)
	for i, p := range [4][2]float64{{0, 0}, {1000, 0}, {1000, 600}, {0, 600}} {
		x, y := k.Apply(p[0], p[1])
		if math.Abs(x-q[i][0]*1000) > 1e-6 || math.Abs(y-q[i][1]*600) > 1e-6 {
			t.Errorf("corner %d goes to %v, %v", i, x, y)
		}
	}
}
