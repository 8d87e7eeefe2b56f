package sheet

import (
	"image"
	"image/draw"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"slabfolio/listing/report"
)

// perMM is the resolution at which pages are measured: 20 pixels a millimetre.
const perMM = 20

// raster has poppler draw one page of a document, grey, 20 pixels a millimetre.
func raster(t *testing.T, data []byte, page string) *image.Gray {
	t.Helper()
	pdftoppm := reference(t, "pdftoppm")
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "d.pdf"), data, 0o644); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(pdftoppm, "-r", "508", "-gray", "-png", "-f", page, "-l", page, "-singlefile", filepath.Join(dir, "d.pdf"), filepath.Join(dir, "d"))
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("pdftoppm: %v\n%s", err, out)
	}
	f, err := os.Open(filepath.Join(dir, "d.png"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	m, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	grey := image.NewGray(m.Bounds())
	draw.Draw(grey, grey.Rect, m, m.Bounds().Min, draw.Src)
	return grey
}

// strip finds horizontal lines: in each row, whether x0 to x1 is dark
// throughout. It returns the rows' centres and thicknesses in millimetres.
func strip(m *image.Gray, x0, x1 int) (at, thick []float64) {
	run := 0
	for y := m.Rect.Min.Y; y <= m.Rect.Max.Y; y++ {
		dark := y < m.Rect.Max.Y
		for x := x0; dark && x < x1; x++ {
			dark = m.GrayAt(x, y).Y < 128
		}
		if dark {
			run++
			continue
		}
		if run > 0 {
			at = append(at, (float64(y)-float64(run)/2)/perMM)
			thick = append(thick, float64(run)/perMM)
		}
		run = 0
	}
	return at, thick
}

// A drawing is true to scale on paper, and its lines are those of ISO 128: the
// board of 420 x 180 x 22 mm at 1:5, measured on the page as poppler draws it.
func TestDrawingIsTrueToScale(t *testing.T) {
	data, err := Sheet(shortest(), options(t))
	if err != nil {
		t.Fatal(err)
	}
	m := raster(t, data, "1")
	d, err := newDoc("test", shortest(), options(t))
	if err != nil {
		t.Fatal(err)
	}
	d.left, d.right, d.axis = 20, 20, 58
	x0 := d.axis + roomLeft // the outline's left edge
	left, right := int((x0+1)*perMM), int((x0+420.0/5-1)*perMM)
	at, thick := strip(m, left, right)
	if len(at) != 5 { // dimension line, two edges of the plan, two of the edge view
		t.Fatalf("found %d lines across at %.2f mm, want 5", len(at), at)
	}
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 0.11 { // two pixels
			t.Errorf("%s: %.2f mm, want %.2f", what, got, want)
		}
	}
	near("width of the plan", at[2]-at[1], 180.0/5)
	near("thickness of the edge view", at[4]-at[3], 22.0/5)
	near("dimension line", thick[0], 0.25)
	for i := 1; i < 5; i++ {
		near("visible edge", thick[i], 0.5)
	}
	// The edge just inside and outside the ends: the plan is 84 mm long.
	y := int(at[1] * perMM)
	for _, c := range []struct {
		x    float64
		dark bool
	}{{x0 - 0.4, false}, {x0 - 0.1, true}, {x0 + 420.0/5 + 0.1, true}, {x0 + 420.0/5 + 0.4, false}} {
		if dark := m.GrayAt(int(c.x*perMM), y).Y < 128; dark != c.dark {
			t.Errorf("at x %.2f mm dark is %v, want %v", c.x, dark, c.dark)
		}
	}
}

func TestScaleIsTheLargestThatFits(t *testing.T) {
	for _, c := range []struct {
		name string
		r    *report.Report
		room float64
		want float64
	}{
		{"a tiny board in natural size", tiny(), 150, 1},
		{"a board on a page of its own", shortest(), 150, 5},
		{"a board with less room", shortest(), 56, 10},
		{"a console table", usual(), 130, 20},
		{"a console table with a page to itself", usual(), 240, 10},
		{"never so small that it tells nothing", usual(), 20, 20},
		{"five metres", long(), 150, 50},
		{"a console table with room for one view under the other", usual(), 100, 20},
		{"a desk that fits with its views in a row", desk(), 75, 20},
		{"a round table", round(), 110, 20},
	} {
		d, err := newDoc("test", c.r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		d.left, d.right, d.top, d.bottom, d.axis = 20, 20, 18, 22, 58
		d.open(210, 297)
		d.newPage()
		if got := d.fitDrawing(c.room).scale; got != c.want {
			t.Errorf("%s: 1:%g, want 1:%g", c.name, got, c.want)
		}
	}
}

// Outlines that cannot be drawn are left out, not a fault and no panic.
func TestHostileDrawings(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, g := range map[string]report.Drawing{
		"nothing":          {},
		"two corners":      {Outline: [][2]float64{{0, 0}, {1, 1}}, Length: 1, Width: 1},
		"not a number":     {Outline: [][2]float64{{0, 0}, {nan, 0}, {1, 1}}, Length: 1, Width: 1},
		"infinite":         {Outline: [][2]float64{{0, 0}, {1, 0}, {1, 1}}, Length: inf, Width: 1},
		"no thickness":     {Outline: [][2]float64{{0, 0}, {500, 0}, {500, 200}}, Length: 500, Width: 200, Grain: "along width"},
		"one line":         {Outline: [][2]float64{{0, 0}, {500, 0}, {0, 0}}, Length: 500, Width: 1e-9, Thickness: 20, Grain: "along length"},
		"huge":             {Outline: [][2]float64{{0, 0}, {9e5, 0}, {9e5, 9e5}}, Length: 9e5, Width: 9e5, Thickness: 50, Height: 8e5},
		"negative":         {Outline: [][2]float64{{0, 0}, {5, 0}, {5, 5}}, Length: 5, Width: 5, Thickness: -3, Height: -9, Footprint: [2]float64{-4, 2}},
		"foot beyond top":  {Outline: [][2]float64{{0, 0}, {500, 0}, {500, 400}}, Length: 500, Width: 400, Thickness: 30, Height: 700, Footprint: [2]float64{900, 500}},
		"unknown grain":    {Outline: [][2]float64{{0, 0}, {500, 0}, {500, 400}}, Length: 500, Width: 400, Thickness: 30, Grain: "diagonal"},
		"share above one":  {Outline: [][2]float64{{0, 0}, {500, 0}, {500, 400}}, Length: 500, Width: 400, ResinShare: 7},
		"too many corners": {Outline: circle(100), Length: 100, Width: 100, Thickness: nan},
	} {
		r := usual()
		r.Drawing = g
		data, err := Sheet(r, options(t))
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if n := pages(data); n > 4 {
			t.Errorf("%s: %d pages", name, n)
		}
	}
}
