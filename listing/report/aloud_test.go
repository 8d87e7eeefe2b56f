package report

import (
	"maps"
	"slabfolio/listing/piece"
	"slices"
	"strings"
	"testing"
)

// What was wrong when every sentence of drawn pieces was read aloud.

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
		if home := c.home != "" && !c.want; r.SolidPacking == home { // the sheet's word on borders
			t.Errorf("%s to %s: a word on solid wood at the border: %v", c.home, c.to, r.SolidPacking)
		}
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
		if (told != "") != want || want && !strings.Contains(told, "14.5%") {
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
	if s := r.Public.Shipping; s == nil || !strings.HasPrefix(s.Text, "It travels in a carton.") {
		t.Errorf("that it is packed in a carton is not said: %+v", s)
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

// across_wood is of the width: where the grain runs across, it is told to be of no
// use instead of being held against the wrong side.
func TestAcrossWoodWhereTheGrainRunsAcross(t *testing.T) {
	for more, want := range map[string]string{
		", grain: along width}, across_wood: 500": "it is not used",
		", grain: along width}":                   "",
		"}, across_wood: 500":                     "the top is 400 mm",
		"}, across_wood: 300":                     "",
	} {
		text := strings.Replace(packed, "wood: {species: european-oak, moisture: 9 %}", "resin: {area: 10 %}, wood: {species: european-oak, moisture: 9 %"+more, 1)
		f, ok := found(build(t, spec(t, text), nil), "top.across-wood")
		if ok != (want != "") || !strings.Contains(f.Message, want) {
			t.Errorf("%s: %v %q", more, ok, f.Message)
		}
	}
}

// What the trade calls a resin is known, so that no other one's density is taken.
func TestResinsByTheirTradeNames(t *testing.T) {
	for name, density := range map[string]float64{"polyester casting resin": 1200, "epoxy casting resin": 1110, "polyurethane resin": 1080} {
		text := strings.Replace(packed, "weighed: 14 kg, ", "resin: {area: 10 %, material: "+name+"}, ", 1)
		r := build(t, spec(t, text), nil)
		for _, w := range r.WeightParts {
			if w.Name == "resin" && w.Density != density {
				t.Errorf("%s: %g kg/m3, want %g", name, w.Density, density)
			}
		}
		if f, ok := found(r, "weight.resin-unknown"); ok {
			t.Errorf("%s: %q", name, f.Message)
		}
	}
}

// The shipping sheet speaks of the carriers that can come into it: those of the
// maker's own region, and of another where the piece is offered; of both where the
// workshop does not say where it is.
func TestCarriersOfTheRightRegion(t *testing.T) {
	for _, c := range []struct {
		country, ships string
		want           []string
	}{
		{"GB", "[GB, IE]", []string{"Europe"}}, {"US", "[US]", []string{"US"}}, {"US", "[US, DE]", []string{"Europe", "US"}}, {"DE", "[US]", []string{"Europe", "US"}}, {"", "[GB]", []string{"Europe", "US"}},
	} {
		spec := "serial: A\ntitle: A\nkind: bench\nfinished: 2026-01-02\nunits: mm\ntop: {outline: {length: 1200, width: 300}, thickness: 40, wood: [{species: european-oak}]}\nbase: {material: steel, weight: 9 kg, height: 400, footprint: {length: 1000, width: 280}}\nweighed: 22 kg\npacking: {how: carton}\ndelivery: {ships_to: " + c.ships + "}\n"
		workshop := "workshop: {name: Ostrel Yard}\n"
		if c.country != "" {
			workshop = "workshop: {name: Ostrel Yard, country: " + c.country + "}\n"
		}
		w, _ := piece.ParseWorkshop(piece.WorkshopName, []byte(workshop))
		p, _ := piece.ParsePiece("piece.yaml", []byte(spec), w.Defaults())
		r, err := Build(p, w, Options{Words: words(t)})
		if err != nil || r.Freight == nil {
			t.Fatalf("%v, %v", err, r)
		}
		if got := slices.Sorted(maps.Keys(r.Freight.Mode)); len(got) != len(c.want) {
			t.Errorf("from %q to %s: %q, want %q", c.country, c.ships, got, c.want)
		}
	}
}
