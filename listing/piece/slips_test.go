package piece

import (
	"fmt"
	"strings"
	"testing"
)

// slipKinds are the slips of the hand that happen in a spec. Each changes one
// line, or returns it as it was when it does not apply.
var slipKinds = []struct {
	name string
	make func(line string) string
}{
	{"no colon", func(l string) string { return strings.Replace(l, ": ", " ", 1) }},
	{"no space behind the colon", func(l string) string { return strings.Replace(l, ": ", ":", 1) }},
	{"equals for colon", func(l string) string { return strings.Replace(l, ": ", " = ", 1) }},
	{"one space too many before", func(l string) string { return " " + l }},
	{"one space too few before", func(l string) string { return strings.TrimPrefix(l, " ") }},
	{"a tab before", func(l string) string { return "\t" + strings.TrimLeft(l, " ") }},
	{"quote opened", func(l string) string { return strings.Replace(l, ": ", ": \"", 1) }},
	{"bracket not closed", func(l string) string {
		if i := strings.LastIndexAny(l, "]}"); i >= 0 {
			return l[:i] + l[i+1:]
		}
		return l
	}},
	{"bracket closed twice", func(l string) string {
		if strings.HasSuffix(l, "]") || strings.HasSuffix(l, "}") {
			return l + l[len(l)-1:]
		}
		return l
	}},
	{"letters changed over in the key", func(l string) string {
		body := strings.TrimLeft(l, " -")
		if key, _, ok := strings.Cut(body, ":"); ok && len(key) > 2 && key[0] != key[1] {
			return l[:len(l)-len(body)] + body[1:2] + body[:1] + body[2:]
		}
		return l
	}},
	{"an @ before the value", func(l string) string { return strings.Replace(l, ": ", ": @", 1) }},
	{"a colon in the value", func(l string) string {
		if key, _, ok := strings.Cut(l, ": "); ok {
			return key + ": one: two"
		}
		return l
	}},
}

// A slip of the hand anywhere in a full spec is reported on its own line, as a
// rule, and alone. The shares are what was reached, less a little; a group with
// one key may begin in any column, so that two slips are none.
func TestSlipsAreFoundWhereTheyAre(t *testing.T) {
	text := example(pieceKeys, "", leftOfWays(0), "")
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	made, there, near, faults, silent := 0, 0, 0, 0, map[string]int{}
	var astray []string
	for _, kind := range slipKinds {
		for i, line := range lines {
			changed := kind.make(line)
			if changed == line {
				continue
			}
			mine := append([]string{}, lines...)
			mine[i] = changed
			_, findings := ParsePiece("piece.yaml", []byte(strings.Join(mine, "\n")+"\n"), Defaults{})
			made++
			for _, f := range findings {
				if f.Rank == Fault {
					faults++
				}
			}
			switch first := firstFault(findings); {
			case first == 0:
				silent[kind.name]++
				t.Logf("%s on line %d (%q): nothing was said", kind.name, i+1, changed)
			case first == i+1:
				there++
			case first == i || first == i+2:
				near++
			default:
				astray = append(astray, fmt.Sprintf("%s on line %d (%q): reported on line %d", kind.name, i+1, changed, first))
			}
		}
	}
	quiet := 0
	for _, n := range silent {
		quiet += n
	}
	t.Logf("%d slips: %d on their line, %d one line off, %d astray, %d silent; %d faults", made, there, near, len(astray), quiet, faults)
	for _, a := range astray {
		t.Log(a)
	}
	if made < 1000 || float64(there) < 0.98*float64(made) || len(astray) > 2 || quiet > 6 || float64(faults) > 1.1*float64(made) {
		t.Errorf("%d slips: %d on their line, %d astray, silent %v, %d faults", made, there, len(astray), silent, faults)
	}
}

func firstFault(findings []Finding) int {
	for _, f := range findings {
		if f.Rank == Fault {
			return f.Line
		}
	}
	return 0
}
