package piece

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/listing/units"
)

// reference reads a file of the reference folder beside the repository.
func reference(t *testing.T, name string) []byte {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			break
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the test")
		}
		dir = up
	}
	data, err := os.ReadFile(filepath.Join(dir, "..", "shared", filepath.FromSlash(name)))
	if err != nil {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
			t.Fatal(err)
		}
		t.Skipf("the reference file %s is not beside the repository", name)
	}
	return data
}

// contractSpec cuts the example spec out of the contract.
func contractSpec(t *testing.T) string {
	t.Helper()
	text := string(reference(t, "CONTRACT.md"))
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
