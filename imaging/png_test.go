package imaging

import (
	"bytes"
	"errors"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/image/bmp"

	"slabfolio/imaging/decode"
)

// photosDir is the folder of public test photos beside the checkout.
func photosDir(t *testing.T, sub string) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	dir = filepath.Join(dir, "..", "..", "shared", "photos", sub)
	if _, err := os.Stat(dir); err != nil {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
			t.Fatal(err)
		}
		t.Skip("the test photos are missing: ", err)
	}
	return dir
}

func readable(t *testing.T, path string) (image.Image, bool) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	out, preview, err := PNG(data, nil)
	if err != nil {
		t.Fatalf("%s: %v", filepath.Base(path), err)
	}
	m, err := png.Decode(bytes.NewReader(out))
	if err != nil {
		t.Fatalf("%s: not a PNG: %v", filepath.Base(path), err)
	}
	return m, preview
}

// meanDifference is the mean difference of two pictures of one size, in levels
// of 255; infinite for two sizes.
func meanDifference(a, b image.Image) float64 {
	if a.Bounds().Size() != b.Bounds().Size() {
		return math.Inf(1)
	}
	sum, n := 0.0, 0.0
	for y := 0; y < a.Bounds().Dy(); y += 3 {
		for x := 0; x < a.Bounds().Dx(); x += 3 {
			r1, g1, b1, _ := a.At(a.Bounds().Min.X+x, a.Bounds().Min.Y+y).RGBA()
			r2, g2, b2, _ := b.At(b.Bounds().Min.X+x, b.Bounds().Min.Y+y).RGBA()
			for _, d := range [][2]uint32{{r1, r2}, {g1, g2}, {b1, b2}} {
				sum += math.Abs(float64(d[0]) - float64(d[1]))
				n++
			}
		}
	}
	return sum / n / 257
}

// The plain copies of the public orientation set (recurser/exif-orientation-
// examples) must stand upright, as another program turns them: ImageMagick. Both
// decode the JPEG in their own way, hence the tolerance of 2 levels in the mean.
func TestReadableCopiesAreUpright(t *testing.T) {
	dir := photosDir(t, "orientation")
	program, err := exec.LookPath("convert")
	if err != nil {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
			t.Fatal(err)
		}
		t.Skip("no ImageMagick on this machine")
	}
	for _, kind := range []string{"Landscape", "Portrait"} {
		for _, n := range "12345678" {
			name := kind + "_" + string(n) + ".jpg"
			got, preview := readable(t, filepath.Join(dir, name))
			out, err := exec.Command(program, filepath.Join(dir, name), "-auto-orient", "-strip", "bmp3:-").Output()
			if err != nil {
				t.Fatal(err)
			}
			want, err := bmp.Decode(bytes.NewReader(out))
			if err != nil {
				t.Fatal(err)
			}
			if d := meanDifference(got, want); d > 2 || preview {
				t.Errorf("%s: differs by %.2f levels from ImageMagick's, preview %v; sizes %v and %v", name, d, preview, got.Bounds(), want.Bounds())
			}
		}
	}
}

// Of a raw file the copy is the preview that the camera built in, and says so.
func TestReadableCopyOfARawFile(t *testing.T) {
	found, _ := filepath.Glob(filepath.Join(photosDir(t, "formats"), "*.dng"))
	if len(found) == 0 {
		t.Fatal("no raw file among the test photos")
	}
	m, preview := readable(t, found[0])
	if !preview || m.Bounds().Dx() < 100 {
		t.Errorf("%s: preview %v, %v", filepath.Base(found[0]), preview, m.Bounds())
	}
}

// What cannot be read is refused, never half drawn.
func TestReadableRefuses(t *testing.T) {
	for _, data := range []string{"", "no photo", "\xff\xd8\xff" + strings.Repeat("x", 100)} {
		var refusal *decode.Refusal
		if _, _, err := PNG([]byte(data), nil); !errors.As(err, &refusal) {
			t.Errorf("%.10q: error %v, want a refusal", data, err)
		}
	}
}

func TestNeedsReadable(t *testing.T) {
	for format, want := range map[string]bool{"raw": true, "heic": true, "avif": true, "jpeg": false, "png": false, "tiff": false, "": false} {
		if got := NeedsPNG(format); got != want {
			t.Errorf("%s: %v, want %v", format, got, want)
		}
	}
}
