package report

import "testing"

// What stands in brackets inside a name is part of it: a wall panel of European
// (wild) cherry was said to be of European.
func TestShortNameKeepsTheTree(t *testing.T) {
	for table, want := range map[string]string{
		"European (wild) cherry":   "European (wild) cherry",
		"Slippery (red) elm":       "Slippery (red) elm",
		"Hard maple (sugar maple)": "Hard maple",
		"Teak":                     "Teak",
		"":                         "",
	} {
		if got := shortName(table); got != want {
			t.Errorf("%q: got %q, want %q", table, got, want)
		}
	}
}
