package listing

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"slabfolio/listing/piece"
)

// A photo of a shape that no page can show costs itself, at whichever step that
// comes out; the piece is prepared with the others.
func TestOnePhotoNeverTakesItsPiece(t *testing.T) {
	dir, o := layPhotoBoard(t)
	shapes := [][2]int{{1, 60000}, {60000, 1}, {100, 65500}, {65500, 100}, {33, 65535}, {70000, 300}, {1, 1}, {31, 31}, {320, 33}, {33, 320}}
	for _, s := range shapes {
		var b bytes.Buffer
		m := image.NewGray(image.Rect(0, 0, s[0], s[1]))
		for i := range m.Pix {
			m.Pix[i] = 120 // a black one would be set aside as too dark
		}
		if err := png.Encode(&b, m); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%dx%d.png", s[0], s[1])), b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	r := prepareAll(t, dir, o).Results[0]
	if r.Outcome != Prepared || r.Photos < 2 {
		t.Errorf("%s with %d photos", r.Outcome, r.Photos)
	}
	refused := 0
	for _, f := range r.Findings {
		if f.Rank == piece.Fault {
			refused++
			if f.Code != "photo.refused" || f.File == "" {
				t.Errorf("%+v", f)
			}
		}
	}
	if refused+r.Photos != len(shapes)+2 {
		t.Errorf("%d photos shown and %d refused of %d", r.Photos, refused, len(shapes)+2)
	}
}
