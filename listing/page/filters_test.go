package page

import (
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/units"
	"slabfolio/templates"
)

// Nobody looks for a piece of kind "other": it is no choice in any language, and
// choosing another kind hides such a piece.
func TestOtherIsNoChoice(t *testing.T) {
	for _, lang := range templates.Langs() {
		words, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		entries := shopEntries()
		for i := range 3 {
			entries[3*i].Report.Public.Kind = "other"
		}
		c, err := NewCatalogue(entries, &Options{Words: words, Prefer: units.Centimetres, BaseURL: "https://ostrel.example/pieces/"})
		if err != nil {
			t.Fatal(err)
		}
		html := string(c.HTML)
		if text := ">" + words.Called("kind", "other") + "<"; strings.Contains(strings.ToLower(html), strings.ToLower(text)) {
			t.Errorf("%s: %q can be chosen", lang, text)
		}
		if !strings.Contains(strings.ToLower(html), ">"+strings.ToLower(words.Called("kind", "bench"))+"<") {
			t.Errorf("%s: the kinds cannot be chosen at all", lang)
		}
	}
	s := &shop{entries: shopEntries()[:1], o: options(t), Lang: "en"}
	s.entries[0].Report.Public.Kind = "other"
	if groups, _ := s.filters(); slices.ContainsFunc(groups, func(g filterGroup) bool { return g.ID == "kind" }) {
		t.Error("one piece without a kind can be chosen by kind")
	}
}
