package scene

import (
	"bytes"
	"image/png"
	"math"
	"os"
	"testing"

	"slabfolio/testdata/golden"
)

// The golden picture proves sameness, not truth. Processors may round a last
// bit differently (fused multiply and add), hence the tolerance.
func TestGoldenPicture(t *testing.T) {
	s := TestShot(TestOptions{Resin: -1, GreyCard: true, Samples: 4}, 180, 120)
	s.Scene.Level = 0.9
	m, _ := Render(s.Scene, s.W, s.H)
	got := encoded(m)
	const name = "testdata/console.png"
	if golden.Updating() {
		var b bytes.Buffer
		if err := png.Encode(&b, got); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close() // read only
	want, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	if want.Bounds() != got.Bounds() {
		t.Fatalf("%v, want %v", got.Bounds(), want.Bounds())
	}
	far, sum := 0, 0
	for y := range s.H {
		for x := range s.W {
			r, g, b, _ := want.At(x, y).RGBA()
			p := got.RGBAAt(x, y)
			for i, v := range []uint8{p.R, p.G, p.B} {
				d := abs(int(v) - int([]uint32{r, g, b}[i]>>8))
				sum += d
				if d > 6 {
					far++
				}
			}
		}
	}
	if mean := float64(sum) / float64(3*s.W*s.H); mean > 0.25 || far > 3*s.W*s.H/500 {
		t.Errorf("differs by %.2f levels on average, %d values by more than 6", mean, far)
	}
}

// Nothing of the set's subject may clip up to +1.5 EV, or exposure could not
// be undone.
func TestSetKeepsItsHighlights(t *testing.T) {
	for _, s := range TestSet(120, 80) {
		m, truth := Render(s.Scene, s.W, s.H)
		clipped, seen := 0, 0
		for i, c := range truth.Mask {
			if c == 0 {
				continue
			}
			seen++
			if max(m.Pix[3*i], m.Pix[3*i+1], m.Pix[3*i+2]) == 65535 {
				clipped++
			}
		}
		if seen < 500 {
			t.Errorf("%s: the subject covers %d pixels", s.Name, seen)
		}
		if clipped > 0 {
			t.Errorf("%s: %d of %d pixels clipped", s.Name, clipped, seen)
		}
	}
}

// The grey card's patch must show the errors that truth tells, against the
// same card without them.
func TestGreyCardShowsTheErrors(t *testing.T) {
	patch := func(o TestOptions) [3]float64 {
		o.GreyCard, o.Samples = true, 4
		s := TestShot(o, 360, 240)
		m, truth := Render(s.Scene, s.W, s.H)
		var x, y float64
		for _, c := range truth.Marks[len(truth.Marks)-4:] {
			x, y = x+c[0]/4, y+c[1]/4
		}
		var sum [3]float64
		for dy := -2; dy <= 2; dy++ {
			for dx := -4; dx <= 4; dx++ {
				for c := range 3 {
					sum[c] += float64(m.Row(int(y) + dy)[3*(int(x)+dx)+c])
				}
			}
		}
		return sum
	}
	right := patch(TestOptions{})
	for c := range 3 { // 18 % of the level, within the light's falloff over the top
		if got := right[c] / 45 / 65535; math.Abs(got/(0.18*0.3)-1) > 0.15 {
			t.Errorf("channel %d of the card is %.4f, want about %.4f", c, got, 0.18*0.3)
		}
	}
	wrong := patch(TestOptions{EV: 1, White: [3]float64{1.2, 1, 0.7}})
	for c, want := range []float64{2.4, 2, 1.4} {
		if got := wrong[c] / right[c]; math.Abs(got/want-1) > 0.02 {
			t.Errorf("channel %d is %.3f times the right one, want %.3f", c, got, want)
		}
	}
}

// The corners of the sheet must give back the size of the top: here without one, since the view is straight down.
func TestPaperCornersGiveTheScale(t *testing.T) {
	s := TestShot(TestOptions{Above: true, Paper: "a4", Samples: 1}, 300, 200)
	_, truth := Render(s.Scene, s.W, s.H)
	side := func(a, b [2]float64) float64 { return math.Hypot(a[0]-b[0], a[1]-b[1]) }
	m := truth.Marks
	// Straight from above the face is at one distance, so lengths are to scale.
	scale := 297 / side(m[0], m[1])
	if got := scale * side(m[1], m[2]); math.Abs(got-210) > 0.5 {
		t.Errorf("the sheet is %.2f mm wide, want 210", got)
	}
	if got := scale * side(truth.Corners[0], truth.Corners[1]); math.Abs(got-1200) > 2 {
		t.Errorf("the top is %.1f mm long, want 1200", got)
	}
	if side(m[0], m[3]) > side(m[0], m[1]) || m[0][0] > m[1][0] || m[0][1] > m[3][1] {
		t.Errorf("corners are not clockwise from the far left: %v", m[:4])
	}
}

func TestLightPaintingFramesDiffer(t *testing.T) {
	var mean []float64
	for _, s := range LightPainting(3, 90, 60) {
		m, truth := Render(s.Scene, s.W, s.H)
		var back, all, n, k float64
		for i, c := range truth.Mask {
			v := float64(m.Pix[3*i+1]) / 65535
			if c == 0 {
				back, k = back+v, k+1
			} else {
				all, n = all+v, n+1
			}
		}
		if back/k > 0.02 {
			t.Errorf("%s: the backdrop is at %.3f on average, want black", s.Name, back/k)
		}
		mean = append(mean, all/n)
	}
	if mean[0] == mean[1] || mean[1] == mean[2] {
		t.Errorf("frames are alike: %v", mean)
	}
}

func abs(i int) int { return max(i, -i) }
