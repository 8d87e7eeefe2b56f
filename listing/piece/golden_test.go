package piece

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"slabfolio/testdata/golden"
)

// say prints findings as a person reads them.
func say(findings []Finding) string {
	var b strings.Builder
	for _, f := range findings {
		fmt.Fprintf(&b, "%s:%d:%d: %s: %s\n    %s\n    | %s\n", f.File, f.Line, f.Column, f.Rank, f.Message, f.Remedy, f.Snippet)
	}
	return b.String()
}

// Every message of a spec, as a maker reads it. A file of faults gives all of
// them at once, each with its place and its line.
func TestMessages(t *testing.T) {
	inputs, err := filepath.Glob("testdata/messages/*.yaml")
	if err != nil || len(inputs) == 0 {
		t.Fatalf("no inputs: %v", err)
	}
	for _, input := range inputs {
		name := strings.TrimSuffix(filepath.Base(input), ".yaml")
		t.Run(name, func(t *testing.T) {
			data, err := os.ReadFile(input)
			if err != nil {
				t.Fatal(err)
			}
			var findings []Finding
			if strings.HasPrefix(name, "workshop") {
				_, findings = ParseWorkshop("workshop.yaml", data)
			} else {
				_, findings = ParsePiece("piece.yaml", data, Defaults{Today: Date{2026, 11, 1}})
			}
			for _, f := range findings {
				wellSaid(t, f)
			}
			golden.Check(t, filepath.ToSlash(strings.TrimSuffix(input, ".yaml"))+".golden", say(findings))
		})
	}
	goldens, err := filepath.Glob("testdata/messages/*.golden")
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range goldens {
		if !slices.Contains(inputs, strings.TrimSuffix(g, ".golden")+".yaml") {
			t.Errorf("%s is read by no test", g)
		}
	}
}

// code is the form of a finding's code.
var code = regexp.MustCompile(`^[a-z]+\.[a-z]+(-[a-z]+)*$`)

// wellSaid checks the form that every finding has.
func wellSaid(t *testing.T, f Finding) {
	t.Helper()
	first := []rune(f.Message)
	switch {
	case f.Line < 1 || f.Column < 1 || f.File == "":
		t.Errorf("%q has no place: %s:%d:%d", f.Message, f.File, f.Line, f.Column)
	case !code.MatchString(f.Code):
		t.Errorf("%q is no code", f.Code)
	case f.Message == "" || f.Remedy == "" || f.Code == "":
		t.Errorf("%+v lacks its message, remedy or code", f)
	case first[0] >= 'A' && first[0] <= 'Z' || strings.HasSuffix(f.Message, ".") || strings.HasSuffix(f.Remedy, "."):
		t.Errorf("%q; %q: not lower case without a full stop", f.Message, f.Remedy)
	}
}
