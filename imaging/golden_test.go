package imaging

import (
	"bytes"
	"image"
	"image/jpeg"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/rendition"
)

// goldenMean and goldenWorst are how far, in 8-bit levels, a picture may be from
// its golden one: a change of Go's JPEG code moves single samples by one level
// (dependency notes), chroma comes back through YCbCr, the rest is ours.
const (
	goldenMean  = 0.35
	goldenWorst = 12
)

// TestGolden holds the whole way of a photo, pure codecs, to pictures that were
// looked at and found good. A failure says by how much a result has changed.
func TestGolden(t *testing.T) {
	sizes := []rendition.Size{
		{Name: "own", Width: 240, Format: "jpeg", Quality: 95},
		{Name: "square", Width: 160, RatioW: 1, RatioH: 1, Format: "jpeg", Quality: 95},
		{Name: "portrait", Width: 128, RatioW: 4, RatioH: 5, Format: "jpeg", Quality: 95},
	}
	photos, files := develop(t, &Options{Pure: true, Sizes: sizes}, sizes,
		Request{Name: "dark", Data: table(t, 900, 600, -1.2)}, Request{Name: "light", Data: table(t, 600, 900, 0.3)})
	for i, p := range photos {
		for _, f := range files[i] {
			got, err := jpeg.Decode(bytes.NewReader(f.Data))
			if err != nil {
				t.Fatal(err)
			}
			compareGolden(t, p.Name+"-"+f.Size.Name, got)
		}
	}
}

func compareGolden(t *testing.T, name string, got image.Image) {
	t.Helper()
	file := filepath.Join("testdata", "golden", name+".png")
	if phototest.Updating() {
		var b bytes.Buffer
		if err := png.Encode(&b, got); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	want, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	if got.Bounds() != want.Bounds() {
		t.Errorf("%s is %v, was %v", name, got.Bounds(), want.Bounds())
		return
	}
	sum, worst, n := 0.0, 0.0, 0.0
	for y := range got.Bounds().Dy() {
		for x := range got.Bounds().Dx() {
			r, g, b, _ := got.At(x, y).RGBA()
			wr, wg, wb, _ := want.At(x, y).RGBA()
			for _, d := range [3]float64{float64(r>>8) - float64(wr>>8), float64(g>>8) - float64(wg>>8), float64(b>>8) - float64(wb>>8)} {
				sum += math.Abs(d)
				worst = math.Max(worst, math.Abs(d))
				n++
			}
		}
	}
	if sum/n > goldenMean || worst > goldenWorst {
		t.Errorf("%s: has moved by %.2f levels on average and %.0f at worst; %.2f and %d are allowed", name, sum/n, worst, goldenMean, goldenWorst)
	}
}

// TestGoldensAreRead fails for a golden picture that no test compares.
func TestGoldensAreRead(t *testing.T) {
	names, err := filepath.Glob(filepath.Join("testdata", "golden", "*"))
	if err != nil || len(names) != 6 {
		t.Errorf("there are %d golden pictures, and TestGolden reads 6 (%v)", len(names), err)
	}
}
