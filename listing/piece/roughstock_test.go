package piece

import (
	"strings"
	"testing"
)

// What rough stock is when it is planed: 13/16 in of 4/4, 1 1/16 of 5/4, 1 5/16 of 6/4,
// 1 3/4 of 8/4 (the trade's surfaced sizes; from memory). The remedy never names a
// size that is thicker than the stock.
func TestRoughStockIsThinnerWhenItIsPlaned(t *testing.T) {
	for rough, want := range map[string]string{"4/4": "13/16 in", "5/4": "1 1/16 in", "6/4": "1 5/16 in", "8/4": "1 3/4 in", "12/4": "2 3/4 in"} {
		_, found := ParsePiece("piece.yaml", []byte("serial: A1\ntitle: T\nkind: desk\nfinished: 2026-01-01\nunits: in\ntop: {outline: {length: 40, width: 20}, thickness: "+rough+", wood: oak}\n"), Defaults{})
		said := ""
		for _, f := range found {
			if f.Code == "spec.rough" {
				said = f.Remedy
			}
		}
		if !strings.Contains(said, "such as "+want+";") {
			t.Errorf("%s: %q, want %s", rough, said, want)
		}
	}
}
