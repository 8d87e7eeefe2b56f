package photos

import (
	"image/color"
	"slices"
	"strings"
	"testing"

	"slabfolio/imaging"
	"slabfolio/imaging/note"
	"slabfolio/listing/piece"
)

func ratioNote(code string, w, h float64) note.Note {
	return note.Note{Code: code, Values: map[string]float64{"ratio_w": w, "ratio_h": h}}
}

// A doubt names each picture that is not of its shape since nobody knows the piece,
// and the remedy is one that the spec takes; where the piece is known it is a note.
func TestUnsureShapesAreNamed(t *testing.T) {
	sh := &Shot{Source: Source{Rel: "photos/IMG_7.jpg", Name: "IMG_7.jpg"}, Photo: &imaging.Photo{
		Notes: []note.Note{ratioNote("frame.unsure", 1, 1), ratioNote("frame.unsure", 4, 5)},
	}}
	found := Findings(&piece.Piece{}, []*Shot{sh})
	var f piece.Finding
	for _, o := range found {
		if o.Code == "photo.unsure" {
			f = o
		}
	}
	if f.Rank != piece.Doubt || !strings.Contains(f.Message, "square and tall") || f.File != "photos/IMG_7.jpg" {
		t.Errorf("said %+v", f)
	}
	if !strings.Contains(f.Remedy, "crop_boxes") || !strings.Contains(f.Remedy, "on the overview") || !strings.Contains(f.Remedy, "{IMG_7.jpg: [") {
		t.Errorf("the remedy is %q", f.Remedy)
	}
	for code, want := range map[string]string{
		"frame.narrow": "note: its square picture is only as wide or as high as the photo allows",
		"frame.beyond": "doubt: its square picture reaches beyond the photo, on a ground of its edge's colour",
	} {
		one := &Shot{Source: sh.Source, Photo: &imaging.Photo{Notes: []note.Note{ratioNote(code, 1, 1)}}}
		if !slices.ContainsFunc(Findings(&piece.Piece{}, []*Shot{one}), func(f piece.Finding) bool {
			return strings.HasPrefix(string(f.Rank)+": "+f.Message, want)
		}) {
			t.Errorf("%s: nothing begins with %q", code, want)
		}
	}
	for _, asked := range [2]bool{false, true} { // who asks for a ground is not told to ask for one
		notes := []note.Note{ratioNote("frame.narrow", 1, 1)}
		if asked {
			notes = append(notes, note.Note{Code: "ground.refused", Values: map[string]float64{"why": 1}})
		}
		for _, f := range Findings(&piece.Piece{}, []*Shot{{Source: sh.Source, Photo: &imaging.Photo{Notes: notes}}}) {
			if f.Code == "photo.narrow" && strings.Contains(f.Remedy, "on white") == asked {
				t.Errorf("a ground asked for: %v; the remedy is %q", asked, f.Remedy)
			}
		}
	}
	var many []*Shot
	for range 3 {
		many = append(many, sh)
	}
	n := 0
	for _, o := range Findings(&piece.Piece{}, many) {
		if o.Code == "photo.unsure" {
			n++
		}
	}
	if n != 1 {
		t.Errorf("three photos alike are said %d times", n)
	}
}

// Views of a part fill their frame, views of the piece never cut it.
func TestShows(t *testing.T) {
	for view, want := range map[string]imaging.Extent{
		"": imaging.Unsaid, "three-quarter": imaging.AllOfIt, "in room": imaging.AllOfIt, "underside": imaging.AllOfIt,
		"seam": imaging.PartOfIt, "maker's mark": imaging.PartOfIt, "backlit resin": imaging.PartOfIt,
	} {
		if got := extentOf(view); got != want {
			t.Errorf("%q shows %v, want %v", view, got, want)
		}
	}
	for _, v := range piece.PartViews {
		if extentOf(v) != imaging.PartOfIt {
			t.Errorf("%q does not show a part", v)
		}
	}
}

// A ground asked for is a colour, and each reason not to put the piece on it has
// its words.
func TestGround(t *testing.T) {
	for word, want := range map[string]color.NRGBA{"white": {255, 255, 255, 255}, "White": {255, 255, 255, 255}, "#e8DCc8": {0xe8, 0xdc, 0xc8, 255}} {
		if got := Ground(word); got == nil || *got != want {
			t.Errorf("%q is %v, want %v", word, got, want)
		}
	}
	if Ground("") != nil {
		t.Error("no word gives a ground")
	}
	for why := 1; why <= 6; why++ {
		sh := &Shot{Source: Source{Rel: "a.jpg"}, Photo: &imaging.Photo{Notes: []note.Note{{Code: "ground.refused", Values: map[string]float64{"why": float64(why)}}}}}
		fs := findingsOn(sh)
		if len(fs) != 1 || fs[0].Rank != piece.Doubt || fs[0].Remedy == "" || !strings.Contains(fs[0].Message, "stays where it stands") {
			t.Errorf("for reason %d is said %+v", why, fs)
		}
	}
}

// Nothing that the command says sends its reader to the overview or to the spec.
func TestAtCommandNamesNoOverview(t *testing.T) {
	for code, s := range planSayings {
		if r := AtCommand(s.remedy); strings.Contains(r, "overview") || strings.Contains(r, "under marks") {
			t.Errorf("%s: %s", code, r)
		}
	}
}
