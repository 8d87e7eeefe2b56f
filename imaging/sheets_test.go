package imaging

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	xdraw "golang.org/x/image/draw"
	"golang.org/x/image/font"
	"golang.org/x/image/font/basicfont"
	"golang.org/x/image/math/fixed"

	"slabfolio/imaging/rendition"
)

// TestQualitySheets draws, for every real photo, the photo as it came, as it goes
// out, the square and the portrait side by side, one strip a photo and pages of
// eight strips, for people to look at:
//
//	SLABFOLIO_SHEETS=FOLDER go test ./imaging -run QualitySheets
//
// Each photo goes through alone, as in a set of one.
func TestQualitySheets(t *testing.T) {
	dir := os.Getenv("SLABFOLIO_SHEETS")
	if dir == "" {
		t.Skip("draws only where SLABFOLIO_SHEETS names a folder")
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	var page []image.Image
	n := 0
	flush := func() {
		if n++; len(page) > 0 {
			writeJPEG(t, filepath.Join(dir, fmt.Sprintf("page-%02d.jpg", n)), stacked(page))
		}
		page = nil
	}
	for _, name := range subjects(t) {
		strip := contactStrip(t, name, 640)
		file := filepath.Base(filepath.Dir(name)) + "-" + strings.TrimSuffix(filepath.Base(name), filepath.Ext(name)) + ".jpg"
		writeJPEG(t, filepath.Join(dir, file), strip)
		b := strip.Bounds()
		half := image.NewRGBA(image.Rect(0, 0, b.Dx()/2, b.Dy()/2))
		xdraw.ApproxBiLinear.Scale(half, half.Bounds(), strip, b, draw.Src, nil)
		if page = append(page, half); len(page) == 8 {
			flush()
		}
	}
	flush()
}

// subjects are the real photos, of things that a maker could have taken and others.
// SLABFOLIO_SHEETS_ONLY keeps those whose path holds a word.
func subjects(t *testing.T) (names []string) {
	t.Helper()
	dir, only := reference(t, "photos"), os.Getenv("SLABFOLIO_SHEETS_ONLY")
	for _, g := range []string{"furniture/*", "subject/*", "exposure/*/*", "lights/*/*", "orientation/*_1.jpg", "colour-target/*", "charts/*", "cameras/*", "measure/*", "profiles/pizza-rgb8-srgb.jpg"} {
		l, err := filepath.Glob(filepath.Join(dir, g))
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range l {
			picture := slices.Contains([]string{".jpg", ".jpeg", ".png"}, filepath.Ext(n))
			if picture && !strings.Contains(filepath.Base(n), "mask.") && strings.Contains(n, only) {
				names = append(names, n)
			}
		}
	}
	return names
}

// contactStrip draws one photo's strip, side pixels high.
func contactStrip(t *testing.T, name string, side int) image.Image {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	sizes := []rendition.Size{
		{Name: "own", Width: 2 * side, Format: "jpeg", Quality: 92},
		{Name: "square", Width: side, RatioW: 1, RatioH: 1, Format: "jpeg", Quality: 92},
		{Name: "portrait", Width: side * 4 / 5, RatioW: 4, RatioH: 5, Format: "jpeg", Quality: 92},
	}
	untouched := Request{Name: "before", Data: data, ToneAsShot: true, CropAsShot: true}
	_, before := develop(t, &Options{Sizes: sizes[:1]}, sizes[:1], untouched)
	photos, after := develop(t, &Options{Sizes: sizes}, sizes, Request{Name: "after", Data: data})
	pics := []image.Image{decoded(t, before[0][0])}
	for _, f := range after[0] {
		pics = append(pics, decoded(t, f))
	}
	p := photos[0]
	label := fmt.Sprintf("%s  %+.2f EV  white %.2f  black %.4f  confidence %.2f  sure %v  plain %v  turned %.2f", filepath.Base(name), p.Tone.EV, p.Tone.White, p.Tone.Black, p.Frame.Confidence, p.Frame.Sure, p.Frame.Plain, p.Frame.Angle)
	for _, s := range sizes[1:] {
		label += "  " + s.Name + ": " + fillings[p.shapeOf(p.formOf(s)).filling]
	}
	return sideBySide(pics, side, label)
}

func decoded(t *testing.T, f rendition.File) image.Image {
	t.Helper()
	m, err := jpeg.Decode(bytes.NewReader(f.Data))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// sideBySide lays pictures of one height beside each other on grey, below a label.
func sideBySide(pics []image.Image, side int, label string) image.Image {
	const gap, head = 6, 18
	w := gap
	var widths []int
	for _, m := range pics {
		b := m.Bounds()
		widths = append(widths, max(b.Dx()*side/b.Dy(), 1))
		w += widths[len(widths)-1] + gap
	}
	sheet := image.NewRGBA(image.Rect(0, 0, w, side+head+gap))
	draw.Draw(sheet, sheet.Bounds(), image.NewUniform(color.Gray{Y: 150}), image.Point{}, draw.Src)
	x := gap
	for i, m := range pics {
		xdraw.ApproxBiLinear.Scale(sheet, image.Rect(x, head, x+widths[i], head+side), m, m.Bounds(), draw.Src, nil)
		x += widths[i] + gap
	}
	d := font.Drawer{Dst: sheet, Src: image.Black, Face: basicfont.Face7x13, Dot: fixed.P(gap, 13)}
	d.DrawString(label)
	return sheet
}

// stacked lays strips below each other.
func stacked(strips []image.Image) image.Image {
	w, h := 0, 0
	for _, s := range strips {
		w, h = max(w, s.Bounds().Dx()), h+s.Bounds().Dy()
	}
	page := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(page, page.Bounds(), image.NewUniform(color.Gray{Y: 150}), image.Point{}, draw.Src)
	y := 0
	for _, s := range strips {
		draw.Draw(page, image.Rect(0, y, w, y+s.Bounds().Dy()), s, image.Point{}, draw.Src)
		y += s.Bounds().Dy()
	}
	return page
}

func writeJPEG(t *testing.T, name string, m image.Image) {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 90}); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}
