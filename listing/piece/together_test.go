package piece

import (
	"fmt"
	"testing"
)

// What a price is of, as its note says it in the languages of the papers. The words and
// their meanings are from memory; what does not say it clearly is asked about.
func TestWhatAPriceIsOf(t *testing.T) {
	all, each, ask := "price.of-all", "", "price.of-which"
	for _, c := range []struct {
		quantity int
		want     string
		notes    []string
	}{
		{2, all, []string{"for the pair", "per pair", "price per pair", "per set", "the set", "the set of 2", "set", "pair", "for both", "both, collected", "collected; for the pair", "for the pair, collected", "for the pair of boards", "each pair",
			"das Paar", "pro Paar", "je Paar", "Preis pro Paar", "für das Paar", "das Set", "beide", "für zwei", "für beide", "die zwei", "je zwei", "zusammen",
			"la paire", "par paire", "pour la paire", "prix par paire", "le lot", "les deux", "pour les deux", "el par", "por pareja", "por el par", "los dos", "por los dos", "el juego",
			"per paar", "per stel", "het paar", "voor het stel", "per set", "voor twee", "voor de twee", "for two", "for the two", "for all", "all of them", "for 2", "for all two", "for two boards", "together"}},
		{4, all, []string{"for the set", "set of four", "the set of 4", "for four", "for all four", "für alle vier", "pour les quatre", "for all"}},
		{12, all, []string{"the dozen", "the set of twelve", "das Dutzend"}},
		{4, ask, []string{"per pair", "für zwei", "for two", "both", "set of six", "par paire"}},
		{2, ask, []string{"set in oak", "set price", "Lot 7", "together with the bench", "zusammen mit Bank", "inclusive pair of legs", "for four", "the set price", "without the pair", "not for the pair", "set of legs", "carriage for three of them", "one of a pair"}},
		{2, each, []string{"", "each", "je", "je Stück", "pro Stück", "la pièce", "per stuk", "cada uno", "each, or 180 for the pair", "each; a set is less", "each of the pair", "collected", "excl. shipping per parcel", "plus VAT, per law", "pro forma", "free delivery, lots of oak",
			"par personne", "on par with others", "livraison par transporteur", "les frais en sus", "for you", "for two days", "valid for 30 days", "free delivery for 50 km", "Lieferung für zwei Personen", "garantie pour 2 ans", "livré pour deux jours", "for collection"}},
		{1, each, []string{"for the pair", "the set", "for two"}},
	} {
		for _, note := range c.notes {
			p, findings := ParsePiece("piece.yaml", fmt.Appendf(nil, "serial: A1\ntitle: Oak board\nkind: serving board\nfinished: 2026-09-18\nquantity: %d\nprice: {amount: 96, currency: EUR, note: %q}\n", c.quantity, note), Defaults{})
			got := ""
			for _, f := range findings {
				if f.Code == all || f.Code == ask {
					got = f.Code
				}
			}
			if got != c.want || p.PricedTogether() != (c.want == all) {
				t.Errorf("%d, %q: %q, together %v; want %q", c.quantity, note, got, p.PricedTogether(), c.want)
			}
		}
	}
}
