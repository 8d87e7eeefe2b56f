package frame

import (
	"fmt"
	"path/filepath"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/pixel"
)

// told is a result in one line, for the golden files.
func told(name string, m *pixel.Image) string {
	r := Find(m, nil)
	codes := ""
	for _, n := range r.Notes {
		codes += " " + n.Code
	}
	on := 0.0
	if r.Mask != nil {
		for _, v := range r.Mask.Pix {
			if v != 0 {
				on++
			}
		}
		on /= float64(len(r.Mask.Pix))
	}
	return fmt.Sprintf("%s plain %v confidence %.2f crop %.3f subject %.3f mask %.3f angle %.2f corners %v%s",
		name, r.Plain, r.Confidence, r.Crop, r.Subject, on, r.Angle, r.Corners != nil, codes)
}

// Any change of a result shows here, with its number.
func TestGoldenScenes(t *testing.T) {
	var lines []string
	for _, d := range phototest.Draw(t, 360) {
		lines = append(lines, told(d.Piece+"/"+filepath.Base(d.Name), d.Image))
	}
	phototest.Golden(t, "scenes.golden", lines)
}

func TestGoldenPhotos(t *testing.T) {
	dir := phototest.Dir(t)
	var lines []string
	for _, g := range []string{"furniture/*.jpg", "subject/uw_*[a-z].png", "subject/davis*00.jpg"} {
		names, err := filepath.Glob(filepath.Join(dir, g))
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range names {
			lines = append(lines, told(filepath.Base(n), phototest.Read(t, n, 512)))
		}
	}
	phototest.Golden(t, "photos.golden", lines)
}
