package sheet

import (
	"strings"
	"testing"

	"slabfolio/templates"
)

// No paper of a piece that others made says that the workshop made it, in any language,
// and certificate and sheet say what was done instead.
func TestPapersOfWhatOthersMade(t *testing.T) {
	made := map[string][]string{
		"en": {"Made by", "made this piece", "authorship", "who made it"}, "de": {"Hergestellt von", "hergestellt. Das", "Urheber", "gemacht hat"}, "fr": {"Réalisation", "a fabriqué cette", "d’auteur", "l’auteur", "qui l’a fait"},
		"es": {"Hecha por", "hizo esta", "autoría", "quién la hizo"}, "nl": {"Gemaakt door", "dit stuk gemaakt.", "van de maker", "wie het maakte"},
	}
	pdftotext := reference(t, "pdftotext")
	for _, lang := range []string{"en", "de", "fr", "es", "nl"} {
		words, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		for _, work := range []string{"restored", "repaired", "unsaid", ""} {
			r := fullest()
			r.Public.Work, r.Public.Story = work, "A story."
			o := options(t)
			o.Words = words
			whole := ""
			for i, kind := range []func() ([]byte, error){
				func() ([]byte, error) { return Certificate(r, o) }, func() ([]byte, error) { return Sheet(r, o) },
				func() ([]byte, error) { return Shipping(r, o) }, func() ([]byte, error) { return Care(r, o) }, func() ([]byte, error) { return Label(r, o) },
			} {
				if i > 0 && work != "restored" {
					break // the certificate says most, and the others say the same of all three
				}
				pdf, err := kind()
				if err != nil {
					t.Fatal(err)
				}
				whole += strings.Join(strings.Fields(textOf(t, pdftotext, pdf)), " ") + " "
			}
			claims := 0
			for _, w := range made[lang] {
				claims += strings.Count(whole, w)
			}
			if (claims > 0) != (work == "") {
				t.Errorf("%s, %q: %d claims that it was made here", lang, work, claims)
			}
			if work != "" && !strings.Contains(whole, words.Say("work.label."+work, nil)) {
				t.Errorf("%s, %q: nothing says what was done", lang, work)
			}
		}
	}
}

// The shipping sheet tells the workshop's country as that of origin of what was made
// there alone; where others made the piece, a line is left to write on.
func TestOriginOfWhatOthersMade(t *testing.T) {
	pdftotext := reference(t, "pdftotext")
	for _, work := range []string{"", "restored", "repaired", "unsaid"} {
		r, o := fullest(), options(t)
		r.Public.Work, r.Home = work, "IE"
		pdf, err := Shipping(r, o)
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(textOf(t, pdftotext, pdf)), " ")
		want := "Country of origin: Ireland"
		if work != "" {
			want = "Country of origin: ____"
		}
		if !strings.Contains(text, want) {
			t.Errorf("%q: no %q in %s", work, want, text)
		}
	}
}
