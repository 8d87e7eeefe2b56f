package piece

import (
	"context"
	"strings"
	"testing"
)

// What stands at the margin and belongs in a group is told one place wherever one of
// them is the name of one thing: a list of woods, sizes or tins is not what a maker
// means by name, width or product. (English plurals: every list of the table that is
// meant for several has one.)
func TestStrayKeysAreToldOnePlace(t *testing.T) {
	for _, table := range []struct {
		keys []Key
		file string
	}{{pieceKeys, "piece.yaml"}, {workshopKeys, "workshop.yaml"}} {
		d := decoder{root: table.keys}
		seen := 0
		var walk func(keys []Key)
		walk = func(keys []Key) {
			for _, k := range keys {
				places := d.elsewhere(k.Name, "")
				one, several := 0, 0
				for _, p := range places {
					if strings.HasSuffix(p, "s") {
						several++
					} else {
						one++
					}
				}
				if one > 0 && several > 0 {
					t.Errorf("%s: %s is told %v", table.file, k.Name, places)
				}
				seen++
				walk(k.Keys)
			}
		}
		walk(table.keys)
		if seen < 40 {
			t.Errorf("%s: only %d keys were looked at", table.file, seen)
		}
	}
}

// The words for it, as a maker reads them.
func TestStrayKeysInWorkshop(t *testing.T) {
	for text, want := range map[string]string{
		"name: Ostrel Yard\n":                 "it belongs in workshop: write it below the line workshop:, two spaces further in",
		"country: GB\n":                       "it belongs in workshop: write it below the line workshop:, two spaces further in",
		"workshop: {units: mm}\n":             "it belongs at the outermost level; look at the brackets around it",
		"workshop:\n  name: X\n  paper: a4\n": "it belongs at the outermost level; look at how far the line is indented",
		"units: metric\n":                     "write mm if you write 1372 for a length, cm if you write 137.2; one in metres says so itself: 1.4 m",
		"units: imperial\n":                   "write in; a length in feet says so itself: 4 ft 6 in",
		"units: Zoll\n":                       "write in",
		"units: millimeters\n":                "write mm",
		"lang: deutsch\n":                     "write its letters: de",
		"lang: [en-GB, Français]\n":           "write its letters: fr",
		"units: yards\n":                      "write in, cm or mm",
	} {
		_, found := ParseWorkshop("workshop.yaml", []byte(text))
		if len(found) != 1 || found[0].Remedy != want {
			t.Errorf("%q: %+v, want %q", text, found, want)
		}
	}
}

// One word for the units that is none of the three is one fault, and the lengths are
// read as it says.
func TestUnitsInOtherWords(t *testing.T) {
	const spec = "serial: A\ntitle: A\nkind: desk\nfinished: 2026-09-18\ntop: {outline: {length: 1800, width: 850}, thickness: 40, wood: {species: european-oak}}\n"
	_, found, err := parsePiece(context.Background(), "piece.yaml", []byte("units: metric\n"+spec), Defaults{})
	if err != nil || len(found) != 1 || found[0].Rank != Fault || found[0].Line != 1 {
		t.Errorf("%v %+v", err, found)
	}
}
