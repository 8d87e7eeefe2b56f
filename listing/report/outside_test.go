package report

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// What is of a heated room is told of no piece that is to stand in the open; the words of
// five languages are from memory. A tree in a garden, or a bench that looks out on one,
// stands in no rain.
func TestNothingOfRoomsIsToldOfAGardenBench(t *testing.T) {
	const text = "serial: A1\nfinished: 2026-10-03\ntop: {outline: {length: 44 in, width: 15 in}, thickness: 2 in, wood: {species: black-locust, moisture: 14 %}}\n" +
		"base: {material: oak, weight: 9 kg, height: 15 in}\nfinish: {family: tung-oil}\n"
	for said, outside := range map[string]bool{
		"kind: garden bench\ntitle: Ridge": true, "kind: bench\ntitle: Gartenbank Rist": true, "kind: bench\ntitle: Un banc de jardin": true, "kind: bench\ntitle: Banco de jardín": true, "kind: bench\ntitle: Tuinbank": true,
		"kind: bench\ntitle: Ridge\nstory: Made to stand outside all year.": true, "kind: bench\ntitle: Ridge\nstory: Sie ist für draußen.": true,
		"kind: bench\ntitle: Ridge": false, "kind: bench\ntitle: Ridge\nstory: The tree stood in a garden, outside the town.": false,
		"kind: bench\ntitle: Ridge\nstory: The slab dried outside for two years.": false, "kind: bench\ntitle: Ridge\nstory: To sit on and look out at the garden.": false,
	} {
		r := build(t, spec(t, text+said+"\n"), nil)
		_, told := found(r, "piece.outdoors")
		_, wet := found(r, "wood.wet")
		if told != outside || wet == outside {
			t.Errorf("%s: told %t, wet wood doubted %t", said, told, wet)
		}
		rooms := r.Public.Movement != nil
		for _, p := range r.Public.Care {
			rooms = rooms || strings.Contains(p.Text, "heating season") || strings.Contains(p.Text, "radiators") || strings.Contains(p.Text, "the room where") || strings.Contains(p.Text, "strong sun")
		}
		if rooms == outside {
			t.Errorf("%s: rooms are told of: %t", said, rooms)
		}
	}
}

// The papers of one piece agree: a translation moves no bench indoors.
func TestATranslationStandsWhereThePieceDoes(t *testing.T) {
	p := spec(t, "serial: A1\ntitle: Garden bench\nkind: bench\nfinished: 2026-10-03\ntop: {outline: {length: 44 in, width: 15 in}, thickness: 2 in, wood: {species: oak}}\ntranslations: {de: {title: Bank am Grat}}\n")
	for _, own := range []*piece.Piece{p, p.In("de")} {
		if own.Outdoors.Key != "title" {
			t.Errorf("%s: %+v", own.Title.V, own.Outdoors)
		}
	}
}

// What stands beside rows that begin with a capital begins with one.
func TestFoundAndMarkBeginAsTheirRowsDo(t *testing.T) {
	r := build(t, spec(t, "serial: A1\ntitle: Ridge\nkind: bench\nfinished: 2026-10-03\nfound: a bullet, left in\nmark: branded below\ntop: {outline: {length: 44 in, width: 15 in}, thickness: 2 in, wood: {species: white-oak}}\n"), nil)
	if r.Public.Found != "A bullet, left in" || r.Public.Mark != "Branded below" {
		t.Errorf("%q, %q", r.Public.Found, r.Public.Mark)
	}
}

// A product that stands among the materials already is named to the maker who is asked
// for it; a resin is none, and of two oils nobody knows which was the last.
func TestTheProductAmongTheMaterials(t *testing.T) {
	const text = "serial: A1\ntitle: Ridge\nkind: bench\nfinished: 2026-10-03\ntop: {outline: {length: 44 in, width: 15 in}, thickness: 2 in, wood: {species: white-oak}}\nfinish: {family: oil-varnish-blend}\n"
	for materials, named := range map[string]string{
		"[{use: oil, product: Quay oil}]": "Quay oil", "[{use: Öl, product: Kai-Öl}, {use: casting resin, product: Deep pour}]": "Kai-Öl", "[{use: casting resin, product: Deep pour}]": "",
		"[{use: first oil, product: Quay oil}, {use: wax, product: Quay wax}]": "", "[]": "",
	} {
		f, ok := found(build(t, spec(t, text+"materials: "+materials+"\n"), nil), "finish.no-product")
		if got := strings.Contains(f.Remedy, "materials names"); !ok || got != (named != "") || !strings.Contains(f.Remedy, named) {
			t.Errorf("%s: %t, %s", materials, ok, f.Remedy)
		}
	}
}
