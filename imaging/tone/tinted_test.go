package tone

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/note"
)

// Which real photos are tinted all over: wood under a greenish lamp and a sheet of
// paper under a pinkish one; no grass, no blue cloth, no red wood, no brown chair.
func TestQualityTinted(t *testing.T) {
	dir := phototest.Dir(t)
	want := map[string]bool{"mate_Wood.jpg": true, "smartdoc_1.jpg": true}
	n := 0
	for _, g := range []string{"furniture/*.jpg", "subject/*.jpg", "subject/*.png", "exposure/*/*.jpg", "cameras/*.jpg", "measure/*.jpg"} {
		names, err := filepath.Glob(filepath.Join(dir, g))
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range names {
			if strings.HasSuffix(name, "_mask.png") {
				continue
			}
			n++
			v := tintOf(phototest.Read(t, name, 768))
			if base := filepath.Base(name); (v != 0) != want[base] {
				t.Errorf("%s: tinted by %.2f stops", base, v)
			} else if v != 0 {
				t.Logf("%s: tinted by %.2f stops", base, v)
			}
		}
	}
	t.Logf("%d of %d photos are tinted all over", len(want), n)
}

// A real photo of a room is tinted once a lamp of a quarter stop of green or
// magenta is put before it, and the note says so instead of the milder one.
func TestTintIsSaid(t *testing.T) {
	m := phototest.Read(t, filepath.Join(phototest.Dir(t), "furniture", "jsk_wooden_table_top.jpg"), 512)
	for _, green := range []float64{0.72, 1, 1.38} {
		c := m.Clone()
		for i := 1; i < len(c.Pix); i += 3 {
			c.Pix[i] = uint16(min(0.6*green*float64(c.Pix[i]), 65535))
			c.Pix[i-1], c.Pix[i+1] = uint16(0.6*float64(c.Pix[i-1])), uint16(0.6*float64(c.Pix[i+1]))
		}
		tr := Plan([]Sample{sample(c)})[0]
		said := slices.IndexFunc(tr.Notes, func(n note.Note) bool { return n.Code == "tone.tinted" })
		if (said >= 0) != (green != 1) {
			t.Errorf("green × %v: notes %v", green, tr.Notes)
		} else if said >= 0 && (tr.Notes[said].Values["stops"] > 0) != (green < 1) {
			t.Errorf("green × %v: %v stops", green, tr.Notes[said].Values["stops"])
		}
		if tr.White != [3]float64{1, 1, 1} {
			t.Errorf("green × %v: white is changed to %v", green, tr.White)
		}
	}
}
