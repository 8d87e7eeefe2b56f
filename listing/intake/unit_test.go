package intake

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// A number alone is never given a unit that may be another: where nobody said the unit
// and the country is metric, behind a size in another unit, and where the size would be
// odd. Sizes are of furniture as it is (common practice, no source).
func TestANumberAloneIsAskedForItsUnit(t *testing.T) {
	for _, c := range []struct {
		units   units.System
		country string
		answers []string // from the kind on; an empty name is taken
		want    []string // lines of the spec
		then    string   // what is asked then
	}{
		{"", "DE", []string{"dining table", "", "220"}, nil, "How long"},
		{"", "DE", []string{"dining table", "", "220", "cm", "95", "4,5"}, []string{"{length: 220 cm, width: 95 cm}", "thickness: 4.5 cm"}, "Which wood"},
		{"", "DE", []string{"dining table", "", "220", "yes", "95", "3/4"}, []string{"{length: 220 cm, width: 95 cm}"}, "How thick"},
		{"", "DE", []string{"dining table", "", "2200", "220 cm", "95", "4.5"}, []string{"{length: 220 cm, width: 95 cm}"}, "Which wood"},
		{"", "FR", []string{"coffee table", "", "120 x 60 x 4", "yes"}, []string{"{length: 120 cm, width: 60 cm}", "thickness: 4 cm"}, "Which wood"},
		{"", "NL", []string{"coffee table", "", "90 round", "cm"}, []string{"{diameter: 90 cm}"}, "How thick"},
		{"", "", []string{"coffee table", "", "48", "24", "2"}, []string{"{length: 48 in, width: 24 in}", "thickness: 2 in"}, "Which wood"},
		{"", "US", []string{"coffee table", "", "48", "24", "2"}, []string{"{length: 48 in, width: 24 in}", "thickness: 2 in"}, "Which wood"},
		{"in", "GB", []string{"side table", "", "45cm", "40"}, []string{"outline: {length: 45cm}"}, "How wide"},
		{"in", "GB", []string{"side table", "", "45cm", "40", "cm", "3"}, []string{"{length: 45cm, width: 40 cm}", "thickness: 3 cm"}, "Which wood"},
		{"in", "GB", []string{"side table", "", "45cm", "40", "40 in"}, []string{"{length: 45cm, width: 40 in}"}, "How thick"},
		{"in", "GB", []string{"bench", "", "1500mm", "350", "yes"}, []string{"{length: 1500mm, width: 350 mm}"}, "How thick"},
		{"in", "GB", []string{"bench", "", "45 cm x 40"}, nil, "How long"},
		{"in", "GB", []string{"dining table", "", "8 foot by 42\" by 2 1/4"}, []string{"{length: 8 foot, width: \"42\\\"\"}", "thickness: 2 1/4 in"}, "Which wood"},
		{"in", "GB", []string{"lamp", "", "500x320x18"}, nil, "How long"},
		{"in", "GB", []string{"lamp", "", "500x320x18", "mm"}, []string{"{length: 500 mm, width: 320 mm}", "thickness: 18 mm"}, "Which wood"},
		{"in", "GB", []string{"skip", "skip", "60", "14", "40"}, []string{"{length: 60 in, width: 14 in}"}, "How thick"},
		{"in", "GB", []string{"dining table", "", "220"}, nil, "How long"},
		{"in", "GB", []string{"dining table", "", "220", "yes"}, []string{"length: 220 cm"}, "How wide"},
		{"in", "GB", []string{"dining table", "", "220", "220"}, []string{"length: 220 in"}, "How wide"},
		{"in", "GB", []string{"bench", "", "60", "14", "40"}, []string{"{length: 60 in, width: 14 in}"}, "How thick"},
		{"cm", "DE", []string{"dining table", "", "84"}, []string{"length: 84 cm"}, "How wide"},
		{"mm", "GB", []string{"dining table", "", "84"}, nil, "How long"},
		{"mm", "GB", []string{"dining table", "", "84", "84 in", "38"}, []string{"{length: 84 in, width: 38 in}"}, "How thick"},
		{"cm", "DE", []string{"dining table", "", "8 ft", "95"}, []string{"{length: 8 ft, width: 95 cm}"}, "How thick"}, // a width of 95 in is none
		{"cm", "DE", []string{"stool", "", "15 in", "40"}, []string{"{length: 15 in, width: 40 cm}"}, "How thick"},
		{"in", "GB", []string{"desk", "", "48 x 24", "back", "48 in", "60 cm, 59, 61"}, []string{"{length: 48 in}"}, "How wide"},
	} {
		iv := begin(t, c.units, "EUR", nil)
		iv.Defaults.Country = c.country
		said := play(t, iv, c.answers...)
		for _, want := range c.want {
			if !strings.Contains(iv.Known.Lines(""), want) {
				t.Errorf("%s %s %q: want %s\n%s", c.units, c.country, c.answers, want, said)
			}
		}
		if !strings.HasPrefix(asks(iv), c.then) || c.want == nil && iv.Known.Find("top") != nil {
			t.Errorf("%s %s %q: want %q then\n%s", c.units, c.country, c.answers, c.then, said)
		}
	}
}

// The unit alone answers for a base too, and nothing else of the answer is lost; a unit
// that was guessed is said with every size.
func TestTheUnitAloneKeepsTheRestOfTheAnswer(t *testing.T) {
	iv := begin(t, "", "EUR", nil)
	iv.Defaults.Country = "DE"
	said := play(t, iv, "dining table", "", "skip", "4 cm", "european oak", "none", "zwei Stahlrahmen, 72 hoch, 24 kg", "cm")
	if got := iv.Known.Lines(""); !strings.Contains(got, "base: {height: 72 cm, style: zwei Stahlrahmen, weight: 24 kg}") {
		t.Error(said)
	}
	iv = begin(t, "", "", nil)
	if said := play(t, iv, "bench", "", "60", "14"); strings.Count(said, "read as ") != 2 {
		t.Error(said)
	}
	iv = begin(t, "cm", "", nil)
	iv.Known.Put("units", piece.Plain("mm")) // what an earlier piece lends goes before the workshop
	if said := play(t, iv, "bench", "", "1500"); !strings.Contains(said, "length: 1500 mm") {
		t.Error(said)
	}
}
