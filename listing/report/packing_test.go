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
// 430 x 150, printed 143 x 43 x 15 cm. The base alone: 700 x 360 x 160.
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
	base, err := LoadTables()
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
		if ok != want || ok && !strings.Contains(f.Message, "by 2026-06-19") {
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

// No parcel service takes furniture in blankets; the same piece in a carton of
// the same size may go as one. Common practice, no source.
func TestBlanketsAreNoParcel(t *testing.T) {
	small := strings.NewReplacer("length: 1400, width: 400", "length: 600, width: 300", "height: 700", "height: 400", "length: 1200, width: 360", "length: 500, width: 250").Replace(packed)
	for how, want := range map[string]string{"blanket-wrapped": "no piece in blankets", "carton": "parcel: within"} {
		r := build(t, spec(t, small+"packing: {how: "+how+"}\n"), nil)
		for region, says := range r.Freight.Mode {
			if !strings.Contains(says, want) {
				t.Errorf("%s, %s: %q does not say %q", how, region, says, want)
			}
		}
	}
}

// Within the EU nothing is imported and a crate of solid wood needs no mark; from
// Germany to Switzerland and from the UK to Ireland there is a border.
func TestNoBorderWithinTheEU(t *testing.T) {
	for _, c := range []struct {
		home, to string
		want     bool
		names    string
	}{
		{"country: DE", "DE, AT, FR", false, ""},
		{"country: DE", "AT, CH", true, "it ships to CH,"},
		{"country: GB", "GB, IE", true, "it ships to IE,"},
		{"country: GB", "GB", false, ""},
		{"", "DE, AT", false, ""},
		{"", "DE, US", true, "it ships to DE and US,"},
		{"", "US", false, ""},
	} {
		r := build(t, spec(t, packed+"packing: {how: crate, crate: plywood}\ndelivery: {ships_to: ["+c.to+"]}\n"), workshop(t, "workshop: {name: Yard, "+c.home+"}\n"))
		for _, code := range []string{"packing.ispm15", "wood.no-origin"} {
			f, ok := found(r, code)
			if ok != c.want || code == "wood.no-origin" && !strings.Contains(f.Message, c.names) {
				t.Errorf("%s to %s, %s: %v %q", c.home, c.to, code, ok, f.Message)
			}
		}
	}
}

// "8 5/16-18 bolts" reads as eight and five sixteenths.
func TestFixingsReadAloud(t *testing.T) {
	for said, want := range map[string]string{
		"{method: threaded inserts, bolt: 5/16-18, count: 8}":   "threaded inserts, eight 5/16-18 bolts",
		"{method: threaded inserts, bolt: 1/4-20, count: 12}":   "threaded inserts, 12 × 1/4-20 bolts",
		"{method: screws, bolt: M6, count: 4, holes: slotted}":  "four M6 screws, in slots that let the wood move",
		"{method: Screws, count: 4}":                            "Screws",
		"{method: bolts, bolt: M8}":                             "M8 bolts",
		"{method: screws and glue, bolt: M6, count: 4}":         "screws and glue, four M6 bolts",
		"{bolt: M8, count: 1}":                                  "one M8 bolt",
		"{method: threaded inserts, bolt: M8, holes: oversize}": "threaded inserts, M8 bolts, in wide holes that let the wood move",
	} {
		text := strings.Replace(packed, "fixing: {method: threaded inserts, bolt: M8, holes: slotted}", "fixing: "+said, 1)
		if got := build(t, spec(t, text), nil).Public.Base.Fixing; got != want {
			t.Errorf("%s: %q, want %q", said, got, want)
		}
	}
}

// The spec has to name a wood; a top that is all resin holds none, and the buyer
// is told of none.
func TestAllResinNamesNoWood(t *testing.T) {
	for amount, want := range map[string]bool{"100 %": false, "90 %": true} {
		r := build(t, spec(t, strings.Replace(packed, "thickness: 40, weighed: 14 kg, wood: {species: european-oak, moisture: 9 %}", "thickness: 40, wood: {species: european-oak}, resin: {area: "+amount+"}", 1)), nil)
		named := false
		for _, m := range r.Public.Materials {
			named = named || m.Role == "wood"
		}
		_, reading := found(r, "wood.no-reading")
		dust := ""
		for _, p := range r.Public.Cautions {
			if p.Group == "dust" {
				dust = p.Text
			}
		}
		if named != want || reading != want || strings.Contains(dust, "dust of wood") != want || !strings.Contains(dust, "of resin") {
			t.Errorf("%s of resin: wood %v, reading asked %v, %q", amount, named, reading, dust)
		}
	}
}

// By hand: 4 kg of bench, feet of 1100 mm under 1800: W b/a = about 25 x 550/350 =
// 40 kg tips it at its end, under the 100 kg of a sitter: nobody is told that
// three sit on it. With feet of 1700 the same is 25 x 850/50 = 430 kg.
func TestSeatsOfABenchThatTips(t *testing.T) {
	bench := "serial: OY-0501\ntitle: Bench\nkind: bench\nfinished: 2026-06-01\nunits: mm\ntop: {outline: {length: 1800, width: 360}, thickness: 45, weighed: 16 kg, wood: {species: european-larch, moisture: 9 %}}\n" +
		"base: {material: steel, weight: 9 kg, height: 410, footprint: {length: LEN, width: 300}}\n"
	for length, want := range map[string][2]int{"1100": {0, 3}, "1700": {3, 3}} {
		for i, more := range []string{"", "seats: 3\n"} {
			r := build(t, spec(t, strings.Replace(bench, "LEN", length, 1)+more), nil)
			if r.Public.Seats != want[i] || (r.Absent["seats"] != "") != (want[i] == 0) {
				t.Errorf("feet of %s mm, %q: %d seats, %q", length, more, r.Public.Seats, r.Absent["seats"])
			}
		}
	}
}

// A wet wood's first winter stands in the care of the piece as on the listing, and
// in no other piece: from the contract's example at 14.5 % and at 9 %.
func TestCareTellsOfTheFirstWinter(t *testing.T) {
	for reading, want := range map[string]bool{"14.5 %": true, "9 %": false} {
		text := strings.Replace(packed, "moisture: 9 %", "moisture: "+reading, 1)
		r := build(t, spec(t, text), nil)
		told := ""
		for _, p := range r.Public.Care {
			if p.ID == "care.settling" {
				told = p.Text
			}
		}
		if (told != "") != want || want && !strings.Contains(told, "14.5 %") {
			t.Errorf("%s: %q", reading, told)
		}
	}
}

// A stool of 13 in on legs that reach 14 x 13½ in is 14 in long, and its round
// top has a diameter of 13 in.
func TestOneDiameterForWhatIsRound(t *testing.T) {
	stool := "serial: OY-0502\ntitle: Stool\nkind: stool\nfinished: 2026-06-01\ntop: {outline: {diameter: 13 in}, thickness: 1 1/2 in, wood: {species: hard-maple, moisture: 8 %}}\n" +
		"base: {material: hard-maple, weight: 5 lb, height: 16 1/2 in, footprint: {length: LEN, width: 12 in}}\n"
	for length, want := range map[string]string{"12 in": "13 in across, 18 in high", "14 in": "14 × 13 × 18 in"} {
		r := build(t, spec(t, strings.Replace(stool, "LEN", length, 1)), nil)
		if got := r.Public.Dimensions.Text.In; got != want || r.OneDiameter() != (length == "12 in") {
			t.Errorf("feet of %s: %q, want %q", length, got, want)
		}
		if got := r.Public.Materials[0].Name; got != "Hard maple" {
			t.Errorf("the wood is called %q", got)
		}
	}
}

// A cabinet of 71 in on feet 11 in deep is fixed to the wall whether its weight is
// known or not, and where its feet are not told; one of 30 in is not. Common
// practice: three times as high as deep.
func TestTallAndNarrowWithoutAWeight(t *testing.T) {
	const cabinet = "serial: OY-0503\ntitle: Cabinet\nkind: other\nfinished: 2026-06-01\ntop: {outline: {length: 24 in, width: 12 in}, thickness: 1 in, wood: {species: teak, moisture: 9 %}}\nbase: {material: steel, height: HIGH, "
	for base, want := range map[string]bool{
		"HIGH 70 in weight: 50 lb, footprint: {length: 22 in, width: 11 in}": true,
		"HIGH 70 in footprint: {length: 22 in, width: 11 in}":                true,
		"HIGH 70 in weight: 50 lb":                                           true,
		"HIGH 36 in weight: 50 lb":                                           true,
		"HIGH 34 in weight: 50 lb":                                           false,
		"HIGH 28 in footprint: {length: 22 in, width: 11 in}":                false,
	} {
		text := strings.Replace(cabinet, "HIGH", base[5:10], 1) + base[11:] + "}\n"
		if got := caution("caution.tip.wall")(build(t, spec(t, text), nil)); got != want {
			t.Errorf("%s: told of the wall: %v, want %v", base, got, want)
		}
	}
}

// The shipping sheet says that check tells what is missing for its packages: check
// has to.
func TestWhyThereAreNoPackagesIsTold(t *testing.T) {
	text := strings.Replace(packed, "height: 700, ", "", 1) + "packing: {how: carton}\n"
	r := build(t, spec(t, text), nil)
	f, ok := found(r, "packing.not-reckoned")
	if !ok || !strings.Contains(f.Message, "base.height is not given") {
		t.Errorf("%v %q; %q", ok, f.Message, r.Absent["shipping.packages"])
	}
	if _, ok := found(build(t, spec(t, packed+"packing: {how: carton}\n"), nil), "packing.not-reckoned"); ok {
		t.Error("told of a piece whose packages are known")
	}
}

// Three legs in a footprint as wide as the seat do not reach its corners: the
// seat is warned of, and its maker told. Four legs there tip nothing.
func TestThreeLegsAreToldOf(t *testing.T) {
	const stool = "serial: OY-0504\ntitle: Stool\nkind: stool\nfinished: 2026-06-01\nunits: mm\ntop: {outline: {diameter: 330}, thickness: 38, wood: {species: hard-maple, moisture: 8 %}}\nbase: {style: STYLE, material: hard-maple, weight: 2.3 kg, height: 420, footprint: {length: 360, width: 360}}\n"
	for style, want := range map[string]bool{"three turned legs": true, "tripod": true, "3 hairpins": true, "three-legged": true, "four legs": false, "three shelves on four posts": false} {
		r := build(t, spec(t, strings.Replace(stool, "STYLE", style, 1)), nil)
		_, told := found(r, "stability.easily-tipped")
		if told != want || caution("caution.tip.seat")(r) != want {
			t.Errorf("%s: maker told %v, buyer %v; want %v", style, told, caution("caution.tip.seat")(r), want)
		}
	}
}
