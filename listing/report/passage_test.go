package report

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/templates"
)

const longTable = `serial: OY-921
title: Long table for a hall
kind: dining table
finished: 2026-09-18
units: cm
top: {outline: {length: 280, width: 105}, thickness: 4.8, wood: {species: european-oak}}
base: {style: two steel frames, material: steel, weight: 38 kg, height: 69, footprint: {length: 200, width: 80}, fixing: {bolt: M8, count: 8}}
`

// told builds the report of a spec in a language, with the paths of its findings.
func told(t *testing.T, spec, lang string) *Report {
	t.Helper()
	w, err := templates.Open(lang)
	if err != nil {
		t.Fatal(err)
	}
	p, findings := piece.ParsePiece("piece.yaml", []byte(spec), piece.Defaults{})
	for _, f := range findings {
		if f.Rank == piece.Fault {
			t.Fatalf("%s: %s", f.Message, spec)
		}
	}
	r, err := Build(p, nil, Options{Words: w, Lang: lang, Prefer: "cm"})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// What goes through the door is what is packed: no word of the whole table, and none of
// legs to take off, where the maker tells the packages. The package stood on end needs
// the root of 292² and 16² centimetres, by Pythagoras; alone the table's diagonal says more.
func TestTheWayInIsThatOfThePackages(t *testing.T) {
	both := "packing: {how: crate, packages: [{name: top, size: [292 cm, 115 cm, 16 cm], weighed: 118 kg}, {name: frames, size: [90 cm, 80 cm, 20 cm], weighed: 46 kg}]}\n"
	one := "packing: {how: crate, packages: [{name: top, size: [292 cm, 115 cm, 16 cm], weighed: 118 kg}]}\n"
	for _, lang := range templates.Langs() {
		w, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		for _, packing := range []string{both, one} {
			r := told(t, longTable+packing, lang)
			notes := strings.Join(r.Freight.Notes, "\n")
			if want := w.Number("292.4 cm"); !strings.Contains(notes, want) {
				t.Errorf("%s: no %q in %s", lang, want, notes)
			}
			unpacked := map[string]string{"en": "unpacked", "de": "unverpackt", "fr": "déballé", "es": "sin embalar", "nl": "uitgepakt"}[lang[:2]]
			if unpacked == "" || strings.Contains(notes, unpacked) {
				t.Errorf("%s: %s", lang, notes)
			}
			for _, f := range r.Findings {
				if strings.Contains(f.Message, "stood on end it ") || strings.Contains(f.Remedy, "legs come off") {
					t.Errorf("%s: %s", f.Message, f.Remedy)
				}
			}
		}
	}
}

// Of what is small, light and a parcel nobody asks how it gets up the stairs: no way in,
// no ramp and no stairs, in any language; of a table all of them.
func TestSmallThingsAreNotCarriedUpStairs(t *testing.T) {
	board := "kind: serving board\nfinished: 2026-09-18\nunits: cm\ntop: {outline: {length: 42, width: 21}, thickness: 2.2, wood: {species: european-oak}}\nfinish: {family: board-oil}\npacking: {how: carton}\n"
	for what, spec := range map[string]string{
		"coasters": "serial: OY-923\ntitle: Coasters\nquantity: 6\n" + strings.Replace(strings.Replace(board, "length: 42, width: 21", "diameter: 10", 1), "serving board", "other", 1),
		"board":    "serial: OY-924\ntitle: Board\n" + board,
		"table":    longTable + "packing: {how: crate on skid, clearance: 5, legs: off, crate: battens}\n",
	} {
		r := told(t, spec, "en")
		if light := what != "table"; r.Light != light {
			t.Errorf("%s: light %v; %+v", what, r.Light, r.Public.Shipping)
		} else if notes := strings.Join(r.Freight.Notes, "\n"); strings.Contains(notes, "stood on end") == light || strings.Contains(notes, "pallet") == light {
			t.Errorf("%s: %s", what, notes)
		}
	}
}
