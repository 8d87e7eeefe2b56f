package piece

import (
	"context"
	"slices"
	"strings"
	"testing"
)

// doubtsOf are the codes and messages of the doubts of a short spec with more lines.
func doubtsOf(t *testing.T, lines string) []Finding {
	t.Helper()
	spec := "serial: A-1\ntitle: Table\nkind: side table\nfinished: 2026-05-01\ntop:\n  outline: {length: 40 cm, width: 30 cm}\n  thickness: 2 cm\n  wood: {species: european-ash}\n" + lines
	_, findings, err := parsePiece(context.Background(), "piece.yaml", []byte(spec), Defaults{Today: Date{2026, 11, 1}})
	if err != nil {
		t.Fatal(err)
	}
	return findings
}

func says(findings []Finding, code, words string) bool {
	for _, f := range findings {
		if f.Code == code && strings.Contains(f.Message, words) && f.Remedy != "" && f.Rank == Doubt {
			return true
		}
	}
	return false
}

// Letters that are no currency's or country's, and a price of nothing, are told of
// with what to do (ISO 4217, ISO 3166-1).
func TestCodesAndNothingAreDoubted(t *testing.T) {
	for _, c := range []struct {
		lines, code, words string
		doubted            bool
	}{
		{"price: {amount: 12, currency: XYZ}\n", "spec.currency", `"XYZ"`, true},
		{"price: {amount: 12, currency: GBP}\n", "spec.currency", "", false},
		{"price: {amount: 0, currency: GBP}\n", "price.nothing", "for nothing", true},
		{"price: {amount: 0}\navailability: not for sale\n", "price.nothing", "", false},
		{"price: {amount: 0.5}\n", "price.nothing", "", false},
		{"delivery: {ships_to: [GB, QX]}\n", "spec.country", `"QX"`, true},
		{"delivery: {ships_to: [UK]}\n", "spec.country", `"UK"`, true},
		{"delivery: {ships_to: [GB, IE, US, TW, GL]}\n", "spec.country", "", false},
	} {
		if got := says(doubtsOf(t, c.lines), c.code, c.words); got != c.doubted {
			t.Errorf("%q: %s doubted %v, want %v", c.lines, c.code, got, c.doubted)
		}
	}
	for said, code := range map[string]string{"USA": "US", "Germany": "DE", "the Netherlands": "NL", "gb": "GB"} {
		findings := doubtsOf(t, "delivery: {ships_to: ["+said+"]}\n")
		if len(findings) == 0 || !strings.HasSuffix(findings[0].Remedy, ": "+code) {
			t.Errorf("%s: %v", said, findings)
		}
	}
	_, findings := ParseWorkshop("workshop.yaml", []byte("workshop: {name: Yard, country: ZZ}\ncurrency: ABC\n"))
	if !says(findings, "spec.country", "ZZ") || !says(findings, "spec.currency", "ABC") {
		t.Errorf("of a workshop: %v", findings)
	}
}

// A path in the notation of another program is told in ours; one that leads nowhere is not.
func TestOtherNotationsOfAPath(t *testing.T) {
	for path, ours := range map[string]string{
		"top.wood.0.species": "top.wood[1].species", "top/wood/1/species": "top.wood[2].species", "$.top.thickness/": "top.thickness",
		"top.wood(1).species": "top.wood[1].species", "price:amount": "price.amount", "Price > amount": "price.amount",
	} {
		_, err := parseAssignment(path + "=1")
		if err == nil || !strings.Contains(err.Error(), " "+ours+"=") {
			t.Errorf("%s: %v, want %s", path, err, ours)
		}
	}
	for _, path := range []string{"top.wool.0", "0", "top.0.wood", "serial.1"} {
		if _, err := parseAssignment(path + "=1"); err == nil || strings.Contains(err.Error(), "notation") || !strings.Contains(err.Error(), ";") {
			t.Errorf("%s: %v", path, err)
		}
	}
}

// What a maker calls a folder is taken for a serial where it reads like one.
func TestReadsAsSerial(t *testing.T) {
	for text, want := range map[string]bool{"C-7": true, "B12": true, "OY-0301": true, "2026-04": true, "table_x": false, "river-table-2": false, "bench2": false, "12": false, "IMG_2041": true} {
		if ReadsAsSerial(text) != want {
			t.Errorf("%s: %v", text, !want)
		}
	}
}

// A coat that the log tells of is one that the curing is counted from, and a last coat
// after the piece was finished is one that the log has to tell of.
func TestCoatsOfTheLog(t *testing.T) {
	log := func(day, did string) string { return "log: [{date: " + day + ", did: " + did + "}]\n" }
	const finish = "finish: {family: hardwax-oil, product: oil, last_coat: 2026-08-02}\n"
	for _, c := range []struct {
		lines, code string
		doubted     bool
	}{
		{"finish: {family: hardwax-oil}\n" + log("2026-08-02", "rubbed down and oiled again"), "finish.newer-coat", true},
		{"finish: {family: hardwax-oil}\n" + log("2026-08-02", "re-oiled"), "finish.newer-coat", true},
		{"finish: {family: hardwax-oil}\n" + log("2026-08-02", "nachgeölt"), "finish.newer-coat", true},
		{"finish: {family: hardwax-oil}\n" + log("2026-08-02", "waxed the drawer runners"), "finish.newer-coat", false},
		{"finish: {family: hardwax-oil}\n" + log("2026-08-02", "shown in the autumn show"), "finish.newer-coat", false},
		{"finish: {family: bare}\n" + log("2026-08-02", "oiled"), "finish.newer-coat", false},
		{finish + log("2026-08-02", "oiled again"), "finish.newer-coat", false},
		{finish + log("2026-08-02", "oiled again"), "spec.date", false},
		{finish, "spec.date", true},
		{finish + log("2026-06-02", "shown"), "spec.date", true},
	} {
		if got := says(doubtsOf(t, c.lines), c.code, ""); got != c.doubted {
			t.Errorf("%q: %s doubted %v, want %v", c.lines, c.code, got, c.doubted)
		}
	}
}

// What a maker who is tired writes, and what is asked then.
func TestSlipsOfTheEvening(t *testing.T) {
	for _, c := range []struct {
		lines, code, remedy string
		doubted             bool
	}{
		{"buyer: {name: Frau Probe}\nstory: Made for Frau Probe, as she wished.\n", "spec.buyer-named", "buyer", true},
		{"buyer: {name: Frau Probe}\nprice: {amount: 90, currency: EUR, note: für Probe}\n", "spec.buyer-named", "buyer", true},
		{"buyer: {name: Frau Probe}\nstory: A probe of the wood. Probezeit.\n", "spec.buyer-named", "", false},
		{"buyer: {name: Frau Probe}\nlog: [{date: 2026-08-02, did: Frau Probe came by}]\n", "spec.buyer-named", "", false},
		{"buyer: {name: Mill Hill GmbH}\nstory: For Mill Hill.\nfound: A hill of sand.\n", "spec.buyer-named", "", true},
		{"buyer: {name: \"Wilhelmina Krantz, Ostrel\"}\nstory: Made for Mrs Krantz.\n", "spec.buyer-named", "buyer", true},
		{"buyer: {name: w.krantz@mail.example}\nstory: Write to w.krantz@mail.example\n", "spec.buyer-named", "buyer", true},
		{"buyer: {name: the Krantz family}\ntranslations: {de: {story: Für Familie Krantz}}\n", "spec.buyer-named", "buyer", true},
		{"buyer: {name: Krantz}\nphotos: {captions: {a.jpg: At Krantz's}}\n", "spec.buyer-named", "buyer", true},
		{"buyer: {name: Krantz}\nphotos: {blends: [{name: krantz-light, frames: [a.jpg, b.jpg]}]}\n", "spec.buyer-named", "buyer", true},
		{"buyer: {name: Krantz}\nphotos: {order: [Krantz.jpg], views: {Krantz.jpg: detail}}\n", "spec.buyer-named", "", false},
		{"buyer: {name: Ida Ash}\nstory: A table of ash.\n", "spec.buyer-named", "", false},
		{"materials: {supplier: Bramble Boatyard}\nfound: A nail, from Bramble Boatyard.\n", "spec.supplier-named", "supplier", true},
		{"materials: [{supplier: Bramble Boatyard, product: rx from Bramble Boatyard, show: yes}]\n", "spec.supplier-named", "supplier", true},
		{"materials: [{supplier: Bramble Boatyard, product: rx from Bramble Boatyard}]\n", "spec.supplier-named", "", false},
		{"materials: [{supplier: Tallow & Co, product: Tallow hard oil, show: yes}]\nfinish: {product: Tallow hard oil}\n", "spec.supplier-named", "", false},
		{"price: {amount: 2.450, currency: EUR}\n", "price.thousands", "write 2450", true},
		{"price: {amount: 2.45, currency: EUR}\n", "price.thousands", "", false},
		{"costs: {rate: 1.200}\n", "price.thousands", "write 1200", true},
		{"quantity: 12\nprice: {amount: 96, currency: EUR, note: the set of twelve}\n", "price.of-all", "note: each", true},
		{"quantity: 12\nprice: {amount: 96, currency: EUR, note: each; a set is less}\n", "price.of-all", "", false},
		{"price: {amount: 96, currency: EUR, note: the set}\n", "price.of-all", "", false},
	} {
		var got *Finding
		for _, f := range doubtsOf(t, c.lines) {
			if f.Code == c.code {
				got = &f
			}
		}
		if (got != nil) != c.doubted || got != nil && !strings.Contains(got.Remedy, c.remedy) {
			t.Errorf("%q: %s %+v, want %v", c.lines, c.code, got, c.doubted)
		}
	}
	for text, want := range map[string]string{"2.450 €": "2450", "€2.450,00": "2450.00", "1.234.567": "1234567", "2,450": "2450", "12,50 €": "12.50", "2.45": "2.45", "2.450": "2.450"} {
		if got, _, ok := money(text); !ok || got != want {
			t.Errorf("money(%q) = %q, %v, want %q", text, got, ok, want)
		}
	}
	for text, want := range map[string]string{"€": "", "90 €": "", "Deutschland": "DE", "Österreich": "AT", "Pays-Bas": "NL", "Estados Unidos": "US", "Duitsland": "DE", "gb": "GB"} {
		if got, ok := ParseCountry(text); got != want || ok != (want != "") {
			t.Errorf("ParseCountry(%q) = %q, %v, want %q", text, got, ok, want)
		}
	}
	for text, want := range map[string]string{"buyer.name=“Herr Muster”": "Herr Muster", "buyer.name=„Herr Muster“": "Herr Muster", "title=The “Long” bench": "The “Long” bench", "title=“A” and “B”": "“A” and “B”"} {
		a, err := parseAssignment(text)
		if err != nil || a.Value != want {
			t.Errorf("%s: %+v, %v, want %q", text, a, err, want)
		}
	}
}

// An address ends where its sentence does not.
func TestAddressesEndWithoutAStop(t *testing.T) {
	_, findings := ParseWorkshop("workshop.yaml", []byte("workshop: {name: A, email: a@b.example., web: \"https://b.example.\"}\nbase_url: https://b.example/pieces.\n"))
	n := 0
	for _, f := range findings {
		if f.Code == "spec.address" && !strings.HasSuffix(f.Remedy, ".") {
			n++
		}
	}
	if n != 3 {
		t.Errorf("%d of 3 addresses: %+v", n, findings)
	}
	if _, findings := ParseWorkshop("workshop.yaml", []byte("workshop: {name: A, email: a@b.example, web: \"https://b.example/\"}\nbase_url: https://b.example/pieces/\n")); len(findings) > 0 {
		t.Errorf("%+v", findings)
	}
}

// Of two sizes one has no unit, and the top comes out wider than it is long.
func TestOneSizeWithoutItsUnit(t *testing.T) {
	for _, c := range []struct{ units, long, wide, remedy string }{
		{"mm", "720", "36 in", "write 720 in"}, {"in", "72", "200 cm", "write 72 cm"}, {"in", "72", "36", ""}, {"mm", "720", "914", ""}, {"in", "72", "36 in", ""}, {"in", "30 in", "80 in", ""},
		{"in", "45cm", "40", "write 40 cm"}, {"in", "1.5 m", "35", "write 35 cm"}, {"mm", "7 ft", "900", "write 900 in"}, {"cm", "1200 mm", "60", ""},
	} {
		_, findings := ParsePiece("piece.yaml", []byte("serial: A-1\ntitle: Table\nkind: side table\nfinished: 2026-05-01\nunits: "+c.units+
			"\ntop: {outline: {length: "+c.long+", width: "+c.wide+"}, thickness: 2 cm, wood: {species: european-ash}}\n"), Defaults{})
		got := ""
		for _, f := range findings {
			if f.Code == "outline.mixed-units" {
				got = f.Remedy
			}
		}
		if (got == "") != (c.remedy == "") || !strings.HasPrefix(got, c.remedy) {
			t.Errorf("%+v: %q", c, got)
		}
	}
}

// Where nobody said the unit, and the workshop's country measures in another than inches,
// the first length without one is doubted.
func TestUnitsThatNobodySaid(t *testing.T) {
	const sized = "serial: A-1\ntitle: Table\nkind: side table\nfinished: 2026-05-01\ntop: {outline: {length: LONG, width: 40 cm}, thickness: 2 cm, wood: {species: european-ash}}\n"
	for _, c := range []struct {
		d                  Defaults
		long, more, remedy string
	}{
		{Defaults{Country: "DE"}, "60", "", "write units: cm"}, {Defaults{Country: "GB"}, "60", "", "write units: mm"}, {Defaults{Country: "US"}, "60", "", ""}, {Defaults{}, "60", "", ""},
		{Defaults{Country: "DE", Units: "in"}, "60", "", ""}, {Defaults{Country: "DE"}, "60 cm", "", ""}, {Defaults{Country: "DE"}, "60", "units: in\n", ""},
		{Defaults{Country: "DE"}, "60 cm", "base: {sections: [{section: 40 x 40 x 2, length: 1 m}]}\n", "write units: cm"}, {Defaults{Country: "DE"}, "60 cm", "parts: [{name: drawer, size: [30 cm, 20, 10]}]\n", "write units: cm"},
	} {
		_, findings := ParsePiece("piece.yaml", []byte(strings.Replace(sized, "LONG", c.long, 1)+c.more), c.d)
		got := ""
		for _, f := range findings {
			if f.Code == "spec.units-unsaid" {
				got = f.Remedy
			}
		}
		if (got == "") != (c.remedy == "") || !strings.HasPrefix(got, c.remedy) {
			t.Errorf("%+v: %q", c, got)
		}
	}
}

// A slip of the finger in another name of a key is forgiven, too.
func TestSlipsInOtherNames(t *testing.T) {
	for lines, want := range map[string]string{"wieght: 12 kg\n": "weighed", "desciption: Long.\n": "story", "xyzzy: 1\n": "known here"} {
		_, findings := ParsePiece("piece.yaml", []byte("serial: A-1\n"+lines), Defaults{})
		if !slices.ContainsFunc(findings, func(f Finding) bool { return f.Code == "spec.unknown-key" && strings.Contains(f.Remedy, want) }) {
			t.Errorf("%q: %+v, want %q", lines, findings, want)
		}
	}
}
