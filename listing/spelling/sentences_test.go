package spelling

import (
	"slices"
	"testing"
)

func TestCapital(t *testing.T) {
	for in, want := range map[string]string{"": "", "wych elm": "Wych elm", "élan": "Élan", "Oak": "Oak", "8 coats": "8 coats"} {
		if got := Capital(in); got != want {
			t.Errorf("Capital(%q) = %q, want %q", in, got, want)
		}
	}
}

// A blank line parts, with or without spaces in it, however lines end.
func TestParagraphs(t *testing.T) {
	for in, want := range map[string][]string{
		"": nil, " \n\t\n": nil, "one": {"one"},
		"one\ntwo": {"one two"}, "one\n\ntwo\n": {"one", "two"}, "one\r\n\r\ntwo  words\r\n": {"one", "two words"},
		"\n\none\n  \n\n two ": {"one", "two"}, "+44\u00a01632  960042": {"+44\u00a01632 960042"},
	} {
		if got := Paragraphs(in); !slices.Equal(got, want) {
			t.Errorf("Paragraphs(%q) = %q, want %q", in, got, want)
		}
	}
}
