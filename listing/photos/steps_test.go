package photos

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"slabfolio/imaging"
	"slabfolio/imaging/note"
	"slabfolio/imaging/rendition"
)

// Every step of a photo has its own line in the record, whether it did anything
// or not, and the overview's words are those of the lines.
func TestEveryStepHasItsLine(t *testing.T) {
	untouched := &imaging.Photo{Format: "png", Codec: "png (Go)", W: 40, H: 30, Numbers: map[string]float64{}}
	padded := func(w, h float64) note.Note {
		return note.Note{Code: "frame.padded", Values: map[string]float64{"ratio_w": w, "ratio_h": h}}
	}
	worked := &imaging.Photo{
		Format: "jpeg", Codec: "jpeg (Go)", W: 4000, H: 3000,
		Notes: []note.Note{{Code: "inspect.soft"}, {Code: "frame.converging", Values: map[string]float64{"corrected": 1, "degrees": -2.3}}},
		Done: []note.Note{
			{Code: "decode.turned"}, {Code: "colour.profile"}, padded(1, 1), padded(4, 5), padded(2, 3), {Code: "frame.cropped"},
			{Code: "tone.exposure", Values: map[string]float64{"ev": 0.7}}, {Code: "tone.white", Values: map[string]float64{"cooler": 300}},
		},
		Numbers: map[string]float64{"exposure_ev": 0.7, "crop_left": 0.1, "noise_levels": 2, "quality_2400": 81},
	}
	names := []string{"reading", "colour", "framing", "inspection", "tone", "renditions"}
	for _, c := range []struct {
		photo *imaging.Photo
		did   []string
	}{
		{untouched, []string{"PNG, 40 × 30 pixels, read by png (Go)", "no profile, taken as sRGB", "kept whole", "nothing found", "left as it was", "7 files"}},
		{worked, []string{
			"JPEG, 4000 × 3000 pixels, read by jpeg (Go), turned upright", "through its own profile",
			"leaning uprights put straight (2.3 degrees), cropped to the piece, backdrop carried on for square and tall",
			"soft", "+0.7 stops, 300 K cooler", "7 files, 2400 saved at quality 81, so that its file is not too large",
		}},
	} {
		steps := Steps(c.photo, 7, nil)
		for i, s := range steps {
			if i >= len(names) || s.Step != names[i] || s.Did != c.did[i] {
				t.Errorf("step %d is %q: %q", i, s.Step, s.Did)
			}
		}
		if len(steps) != len(names) {
			t.Errorf("%d steps, want %d", len(steps), len(names))
		}
		all := strings.Join(c.did, ", ")
		if i := slices.IndexFunc(Done(c.photo), func(w string) bool { return w != "colour profile applied" && !strings.Contains(all, w) }); i >= 0 {
			t.Errorf("the overview says %q, the steps do not", Done(c.photo)[i])
		}
	}
	steps := Steps(worked, 7, nil)
	for step, name := range map[int]string{2: "crop_left", 3: "noise_levels", 4: "exposure_ev", 5: "quality_2400"} {
		if _, ok := steps[step].Numbers[name]; !ok {
			t.Errorf("step %s lacks the number %s: %v", names[step], name, steps[step].Numbers)
		}
	}
}

// A profile that could not be read is not said to have been applied.
func TestUnreadableProfileIsNotApplied(t *testing.T) {
	p := &imaging.Photo{Format: "jpeg", Notes: []note.Note{{Code: "colour.bad-profile"}}}
	if got := Steps(p, 1, nil)[1].Did; got != "profile unreadable, taken as sRGB" {
		t.Errorf("the colour step says %q", got)
	}
}

// A picture of a kind that is not read is told of, not passed over in silence,
// and a photo under such a name is still a photo.
func TestPictureOfAnotherKindIsToldOf(t *testing.T) {
	dir := t.TempDir()
	for name, data := range map[string]string{
		"logo.ico": "\x00\x00\x01\x00", "notes.txt": "oil", "really a photo.psd": "\xff\xd8\xff\xe0........",
	} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(data), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	found, err := Find(dir)
	if err != nil || len(found) != 1 || found[0].Name != "really a photo.psd" {
		t.Errorf("photos found: %v, %v", found, err)
	}
	if told := PassedOver(dir); len(told) != 1 || told[0].File != "logo.ico" || told[0].Code != "photo.kind" {
		t.Errorf("told of: %v", told)
	}
}

// A file that is not of the shape which its name says tells its true size; one that is
// says nothing, nor does one that no shape was asked of.
func TestOtherShapesTellTheirSize(t *testing.T) {
	square := rendition.Size{Name: "square", RatioW: 1, RatioH: 1}
	for _, c := range []struct {
		size rendition.Size
		w, h int
		want string
	}{
		{square, 1180, 787, "square is 1180 × 787 pixels"}, {square, 1200, 1200, ""}, {square, 1200, 1199, ""},
		{rendition.Size{Name: "portrait", RatioW: 4, RatioH: 5}, 960, 776, "portrait is 960 × 776 pixels"}, {rendition.Size{Name: "portrait", RatioW: 4, RatioH: 5}, 333, 416, ""},
		{rendition.Size{Name: "2400"}, 2400, 1719, ""},
	} {
		if got := OtherShape(c.size, c.w, c.h); got != c.want {
			t.Errorf("%s of %d × %d: %q, want %q", c.size.Name, c.w, c.h, got, c.want)
		}
	}
	steps := Steps(&imaging.Photo{}, 8, []string{"square is 1180 × 787 pixels"})
	if last := steps[len(steps)-1].Did; last != "8 files, square is 1180 × 787 pixels" {
		t.Errorf("%q", last)
	}
}
