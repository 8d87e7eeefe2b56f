package photos

import (
	"strings"
	"testing"

	"slabfolio/imaging/note"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

func TestABlendTakesItsFrames(t *testing.T) {
	all := []Source{{Rel: "a.jpg", Name: "a.jpg", Role: Publish}, {Rel: "photos/light-1.jpg", Name: "light-1.jpg", Role: Publish}, {Rel: "photos/light-2.jpg", Name: "light-2.jpg", Role: Publish}, {Rel: "z.jpg", Name: "z.jpg", Role: Publish}}
	p := &piece.Piece{Photos: piece.Photos{
		Main: piece.Of("lit"),
		Blends: []piece.Blend{{Name: piece.Of("lit"), View: piece.Of("front"), How: piece.Of("even"),
			Frames:   []piece.Value[string]{piece.Of("light-1.jpg"), piece.Of("light-2.jpg")},
			Strength: map[string]piece.Value[units.Percent]{"light-2.jpg": piece.Of(units.Percent(60))}}},
	}}
	got, findings := Arrange(p, all)
	if len(findings) > 0 {
		t.Fatal(findings)
	}
	var order []string
	for _, s := range got {
		order = append(order, s.Rel+" "+string(s.Role))
	}
	want := []string{"lit publish", "a.jpg publish", "photos/light-1.jpg frame", "photos/light-2.jpg frame", "z.jpg publish"}
	for i := range want {
		if i >= len(order) || order[i] != want[i] {
			t.Fatalf("got %v, want %v", order, want)
		}
	}
	b := got[0].Blend
	if b == nil || b.How != "even" || got[0].View != "front" || len(b.Frames) != 2 || b.Frames[1] != "photos/light-2.jpg" || b.Strength[0] != 1 || b.Strength[1] != 0.6 {
		t.Errorf("%+v of view %q", b, got[0].View)
	}
}

// A mask is a file of the piece and no photo; what is said of a frame that is none is told.
func TestAMaskIsNoPhoto(t *testing.T) {
	var all []Source
	for _, n := range []string{"light-1.jpg", "light-2.jpg", "mask.png"} {
		all = append(all, Source{Rel: n, Name: n, Role: Publish})
	}
	p := &piece.Piece{Photos: piece.Photos{Blends: []piece.Blend{{Name: piece.Of("lit"),
		Frames: []piece.Value[string]{piece.Of("light-1.jpg"), piece.Of("light-2.jpg")},
		Masks:  map[string]piece.Value[string]{"light-2.jpg": piece.Of("mask.png"), "light-3.jpg": piece.Of("mask.png")}}}}}
	got, findings := Arrange(p, all)
	if len(findings) != 1 || findings[0].Rank != piece.Doubt || !strings.Contains(findings[0].Message, `"light-3.jpg"`) {
		t.Errorf("findings %v", findings)
	}
	for _, s := range got {
		if s.Name == "mask.png" && s.Role != Frame {
			t.Errorf("the mask's role is %s", s.Role)
		}
		if b := s.Blend; b != nil && (len(b.Masks) != 2 || b.Masks[0] != "" || b.Masks[1] != "mask.png") {
			t.Errorf("masks %q", b.Masks)
		}
	}
}

func TestBlendsAreCalledAsTheirFramesAre(t *testing.T) {
	for want, names := range map[string][]string{
		"light-blended": {"light-1.jpg", "light-2.jpg", "light-11.jpg"},
		"img-blended":   {"IMG_3001.JPG", "IMG_3002.JPG"},
		"blended":       {"0001.jpg", "0002.jpg"},
	} {
		if got := blendName(names); got != want {
			t.Errorf("%v: %q, want %q", names, got, want)
		}
	}
}

// Frames of notes are counted from 1; a note about the whole set names none.
func TestNotesNameTheirFrame(t *testing.T) {
	names := []string{"a.jpg", "b.jpg"}
	for frame, want := range map[float64]string{-1: "", 0: "", 1: "a.jpg", 2: "b.jpg", 3: ""} {
		if got := frameNamed(note.Note{Values: map[string]float64{"frame": frame}}, names); got != want {
			t.Errorf("frame %v: %q, want %q", frame, got, want)
		}
	}
	if got := frameNamed(note.Note{Code: "blend.curved"}, names); got != "" {
		t.Errorf("a note about all names %q", got)
	}
}
