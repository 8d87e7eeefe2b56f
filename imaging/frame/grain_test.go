package frame

import (
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// boards is grain that runs at an angle, with a joint across it and a shine.
func boards(w, h int, degrees float64) *pixel.Image {
	m := pixel.New(w, h)
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	for y := range h {
		for x := range w {
			across := float64(x)*cos + float64(y)*sin
			v := 0.32 + 0.05*math.Sin(across/3) + 0.04*math.Sin(across/7.3+math.Sin(across/41))
			v += 0.15 * math.Exp(-math.Pow(math.Hypot(float64(x-w), float64(y-h))/float64(w/3), 2))
			if math.Abs(across-float64(w)/3) < 1.5 {
				v -= 0.06
			}
			copy(m.Row(y)[3*x:], []uint16{uint16(65535 * v), uint16(65535 * v * 0.7), uint16(65535 * v * 0.45)})
		}
	}
	return m
}

// A picture of boards is one of grain alone, whichever way they run, and the same
// with a small dark box before it is not.
func TestGrainAlone(t *testing.T) {
	for _, at := range []float64{0, 20, 45, 70, 90} {
		m := boards(768, 512, at)
		if r := Find(m, nil); !r.Grain {
			t.Errorf("boards at %v°: no grain", at)
		}
		paint(m, 300, 200, 460, 380, 1200, 900, 700)
		if r := Find(m, nil); r.Grain {
			t.Errorf("boards at %v° behind a box: nothing but grain", at)
		}
	}
}

// Of the real photos those that show wood from edge to edge are of grain alone,
// and no other is.
func TestQualityGrainAlone(t *testing.T) {
	dir := phototest.Dir(t)
	want := []string{"jsk_wooden_table_top.jpg", "mate_Wood.jpg"}
	n := 0
	for _, g := range []string{"furniture/*.jpg", "subject/*.jpg", "subject/*.png", "exposure/*/*.jpg", "cameras/*.jpg", "orientation/Landscape_1.jpg", "orientation/Portrait_1.jpg", "measure/*.jpg", "measure/*.png"} {
		names, err := filepath.Glob(filepath.Join(dir, g))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			if strings.HasSuffix(name, "_mask.png") {
				continue
			}
			n++
			if r := Find(phototest.Read(t, name, 768), nil); r.Grain != slices.Contains(want, filepath.Base(name)) {
				t.Errorf("%s: nothing but grain: %v", filepath.Base(name), r.Grain)
			}
		}
	}
	t.Logf("grain alone in %d of %d photos", len(want), n)
	if n < 80 {
		t.Errorf("only %d photos were there", n)
	}
}

// A piece that fills its photo was framed by its maker: a few percent of room at
// the sides are no reason to crop, a half of it is. One that fills less is cropped.
func TestFilledFrameIsLeftAlone(t *testing.T) {
	for _, c := range []struct {
		name           string
		x0, y0, x1, y1 int
		crops          bool
	}{
		{"fills the height, some room at the sides", 100, 25, 668, 490, false},
		{"fills the height, much room at the sides", 250, 25, 518, 490, true},
		{"fills neither", 120, 80, 648, 430, true},
	} {
		m := flat(768, 512, 40000)
		paint(m, c.x0, c.y0, c.x1, c.y1, 9000, 5000, 2000)
		r := Find(m, nil)
		if !r.Sure || (r.Crop != whole) != c.crops {
			t.Errorf("%s: sure %v, crop %.3f", c.name, r.Sure, r.Crop)
		}
	}
}

// flat is a picture of one grey.
func flat(w, h int, v uint16) *pixel.Image {
	m := pixel.New(w, h)
	for i := range m.Pix {
		m.Pix[i] = v
	}
	return m
}
