package frame

import (
	"math"
	"testing"
)

func TestShape(t *testing.T) {
	all := [4]float64{0, 0, 1, 1}
	piece := func(crop, subject [4]float64) Result {
		return Result{Crop: crop, Inside: all, Subject: subject, Sure: true}
	}
	for _, c := range []struct {
		name         string
		r            Result
		room         Room
		w, h, rw, rh int
		want         Placement
	}{
		{"a wide piece reaches beyond a square, whole",
			piece([4]float64{0, 0.1, 1, 0.9}, [4]float64{0.05, 0.2, 0.95, 0.8}), Roomy, 3000, 2000, 1, 1,
			Placement{[4]float64{0, -500, 3000, 2500}, true, true}},
		{"a small piece stays inside the photo",
			piece([4]float64{0.4, 0.3, 0.6, 0.6}, [4]float64{0.42, 0.32, 0.58, 0.58}), Roomy, 3000, 2000, 1, 1,
			Placement{[4]float64{1200, 600, 1800, 1200}, false, true}},
		{"near an edge the square moves inside",
			piece([4]float64{0, 0.3, 0.3, 0.4}, [4]float64{0.02, 0.32, 0.28, 0.38}), Roomy, 3000, 2000, 1, 1,
			Placement{[4]float64{0, 250, 900, 1150}, false, true}},
		{"room around the piece gives way before anything is made up",
			piece([4]float64{0.1, 0, 0.8, 1}, [4]float64{0.15, 0.1, 0.75, 0.9}), Roomy, 3000, 2000, 1, 1,
			Placement{[4]float64{350, 0, 2350, 2000}, false, true}},
		{"where nobody knows the piece, all of the photo is there",
			Result{Crop: all, Inside: all, Subject: [4]float64{0.6, 0.2, 0.95, 0.8}}, Roomy, 3000, 2000, 1, 1,
			Placement{[4]float64{0, -500, 3000, 2500}, true, true}},
		{"a part of a piece fills the square",
			Result{Crop: all, Inside: all, Subject: all}, Filled, 3000, 2000, 1, 1,
			Placement{[4]float64{500, 0, 2500, 2000}, false, false}},
		{"on a ground that is seen, no more of it than the piece needs",
			piece([4]float64{0, 0.1, 1, 0.9}, [4]float64{0.1, 0.2, 0.9, 0.8}), Close, 3000, 2000, 1, 1,
			Placement{[4]float64{228, -272, 2772, 2272}, true, true}}, // 3 % of 2400 pixels at either side
		{"where nobody knows the piece, all that may be it",
			Result{Crop: all, Inside: all, Subject: all, May: [4]float64{0.1, 0, 0.9, 1}}, Close, 3000, 2000, 1, 1,
			Placement{[4]float64{300, -200, 2700, 2200}, true, true}},
		{"which may be all of it",
			Result{Crop: all, Inside: all, Subject: all, May: all}, Close, 3000, 2000, 1, 1,
			Placement{[4]float64{0, -500, 3000, 2500}, true, true}},
		{"and may fit",
			Result{Crop: all, Inside: all, Subject: all, May: [4]float64{0.3, 0, 0.9, 1}}, Roomy, 3000, 2000, 1, 1,
			Placement{[4]float64{700, 0, 2700, 2000}, false, true}},
		{"the maker's box is whole, whatever was found",
			Result{Crop: [4]float64{0, 0.25, 1, 0.75}, Inside: all, Subject: [4]float64{0.4, 0.4, 0.5, 0.5}, Sure: true, Kept: true}, Roomy, 3000, 2000, 4, 5,
			Placement{[4]float64{0, -875, 3000, 2875}, true, true}},
		{"what straightening left is the photo",
			Result{Crop: [4]float64{0.02, 0.04, 0.98, 0.96}, Inside: [4]float64{0.02, 0.04, 0.98, 0.96}, Subject: all}, Roomy, 3000, 2000, 1, 1,
			Placement{[4]float64{60, -440, 2940, 2440}, true, true}},
		{"portrait 4:5 of an upright photo",
			piece([4]float64{0.1, 0.1, 0.9, 0.9}, [4]float64{0.2, 0.2, 0.8, 0.8}), Roomy, 2000, 3000, 4, 5,
			Placement{[4]float64{40, 300, 1960, 2700}, false, true}},
	} {
		got := c.r.Shape(c.w, c.h, c.rw, c.rh, c.room)
		for i := range got.Source {
			if math.Abs(got.Source[i]-c.want.Source[i]) > 0.01 {
				t.Errorf("%s: got %v, want %v", c.name, got.Source, c.want.Source)
				break
			}
		}
		if got.Beyond != c.want.Beyond || got.Whole != c.want.Whole {
			t.Errorf("%s: beyond %v whole %v, want %v %v", c.name, got.Beyond, got.Whole, c.want.Beyond, c.want.Whole)
		}
	}
}

// Whatever the numbers, what has to be in a picture is in it, and a picture that
// is said to lie in the photo lies in it.
func TestShapeHoldsWhatItMust(t *testing.T) {
	step := []float64{0, 0.13, 0.5, 0.61, 0.97, 1}
	for i, ratio := range [][2]int{{1, 1}, {4, 5}, {16, 9}, {1, 10}, {1, 1}, {4, 5}, {16, 9}, {1, 10}} {
		room := [2]Room{Roomy, Close}[i/4]
		for i, x0 := range step {
			for _, x1 := range step[i+1:] {
				for k, y0 := range step {
					for _, y1 := range step[k+1:] {
						in := [4]float64{0.01, 0.02, 0.99, 0.98}
						s := clipped([4]float64{x0, y0, x1, y1}, in)
						r := Result{Crop: clipped([4]float64{x0 - 0.05, y0 - 0.05, x1 + 0.05, y1 + 0.05}, in), Inside: in, Subject: s, Sure: true}
						p := r.Shape(4000, 3000, ratio[0], ratio[1], room)
						if got := (p.Source[2] - p.Source[0]) / (p.Source[3] - p.Source[1]); math.Abs(got*float64(ratio[1])/float64(ratio[0])-1) > 1e-9 {
							t.Fatalf("%v: the ratio is %.4f", ratio, got)
						}
						if !p.Whole || !holds(p.Source, [4]float64{s[0] * 4000, s[1] * 3000, s[2] * 4000, s[3] * 3000}) {
							t.Fatalf("%v: %v does not hold the piece %v", ratio, p.Source, s)
						}
						if !p.Beyond && !holds([4]float64{40, 60, 3960, 2940}, p.Source) {
							t.Fatalf("%v: %v reaches out of the photo and does not say so", ratio, p.Source)
						}
					}
				}
			}
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
