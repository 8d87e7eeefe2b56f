package weight

import (
	"errors"
	"slices"
	"testing"

	"slabfolio/templates"
)

// Every name that the papers have for a material in another language is understood, or
// asked about with that material among the answers.
func TestForeignMaterialsAreUnderstood(t *testing.T) {
	m, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	sure := 0
	for _, n := range templates.NamesOf("material") {
		x, err := m.Lookup(n.Text)
		var unknown *UnknownError
		switch {
		case err == nil && x.ID == n.ID:
			sure++
		case err == nil && x.ReadFrom == "": // an English word too, such as epoxy
		case errors.As(err, &unknown) && slices.Contains(unknown.Suggestions, n.ID):
		default:
			t.Errorf("%s: %q is %s, and read as %q, %v", n.Lang, n.Text, n.ID, x.ID, err)
		}
	}
	if sure < 60 {
		t.Errorf("%d names are understood", sure)
	}
	for said, id := range map[string]string{"Stahl": "steel-carbon", "acier": "steel-carbon", "acero": "steel-carbon", "staal": "steel-carbon", "Messing": "brass", "laiton": "brass"} { // dictionary words
		if x, err := m.Lookup(said); err != nil || x.ID != id || x.ReadFrom != said {
			t.Errorf("%q: %s, %v", said, x.ID, err)
		}
	}
	if x, err := m.Lookup("steel"); err != nil || x.ReadFrom != "" {
		t.Errorf("steel: %+v, %v", x, err)
	}
}
