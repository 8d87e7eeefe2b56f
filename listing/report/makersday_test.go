package report

import (
	"regexp"
	"strings"
	"testing"

	"slabfolio/templates"
)

// A day inside a finding is written for people, in English whatever the papers' language.
func TestDaysInFindings(t *testing.T) {
	iso := regexp.MustCompile(`\d{4}-\d{2}-\d{2}`)
	for lang, want := range map[string]string{"en-GB": "it left on 2 June 2026", "en-US": "it left on June 2, 2026", "de": "it left on 2 June 2026"} {
		words, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		p := spec(t, packed+"finish: {family: varnish, last_coat: 2026-05-28}\npacking: {how: carton}\nbuyer: {delivered: 2026-06-02}\n")
		r, err := Build(p, nil, Options{Words: words})
		if err != nil {
			t.Fatal(err)
		}
		f, ok := found(r, "packing.before-cure")
		if !ok || !strings.Contains(f.Message, want) {
			t.Errorf("%s: %+v, want %q", lang, f, want)
		}
		for _, f := range r.Findings {
			if iso.MatchString(f.Message) {
				t.Errorf("%s: %s", lang, f.Message)
			}
		}
	}
}
