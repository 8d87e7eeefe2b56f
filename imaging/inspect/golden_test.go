package inspect

import (
	"fmt"
	"path/filepath"
	"testing"

	"slabfolio/imaging/frame"
	"slabfolio/imaging/internal/phototest"
)

// Any change of a result shows here, with its number.
func TestGoldenPhotos(t *testing.T) {
	dir := phototest.Dir(t)
	var lines []string
	for _, g := range []string{"furniture/*.jpg", "exposure/crusader/*.jpg"} {
		names, err := filepath.Glob(filepath.Join(dir, g))
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range names {
			m := phototest.Read(t, n, 512)
			f := frame.Find(m, nil)
			r := Photo(m, FullPhoto{W: m.W, H: m.H, Crop: f.Crop, Piece: f.Mask})
			codes := ""
			for _, k := range r.Notes {
				codes += " " + k.Code
			}
			lines = append(lines, fmt.Sprintf("%s edges %.2f %.2f noise %.2f clipped %.3f hash %016x crop %d %d%s",
				filepath.Base(n), r.EdgeX, r.EdgeY, r.Noise, r.Clipped, r.Hashes[0], r.CropW, r.CropH, codes))
		}
	}
	phototest.Golden(t, "photos.golden", lines)
}
