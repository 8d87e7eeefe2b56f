package sheet

import (
	"cmp"

	"slabfolio/listing/drawing"
	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
)

// Sizes of the care card, in millimetres: ISO 216 A5 and A6, half a letter, and
// the photo print of 4 by 6 inches. The one for "" hangs on the paper.
var cardSizes = map[string][2]float64{"a5": {148, 210}, "a6": {105, 148}, "half letter": {139.7, 215.9}, "4 x 6 in": {101.6, 152.4}}

// cardNames are the names of the sizes that a care card may have.
var cardNames = []string{"a5", "a6", "half letter", "4 x 6 in"}

// layoutCare lays out the care card: what to do, what not, how to renew, what to
// keep in mind and whom to ask, on one side and as large as it can be, to be read
// at arm's length. The long text stands on the sheet.
func layoutCare(d *doc) error {
	size, ok := cardSizes[cmp.Or(d.o.Card.Size, map[string]string{"a4": "a5", "letter": "half letter"}[d.paper()])]
	if !ok {
		return unknownCard(d.o.Card.Size)
	}
	card := d.fitCard(size)
	if !d.o.Card.Sheet {
		d.open(size[0], size[1])
		d.newPage()
		d.place(card)
		return nil
	}
	d.cardSheet(size, card)
	return nil
}

// cardMargin is around the text of a card, in millimetres.
func cardMargin(size [2]float64) float64 { return size[0] * 0.085 }

// fitCard builds the card at the largest type that fits on one side. The page is
// set up for the card, whatever it stands on.
func (d *doc) fitCard(size [2]float64) flow {
	m := cardMargin(size)
	d.w, d.h = size[0], size[1]
	d.left, d.right, d.top, d.bottom, d.axis = m, m, m, m, m
	d.y = d.top
	var card flow
	for d.scale = 1.7; d.scale > 0.5; d.scale -= 0.05 {
		for _, stacked := range []bool{d.lopsided(), true} {
			if card = d.careCard(stacked); card.height() <= d.pageHeight() {
				return card
			}
		}
	}
	return card
}

// lopsided reports whether what to do and what not to do are so unlike in length that
// two columns would leave one of them empty.
func (d *doc) lopsided() bool {
	var letters [2]int
	parts := d.cardParts()
	for i, p := range parts[:2] {
		for _, l := range p.lines {
			letters[i] += len(l)
		}
	}
	return 3*min(letters[0], letters[1]) < max(letters[0], letters[1])
}

// A cardPart is one list of the card.
type cardPart struct {
	id    string // do, not, renew, mind
	lines []string
}

// careCard is the card; what to do and what not stand side by side, or one below the
// other.
func (d *doc) careCard(stacked bool) flow {
	p := &d.r.Public
	width := d.columnWidth()
	st := d.sized(headline)
	heading := d.element("H1")
	var f flow
	for _, l := range d.wrap(st, p.Title, width) {
		f = append(f, line{height: 1.3 * d.lineHeight(), keep: true, part: heading, draw: func(top float64) { d.text(d.left, d.baseline(top)+0.1*d.lineHeight(), st, l) }})
	}
	if p.Finish != nil {
		f = append(f, d.labelled("", d.sized(bodyItalic), spelling.Capital(p.Finish.Called()), width)...)
	}
	if len(p.Care) == 0 {
		f = append(f, d.gap(0.5))
		f = append(f, d.labelled("", d.sized(body), d.o.Words.Say("card.none", nil), width)...)
	}
	parts := d.cardParts()
	half := (width - 5) / 2
	if stacked {
		f = append(append(f, d.cardList(parts[0], width)...), d.cardList(parts[1], width)...)
	} else {
		f = append(f, d.sideBySide(
			d.column(d.left, func() flow { return d.cardList(parts[0], half) }),
			d.column(d.left+half+5, func() flow { return d.cardList(parts[1], half) }))...)
	}
	f = append(f, d.cardList(parts[2], width)...)
	f = append(f, d.cardList(parts[3], width)...)
	return append(f, d.askLines(width)...)
}

// cardList is one part under its heading.
func (d *doc) cardList(p cardPart, width float64) flow {
	if len(p.lines) == 0 {
		return nil
	}
	f := d.heading(d.o.Words.Say("card.head."+p.id, nil))
	for _, l := range p.lines {
		f = append(f, d.hangingRuns([]run{{st: d.sized(body), text: l}}, width)...)
	}
	return f
}

// askLines are how to reach the maker, and where the long text is.
func (d *doc) askLines(width float64) flow {
	f := d.heading(d.o.Words.Say("card.head.ask", nil))
	for _, l := range contactLines(d.r.Public.Maker) {
		f = append(f, d.hangingRuns([]run{{st: d.sized(body), text: l}}, width)...)
	}
	whole := d.o.Words.Say("card.whole", map[string]any{"Serial": d.r.Public.Serial})
	return append(f, d.hangingRuns([]run{{st: d.sized(bodyItalic), text: whole}}, width)...)
}

// cardParts shortens care and cautions. A paragraph that has no short form stands
// whole: what its maker wrote, or a text that is new.
func (d *doc) cardParts() [4]cardPart {
	parts := [4]cardPart{{id: "do"}, {id: "not"}, {id: "renew"}, {id: "mind"}}
	data := d.cardData()
	add := func(p report.Paragraph, whole int) {
		known := false
		for i := range parts {
			id := "card." + parts[i].id + "." + p.ID
			if !d.o.Words.Has(id) {
				continue
			}
			known = true
			if text := d.o.Words.Say(id, data); text != "" {
				parts[i].lines = append(parts[i].lines, spelling.Capital(text))
			}
		}
		if !known {
			parts[whole].lines = append(parts[whole].lines, spelling.OneLine(p.Text))
		}
	}
	for _, p := range d.r.Public.Care {
		add(p, map[string]int{"avoid": 1, "renew": 2}[p.Group])
	}
	for _, p := range d.r.Public.Cautions {
		add(p, 3)
	}
	return parts
}

// cardData is what the short forms put in.
func (d *doc) cardData() map[string]any {
	p := &d.r.Public
	data := map[string]any{"Product": "", "Cured": ""}
	if f := p.Finish; f != nil {
		data["Product"] = cmp.Or(f.Product, f.Name) // the family stands in the head of the card
		data["Cured"] = d.day(cmp.Or(f.FullCureTo, f.FullCureFrom))
	}
	return data
}

// cardSheet sets as many cards as a page of the paper holds, with crop marks.
func (d *doc) cardSheet(size [2]float64, card flow) {
	paper := paperSizes[d.paper()]
	across, down, turned := cardsOn(paper, size)
	if turned {
		paper = [2]float64{paper[1], paper[0]}
	}
	d.open(paper[0], paper[1])
	d.pdf.AddPage()
	x0 := (paper[0] - float64(across)*size[0]) / 2
	y0 := (paper[1] - float64(down)*size[1]) / 2
	d.w, d.h, d.moved = size[0], size[1], true
	for row := range down {
		for column := range across {
			d.pdf.TransformBegin()
			d.pdf.TransformTranslate(x0+float64(column)*size[0], y0+float64(row)*size[1])
			d.y = d.top
			// One of the cards is the document; the others are its copies.
			d.copyOf(row+column > 0, func() { d.place(card) })
			d.pdf.TransformEnd()
		}
	}
	d.artifact(func() {
		for i := range across + 1 {
			for j := range down + 1 {
				d.cropMark(x0+float64(i)*size[0], y0+float64(j)*size[1], paper)
			}
		}
	})
}

// copyOf draws something as it is, or as a copy that is no content.
func (d *doc) copyOf(isCopy bool, draw func()) {
	if isCopy {

		d.artifact(draw)

		return
	}
	draw()
}

// cardsOn is how many cards stand on a page, upright or turned, whichever holds
// more.
func cardsOn(paper, card [2]float64) (across, down int, turned bool) {
	count := func(w, h float64) (int, int) { return int((w + 0.01) / card[0]), int((h + 0.01) / card[1]) }
	a, b := count(paper[0], paper[1])
	c, e := count(paper[1], paper[0])
	if c*e > a*b {
		return c, e, true
	}
	return max(a, 1), max(b, 1), false
}

// cropMark draws four short strokes around a corner, clear of it by a millimetre,
// as far as the page reaches.
func (d *doc) cropMark(x, y float64, paper [2]float64) {
	const from, to = 1, 4
	d.setLine(drawing.Grain)
	for _, s := range []float64{-1, 1} {
		if e := x + s*to; e > 0 && e < paper[0] {
			d.pdf.Line(x+s*from, y, e, y)
		}
		if e := y + s*to; e > 0 && e < paper[1] {
			d.pdf.Line(x, y+s*from, x, e)
		}
	}
}
