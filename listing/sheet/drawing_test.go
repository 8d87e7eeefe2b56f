package sheet

import (
	"image"
	"image/draw"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"slabfolio/listing/drawing"
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

// The visible edges of a drawing, read back from the file at the scale that it
// names, are the outline that it was made from, and the piece's height, on every
// paper and for every kind of piece. The line of a visible edge is 0.5 mm wide
// (ISO 128-2, group 0.5).
func TestOutlineReadsBackAtItsScale(t *testing.T) {
	for name, r := range samples() {
		for _, paper := range []string{"a4", "letter"} {
			o := options(t, drawn(t, 900, 600))
			o.Paper = paper
			data, err := Sheet(r, o)
			if err != nil {
				t.Fatal(err)
			}
			scale, edges := drawingIn(t, data)
			if scale == 0 {
				t.Errorf("%s on %s names no scale", name, paper)
				continue
			}
			g := &r.Drawing
			if !slices.ContainsFunc(edges, func(p drawnPath) bool { return isOutline(p, g.Outline, scale) }) {
				t.Errorf("%s on %s: no path is the outline at 1:%g", name, paper, scale)
			}
			if g.Height > 0 && !slices.ContainsFunc(edges, func(p drawnPath) bool { return isBox(p, g.Length/scale, g.Thickness/scale) }) {
				t.Errorf("%s on %s: no path is the top's edge at 1:%g", name, paper, scale)
			}
		}
	}
}

var scaleNamed = regexp.MustCompile(`1:([0-9.]*[0-9])`)

// drawingIn finds the scale that a document names, and its visible edges in
// millimetres.
func drawingIn(t *testing.T, data []byte) (scale float64, edges []drawnPath) {
	t.Helper()
	for _, p := range readBack(t, data) {
		text := ""
		for _, r := range p.texts {
			text += r.text
		}
		m := scaleNamed.FindStringSubmatch(text)
		if m == nil {
			continue
		}
		v, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			t.Fatal(err)
		}
		scale = v
		for _, e := range p.paths {
			if e.paint == "S" && math.Abs(e.width*pt-lineVisible) < 0.01 {
				edges = append(edges, e)
			}
		}
	}
	return scale, edges
}

// isOutline compares a path with an outline, both from their first points.
func isOutline(p drawnPath, outline [][2]float64, scale float64) bool {
	if !p.closed || len(p.points) != len(outline) {
		return false
	}
	for i, q := range outline {
		for k := range 2 {
			got := (p.points[i][k] - p.points[0][k]) * pt
			if want := (q[k] - outline[0][k]) / scale; math.Abs(got-want) > 0.02 { // two roundings to a hundredth of a point
				return false
			}
		}
	}
	return true
}

func isBox(p drawnPath, w, h float64) bool {
	if len(p.points) != 4 {
		return false
	}
	return math.Abs(math.Abs(p.points[2][0]-p.points[0][0])*pt-w) < 0.02 && math.Abs(math.Abs(p.points[2][1]-p.points[0][1])*pt-h) < 0.02
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
		{"a board with less room", shortest(), 56, 7.5},
		{"a console table", usual(), 130, 15},
		{"a console table with a page to itself", usual(), 240, 15},
		{"never so small that it tells nothing", usual(), 20, 25},
		{"five metres", long(), 150, 40},
		{"a console table with room for one view under the other", usual(), 100, 20},
		{"a desk that fits with its views in a row", desk(), 75, 20},
		{"a round table", round(), 110, 15},
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
	for name, g := range map[string]drawing.Piece{
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
