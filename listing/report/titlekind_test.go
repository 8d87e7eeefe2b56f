package report

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/templates"
)

// No built title names two things: over every kind, and titles that name a kind, one of
// its other names, several of it, or a part. A title that names nothing gets its kind.
func TestATitleNamesOneThing(t *testing.T) {
	titles := map[string]map[string]bool{ // by language, and whether they say what it is
		"en": {"Console in elm": true, "Hall console with a shelf": true, "Nest of three side tables": true, "Two benches": true, "Floating shelves": true, "Serving boards": true, "Evening tide": false, "Estuary": false, "River of oak": false},
		"de": {"Konsole in Ulme": true, "Zwei Bänke": true, "Drei Beistelltische": true, "Nachttisch": true, "Abendflut": false},
		"fr": {"Console en orme": true, "Trois tables basses": true, "Deux bancs": true, "Marée du soir": false},
		"es": {"Consola de olmo": true, "Dos bancos": true, "Tres mesas auxiliares": true, "Marea": false},
		"nl": {"Console in iepen": true, "Twee banken": true, "Drie tafels": true, "Avondvloed": false},
	}
	for lang, all := range titles {
		w, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		for title, says := range all {
			for _, kind := range piece.Kinds {
				c := &copywriter{pub: &Public{Title: title, Kind: kind}, words: w}
				got, what := c.title(140), c.what()
				added := what != "" && strings.Contains(got, ", "+what)
				if added != (!says && kind != "other") {
					t.Errorf("%s, a %s called %q: %q", lang, kind, title, got)
				}
			}
		}
	}
}
