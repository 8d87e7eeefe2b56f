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

// What is said of a bracket that is not closed, in the order in which it is said:
// the bracket alone where the rest only follows from it, and what is surely
// missing behind it where the file goes on.
func TestAnOpenBracketIsTheCause(t *testing.T) {
	const good = "title: Reed bench\nkind: bench\nfinished: 2026-03-14\ntop:\n  outline: {length: 54 in, width: 14 in}\n  thickness: 1 3/4 in\n  wood:\n    - species: wych-elm\n"
	const open = `spec.syntax "[" is opened here and not closed`
	for spec, want := range map[string][]string{
		"serial: [half a line":                                   {open},
		"serial: [half a line\n\n# a remark\n":                   {open},
		"serial: [half a line\n" + good:                          {open},
		"serial:   [half a line # and a remark\n" + good:         {open},
		"serial: RB-1\ntitle: {half a line\n":                    {strings.Replace(open, "[", "{", 1)},
		"serial: RB-1\n" + good + "found: [half a line":          {open},
		"serial: RB-1\n" + good + "glue: [pva-d3":                {open},
		"serial: [half a line\ntitle: Reed bench\nkind: bench\n": {open, "spec.missing finished is missing", "spec.missing top is missing"},
		"serial: RB-1\n" + good + "found: [not, open]\n":         {"spec.type found holds a list, but it needs a single value"},
	} {
		_, findings := ParsePiece("piece.yaml", []byte(spec), Defaults{})
		var got []string
		for _, f := range findings {
			if f.Rank == Fault {
				got = append(got, f.Code+" "+f.Message)
			}
		}
		if fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("%q:\n got %q\nwant %q", spec, got, want)
		}
	}
}
