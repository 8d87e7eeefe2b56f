package piece

import (
	"context"
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
		_, err := ParseAssignment(path + "=1")
		if err == nil || !strings.Contains(err.Error(), "write "+ours+"=") {
			t.Errorf("%s: %v, want %s", path, err, ours)
		}
	}
	for _, path := range []string{"top.wool.0", "0", "top.0.wood", "serial.1"} {
		if _, err := ParseAssignment(path + "=1"); err == nil || strings.Contains(err.Error(), "notation") || !strings.Contains(err.Error(), ";") {
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
