package sheet

import (
	"strings"
	"testing"

	"slabfolio/listing/report"
)

// A care card is one side, whatever the piece, its size and the paper; at A5 its
// type is that of the sheet at least, to be read at arm's length.
func TestCareCardIsOneSide(t *testing.T) {
	for name, r := range samples() {
		for _, size := range append([]string{""}, cardNames...) {
			for _, paper := range []string{"a4", "letter"} {
				o := options(t)
				o.Paper, o.Card.Size = paper, size
				data, err := Care(r, o)
				if err != nil {
					t.Fatal(err)
				}
				if n := pages(data); n != 1 {
					t.Errorf("%s, %q on %s: %d sides", name, size, paper, n)
				}
				if size != "" && size != "a5" || name == "desk" || name == "fullest" { // much text of the maker's own
					continue
				}
				for _, p := range readBack(t, data) {
					for _, run := range p.texts {
						if run.size < 10 {
							t.Errorf("%s, %q on %s: %q in %.1f points", name, size, paper, run.text, run.size)
							break
						}
					}
				}
			}
		}
	}
}

// Every care and caution of the texts has a short form, but for the maker's own;
// and no short form is of a text that is no longer there.
func TestEveryCareTextHasAShortForm(t *testing.T) {
	w := words(t)
	short := map[string]bool{}
	for _, id := range w.IDs() {
		rest, ours := strings.CutPrefix(id, "card.")
		part, of, ok := strings.Cut(rest, ".")
		if !ours || !ok || part == "head" {
			continue
		}
		short[of] = true
		if !w.Has(of) {
			t.Errorf("%s is of a text that is not there", id)
		}
	}
	for _, id := range w.IDs() {
		group, _, _ := strings.Cut(id, ".")
		_, rest, _ := strings.Cut(id, ".")
		kind, _, _ := strings.Cut(rest, ".")
		named := map[string]bool{"day": true, "day-of-year": true, "month": true, "plain": true, "often": true, "family": true, "head": true}
		if group != "care" && group != "caution" || named[kind] || strings.HasSuffix(id, ".own") || strings.HasPrefix(id, "caution.food.documented") {
			continue
		}
		if !short[id] {
			t.Errorf("%s has no short form", id)
		}
	}
}

// What the maker wrote of a finish stands on the card whole.
func TestOwnCareStandsWhole(t *testing.T) {
	r := usual()
	r.Public.Care = []report.Paragraph{
		{ID: "care.avoid.own", Group: "avoid", Text: "No beeswax polish from the market."},
		{ID: "care.renew.own", Group: "renew", Text: "Bring it back to the yard."},
	}
	data, err := Care(r, options(t))
	if err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(layoutWords(t, data), " ", "")
	for _, want := range []string{"Nobeeswaxpolishfromthemarket.", "Bringitbacktotheyard."} {
		if !strings.Contains(text, want) {
			t.Errorf("the card does not say %q: %s", want, text)
		}
	}
}

// layoutWords are the words of a document in the order of the file.
func layoutWords(t *testing.T, data []byte) string {
	t.Helper()
	var b strings.Builder
	for _, p := range readBack(t, data) {
		for _, r := range p.texts {
			b.WriteString(r.text)
		}
	}
	return strings.ReplaceAll(b.String(), "\u00a0", " ")
}

// Cards on a sheet: two of A5 and four of A6 on A4, since each ISO 216 size is half
// of the one before it; they stand side by side and do not leave the page.
func TestCardsOnASheet(t *testing.T) {
	for _, c := range []struct {
		size, paper string
		want        int
	}{{"a5", "a4", 2}, {"a6", "a4", 4}, {"half letter", "letter", 2}, {"4 x 6 in", "letter", 2}, {"4 x 6 in", "a4", 2}} {
		o := options(t)
		o.Paper, o.Card = c.paper, Card{Size: c.size, Sheet: true}
		data, err := Care(usual(), o)
		if err != nil {
			t.Fatal(err)
		}
		text := layoutWords(t, data)
		if n := strings.Count(text, "Estuary console table"); n != c.want || pages(data) != 1 {
			t.Errorf("%s on %s: %d cards on %d pages, want %d", c.size, c.paper, n, pages(data), c.want)
		}
		size := paperSizes[c.paper]
		for _, turned := range [][2]float64{size, {size[1], size[0]}} {
			if len(crowding(t, readBack(t, data), turned[0], turned[1], 3)) == 0 {
				size = [2]float64{}
				break
			}
		}
		if size != [2]float64{} {
			t.Errorf("%s on %s: cards leave the page or stand on each other", c.size, c.paper)
		}
	}
	o := options(t)
	o.Card.Size = "a7"
	if _, err := Care(usual(), o); err == nil || !strings.Contains(err.Error(), "a7") {
		t.Errorf("an unknown size: %v", err)
	}
}

// Of a card with two words under one heading and a column under the other, none
// stands beside the other; a card of two even columns keeps them where the type is as
// large.
func TestLopsidedCardIsStacked(t *testing.T) {
	for name, c := range map[string]struct {
		care   []report.Paragraph
		beside bool
	}{
		"two words":    {[]report.Paragraph{{ID: "care.arrival", Group: "first-weeks", Text: "a"}, {ID: "care.climate", Group: "climate", Text: "b"}, {ID: "care.clean.oil", Group: "clean", Text: "c"}, {ID: "care.sun", Group: "avoid", Text: "d"}}, false},
		"even columns": {usual().Public.Care, true},
	} {
		r := usual()
		r.Public.Care, r.Public.Cautions = c.care, nil
		if c.beside {
			r.Public.Care = nil
			for range 3 {
				r.Public.Care = append(r.Public.Care, report.Paragraph{ID: "care.clean.oil", Group: "clean", Text: "c"}, report.Paragraph{ID: "care.avoid.oil", Group: "avoid", Text: "d"})
			}
		}
		data, err := Care(r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		at := map[string]float64{}
		for _, run := range readBack(t, data)[0].texts {
			if run.text == "Do" || run.text == "A" || run.text == "Avoid" {
				at[run.text] = run.y
			}
		}
		do, avoid := at["Do"], at["Avoid"]+at["A"]
		if do == 0 || avoid == 0 || (do == avoid) != c.beside {
			t.Errorf("%s: the headings stand at %g and %g", name, do, avoid)
		}
	}
}
