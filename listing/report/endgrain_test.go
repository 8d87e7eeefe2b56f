package report

import (
	"strings"
	"testing"

	"slabfolio/templates"
)

// End grain has no direction across the grain, and a round neither length nor width: no
// paper tells of them, in any language.
func TestHowEndGrainMoves(t *testing.T) {
	across := map[string]string{"en": "Across the grain", "de": "Quer zur Faser", "fr": "En travers du fil", "es": "A través de la veta", "nl": "Dwars op de nerf"}
	inLength := map[string]string{"en": "in its length", "de": "in der Länge", "fr": "en longueur", "es": "a lo largo", "nl": "in de lengte"}
	for _, tag := range templates.Langs() {
		w, err := templates.Open(tag)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []struct {
			outline, grain, resin string
			across, length        bool
		}{
			{"{diameter: 120 cm}", "end grain", "\n  resin: {area: 30 %}", false, false}, {"{diameter: 120 cm}", "end grain", "", false, false},
			{"{length: 120 cm, width: 80 cm}", "end grain", "", false, true}, {"{length: 120 cm, width: 80 cm}", "along length", "\n  resin: {area: 30 %}", true, false},
		} {
			p := spec(t, "serial: A1\ntitle: Rings\nkind: dining table\nfinished: 2026-10-03\ntop:\n  outline: "+c.outline+"\n  thickness: 5 cm\n  wood: {species: european-larch, grain: "+c.grain+", moisture: 9 %}"+c.resin+"\nfinish: {family: hardwax-oil}\n")
			r, err := Build(p, nil, Options{Words: w})
			if err != nil {
				t.Fatal(err)
			}
			if r.Public.Movement == nil {
				t.Fatalf("%s: %s moves by nothing", tag, c.outline)
			}
			text := r.Public.Movement.Text
			if got := strings.Contains(text, inLength[tag[:2]]); got != c.length {
				t.Errorf("%s: %s, %s: told of its length %t: %s", tag, c.outline, c.grain, got, text)
			}
			for _, q := range r.Public.Care {
				if q.Group == "movement" {
					text += " " + q.Text
				}
			}
			if got := strings.Contains(text, across[tag[:2]]); got != c.across {
				t.Errorf("%s: %s, %s: told of across the grain %t: %s", tag, c.outline, c.grain, got, text)
			}
		}
	}
}
