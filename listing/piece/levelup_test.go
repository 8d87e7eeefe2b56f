package piece

import (
	"strings"
	"testing"
)

// Parts that stand one level too far up are one fault with the line that was meant, in
// the maker's own figures; where they do not make a whole, each is told its place.
func TestPartsOneLevelUp(t *testing.T) {
	for lines, want := range map[string]string{
		"top:\n  length: 48\n  width: 25.5\n  thickness: 2 in\n  wood: [{species: european-ash}]\n":                                  "write outline: {length: 48, width: 25.5}",
		"top: {diameter: 30 cm, thickness: 2 cm, wood: [{species: european-ash}]}\n":                                                 "write outline: {diameter: 30 cm}",
		"top: {length: 48 in, widths: [15 in, 16 in], thickness: 2 cm, wood: [{species: european-ash}]}\n":                           "write outline: {length: 48 in, widths: [15 in, 16 in]}",
		"top: {outline: {diameter: 30 cm}, thickness: 2 cm, wood: [{species: european-ash}]}\nbase: {length: 20 cm, width: 18 cm}\n": "write footprint: {length: 20 cm, width: 18 cm}",
	} {
		_, findings := ParsePiece("piece.yaml", []byte("serial: OY-1\ntitle: T\nkind: bench\nfinished: 2026-01-02\n"+lines), Defaults{})
		if len(findings) != 1 || findings[0].Rank != Fault || findings[0].Remedy != want {
			t.Errorf("%s: %+v, want %s", lines, findings, want)
		}
	}
	_, findings := ParsePiece("piece.yaml", []byte("serial: OY-1\ntitle: T\nkind: bench\nfinished: 2026-01-02\ntop: {length: 48, thickness: 2 in, wood: [{species: european-ash}]}\n"), Defaults{})
	if len(findings) < 2 || strings.Contains(findings[0].Remedy+findings[1].Remedy, "{length: 48}") {
		t.Errorf("half an outline: %+v", findings)
	}
}

// A key without its colon, and one with a colon of another alphabet, are called that.
func TestColonsThatAreNone(t *testing.T) {
	for line, want := range map[string]string{
		"packing": "there is no colon behind packing", "kind： bench": "another alphabet", "kind：bench": "another alphabet", "packing：": "another alphabet", "wonderful": "there is no colon behind wonderful",
	} {
		spec := strings.Replace(minimalSpec("title: T"), "kind: bench\n", "", 1)
		if !strings.HasPrefix(line, "kind") {
			spec = minimalSpec("title: T")
		}
		_, findings := ParsePiece("piece.yaml", []byte(spec+line+"\n"), Defaults{})
		if len(findings) == 0 || findings[0].Rank != Fault || !strings.Contains(findings[0].Message, want) {
			t.Errorf("%s: %+v", line, findings)
		}
		for _, f := range findings[min(1, len(findings)):] {
			if f.Rank == Fault {
				t.Errorf("%s: a second fault: %+v", line, f)
			}
		}
	}
}

// A wood that is said alone is its species, for one and for several, and setting one in
// the place of all that is known of a wood is refused.
func TestAWoodAlone(t *testing.T) {
	for wood, want := range map[string]string{"Walnut": "Walnut", "[white oak, walnut]": "white oak, walnut", "[{species: white oak, share: 60 %}, {species: walnut, share: 40 %}]": "white oak, walnut"} {
		p, findings := ParsePiece("piece.yaml", []byte("serial: OY-1\ntitle: T\nkind: bench\nfinished: 2026-01-02\ntop: {outline: {diameter: 30 cm}, thickness: 2 cm, wood: "+wood+"}\n"), Defaults{})
		var got []string
		for _, w := range p.Top.Wood {
			got = append(got, w.Species.V)
			if w.At.Line != 5 || w.Species.At.Line != 5 {
				t.Errorf("%s: no place: %+v", wood, w)
			}
		}
		if strings.Join(got, ", ") != want || len(findings) > 0 && findings[0].Rank == Fault {
			t.Errorf("%s: %q, %+v", wood, got, findings)
		}
	}
	if _, err := parseAssignment("top.wood=walnut"); err == nil || !strings.Contains(err.Error(), "top.wood.species") {
		t.Errorf("set top.wood=walnut: %v", err)
	}
	const spec = "serial: OY-1\ntitle: T\nkind: bench\nfinished: 2026-01-02\ntop:\n  outline: {diameter: 30 cm}\n  thickness: 2 cm\n  wood: white oak  # of the yard\n"
	for set, want := range map[string]string{
		"top.wood.species=walnut": "  wood: {species: walnut}  # of the yard\n", "top.wood.moisture=9 %": "  wood: {species: white oak, moisture: 9 %}  # of the yard\n",
	} {
		a, err := parseAssignment(set)
		if err != nil {
			t.Fatal(err)
		}
		after, changes, _, err := setIn(t.Context(), "piece.yaml", []byte(spec), Defaults{}, []*Assignment{a})
		if err != nil || string(after) != strings.Replace(spec, "  wood: white oak  # of the yard\n", want, 1) || len(changes) != 1 || !strings.Contains(changes[0].Before, "wood: white oak") {
			t.Errorf("%s: %v, %s, %+v", set, err, after, changes)
		}
	}
}
