package photos

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"slabfolio/imaging"
	"slabfolio/listing/piece"
)

// Frames that tell no moment are found by what they show and by the numbers in their
// names: twelve photos of leaves, lit from twelve sides (see SOURCES.csv there). None of
// them is called one too many. Photos of other things, numbered likewise, are no frames,
// nor is one photo several times over.
func TestFramesWithoutAMoment(t *testing.T) {
	from := filepath.Join("..", "..", "..", "shared", "photos")
	open := func(name, file string) *Shot {
		data, err := os.ReadFile(filepath.Join(from, file))
		if err != nil {
			t.Skip("the reference photos are not there: ", err)
		}
		return openedShot(t, name, data, false)
	}
	var leaves, others []*Shot
	for _, n := range strings.Fields("10 11 12 1 2 3 4 5 6 7 8 9") {
		leaves = append(leaves, open(n+"_BL.png", "lights/leaves/"+n+"_BL.png"))
	}
	for i, n := range strings.Fields("0007 0021 0049 0052") {
		others = append(others, open("chair_"+string(rune('1'+i))+".jpg", "furniture/caltech_windsor_chair_"+n+".jpg"))
	}
	findings := Findings(&piece.Piece{}, slices.Concat(leaves, others))
	bursts := 0
	for _, f := range findings {
		switch f.Code {
		case "photo.burst":
			bursts++
			if !strings.Contains(f.Remedy, "frames: [1_BL.png, 2_BL.png, 3_BL.png, 4_BL.png, 5_BL.png, 6_BL.png, 7_BL.png, 8_BL.png, 9_BL.png, 10_BL.png, 11_BL.png, 12_BL.png]") || strings.Contains(f.Remedy, "how:") {
				t.Errorf("%+v", f)
			}
		case "photo.duplicate":
			t.Errorf("%+v", f)
		}
	}
	if bursts != 1 {
		t.Errorf("%d series, want 1", bursts)
	}
	same := []*Shot{open("same_1.png", "lights/leaves/1_BL.png"), open("same_2.png", "lights/leaves/1_BL.png"), open("same_3.png", "lights/leaves/1_BL.png")}
	told := 0
	for _, f := range Findings(&piece.Piece{}, same) {
		if f.Code == "photo.burst" {
			t.Errorf("one photo three times: %+v", f)
		}
		if f.Code == "photo.duplicate" {
			told++
		}
	}
	if told == 0 {
		t.Error("one photo three times is no duplicate")
	}
}

// A picture that is called a mask is told by the word alone.
func TestIsMask(t *testing.T) {
	for name, want := range map[string]bool{"rock.mask.png": true, "mask-2.jpg": true, "Maske 1.png": true, "masked.jpg": false, "damask.jpg": false, "IMG_1.jpg": false, "mask": true} {
		if IsMask(name) != want {
			t.Errorf("IsMask(%q) is not %v", name, want)
		}
	}
}

// On a card, frames without a moment are blended unasked only where they lie on each other
// to the pixel; stones under lamps that throw hard shadows are left to the maker.
func TestFramesWithoutAMomentOnACard(t *testing.T) {
	for set, want := range map[string]int{"leaves": 12, "gray": 0} {
		dir := t.TempDir()
		found, _ := filepath.Glob(filepath.Join("..", "..", "..", "shared", "photos", "lights", set, "*.png"))
		if len(found) == 0 {
			t.Skip("the reference photos are not there")
		}
		for _, f := range found {
			data, err := os.ReadFile(f)
			if err == nil {
				err = os.WriteFile(filepath.Join(dir, filepath.Base(f)), data, 0o600)
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		got, err := FindBursts(t.Context(), dir, &imaging.Options{Pure: true})
		frames := 0
		for _, b := range got {
			frames += len(b.Frames)
		}
		if err != nil || frames != want {
			t.Errorf("%s: %+v, %v, want %d frames", set, got, err, want)
		}
	}
}
