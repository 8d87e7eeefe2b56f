package photos

import (
	"strings"
	"testing"

	"slabfolio/imaging"
)

// The cover is what the maker named, else the three-quarter view, else the front,
// and never a photo that is set aside (shown here in brackets).
func TestCoverFirst(t *testing.T) {
	for given, want := range map[string]string{
		"end front three-quarter above":        "three-quarter end front above",
		"end front (three-quarter) above":      "front end (three-quarter) above",
		"end above":                            "end above",
		"!end front three-quarter":             "!end front three-quarter",
		"(!end) front three-quarter":           "three-quarter (!end) front",
		"detail three-quarter 2:three-quarter": "three-quarter detail 2:three-quarter",
		"":                                     "",
	} {
		var shots []*Shot
		for _, word := range strings.Fields(given) {
			sh := &Shot{Name: word}
			if !strings.HasPrefix(word, "(") {
				sh.Photo = &imaging.Photo{}
			}
			bare := strings.Trim(word, "()")
			sh.Source.Named = strings.HasPrefix(bare, "!")
			_, view, ok := strings.Cut(bare, ":")
			if !ok {
				view = strings.TrimPrefix(bare, "!")
			}
			sh.Source.View = view
			shots = append(shots, sh)
		}
		var got []string
		for _, sh := range CoverFirst(shots) {
			got = append(got, sh.Name)
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%s: %s, want %s", given, strings.Join(got, " "), want)
		}
	}
}
