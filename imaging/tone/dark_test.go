package tone

import (
	"bytes"
	"fmt"
	"image/jpeg"
	"path/filepath"
	"testing"

	"slabfolio/imaging/frame"
	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/internal/scene"
	"slabfolio/imaging/pixel"
)

// A piece lit by one lamp out of the dark stays as dark as it was taken, from
// whatever side the lamp shone and whether or not its black backdrop counts as
// plain: drawn ones, and the real ones among the test photos.
func TestLightPaintingKeepsItsBlacks(t *testing.T) {
	photos := map[string]*pixel.Image{}
	for n := 1; n <= 8; n++ {
		data, _ := scene.Shoot(scene.TestShot(scene.TestOptions{Light: n}, 480, 320))
		m, err := jpeg.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		photos[fmt.Sprintf("light %d", n)] = phototest.Reduce(phototest.Linear(m), 384)
	}
	dir := phototest.Dir(t)
	names, err := filepath.Glob(filepath.Join(dir, "exposure", "lights_rock", "rock.[0-9]*.png"))
	if err != nil || len(names) == 0 {
		t.Fatal("no photos of the lit rock: ", err)
	}
	names = append(names, filepath.Join(dir, "furniture", "caltech_chair_0033.jpg"), filepath.Join(dir, "furniture", "caltech_chair_0056.jpg"))
	for _, n := range names {
		photos[filepath.Base(n)] = phototest.Read(t, n, 384)
	}
	for name, m := range photos {
		out, plan := treat(m)
		if !plan.Dark {
			t.Errorf("%s is not seen to be dark by intent (plain backdrop: %v)", name, frame.Find(m, nil).Plain)
		}
		var before, after levels
		for i := 0; i < len(m.Pix); i += 3 {
			before.add(luma(m.Pix[i], m.Pix[i+1], m.Pix[i+2]), binOf())
			after.add(luma(out.Pix[i], out.Pix[i+1], out.Pix[i+2]), binOf())
		}
		// The middle of the frame: black before, and no more than three quarters of a
		// stop above that after (the one rock whose lit side is a little too dark
		// gains 0.7), unless that is below what a screen shows (−10 stops).
		if b, a := before.at(0.5), after.at(0.5); a > max(b+0.75, -10) {
			t.Errorf("%s: the middle of the frame goes from %.1f to %.1f stops", name, b, a)
		}
	}
	// A dim room is no style: it is lifted. The exposures of a real one.
	for _, n := range []string{"furniture/mei_round_table_dim.jpg", "furniture/jsk_tabletop_objects.jpg", "cameras/exifr_Canon1300D_18MP_dark.jpg"} {
		if _, plan := treat(phototest.Read(t, filepath.Join(dir, n), 384)); plan.Dark {
			t.Errorf("%s is taken for a dark style", n)
		}
	}
}
