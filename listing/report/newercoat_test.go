package report

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// A finish hardens from its newest coat on. Where the log has one after last_coat, the
// dates on the papers are of an older one, and the maker is told: asked while the piece
// is at hand, noted where it had left before. A drawer's wax is no coat of the piece, and
// what never hardens has no date.
func TestCoatInTheLogAfterTheLast(t *testing.T) {
	const log = "log: [{date: 2026-08-02, did: DID}]\n"
	for _, c := range []struct {
		lines string
		rank  piece.Rank // "" for nothing
	}{
		{"finish: {family: hardwax-oil, last_coat: 2026-03-01}\n" + log, piece.Doubt},
		{"finish: {family: hardwax-oil, last_coat: 2026-03-01}\nbuyer: {delivered: 2026-04-01}\n" + log, piece.Note},
		{"finish: {family: hardwax-oil, last_coat: 2026-03-01}\nbuyer: {delivered: 2026-09-01}\n" + log, piece.Doubt},
		{"finish: {family: hardwax-oil, last_coat: 2026-08-02}\n" + log, piece.Rank("")},
		{"finish: {family: soap, last_coat: 2026-03-01}\n" + log, piece.Rank("")},
		{"finish: {family: hardwax-oil, last_coat: 2026-03-01}\n" + strings.Replace(log, "DID", "waxed the drawer runners", 1), piece.Rank("")},
	} {
		r := build(t, spec(t, strings.Replace(longBoard, "SPECIES", "european-oak", 1)+strings.Replace(c.lines, "DID", "oiled again", 1)), nil)
		f, got := found(r, "finish.newer-coat")
		if got != (c.rank != "") || got && (f.Rank != c.rank || !strings.Contains(f.Remedy, "last_coat: 2026-08-02")) {
			t.Errorf("%q: %v %+v, want %q", c.lines, got, f, c.rank)
		}
	}
}
