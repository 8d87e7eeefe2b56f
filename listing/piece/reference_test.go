package piece

import (
	"regexp"
	"strings"
	"testing"

	"slabfolio/listing/units"
	"slabfolio/testdata/beside"
)

// contractSpec cuts the example spec out of the contract.
func contractSpec(t *testing.T) string {
	t.Helper()
	text := string(beside.Read(t, "CONTRACT.md"))
	start := strings.Index(text, "    serial: OY-0142")
	if start < 0 {
		t.Fatal("the contract's example spec is not where it was")
	}
	var lines []string
	for line := range strings.SplitSeq(text[start:], "\n") {
		if line != "" && !strings.HasPrefix(line, "    ") {
			break
		}
		lines = append(lines, strings.TrimPrefix(line, "    "))
	}
	return strings.Join(lines, "\n")
}

// The contract's own example is read without a single finding.
func TestContractExampleIsRight(t *testing.T) {
	p, findings := ParsePiece("piece.yaml", []byte(contractSpec(t)), Defaults{})
	for _, f := range findings {
		t.Errorf("%s:%d:%d: %s: %s; %s", f.File, f.Line, f.Column, f.Rank, f.Message, f.Remedy)
	}
	if p.Materials[0].Batch.V != "A1142" || p.Top.Thickness.V != units.Length(1.625*25.4) || p.Packing.Legs.V != "off" {
		t.Errorf("values of the example are not as written: batch %q, thickness %v, legs %q", p.Materials[0].Batch.V, p.Top.Thickness.V, p.Packing.Legs.V)
	}
	if got := p.Base.Fixing.Count; got.V != 8 || got.At.Line == 0 {
		t.Errorf("fixing.count = %+v, want 8 with its place", got)
	}
}

// The contract's example satisfies the schema, but for the one value with a
// comma inside { }, which YAML itself reads as a key; in quotes it does.
func TestContractExampleSatisfiesSchema(t *testing.T) {
	text := contractSpec(t)
	quoted := strings.Replace(text, "assembly: eight bolts, 5 mm key", `assembly: "eight bolts, 5 mm key"`, 1)
	if quoted == text {
		t.Error("the contract's example no longer has the value with a comma")
	}
	data, err := Schema()
	if err := compiled(t, data, err).Validate(asJSON(t, quoted)); err != nil {
		t.Error(err)
	}
}

// The words of the spec are the contract's, in its order.
func TestWordsAreTheContracts(t *testing.T) {
	contract := strings.Join(strings.Fields(regexp.MustCompile(`\s*\([^()]*\)`).ReplaceAllString(string(beside.Read(t, "CONTRACT.md")), "")), " ")
	for name, words := range map[string][]string{
		"kinds": Kinds, "availabilities": availabilities, "finish families": FinishFamilies, "views": Views, "cuts": Cuts, "grains": Grains, "packing": PackingHow, "tints": tints,
	} {
		if !strings.Contains(contract, strings.Join(words, ", ")) {
			t.Errorf("the %s are not the contract's: %v", name, words)
		}
	}
	for _, g := range GlueClasses {
		if !strings.Contains(string(beside.Read(t, "CONTRACT.md")), g) {
			t.Errorf("the contract does not know the glue %q", g)
		}
	}
}
