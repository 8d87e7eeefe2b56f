package listing

import (
	"slices"
	"strings"
	"testing"

	"slabfolio/imaging/rendition"
	"slabfolio/listing/piece"
)

// Every preset that a workshop may name is a size that can be made, with a file of its
// own; what has no shape of its own keeps to its bytes.
func TestPresetsAreSizes(t *testing.T) {
	w, findings := piece.ParseWorkshop(piece.WorkshopName, []byte("sizes:\n  - "+strings.Join(piece.SizePresets, "\n  - ")+"\n  - {name: wide, width: 1800, ratio: \"2:1\"}\n"))
	for _, f := range findings {
		t.Error(f)
	}
	sizes := sizesOf(w.Sizes)
	seen := map[string]bool{}
	for _, s := range sizes {
		if err := s.Check(); err != nil {
			t.Error(err)
		}
		if seen[s.Suffix] {
			t.Errorf("two sizes end in %s", s.Suffix)
		}
		seen[s.Suffix] = true
		if s.MaxBytes == 500_000 != strings.Contains(s.Name, "500 kB") {
			t.Errorf("%s is held to %d bytes", s.Name, s.MaxBytes)
		}
		if (s.Ground != nil) != strings.Contains(s.Name, "on white") {
			t.Errorf("%s stands on %v", s.Name, s.Ground)
		}
	}
	if want := len(rendition.DefaultSizes()) + len(piece.SizePresets) + 1; len(sizes) != want || len(presets) != len(piece.SizePresets) {
		t.Errorf("%d sizes, want %d: the usual ones, the presets and the maker's own", len(sizes), want)
	}
	if up := sizes[uploadSize(sizes)]; up.Width != 2400 {
		t.Errorf("upload takes %s", up.Name)
	}
}

// Sizes of the photo's own shape stand instead of the usual ones; others beside them,
// and one of the same name in place of its namesake.
func TestWhichSizesStandInsteadOfTheUsual(t *testing.T) {
	for yaml, want := range map[string]string{
		"[{name: big, width: 3000}]":                     "big",
		"[{name: big, width: 3000}, square on white]":    "big, square on white",
		"square on white":                                "2400, 1200, 1200-webp, 600, 600-webp, 300-webp, square, portrait, square on white",
		"[{name: square, width: 900, ratio: \"1:1\"}]":   "2400, 1200, 1200-webp, 600, 600-webp, 300-webp, portrait, square",
		"[SQUARE ON WHITE, 9:16 upright]":                "2400, 1200, 1200-webp, 600, 600-webp, 300-webp, square, portrait, square on white, 9:16 upright",
		"[{name: page, width: 1200, format: webp}, 4:5]": "2400, 1200, 1200-webp, 600, 600-webp, 300-webp, square, portrait, page, 4:5",
	} {
		w, findings := piece.ParseWorkshop(piece.WorkshopName, []byte("sizes: "+yaml+"\n"))
		if slices.ContainsFunc(findings, func(f piece.Finding) bool { return f.Rank == piece.Fault }) {
			t.Errorf("%s: %v", yaml, findings)
		}
		var names []string
		for _, s := range sizesOf(w.Sizes) {
			names = append(names, s.Name)
		}
		if got := strings.Join(names, ", "); got != want {
			t.Errorf("%s: %s, want %s", yaml, got, want)
		}
	}
	for _, yaml := range []string{"[square on whit]", "[4:5, 4:5]", "[{name: square on white, width: 900}, square on white]"} {
		if _, findings := piece.ParseWorkshop(piece.WorkshopName, []byte("sizes: "+yaml+"\n")); !slices.ContainsFunc(findings, func(f piece.Finding) bool { return f.Rank == piece.Fault }) {
			t.Errorf("%s is taken without a word", yaml)
		} else {
			t.Logf("%s: %s; %s", yaml, findings[0].Message, findings[0].Remedy)
		}
	}
}
