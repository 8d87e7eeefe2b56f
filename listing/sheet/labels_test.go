package sheet

import (
	"strings"
	"testing"

	"slabfolio/listing/report"
)

// stock is a collection: two pieces in stock, one of them three times, one made to
// order, one reserved, one sold, and one in stock without a price.
func stock() []*report.Report {
	piece := func(serial, title, available string, quantity int, price float64) *report.Report {
		r := usual()
		p := &r.Public
		p.Serial, p.Title, p.Available, p.Quantity = serial, title, available, quantity
		if price > 0 {
			p.Price = &report.Price{Amount: price, Currency: "GBP", Note: "collected"}
		}
		return r
	}
	return []*report.Report{
		piece("OY-5", "Fifth", "in stock", 1, 1450), piece("OY-1", "First", "in stock", 3, 60.5), piece("OY-2", "Second", "made to order", 1, 12000),
		piece("OY-3", "Third", "reserved", 1, 700), piece("OY-4", "Fourth", "sold", 1, 800), piece("OY-6", "Sixth", "in stock", 1, 0),
	}
}

// Labels are of what is in stock, as many as there are, by serial.
func TestLabelsAreOfTheStock(t *testing.T) {
	data, err := Labels(stock(), LabelGrid{}, options(t))
	if err != nil {
		t.Fatal(err)
	}
	text := layoutWords(t, data)
	for word, want := range map[string]int{"First": 3, "Fifth": 1, "Sixth": 1, "Second": 0, "Third": 0, "Fourth": 0, "£1,450": 1, "£60.50 each": 3} {
		if n := strings.Count(text, word); n != want {
			t.Errorf("%q stands there %d times, want %d: %s", word, n, want, text)
		}
	}
	if strings.Index(text, "OY-1") > strings.Index(text, "OY-5") {
		t.Error("the labels are not by serial")
	}
	keep(t, "labels", data)
}

// Each label stands within its own place on the sheet, whatever the stock of labels:
// here five grids, from large to as small as a label may be.
func TestLabelsStandOnTheirPlaces(t *testing.T) {
	for _, g := range []LabelGrid{
		{}, {Rows: 4, Columns: 2, Width: 99, Height: 67, Left: 5, Top: 13, GapAcross: 2, GapDown: 1},
		{Rows: 8, Columns: 3, Left: 6, Top: 12, GapAcross: 3}, {Rows: 7, Columns: 2, Width: 95, Height: 38, Left: 8, Top: 15}, {Rows: 1, Columns: 1, Left: 20, Top: 20},
	} {
		for _, paper := range []string{"a4", "letter"} {
			if !g.Fits(paper) {
				continue // four of 67 mm are higher than a letter
			}
			o := options(t)
			o.Paper = paper
			data, err := Labels(stock(), g, o)
			if err != nil {
				t.Errorf("%+v on %s: %v", g, paper, err)
				continue
			}
			size := paperSizes[paper]
			for _, f := range crowding(t, readBack(t, data), size[0], size[1], 2) {
				t.Errorf("%+v on %s: %s", g, paper, f)
			}
			full, _ := g.onPaper(size)
			for _, p := range readBack(t, data) {
				for _, run := range p.texts {
					b := boxOf(t, run)
					col := int((b.x0*pt - full.Left) / (full.Width + full.GapAcross))
					right := full.Left + float64(col)*(full.Width+full.GapAcross) + full.Width
					row := int((size[1] - b.y1*pt - full.Top) / (full.Height + full.GapDown))
					foot := full.Top + float64(row)*(full.Height+full.GapDown) + full.Height
					if b.x1*pt > right || size[1]-b.y0*pt > foot {
						t.Errorf("%+v on %s: %q leaves its label", g, paper, run.text)
					}
				}
			}
		}
	}
}

// A grid that leaves its paper is refused.
func TestLabelGridsThatDoNotFit(t *testing.T) {
	for _, g := range []LabelGrid{{Rows: 4, Columns: 3, Width: 99, Height: 60}, {Rows: 9, Columns: 1, Width: 99, Height: 60}, {Rows: 100, Columns: 1}, {Rows: 2, Columns: 2, Left: 106}} {
		if g.Fits("a4") {
			t.Errorf("%+v fits on A4", g)
		}
		if _, err := Labels(stock(), g, options(t)); err == nil {
			t.Errorf("%+v is laid out", g)
		}
	}
}

// The foot of a price list says whose it is, when the newest piece was finished, and
// which page of how many. It knows no clock: the same pieces make the same bytes.
func TestPriceListFoot(t *testing.T) {
	for finished, want := range map[string]string{"2026-11-30": "Ostrel Yard, pieces finished up to 30 November 2026", "": "Ostrel Yard"} {
		all := stock()
		for _, r := range all {
			r.Public.Finished = finished
		}
		data, err := PriceList(all, options(t))
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(layoutWords(t, data)), " ")
		if !strings.Contains(text, want+"1 of 1") {
			t.Errorf("finished %q: %q is not at its foot: %s", finished, want, text)
		}
	}
}

// The price list has all that is for sale and has a price, and nothing else.
func TestPriceList(t *testing.T) {
	data, err := PriceList(stock(), options(t))
	if err != nil {
		t.Fatal(err)
	}
	text := layoutWords(t, data)
	for word, want := range map[string]int{"First": 1, "Second": 1, "Fifth": 1, "Third": 0, "Fourth": 0, "Sixth": 0, "£12,000": 1, "£60.50 each": 1, "made to order, collected": 1} {
		if n := strings.Count(text, word); n != want {
			t.Errorf("%q stands there %d times, want %d: %s", word, n, want, text)
		}
	}
	for _, f := range crowding(t, readBack(t, data), 210, 297, 8) {
		t.Error(f)
	}
	keep(t, "pricelist", data)
	for _, none := range [][]*report.Report{nil, stock()[3:5]} {
		prices, err1 := PriceList(none, options(t))
		labels, err2 := Labels(none, LabelGrid{}, options(t))
		if err1 != nil || err2 != nil || !strings.Contains(layoutWords(t, prices), "Nothing is for sale") || !strings.Contains(layoutWords(t, labels), "Nothing is in stock") {
			t.Errorf("of what is not for sale: %v, %v", err1, err2)
		}
	}
}
