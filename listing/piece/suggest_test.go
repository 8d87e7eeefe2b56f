package piece

import (
	"slices"
	"strings"
	"testing"
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
