package templates

import "testing"

func TestMatch(t *testing.T) {
	for tag, want := range map[string]string{"de": "de", "DE": "de", "de-AT": "de", "en-gb": "en-GB", "en-AU": "en", "en-US": "en-US", "xx": "", "": "", "dea": ""} {
		got, ok := Match(tag)
		if got != want || ok != (want != "") {
			t.Errorf("%q: got %q, %v; want %q", tag, got, ok, want)
		}
	}
}

// The decimal sign of German is a comma (Unicode CLDR); nothing but a point between
// two digits is one.
func TestNumber(t *testing.T) {
	de, en := open(t, "de"), open(t, "en")
	for text, want := range map[string]string{"137.2 cm": "137,2 cm", "1.5 × 2.25": "1,5 × 2,25", "16¼ in.": "16¼ in.", "": "", ".5": ".5", "v1.2.3": "v1,2,3"} {
		if got := de.Number(text); got != want {
			t.Errorf("%q: got %q, want %q", text, got, want)
		}
		if got := en.Number(text); got != text {
			t.Errorf("%q in English: got %q", text, got)
		}
	}
}

// German writes every noun with a capital (Amtliches Regelwerk der deutschen
// Rechtschreibung, § 55), English only names.
func TestInside(t *testing.T) {
	for _, c := range []struct{ lang, name, want string }{
		{"en", "Wych elm", "wych elm"}, {"en", "American walnut", "American walnut"}, {"en", "OSB", "OSB"}, {"en", "", ""}, {"de", "Gießharz", "Gießharz"},
	} {
		if got := open(t, c.lang).Inside(c.name); got != c.want {
			t.Errorf("%s %q: got %q, want %q", c.lang, c.name, got, c.want)
		}
	}
}

// Names of countries are those of Unicode CLDR in a language that has no list here.
func TestCountry(t *testing.T) {
	for _, c := range []struct{ lang, letters, want string }{
		{"en", "GB", "United Kingdom"}, {"de", "GB", "Vereinigtes Königreich"}, {"de", "AT", "Österreich"}, {"de", "QQ", ""}, {"de", "", ""}, {"en", "X", ""},
	} {
		if got, ok := open(t, c.lang).Country(c.letters); got != c.want || ok != (c.want != "") {
			t.Errorf("%s %q: got %q, %v; want %q", c.lang, c.letters, got, ok, c.want)
		}
	}
}

// French has a space before a colon and a semicolon (Lexique des règles
// typographiques en usage à l'Imprimerie nationale, from memory).
func TestLabelled(t *testing.T) {
	for lang, want := range map[string]string{"en": "A: b; c; d", "de": "A: b; c; d", "fr": "A\u00a0: b\u202f; c\u202f; d"} {
		w := open(t, lang)
		if got := w.Labelled("A", w.Apart([]string{"b", "c", "d"})); got != want {
			t.Errorf("%s: got %q, want %q", lang, got, want)
		}
		if got := w.Apart(nil) + w.Apart([]string{"b"}); got != "b" {
			t.Errorf("%s: of nothing and of one: %q", lang, got)
		}
	}
}

func TestNamed(t *testing.T) {
	de := open(t, "de")
	if got := de.Called("kind", "console table"); got != "Konsolentisch" {
		t.Errorf("got %q", got)
	}
	if name, ok := de.Named("kind", "catapult"); ok || de.Called("kind", "catapult") != "catapult" {
		t.Errorf("a kind that there is not is called %q", name)
	}
}
