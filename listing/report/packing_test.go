package report

import (
	"maps"
	"math"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// A console of 24 kg net in all, that the packing tests start from.
const packed = `serial: OY-0500
title: Console
kind: console table
finished: 2026-06-01
units: mm
top: {outline: {length: 1400, width: 400}, thickness: 40, weighed: 14 kg, wood: {species: european-oak, moisture: 9 %}}
base: {style: two welded frames, material: steel, weight: 10 kg, height: 700, footprint: {length: 1200, width: 360}, fixing: {method: threaded inserts, bolt: M8, holes: slotted}, sections: [{section: 60 x 30 x 3 mm, length: 2 m, count: 2}]}
`

func withoutSections(s string) string {
	return strings.Replace(s, ", sections: [{section: 60 x 30 x 3 mm, length: 2 m, count: 2}]", "", 1)
}

// By hand: the top as it is, 1400 x 400 x 40, and two frames of 700 x 360 that lie
// on it, 80 mm each (leg_flat). Two of them side by side need 2 x 700 = 1400 and
// 360: they go beside each other, one layer. With 15 mm of blankets all round: 1430 x
// 430 x 150, printed 143 x 43 x 15 cm. The base alone: 700 x 360 x 160. Frames that
// stand crossed do not lie flat: 1200 x 360 x 700.
func TestLegsWithTheTop(t *testing.T) {
	sizes := func(legs, style string) [][3]float64 {
		text := strings.Replace(withoutSections(packed), "two welded frames", style, 1) + "packing: {how: blanket-wrapped, legs: \"" + legs + "\"}\n"
		var out [][3]float64
		for _, p := range build(t, spec(t, text), nil).Public.Shipping.Packages {
			out = append(out, [3]float64{p.Length, p.Width, p.Height})
		}
		return out
	}
	for _, c := range []struct {
		legs, style string
		want        [][3]float64
	}{
		{"with the top", "two welded frames", [][3]float64{{1430, 430, 150}}},
		{"off", "two welded frames", [][3]float64{{1430, 430, 70}, {730, 390, 190}}},
		{"off", "pedestal", [][3]float64{{1430, 430, 70}, {1230, 390, 730}}},
		{"off", "two crossed frames", [][3]float64{{1430, 430, 70}, {1230, 390, 730}}}, // the footprint's whole box
		{"off", "two X-frames", [][3]float64{{1430, 430, 70}, {1230, 390, 730}}},
		{"off", "X legs of steel", [][3]float64{{1430, 430, 70}, {1230, 390, 730}}},
		{"off", "two frames of 60 x 30 tube", [][3]float64{{1430, 430, 70}, {730, 390, 190}}}, // no cross in a section
		{"off", "two frames with a cross rail", [][3]float64{{1430, 430, 70}, {730, 390, 190}}},
		{"on", "two welded frames", [][3]float64{{1430, 430, 770}}},
		{"off", "three flat legs", [][3]float64{{1430, 430, 70}, {730, 390, 270}}},
	} {
		got := sizes(c.legs, c.style)
		if len(got) != len(c.want) {
			t.Errorf("%s, %s: %v, want %v", c.legs, c.style, got, c.want)
			continue
		}
		for i := range got {
			for k := range 3 {
				if math.Abs(got[i][k]-c.want[i][k]) > 0.01 {
					t.Errorf("%s, %s: %v, want %v", c.legs, c.style, got, c.want)
				}
			}
		}
	}
}

// A light crate is taken where the maker names no walls and the load is light; a
// 33 kg console in a crate weighs no 128 kg on the road. Both sides of batten_most,
// and of carton_most, by moving the rule across the weight of the piece.
func TestPackingThresholds(t *testing.T) {
	base, err := loadTables()
	if err != nil {
		t.Fatal(err)
	}
	with := func(id string, v float64, packing string) *Report {
		tab := *base
		tab.Shipping.Rules = maps.Clone(base.Shipping.Rules)
		rule := tab.Shipping.Rules[id]
		rule.Value = v
		tab.Shipping.Rules[id] = rule
		p := spec(t, withoutSections(packed)+packing)
		p.Weighed = piece.Of(units.Mass(24))
		r, err := Build(p, nil, Options{Words: words(t), Tables: &tab})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	light := func(r *Report) bool {
		return strings.Contains(r.Figures["shipping.packages.1.gross_kg"].Rule, "battens")
	}
	for _, c := range []struct {
		id, packing string
		said        func(*Report) bool
		over        bool // said where the piece weighs more than the rule
	}{
		{"carton_most", "packing: {how: carton}\n", finding("packing.heavy-carton"), true},
		{"batten_most", "packing: {how: crate, crate: battens}\n", finding("packing.heavy-battens"), true},
		{"batten_most", "packing: {how: crate}\n", light, false},
	} {
		if below, above := c.said(with(c.id, 23.9, c.packing)), c.said(with(c.id, 24.1, c.packing)); below != c.over || above == c.over {
			t.Errorf("%s, %s: %v with the rule below the weight, %v above", c.id, c.packing, below, above)
		}
		if at := c.said(with(c.id, 24, c.packing)); at == c.over { // the rule names the most that is still fine
			t.Errorf("%s, %s: %v with the rule at the weight", c.id, c.packing, at)
		}
	}
	if r := with("batten_most", 60, "packing: {how: crate, crate: plywood}\n"); light(r) {
		t.Error("a crate of plywood became one of battens")
	}
	if g := with("batten_most", 60, "packing: {how: crate}\n").Public.Shipping.Packages[0].Gross; g > 70 {
		t.Errorf("a console of 24 kg weighs %.0f kg on the road", g)
	}
}

// The maker's own boxes are what the carrier reads, and a lighter sum than the
// piece is asked back.
func TestOwnPackages(t *testing.T) {
	r := build(t, spec(t, packed+"weighed: 24 kg\npacking: {packages: [{name: top, size: [1450, 450, 90], weighed: 16 kg}, {name: legs, size: [750, 400, 140], weighed: 11 kg}]}\n"), nil)
	s := r.Public.Shipping
	if len(s.Packages) != 2 || s.Packages[0].Gross != 16 || s.Packages[1].Length != 750 || s.Packages[1].Name != "legs" || r.Freight.Gross != 27 {
		t.Errorf("%+v, freight %+v", s.Packages, r.Freight)
	}
	if !strings.Contains(s.Text, "two packages, about 27 kg") && !strings.Contains(s.Text, "about 60 lb (27 kg)") {
		t.Errorf("%q", s.Text)
	}
	for text, code := range map[string]string{
		"packing: {packages: {name: all, size: [1450, 450, 90], weighed: 20 kg}}\n":                  "packing.lighter",
		"packing: {packages: {name: all, size: [1450, 450, 90]}}\n":                                  "packing.unweighed",
		"packing: {how: crate, legs: with the top}\ndelivery: {ships_to: [GB, IE]}\n":                "packing.ispm15",
		"packing: {packages: {name: all, size: [2500, 450, 90], weighed: 40 kg}}\n":                  "packing.over-length",
		"packing: {how: crate, legs: with the top, crate: cardboard of some sort}\nstory: nothing\n": "packing.crate",
	} {
		if _, ok := found(build(t, spec(t, packed+"weighed: 24 kg\n"+text), nil), code); !ok {
			t.Errorf("%s is not told of %s", code, text)
		}
	}
}

// 700 lb are 317.515 kg: nowhere is 701 printed.
func TestConvertedOnce(t *testing.T) {
	r, err := Build(spec(t, packed+"weighed: 700 lb\n"), nil, Options{Words: words(t), Prefer: units.Inches})
	if err != nil {
		t.Fatal(err)
	}
	lb, kg := r.Public.Weight.Text.Values()
	if lb != "700 lb" || kg != "317.5 kg" {
		t.Errorf("%s, %s", lb, kg)
	}
	for _, p := range r.Public.Cautions {
		if strings.Contains(p.Text, "701") || p.Group == "lift" && !strings.Contains(p.Text, "700 lb (317.5 kg)") {
			t.Errorf("%q", p.Text)
		}
	}
}

// finishes.md, epoxy casting facts: full cure 7 to 30 d. A piece of 2026-06-01 with its
// last coat on 2026-05-20 holds resin that is hard by 2026-06-19 at the latest; the note
// is there for a piece that left on the day before, and not for one that left on it.
func TestResinCuresBeforeItIsPacked(t *testing.T) {
	text := strings.Replace(packed, "wood: {", "resin: {area: 10 %}, wood: {", 1) + "finish: {family: varnish, last_coat: 2026-05-20}\npacking: {how: carton}\nbuyer: {delivered: "
	for day, want := range map[string]bool{"2026-06-18": true, "2026-06-19": false} {
		r := build(t, spec(t, text+day+"}\n"), nil)
		f, ok := found(r, "packing.resin-cure")
		if ok != want || ok && !strings.Contains(f.Message, "by 19 June 2026") {
			t.Errorf("delivered on %s: %v %+v", day, ok, f)
		}
	}
	r := build(t, spec(t, text+"2026-06-19}\n"), nil)
	if caution("care.resin-cure")(r) {
		t.Error("care stands among cautions")
	}
}

// EU 2023/988, article 19 (listing-standards.md, section 10): name, postal and
// electronic address. 40 CFR 770.45: composite wood in goods for the US, solid wood
// and structural plywood outside it.
func TestWhatALawAsksOfAnOffer(t *testing.T) {
	full := "workshop: {name: Yard, address: 1 Lane, email: a@b.example, country: GB}\n"
	for _, c := range []struct {
		name, shop, more string
		want, not        string
	}{
		{"a name alone", "workshop: {name: Yard}\n", "delivery: {ships_to: [DE]}\n", "sale.eu-contact", "sale.eu-person"},
		{"everything", full, "delivery: {ships_to: [DE]}\n", "sale.eu-person", "sale.eu-contact"},
		{"at home", full, "delivery: {ships_to: [GB]}\n", "", "sale.eu-contact"},
		{"sold", "workshop: {name: Yard}\n", "delivery: {ships_to: [DE]}\navailability: sold\n", "", "sale.eu-contact"},
		{"plywood to the US", full, "delivery: {ships_to: [US]}\nparts: [{name: back, material: birch plywood, weight: 1 kg}]\n", "sale.us-composite", ""},
		{"solid wood to the US", full, "delivery: {ships_to: [US]}\nparts: [{name: back, material: european-oak, weight: 1 kg}]\n", "", "sale.us-composite"},
		{"structural plywood", full, "delivery: {ships_to: [US]}\nparts: [{name: structural plywood back, weight: 1 kg}]\n", "", "sale.us-composite"},
		{"plywood to France", full, "delivery: {ships_to: [FR]}\nparts: [{name: back, material: birch plywood, weight: 1 kg}]\n", "", "sale.us-composite"},
		{"documented", full, "delivery: {ships_to: [US]}\nparts: [{name: back, material: birch plywood, weight: 1 kg}]\nmaterials: [{use: back, product: \"plywood, TSCA Title VI compliant\"}]\n", "", "sale.us-composite"},
	} {
		r := build(t, spec(t, packed+c.more), workshop(t, c.shop))
		if _, ok := found(r, c.want); c.want != "" && !ok {
			t.Errorf("%s: no %s", c.name, c.want)
		}
		if f, ok := found(r, c.not); c.not != "" && ok {
			t.Errorf("%s: %+v", c.name, f)
		}
		if c.name == "documented" && r.Public.Composite != "Contains plywood: TSCA Title VI compliant" {
			t.Errorf("%q", r.Public.Composite)
		}
		if c.name == "plywood to the US" && (r.Public.Composite != "Contains plywood" || !caution("caution.composite")(r)) {
			t.Errorf("%q", r.Public.Composite)
		}
	}
}
