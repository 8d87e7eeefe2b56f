package report

import (
	"strings"
	"testing"
)

// A European tree is printed by the name that readers know it by: lime is a fruit in the
// United States, and the tree a linden (from memory). The botanical name stands beside it.
func TestEuropeanTreesAreNamedAsReadersKnowThem(t *testing.T) {
	const board = "serial: OY-941\ntitle: Board\nkind: serving board\nfinished: 2026-09-18\nunits: cm\ntop: {outline: {length: 42, width: 21}, thickness: 2.2, wood: {species: Tilia cordata}}\n"
	for lang, want := range map[string]string{"en-GB": "Small-leaved lime", "en-US": "Littleleaf linden", "en": "Small-leaved lime"} {
		r := told(t, board, lang)
		if m := r.Public.Materials[0]; m.Name != want || m.Botanical != "Tilia cordata" {
			t.Errorf("%s: %+v, want %s", lang, m, want)
		}
		if d := r.Public.Texts.Titles.Upto140; lang == "en-US" && strings.Contains(d, "lime") {
			t.Errorf("%s: %s", lang, d)
		}
	}
}
