package report

import (
	"fmt"
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// What may hurt somebody comes before money, money before faults, those before
// doubts, a doubt about the piece before one about a photo. Common sense of the
// trade, no source.
func TestByUrgency(t *testing.T) {
	in := []piece.Finding{
		{Rank: piece.Note, Code: "photo.views"}, {Rank: piece.Doubt, Code: "photo.small-print"}, {Rank: piece.Doubt, Code: "wood.wet"}, {Rank: piece.Fault, Code: "photo.refused"},
		{Rank: piece.Doubt, Code: "price.no-currency"}, {Rank: piece.Note, Code: "stability.drawer"}, {Rank: piece.Note, Code: "price.of-all"}, {Rank: piece.Note, Code: "price.below-cost"}, {Rank: piece.Doubt, Code: "stability.falls"},
	}
	var got []string
	for _, f := range ByUrgency(in) {
		got = append(got, f.Code)
	}
	want := "stability.falls price.below-cost price.no-currency photo.refused wood.wet photo.small-print photo.views stability.drawer price.of-all"
	if strings.Join(got, " ") != want {
		t.Errorf("%s, want %s", strings.Join(got, " "), want)
	}
	if in[0].Code != "photo.views" {
		t.Error("the argument was sorted")
	}
}

// Three pieces worked out by hand: a batch of four boards at 25 each, 2 hours and
// 60 spent in all (15 each), and a table at 900 that cost 1,000; a third has no
// price and no costs, a fourth is in dollars.
func TestMonths(t *testing.T) {
	boards := &Report{Public: Public{Finished: "2026-09-03", Quantity: 4, Price: &Price{Amount: 25, Currency: "GBP"}}, Costs: &Costs{Hours: 2, Floor: 15, Margin: 10, Currency: "GBP"}}
	table := &Report{Public: Public{Finished: "2026-09-30", Quantity: 1, Price: &Price{Amount: 900, Currency: "GBP"}}, Costs: &Costs{Hours: 30, Floor: 1000, Margin: -100, Currency: "GBP"}}
	bare := &Report{Public: Public{Finished: "2026-09-11", Quantity: 1}}
	abroad := &Report{Public: Public{Finished: "2026-10-01", Price: &Price{Amount: 500, Currency: "USD"}}}
	months := Months([]*Report{bare, boards, table, abroad})
	want := "[{2026-10 USD 1 0 0 0 500 0 false} {2026-09 GBP 6 5 32 1060 1000 -60 true}]"
	if got := fmt.Sprint(months); got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got, want := fmt.Sprint(Total(append(months, months[1]))), "[{ USD 1 0 0 0 500 0 false} { GBP 12 10 64 2120 2000 -120 true}]"; got != want {
		t.Errorf("in all %s, want %s", got, want)
	}
}
