package piece

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"slabfolio/templates"
)

// What is said last names the thing, in a text of up to eight words; a sentence
// that happens to end so names nothing.
func TestWordsNearInALongText(t *testing.T) {
	kind := keyAt("kind")
	if kind == nil {
		t.Fatal("no key kind")
	}
	for before, found := range map[int]bool{0: true, 1: true, 6: true, 7: true, 8: false, 20: false} {
		text := strings.Repeat("very ", before) + "nightstand"
		if got := wordsNear(text, kind); slices.Equal(got, []string{"side table"}) != found {
			t.Errorf("%d words before it: %q, found should be %v", before, got, found)
		}
	}
}

// A kind of piece by its name in another language of the papers is answered with the
// word that the spec has for it, and that word alone.
func TestKindsInOtherLanguages(t *testing.T) {
	for _, n := range templates.NamesOf("kind") {
		want := strings.ReplaceAll(n.ID, "-", " ")
		kind, _, err := ParseKind(n.Text)
		if err == nil && kind == want {
			continue
		}
		if err == nil || !strings.Contains(err.Error(), fmt.Sprintf("did you mean %q", want)) {
			t.Errorf("%s: %q is %s; told %q, %v", n.Lang, n.Text, want, kind, err)
		}
	}
	for said, want := range map[string]string{"Tisch": "dining table", "Couch-Tisch": "coffee table", "un banc": "bench", "Hocker aus Eiche": "stool", "étagère": "shelf", "chair": "other"} {
		if kind, _, err := ParseKind(said); kind == want {
			continue
		} else if err == nil || !strings.Contains(err.Error(), fmt.Sprintf("%q", want)) || strings.Contains(err.Error(), "use one of") {
			t.Errorf("%q: %v, want %s", said, err, want)
		}
	}
}

// A word of the spec that is said in another language of the papers is answered with the
// one that the spec has (words from memory), and money with its name in full.
func TestWordsInOtherLanguages(t *testing.T) {
	for path, said := range map[string]map[string]string{
		"availability":   {"auf Lager": "in stock", "en stock": "in stock", "op voorraad": "in stock", "verkauft": "sold", "vendue": "sold", "vendido": "sold", "verkocht": "sold", "sur commande": "made to order", "por encargo": "made to order"},
		"top.wood.grain": {"Stirnholz": "end grain", "Hirnholz": "end grain", "bois de bout": "end grain", "kopshout": "end grain"},
	} {
		for text, want := range said {
			if got := wordsNear(text, keyAt(path)); len(got) != 1 || got[0] != want {
				t.Errorf("%s: %q is near %q, want %s", path, text, got, want)
			}
		}
	}
	for _, text := range []string{"pounds sterling", "British pounds", "pounds", "£"} {
		if got := ParseCurrency(text); len(got) != 1 || got[0] != "GBP" {
			t.Errorf("%q is %q", text, got)
		}
	}
}

// A round foot has no diameter in the spec: its length and width are that, and no key of
// the top is advised.
func TestARoundFoot(t *testing.T) {
	_, findings := ParsePiece("piece.yaml", []byte("serial: A1\ntitle: Rings\nkind: dining table\nfinished: 2026-09-18\ntop: {outline: {diameter: 120 cm}, thickness: 5 cm, wood: {species: white-oak}}\nbase: {material: steel, footprint: {diameter: 70 cm}}\n"), Defaults{})
	for _, f := range findings {
		if f.Code == "spec.unknown-key" {
			if !strings.Contains(f.Remedy, "footprint: {length: 70 cm, width: 70 cm}") || strings.Contains(f.Remedy, "outline") {
				t.Error(f.Remedy)
			}
			return
		}
	}
	t.Errorf("the diameter of a foot is taken: %v", findings)
}
