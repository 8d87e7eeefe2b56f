package chart

import (
	"os"
	"path/filepath"
	"testing"

	"slabfolio/imaging/decode"
	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/linear"
	"slabfolio/imaging/pixel"
)

// small is the copy of a photo that is looked at, through its profile.
func small(t *testing.T, path string) *pixel.Image {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	src, err := decode.Decode(data, &decode.Options{Pure: true})
	if err != nil {
		t.Fatal(err)
	}
	r, _ := linear.NewRows(&src.Encoded)
	m, err := pixel.Reduce(r, src.Orientation, 768)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// Real photos with a chart, and what they are to come to: found, and put right
// only where patches come nearer that the matrix was not fitted to.
func TestQualityCharts(t *testing.T) {
	for _, c := range []struct {
		name         string
		found, helps bool
	}{
		{"charts/pedrodiamel_img-colorchecker.jpg", true, true},
		{"colour-target/pcv_calibrite-passport.png", true, true},
		{"colour-target/pcv_camera-trax.png", true, true},
		{"colour-target/pcv_colorchecker-mini.jpg", true, false},
		{"colour-target/pcv_nano.jpeg", true, false},
		{"colour-target/pcv_source1_img.png", true, false}, // a hard tone curve, which no matrix undoes
		{"colour-target/pcv_target_img.png", true, false},
		{"colour-target/pcv_partial_card_rgb.png", false, false},  // a leaf over it
		{"colour-target/pcv_plant_card.jpg", false, false},        // patches of 9 pixels
		{"colour-target/macduff_below_fishbox.jpg", false, false}, // patches of 8 pixels in the reduced copy
	} {
		got := Find(small(t, filepath.Join(phototest.Dir(t), c.name)))
		if (got != nil) != c.found {
			t.Errorf("%s: found %v, want %v", c.name, got != nil, c.found)
		}
		if got == nil {
			t.Logf("%-40s none", filepath.Base(c.name))
			continue
		}
		t.Logf("%-40s mean ΔE00 %.2f, through the matrix %.2f (worst %.1f), each through that of the others %.2f; put right: %v", filepath.Base(c.name), got.Before, got.After, got.Worst, got.Held, got.Helps())
		if got.Helps() != c.helps || got.Helps() && got.After >= got.Before {
			t.Errorf("%s: put right %v, want %v", c.name, got.Helps(), c.helps)
		}
	}
}

// No photo without a chart is said to have one.
func TestQualityNoFalseChart(t *testing.T) {
	n := 0
	for _, folder := range []string{"furniture", "lights", "measure", "subject", "exposure"} {
		names, err := filepath.Glob(filepath.Join(phototest.Dir(t), folder, "*.jp*g"))
		if err != nil {
			t.Fatal(err)
		}
		for _, path := range names {
			n++
			if c := Find(phototest.Read(t, path, 512)); c != nil {
				t.Errorf("%s: a chart with ΔE %.1f", path, c.After)
			}
		}
	}
	t.Logf("%d photos without a chart, none said to have one", n)
	if n < 20 {
		t.Errorf("only %d photos looked at", n)
	}
}
