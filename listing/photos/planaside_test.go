package photos

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"strings"
	"testing"

	"slabfolio/imaging"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/units"
)

// seenFromAbove draws a top of 1100 × 420 mm on a floor, seen from above, with a sheet of A4
// (297 × 210 mm, ISO 216) on it or without.
func seenFromAbove(t *testing.T, sheet bool) []byte {
	t.Helper()
	const perMM = 0.8
	m := image.NewNRGBA(image.Rect(0, 0, 1200, 800))
	for y := range 800 {
		for x := range 1200 {
			mx, my := (float64(x)+0.5-600)/perMM, (float64(y)+0.5-400)/perMM
			c := color.NRGBA{112, 112, 116, 255}
			if math.Abs(mx) < 550 && math.Abs(my) < 210 {
				g := uint8(8 + 8*math.Sin(my/4+3*math.Sin(mx/90)))
				c = color.NRGBA{160 + g, 114 + g, 72 + g, 255}
			}
			if sheet && math.Abs(mx+250) < 148.5 && math.Abs(my+60) < 105 {
				c = color.NRGBA{235, 236, 238, 255}
			}
			m.SetNRGBA(x, y, c)
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 92}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A photo with a sheet of paper on the top, and one whose name says plan, are held back,
// unless the maker named, captioned or gave a view to it or there is no other.
func TestPlansAside(t *testing.T) {
	plain, sheet := seenFromAbove(t, false), seenFromAbove(t, true)
	spec := func(t *testing.T, lines string) *piece.Piece {
		p, _ := piece.ParsePiece("piece.yaml", []byte(lines), piece.Defaults{})
		return p
	}
	for _, c := range []struct {
		what, name, lines string
		data              []byte
		alone, aside      bool
		says              string
	}{
		{"with a sheet", "IMG_2.jpg", "", sheet, false, true, "cm × 42 cm"},
		{"with a sheet, from above by its name", "top.jpg", "", sheet, false, true, "sheet of paper"},
		{"by its name", "IMG_0324-plan.jpg", "", plain, false, true, "its name"},
		{"without either", "IMG_2.jpg", "", plain, false, false, ""},
		{"a close-up in French", "gros plan.jpg", "", plain, false, false, ""},
		{"in the order", "IMG_2.jpg", "photos: {order: [IMG_2.jpg]}\n", sheet, false, false, ""},
		{"with a caption", "IMG_2.jpg", "photos: {captions: {IMG_2.jpg: The letter on it}}\n", sheet, false, false, ""},
		{"with a view", "IMG_2.jpg", "photos: {views: {IMG_2.jpg: above}}\n", sheet, false, false, ""},
		{"alone", "plan.jpg", "", sheet, true, false, ""},
	} {
		p := spec(t, c.lines)
		all := []Source{{Rel: c.name, Name: c.name, Role: Publish}}
		if !c.alone {
			all = append(all, Source{Rel: "front.jpg", Name: "front.jpg", Role: Publish})
		}
		arranged, _ := Arrange(p, all)
		var shots []*Shot
		for _, s := range arranged {
			data := c.data
			if s.Name == "front.jpg" {
				data = sceneJPEG(t, 0, 0, 0)
			}
			photo, err := imaging.Open(imaging.Request{Name: s.Name, Data: data}, &imaging.Options{Pure: true, NoMaster: true})
			if err != nil {
				t.Fatal(err)
			}
			shots = append(shots, &Shot{Source: s, Photo: photo, Record: &report.PhotoRecord{}})
		}
		found := PlansAside(p, shots, units.Centimetres)
		if got := len(found) == 1 && found[0].File == c.name; got != c.aside || c.aside && (!strings.Contains(found[0].Message, c.says) || !strings.Contains(found[0].Remedy, "order")) {
			t.Errorf("%s: %+v, want aside: %v", c.what, found, c.aside)
		}
		for _, sh := range shots {
			if gone := sh.Photo == nil; gone != (c.aside && sh.Source.Name == c.name) || gone != (sh.Record.Refused != "") {
				t.Errorf("%s: %s is gone: %v, %q", c.what, sh.Source.Name, gone, sh.Record.Refused)
			}
			if sh.Photo != nil {
				sh.Photo.Close()
			}
		}
	}
}
