package sheet

import (
	"path/filepath"
	"testing"

	"slabfolio/testdata/golden"
)

// What stands where in the documents of three pieces, run for run: a change of
// layout, of wrapping or of kerning shows here. The goldens prove sameness; that
// they are right was judged by eye.
func TestLayoutGolden(t *testing.T) {
	sizes := map[string]float64{"sheet": 297, "care": 210, "label": 105, "certificate": 297, "shipping": 297}
	for _, piece := range []string{"usual", "shortest", "round"} {
		for kind, height := range sizes {
			name := piece + "-" + kind
			t.Run(name, func(t *testing.T) {
				golden.Check(t, "testdata/"+name+".txt", layoutText(t, everyDocument(t)[name+".pdf"], height))
			})
		}
	}
}

// Every golden is read by a test.
func TestNoGoldenIsLeftOver(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil {
		t.Fatal(err)
	}
	if len(files) != 15 {
		t.Errorf("%d goldens, want 15", len(files))
	}
}

// Runs that are parted for a kerned pair stand as far apart as the pair's two
// letters are wide, less or more what the font's own table says; V after A is
// closer in every text face.
func TestKerningMovesLettersTogether(t *testing.T) {
	r := usual()
	r.Public.Title = "AVAV"
	data, err := Sheet(r, options(t))
	if err != nil {
		t.Fatal(err)
	}
	var runs []textRun
	for _, run := range readBack(t, data)[0].texts {
		if run.font == "serif" && run.size > 20 {
			runs = append(runs, run)
		}
	}
	if len(runs) != 4 {
		t.Fatalf("AVAV is set in %d runs, want 4", len(runs))
	}
	faces, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	m := faces[serif]
	if m.kern(-1, 'A', 'V') >= 0 {
		t.Fatal("the font moves A and V apart")
	}
	for i := 1; i < len(runs); i++ {
		free := m.glyphs[rune(runs[i-1].text[0])].width / 1000 * runs[i-1].size
		if step := runs[i].x - runs[i-1].x; step > free-0.5 || step < 0.5*free {
			t.Errorf("%s after %s: %.2f points on, %.2f without kerning", runs[i].text, runs[i-1].text, step, free)
		}
	}
}
