package imaging

import (
	"bytes"
	"image/jpeg"
	"os"
	"path/filepath"
	"testing"

	"slabfolio/imaging/rendition"
)

// A pale chair on black, whose arm and foot touch the edges of the photo, is
// carried on in black alone, not in smears of its wood. Real photo, see
// SOURCES.csv.
func TestPieceAtTheEdgeIsNotSmeared(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(reference(t, "photos/furniture"), "caltech_chair_0056.jpg"))
	if err != nil {
		t.Fatal(err)
	}
	sizes := []rendition.Size{{Name: "square", Width: 300, RatioW: 1, RatioH: 1, Format: "jpeg", Quality: 95}}
	_, files := develop(t, &Options{Pure: true, Sizes: sizes}, sizes, Request{Name: "chair", Data: data})
	m, err := jpeg.Decode(bytes.NewReader(files[0][0].Data))
	if err != nil {
		t.Fatal(err)
	}
	b := m.Bounds()
	if b.Dx() != b.Dy() {
		t.Fatalf("the square is %d × %d", b.Dx(), b.Dy())
	}
	// The photo is 226 pixels wide of 300: 37 on either side are added.
	worst := 0.0
	for _, x := range []int{b.Dx() / 20, b.Dx() * 19 / 20} {
		for y := range b.Dy() {
			r, g, bl, _ := m.At(x, y).RGBA()
			worst = max(worst, (0.2126*float64(r)+0.7152*float64(g)+0.0722*float64(bl))/257)
		}
	}
	if worst > 32 {
		t.Errorf("the border is as bright as %.0f of 255, want black (≤ 32)", worst)
	}
}
