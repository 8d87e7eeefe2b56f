package report

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

const longBoard = `serial: OY-0610
title: Long board
kind: console table
finished: 2026-03-03
units: mm
base: {material: steel, height: 720, weight: 9 kg, footprint: {length: 1000, width: 300}}
top: {outline: {length: 1400, width: 400}, thickness: 40, wood: {species: SPECIES, moisture: 9 %, cut: flat-sawn}}
`

// Nobody publishes the stiffness of claro walnut as far as we could find: no sag,
// a reason, and the maker learns how to give it. With 11 GPa, by hand: I = 400 x
// 40^3 / 12 = 2.1333e6 mm4, 40 kg in the middle and the top's own W kg over 1000 mm:
// (5/384 W + 40/48) x 9.80665 x 1e9 / (2.1333e6 x 11000) mm.
func TestStiffnessThatNobodyPublishes(t *testing.T) {
	text := strings.Replace(longBoard, "SPECIES", "claro-walnut", 1)
	r := build(t, spec(t, text), nil)
	f, ok := found(r, "top.sag-not-known")
	if _, known := r.Figures["sag_mm"]; known || !ok || !strings.Contains(f.Remedy, "woods: [{id: claro-walnut, stiffness: ") || !strings.Contains(r.Absent["sag_mm"], "not published as far as we could find") {
		t.Errorf("%+v, absent %q", f, r.Absent["sag_mm"])
	}
	r = build(t, spec(t, text), workshop(t, "woods: [{id: claro-walnut, stiffness: 11.0}]\n"))
	if f, ok := found(r, "top.sag-not-known"); ok {
		t.Errorf("asked again: %+v", f)
	}
	own := r.Figures["weight.top_kg"].Value
	if own == 0 {
		for _, p := range r.WeightParts {
			if p.Name != "base" {
				own += p.Kg
			}
		}
	}
	want := (5.0/384*own*1000/1400 + 40.0/48) * 9.80665 * 1e9 / (400.0 * 64000 / 12 * 11000)
	if got := r.Figures["sag_mm"].Value; got < want*0.99 || got > want*1.01 {
		t.Errorf("sag %g mm, by hand %g (top %g kg)", got, want, own)
	}
}

// A wood whose shrinkage nobody publishes has no movement, and the maker is told
// where to give it; nothing is said to the buyer.
func TestMovementThatNobodyPublishes(t *testing.T) {
	r := build(t, spec(t, strings.Replace(longBoard, "SPECIES", "oriental-plane", 1)), nil)
	f, ok := found(r, "movement.not-known")
	if !ok || f.Rank != piece.Note || !strings.Contains(f.Message, "not published as far as we could find") || !strings.Contains(f.Remedy, "workshop.yaml") || r.Public.Movement != nil {
		t.Errorf("%+v, %+v", f, r.Public.Movement)
	}
	r = build(t, spec(t, strings.Replace(longBoard, "SPECIES", "oriental-plane", 1)), workshop(t, "woods: [{id: oriental-plane, radial: 4.5 %, tangential: 8.7 %}]\n"))
	if r.Public.Movement == nil {
		t.Error("the workshop's own shrinkage is not taken")
	}
}

// In Britain and on the continent sycamore is Acer pseudoplatanus; Platanus
// occidentalis grows in America alone. What is not said is asked, and not guessed.
func TestSycamoreByItsOrigin(t *testing.T) {
	for origin, want := range map[string]string{", origin: {country: GB}": "Acer pseudoplatanus", ", origin: {country: DE}": "Acer pseudoplatanus", ", origin: {country: US}": "Platanus occidentalis"} {
		r := build(t, spec(t, strings.Replace(longBoard, "SPECIES", "sycamore"+origin, 1)), nil)
		if got := r.Public.Materials[0].Botanical; got != want {
			t.Errorf("%s: %s, want %s", origin, got, want)
		}
		if f, ok := found(r, "wood.namesake"); ok {
			t.Errorf("%s: asked all the same: %+v", origin, f)
		}
	}
}

// A wood's name keeps the capital of a place inside a sentence.
func TestNamesOfPlacesKeepTheirCapital(t *testing.T) {
	for name, want := range map[string]string{"Honduran mahogany": "Honduran mahogany", "Black walnut": "black walnut", "Peruvian walnut": "Peruvian walnut", "Claro walnut burl": "claro walnut burl", "Osage-orange": "Osage-orange"} {
		if got := words(t).Inside(name); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
}

// A stand whose wood nobody knows, of 6.8 kg on the scale with legs of 3.6 kg: the
// top is 3.2 kg, and 1003 mm high on feet of 254 mm a push of 6.8 x 9.80665 x 127 /
// 1003 = 8.44 N tips it.
func TestTopByDifference(t *testing.T) {
	text := "serial: OY-0611\ntitle: Stand\nkind: other\nfinished: 2026-03-03\nunits: mm\nweighed: 6.8 kg\nbase: {material: steel, weight: 3.6 kg, height: 965, footprint: {length: 254, width: 254}}\ntop: {outline: {length: 305, width: 305}, thickness: 38, wood: {species: stuhlholz, moisture: 8 %}}\n"
	r := build(t, spec(t, text), nil)
	if f, ok := found(r, "stability.push"); !ok || r.Figures["stability.push_n"].Value < 8.4 || r.Figures["stability.push_n"].Value > 8.5 {
		t.Errorf("%+v, push %+v, absent %q", f, r.Figures["stability.push_n"], r.Absent["stability"])
	}
	r = build(t, spec(t, strings.Replace(text, "weighed: 6.8 kg\n", "", 1)), nil)
	if r.Stability != nil {
		t.Errorf("reckoned without a weight: %+v", r.Stability)
	}
}
