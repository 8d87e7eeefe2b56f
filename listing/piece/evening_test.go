package piece

import (
	"strings"
	"testing"
)

// Slips of one evening, each told with the remedy that works when it is followed to the
// letter. Days of the months by the calendar.
func TestSlipsOfAnEvening(t *testing.T) {
	const head = "serial: A-1\ntitle: Table\nkind: side table\n"
	const top = "finished: 2026-05-01\ntop:\n  outline:\n    length: 60 cm\n    width: 40 cm\n  thickness: 2 cm\n  wood:\n    species: european-ash\n"
	for _, c := range []struct{ name, spec, says, remedy string }{
		{"one space short", head + strings.Replace(top, "    width", "   width", 1), "one space too far out", "put one space more before it, if it belongs with line 7"},
		{"a # and its space", head + top + "base:\n  material: steel\n   style: two frames\n", "one space too far in", "take the one space behind it away too"},
		{"no such day", head + strings.Replace(top, "2026-05-01", "31.11.2026", 1), "November has 30 days", "write the right day, like this: 2026-11-30"},
		{"no such day, slashes", head + strings.Replace(top, "2026-05-01", "30/02/2026", 1), "February has 28 days", "2026-02-28"},
		{"day and month", head + strings.Replace(top, "2026-05-01", "13.12.2026", 1), "not in the order", "write 2026-12-13"},
		{"a wood's name", head + strings.Replace(top, "species", "name", 1), "is not a key that is known in top.wood", "did you mean \"species\""},
	} {
		_, findings := ParsePiece("piece.yaml", []byte(c.spec), Defaults{})
		got := ""
		for _, f := range findings {
			if strings.Contains(f.Message, c.says) && strings.Contains(f.Remedy, c.remedy) {
				got = f.Remedy
			}
		}
		if got == "" {
			t.Errorf("%s: %+v", c.name, findings)
		}
	}
	p, findings := ParsePiece("piece.yaml", []byte(head+strings.Replace(top, "    width", "   width", 1)), Defaults{})
	if p.Top.Outline.Width.V != 400 || len(findings) != 1 {
		t.Errorf("the line is not read where it belongs: %+v", findings)
	}
}
