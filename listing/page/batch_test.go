package page

import (
	"strings"
	"testing"

	"slabfolio/listing/report"
)

// A batch of boards: a board has no top and no height of its own, a share below
// one percent is not none, and the price is that of one.
func TestABatchOfBoards(t *testing.T) {
	mm := func(v float64) *float64 { return &v }
	r := &report.Report{Public: report.Public{
		Serial: "OY-0392", Title: "Boards", Kind: "serving board", Finished: "2026-11-30", Quantity: 12,
		Dimensions: &report.Dimensions{Length: mm(406.4), Width: mm(228.6), Height: mm(22.2), TopThickness: mm(22.2)},
		Materials:  []report.Material{{Name: "Hard maple", Share: 99.6, Role: "wood"}, {Name: "Cast resin", Share: 0.4, Role: "resin"}},
		Price:      &report.Price{Amount: 48.5, Currency: "EUR"},
	}}
	data, err := Text(r, options(t))
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for _, want := range []string{"\nThickness: ", "Cast resin, 0.4%\n", "Price of one: €48.50\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	html, err := Listing(r, options(t))
	if err != nil || !strings.Contains(string(html), "€48.50 each") {
		t.Errorf("the page does not say that the price is for each: %v", err)
	}
	for _, odd := range []string{"Height", "of the top"} {
		if strings.Contains(text, odd) {
			t.Errorf("%q is in\n%s", odd, text)
		}
	}
}
