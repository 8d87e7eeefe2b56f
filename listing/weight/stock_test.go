package weight

import (
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// Steel larger than furniture has is asked back, each limit met from both sides:
// 60 x 30 x 2 in a file of inches is a box of 1.5 m.
func TestLargeSectionIsAskedBack(t *testing.T) {
	for _, c := range []struct {
		section string
		doubted bool
	}{
		{"section: 60 x 30 x 2", true}, {"section: 60 x 30 x 2 mm", false}, {"section: 3 x 1.5 x 1/8", false},
		{"section: 250 x 250 x 5 mm", false}, {"section: 251 x 250 x 5 mm", true}, {"section: 200 x 100 x 13 mm", false}, {"section: 200 x 100 x 14 mm", true},
		{"tube: 300 x 3 mm", true}, {"tube: 76 x 3 mm", false}, {"plate: 900 x 600 x 20 mm", false}, {"bar: 60 x 20 mm", false},
	} {
		length := ", length: 1 m"
		if strings.HasPrefix(c.section, "plate") {
			length = ""
		}
		spec := "serial: A\ntitle: A\nkind: coffee table\nfinished: 2026-01-02\nunits: in\ntop: {outline: {length: 48 in, width: 24 in}, thickness: 2 in, wood: [{species: black-walnut}]}\nbase: {material: steel, sections: [{" + c.section + length + ", count: 2}], height: 16 in}\n"
		p, findings := piece.ParsePiece("piece.yaml", []byte(spec), piece.Defaults{})
		if slices.ContainsFunc(findings, func(f piece.Finding) bool { return f.Rank == piece.Fault }) {
			t.Fatalf("%s: %+v", c.section, findings)
		}
		got := slices.ContainsFunc(estimate(t, p).Findings, func(f piece.Finding) bool { return f.Code == "weight.section-large" })
		if got != c.doubted {
			t.Errorf("%s: doubted %v, want %v", c.section, got, c.doubted)
		}
	}
}
