package sheet

import (
	"strings"
	"testing"

	"slabfolio/listing/report"
)

// A care card has two sides and no more, and what stands on them is all the care
// and all the cautions, in their order.
func TestCareCardHasTwoSides(t *testing.T) {
	for name, c := range map[string]struct {
		r    *report.Report
		most int
	}{"shortest": {shortest(), 1}, "usual": {usual(), 2}, "desk": {desk(), 2}, "round": {round(), 2}} {
		for _, paper := range []string{"a4", "letter"} {
			o := options(t)
			o.Paper = paper
			data, err := Care(c.r, o)
			if err != nil {
				t.Fatal(err)
			}
			if n := pages(data); n > c.most {
				t.Errorf("%s on %s: %d sides", name, paper, n)
			}
		}
	}
}

// However the care is parted, front and back hold each paragraph once.
func TestCareIsPartedWhole(t *testing.T) {
	d, err := newDoc("care", usual(), options(t))
	if err != nil {
		t.Fatal(err)
	}
	d.open(148.5, 210)
	d.left, d.right, d.top, d.bottom, d.axis = 14, 14, 13, 17, 14
	d.newPage()
	all := len(d.r.Public.Care)
	whole := append(d.cardFront(all), d.cardBack(all)...).height()
	for n := 1; n < all; n++ {
		if got := append(d.cardFront(n), d.cardBack(n)...).height(); strings.TrimSpace(d.r.Public.Care[n].Text) == "" || got < whole-0.01 || got > whole+0.01 {
			t.Errorf("parted after %d: %.2f mm of text, whole %.2f", n, got, whole)
		}
	}
}
