package piece

import (
	"strings"
	"testing"
)

// Whichever line of a fresh file loses its # and keeps the space behind it, that
// line is named, and no other is blamed.
func TestASpaceLeftBehindAHash(t *testing.T) {
	fresh := strings.Split(string(Starter("console table", "OY-0395", words(t).Say)), "\n")
	tried := 0
	for i, line := range fresh {
		body, ok := strings.CutPrefix(line, "#")
		if !ok || !strings.HasPrefix(body, " ") || strings.HasPrefix(strings.TrimSpace(body), "#") || strings.HasPrefix(body, "       ") {
			continue // no key, or one that hangs on others
		}
		key, _, ok := strings.Cut(strings.TrimSpace(body), ":")
		if !ok || indentOf(body) > 3 {
			continue
		}
		if indentOf(body) == 3 && !underTop(fresh, i) {
			continue // its group is still a remark
		}
		lines := append([]string{}, fresh...)
		lines[i] = body
		_, findings := ParsePiece("piece.yaml", []byte(strings.Join(lines, "\n")), Defaults{})
		said := false
		for _, f := range findings {
			if f.Code == "spec.syntax" {
				if f.Line != i+1 || !strings.Contains(f.Remedy, "#") {
					t.Errorf("line %d, %s: line %d was blamed: %s; %s", i+1, key, f.Line, f.Message, f.Remedy)
				}
				said = true
			}
		}
		if !said {
			t.Errorf("line %d, %s: nothing was said: %+v", i+1, key, findings)
		}
		tried++
	}
	if tried < 20 {
		t.Errorf("only %d lines were tried", tried)
	}
}

// underTop reports whether the nearest line above with a key in column 0 is top,
// which is no remark.
func underTop(lines []string, n int) bool {
	for i := n - 1; i >= 0; i-- {
		if strings.HasPrefix(lines[i], "top:") {
			return true
		}
		if l := strings.TrimPrefix(lines[i], "# "); l != "" && l[0] != ' ' && l[0] != '#' {
			return false
		}
	}
	return false
}

// A whole group that lost its # and kept the space is one slip, and its values
// are read.
func TestAGroupLeftOneSpaceIn(t *testing.T) {
	const spec = "serial: OY-0396\ntitle: T\nkind: bench\nfinished: 2026-01-02\ntop:\n  outline: {length: 50 in, width: 12 in}\n  thickness: 2 in\n  wood:\n    - species: wych-elm\n base:\n   material: steel\n   weight: 9.4 kg\nprice:\n  amount: 300\n"
	p, findings := ParsePiece("piece.yaml", []byte(spec), Defaults{})
	if len(findings) != 1 || findings[0].Line != 10 || findings[0].Column != 2 || !strings.Contains(findings[0].Message, "2 more") {
		t.Errorf("got %+v", findings)
	}
	if p.Base == nil || p.Base.Weight.V != 9.4 || p.Price == nil {
		t.Errorf("what was mended was not read: %+v", p.Base)
	}
}

// Three spaces a level are right where they are kept to, and a slip elsewhere is
// not laid to them.
func TestThreeSpacesALevel(t *testing.T) {
	const spec = "serial: OY-0397\ntitle: T\nkind: bench\nfinished: 2026-01-02\ntop:\n   outline: {length: 50 in, width: 12 in}\n   thickness: 2 in\n   wood:\n      - species: wych-elm\n"
	if _, findings := ParsePiece("piece.yaml", []byte(spec), Defaults{}); len(findings) != 0 {
		t.Errorf("got %+v", findings)
	}
	_, findings := ParsePiece("piece.yaml", []byte(spec+"glue: [pva-d3\n"), Defaults{})
	if len(findings) != 1 || strings.Contains(findings[0].Remedy, "#") {
		t.Errorf("got %+v", findings)
	}
}

func indentOf(line string) int { return len(line) - len(strings.TrimLeft(line, " ")) }
