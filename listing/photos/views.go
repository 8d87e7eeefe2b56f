package photos

import (
	"slices"

	"slabfolio/listing/piece"
)

// missingViews lists the views that buyers look for and no photo shows, in the order
// they matter: those that the shot list of the kind marks.
func missingViews(kind string, shown []string) []string {
	var out []string
	for _, alike := range piece.LookedFor(kind) {
		if !slices.ContainsFunc(shown, func(v string) bool { return slices.Contains(alike, v) }) {
			out = append(out, alike[0])
		}
	}
	return out
}
