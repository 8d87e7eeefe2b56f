package piece

import (
	"strings"
	"testing"
)

// A kind that says that others made the piece counts as saying so, and one that says how
// many there are is asked to say it where it belongs.
func TestWhatAKindSaysInASpec(t *testing.T) {
	for _, c := range []struct{ lines, kind, work, remedy string }{
		{"kind: restored bench\n", "bench", "restored", "write kind: bench and work: restored"},
		{"kind: repaired stool\n", "stool", "repaired", "write kind: stool and work: repaired"},
		{"kind: restored bench\nwork: made\n", "bench", "made", ""},
		{"kind: bench\n", "bench", "", ""},
		{"kind: two benches\n", "", "", "write kind: bench and quantity: 2"},
		{"kind: pair of bedside tables\n", "", "", "write kind: side table and quantity: 2"},
		{"kind: Satz von vier Hocker\n", "", "", "write kind: stool and quantity: 4"},
	} {
		p, findings := ParsePiece("piece.yaml", []byte("serial: A-1\ntitle: Long seat\nfinished: 2026-05-01\n"+c.lines), Defaults{})
		remedy := ""
		for _, f := range findings {
			if f.Code == "spec.word" || f.Code == "spec.read-as" && strings.Contains(f.Remedy, "work") {
				remedy = f.Remedy
			}
		}
		if p.Kind.V != c.kind || p.Work.V != c.work || !strings.HasPrefix(remedy, c.remedy) || c.remedy == "" && remedy != "" {
			t.Errorf("%q: kind %q, work %q, %q", c.lines, p.Kind.V, p.Work.V, remedy)
		}
	}
	p := "serial: A-1\ntitle: Pair of stools\nkind: stool\nfinished: 2026-05-01\nquantity: 2\nprice: {amount: 400NOTE}\n"
	for note, doubted := range map[string]bool{"": true, ", note: each": false, ", note: for the pair": false} {
		_, findings := ParsePiece("piece.yaml", []byte(strings.Replace(p, "NOTE", note, 1)), Defaults{})
		got := false
		for _, f := range findings {
			got = got || f.Code == "price.of-which"
		}
		if got != doubted {
			t.Errorf("%q: doubted %t, want %t", note, got, doubted)
		}
	}
}
