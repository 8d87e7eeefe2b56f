package sheet

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"slabfolio/listing/report"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

// Six languages, of which German has the longest words and French the longest
// sentences.
var everyLanguage = []string{"en", "en-US", "de", "fr", "es", "nl"}

// drawnPaper is a drawn piece with names of any length, for sale or not, and how its
// papers are made: language, paper, system, photos, size of the care card.
func drawnPaper(t *testing.T, rng *rand.Rand) (*report.Report, *Options) {
	t.Helper()
	r := drawnSpec(rng)
	p := &r.Public
	p.Serial = []string{"OY-0142", "7", "WORKSHOP-2026-0000417-B"}[rng.IntN(3)]
	p.Quantity = []int{1, 1, 3, 24}[rng.IntN(4)]
	p.Available = []string{"in stock", "in stock", "made to order", "sold"}[rng.IntN(4)]
	if rng.IntN(4) > 0 {
		p.Price = &report.Price{Amount: []float64{64, 1890, 128450.5}[rng.IntN(3)], Currency: "GBP", Note: []string{"", "collected, or delivered at cost"}[rng.IntN(2)]}
	}
	if rng.IntN(3) == 0 {
		m := *sampleMaker
		m.Name = "The Ostrel Yard Company of Joiners, Turners and Casters of Resin"
		m.Address = "The Old Boat Shed behind the Kiln\n3 Quay Lane\nOstrel-on-the-Water\nNorthshire"
		p.Maker = &m
	}
	for i := range rng.IntN(4) * rng.IntN(2) {
		p.Materials = append(p.Materials, report.Material{Name: fmt.Sprintf("wood no. %d of a long name", i), Botanical: "Lignum fluviale var. septentrionale", Share: 2.5, Origin: "found on the shore", Role: "wood"})
	}
	r.Home = []string{"", "US", "GB", "DE"}[rng.IntN(4)]
	hero, tall, more := drawn(t, 900, 600), drawn(t, 600, 900), drawn(t, 402, 300)
	o := options(t, [][]Picture{nil, {hero}, {tall}, {hero, tall, more}}[rng.IntN(4)]...)
	words, err := templates.Open(everyLanguage[rng.IntN(len(everyLanguage))])
	if err != nil {
		t.Fatal(err)
	}
	o.Words, o.Paper = words, []string{"a4", "letter"}[rng.IntN(2)]
	o.Prefer = []units.System{units.Inches, units.Centimetres, units.Millimetres}[rng.IntN(3)]
	o.Card = Card{Size: append([]string{""}, cardNames...)[rng.IntN(5)], Sheet: rng.IntN(2) == 0}
	return r, o
}

// pageOf is the size of a paper's pages, in millimetres.
func pageOf(kind string, o *Options) [2]float64 {
	paper := paperSizes[o.Paper]
	switch kind {
	case "label":
		if o.Paper == "letter" {
			return [2]float64{paper[1] / 2, paper[0] / 2}
		}
		return [2]float64{148, 105}
	case "care":
		size := o.Card.Size
		if size == "" {
			size = map[string]string{"a4": "a5", "letter": "half letter"}[o.Paper]
		}
		if !o.Card.Sheet {
			return cardSizes[size]
		}
		if _, _, turned := cardsOn(paper, cardSizes[size]); turned {
			return [2]float64{paper[1], paper[0]}
		}
	}
	return paper
}

// In every paper but the sheet, which has sweeps of its own, no text stands on other
// text or on a photo, nor leaves the page, whatever the piece and the language; the care
// card and the certificate are one page, and no page of a shipping sheet holds a few
// lines alone.
func TestNoPaperCrowds(t *testing.T) {
	rng := rand.New(rand.NewPCG(14, 41))
	n := 24
	if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
		n = 200
	}
	emptiest, made := 1.0, 0
	for i := range n {
		r, o := drawnPaper(t, rng)
		for _, kind := range []string{"care", "label", "certificate", "shipping"} {
			data, err := documents[kind](r, o)
			if err != nil {
				t.Fatal(err)
			}
			made++
			what := fmt.Sprintf("piece %d, %s in %s on %s, card %+v", i, kind, o.Words.Lang, o.Paper, o.Card)
			size := pageOf(kind, o)
			read := readBack(t, data)
			for _, f := range crowding(t, read, size[0], size[1], 3) {
				t.Errorf("%s: %s", what, f)
			}
			if (kind == "care" || kind == "certificate") && len(read) != 1 {
				t.Errorf("%s: %d pages", what, len(read))
			}
			for k, p := range read {
				for _, f := range wordsOnPhotos(t, p) {
					t.Errorf("%s: page %d: %s", what, k+1, f)
				}
				if kind != "shipping" {
					continue
				}
				share, lines, _ := reach(p, size[1])
				emptiest = min(emptiest, share)
				if lines < scarce {
					t.Errorf("%s: page %d of %d has %d lines", what, k+1, len(read), lines)
				}
			}
		}
	}
	t.Logf("%d papers; the emptiest page of a shipping sheet is filled to %.0f %%", made, 100*emptiest)
}

// Nor does it in labels and price lists of 1 to 40 drawn pieces.
func TestNoListCrowds(t *testing.T) {
	rng := rand.New(rand.NewPCG(14, 43))
	grids := []LabelGrid{{}, {Rows: 4, Columns: 2, Left: 5, Top: 13, GapAcross: 2, GapDown: 1}, {Rows: 8, Columns: 3, Left: 6, Top: 12, GapAcross: 3}, {Rows: 7, Columns: 2, Left: 8, Top: 15}}
	n := 10
	if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
		n = 50
	}
	for i := range n {
		var all []*report.Report
		r, o := drawnPaper(t, rng)
		for range 1 + rng.IntN(40) {
			all = append(all, r)
			r, _ = drawnPaper(t, rng)
		}
		labels, err1 := Labels(all, grids[i%len(grids)], o)
		prices, err2 := PriceList(all, o)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		size := paperSizes[o.Paper]
		for kind, data := range map[string][]byte{"labels": labels, "price list": prices} {
			for _, f := range crowding(t, readBack(t, data), size[0], size[1], 2) {
				t.Errorf("%s %d of %d pieces in %s on %s: %s", kind, i, len(all), o.Words.Lang, o.Paper, f)
			}
		}
		read := readBack(t, prices)
		for k, p := range read {
			lines := 0
			for _, run := range p.texts {
				if strings.TrimSpace(run.text) != "" && run.y*pt > 20 {
					lines++
				}
			}
			if k > 0 && lines < scarce {
				t.Errorf("price list %d: page %d of %d has %d runs of text", i, k+1, len(read), lines)
			}
		}
	}
}
