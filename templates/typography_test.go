package templates

import (
	"regexp"
	"strings"
	"testing"
)

// wrongSpaces are what no language's phrases hold. French: Lexique des règles
// typographiques en usage à l'Imprimerie nationale (from memory). The per cent sign:
// Unicode CLDR, the percent patterns "#,##0%" of en and nl, "#,##0 %" of de, es and fr.
// Quotation marks and inverted marks: Duden, die deutsche Rechtschreibung; RAE,
// Ortografía; both from memory.
var wrongSpaces = map[string]*regexp.Regexp{
	"de": regexp.MustCompile(`[^\x{202f}]%|[\s\x{a0}\x{202f}][;:!?]`),
	"en": regexp.MustCompile(`[\s\x{a0}\x{202f}][%;:!?]`),
	"es": regexp.MustCompile(`[^\x{a0}]%|[\s\x{a0}\x{202f}][;:!?]`),
	"fr": regexp.MustCompile(`[^\x{202f}][%;!?»]|[^\x{a0}]:|«[^\x{202f}]`),
	"nl": regexp.MustCompile(`[\s\x{a0}\x{202f}][%;:!?]`),
}

// What a phrase puts in stands as a letter, so that the space before a mark is looked at.
func marked(phrase string) string {
	phrase = regexp.MustCompile(`\{\{"(.*?)"\}\}`).ReplaceAllString(phrase, "$1") // a text of its own
	return inBraces().ReplaceAllStringFunc(phrase, func(action string) string {
		if strings.HasPrefix(action, "{{.") {
			return "x"
		}
		return ""
	})
}

func TestSpacesBeforeMarks(t *testing.T) {
	for lang, wrong := range wrongSpaces {
		w, seen := open(t, lang), 0
		for _, id := range w.IDs() {
			if forMakers(id) || strings.HasPrefix(id, "country.") || strings.HasSuffix(id, ".ticks") {
				continue
			}
			phrase, _ := w.text(id)
			text := marked(phrase)
			// (ticks are parted at their semicolons)
			seen += strings.Count(text, "%") + strings.Count(text, ";")
			if strings.ContainsAny(text, "«»„“”¿¡") {
				seen++
			}
			if at := wrong.FindString(text); at != "" {
				t.Errorf("%s: %s has %q: %s", lang, id, at, text)
			}
			if straight := strings.Count(text, `"`); straight > 0 || strings.Contains(text, "'") {
				t.Errorf("%s: %s has a typewriter's quotation mark or apostrophe: %s", lang, id, text)
			}
			if lang == "es" && (strings.Count(text, "?") != strings.Count(text, "¿") || strings.Count(text, "!") != strings.Count(text, "¡")) {
				t.Errorf("es: %s lacks an inverted mark: %s", id, text)
			}
		}
		if seen < 20 {
			t.Errorf("%s: only %d marks are looked at", lang, seen)
		}
	}
}

// Whoever writes a phrase types plain spaces, or any.
func TestTypeset(t *testing.T) {
	for _, c := range []struct{ lang, phrase, want string }{
		{"fr", "a : b ; c ! d ? « e » {{.N}} % {{if .X}}f{{end}} : g", "a\u00a0: b\u202f; c\u202f! d\u202f? «\u202fe\u202f» {{.N}}\u202f% {{if .X}}f{{end}}\u00a0: g"},
		{"fr", "a\u00a0; b\u202f: c", "a\u202f; b\u00a0: c"},
		{"fr", `{{printf " ; %s" .A}}`, `{{printf " ; %s" .A}}`},
		{"de", "{{.N}} %, a: b", "{{.N}}\u202f%, a: b"},
		{"es", "18 %", "18\u00a0%"}, {"nl", "18 %", "18%"}, {"en", "18\u00a0% of it", "18% of it"},
	} {
		if got := open(t, c.lang).typeset(c.phrase); got != c.want {
			t.Errorf("%s: %q, want %q", c.lang, got, c.want)
		}
	}
	for lang, want := range map[string]string{"en-US": "7.5%", "en-GB": "7.5%", "de": "7,5\u202f%", "fr": "7,5\u202f%", "es": "7,5\u00a0%", "nl": "7,5%"} {
		if got := open(t, lang).Percent("7.5 %"); got != want {
			t.Errorf("%s: %q, want %q", lang, got, want)
		}
	}
}

// German bends the first word of a name behind "aus" (Duden, die Grammatik: the strong
// dative, from memory); names of one word, and trade names of other languages, stay.
func TestBehind(t *testing.T) {
	for name, want := range map[string]string{
		"Amerikanischer Nussbaum": "Amerikanischem Nussbaum", "Echtes Mahagoni": "Echtem Mahagoni", "Amerikanische Ulme": "Amerikanischer Ulme",
		"Bergulme": "Bergulme", "White Lauan": "White Lauan", "Western Red Cedar": "Western Red Cedar", "Peroba rosa": "Peroba rosa", "Santa Maria": "Santa Maria",
		"Fine Elm": "Fine Elm", // the maker's own
	} {
		if got := open(t, "de").Behind(name); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	for lang, want := range map[string]string{"de": "Tisch aus Amerikanischem Kirschbaum und Eiche", "fr": "Tisch en Amerikanischer Kirschbaum et Eiche"} {
		if got := open(t, lang).MadeOf("Tisch", []string{"Amerikanischer Kirschbaum", "Eiche"}); got != want {
			t.Errorf("%s: %q, want %q", lang, got, want)
		}
	}
}
