package report

import (
	"fmt"
	"strings"
	"testing"
)

// Woods that read alike are one in the list, with the sum of their shares, however they
// were spelt; what would print otherwise stays apart. Eiche, chêne and roble are the trade's
// names of European oak: from memory.
func TestWoodsThatReadAlikeAreOne(t *testing.T) {
	for woods, want := range map[string]string{
		"{species: european-oak, share: 60 %}, {species: Eiche, share: 40 %}":                                         "European oak 100",
		"{species: chêne, share: 30 %}, {species: wych-elm, share: 40 %}, {species: Quercus robur, share: 30 %}":      "European oak 60, Wych elm 40",
		"{species: european-oak, share: 60 %, moisture: 9 %}, {species: roble, share: 40 %}":                          "European oak 100",
		"{species: european-oak}, {species: Eiche}, {species: wych-elm}":                                              "European oak 0, Wych elm 0",
		"{species: european-oak, share: 60 %}, {species: Eiche, share: 40 %, cut: quarter-sawn}":                      "European oak 60, European oak 40",
		"{species: european-oak, share: 60 %, origin: {country: FR}}, {species: Eiche, share: 40 %}":                  "European oak 60, European oak 40",
		"{species: european-oak, share: 60 %}, {species: white-oak, share: 40 %}":                                     "European oak 60, White oak 40",
		"{species: european-oak, share: 33.4 %}, {species: Eiche, share: 33.3 %}, {species: wych-elm, share: 33.3 %}": "European oak 67, Wych elm 33",
	} {
		r := build(t, spec(t, strings.Replace(longBoard, "{species: SPECIES, moisture: 9 %, cut: flat-sawn}", "["+woods+"]", 1)), nil)
		var got []string
		for _, m := range r.Public.Materials {
			if m.Role == "wood" {
				got = append(got, fmt.Sprintf("%s %g", m.Name, m.Share))
			}
		}
		if said := strings.Join(got, ", "); said != want {
			t.Errorf("%s: %s, want %s", woods, said, want)
		}
	}
}
