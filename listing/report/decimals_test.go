package report

import (
	"regexp"
	"strings"
	"testing"

	"slabfolio/templates"
)

// A comma is the decimal sign of German, French, Spanish and Dutch (Unicode CLDR);
// a carrier's limits and metres are written with it too. English words for them stay
// in no phrase of another language.
func TestFreightIsWrittenAsTheLanguageDoes(t *testing.T) {
	point := regexp.MustCompile(`\d\.\d`)
	english := regexp.MustCompile(`\b(long|girth|together|length)\b`)
	small := strings.NewReplacer("length: 1400, width: 400", "length: 600, width: 300", "height: 700", "height: 400", "length: 1200, width: 360", "length: 500, width: 250").Replace(packed)
	said := 0
	for _, text := range []string{packed, small} {
		for _, lang := range []string{"de", "fr", "es", "nl"} {
			w, err := templates.Open(lang)
			if err != nil {
				t.Fatal(err)
			}
			r, err := Build(spec(t, text+"packing: {how: carton}\n"), workshop(t, "workshop: {name: Yard}\n"), Options{Lang: lang, Words: w})
			if err != nil {
				t.Fatal(err)
			}
			all := r.Freight.Notes
			for _, mode := range r.Freight.Mode {
				all = append(all, mode)
			}
			for _, s := range all {
				said++
				if at := point.FindString(s); at != "" {
					t.Errorf("%s: %q in %q", lang, at, s)
				}
				if at := english.FindString(s); at != "" && (lang != "fr" || at != "long") { // de long
					t.Errorf("%s: %q in %q", lang, at, s)
				}
			}
		}
	}
	if said < 20 {
		t.Errorf("only %d sentences are read", said)
	}
}
