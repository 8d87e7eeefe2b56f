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
