package sheet

import (
	"slices"

	"slabfolio/listing/report"
)

// layoutCare lays out the care card: A5, or half a letter, with type up to a
// third larger than the sheet's, to be read at arm's length. What one side
// cannot hold is parted in two, where that lets the type be largest: the care in
// front, its last paragraphs and the cautions on the back.
func layoutCare(d *doc) error {
	size := paperSizes[d.paper()]
	d.open(size[1]/2, size[0])
	d.left, d.right, d.top, d.bottom = 14, 14, 13, 17
	d.axis = d.left
	d.footer = d.careFooter
	d.newPage()
	care := len(d.r.Public.Care)
	sizes := []float64{1.35, 1.3, 1.25, 1.2, 1.15, 1.1}
	for _, d.between = range []float64{0.3, 0} {
		for _, d.scale = range sizes {
			if all := append(d.cardFront(care), d.cardBack(care)...); all.height() <= d.heightLeft() {
				d.place(all)
				return nil
			}
		}
	}
	d.between = 0.3
	for _, d.scale = range sizes {
		// As much of the care as fits in front, what is left over the cautions.
		n := care
		for n > 0 && d.cardFront(n).height() > d.heightLeft() {
			n--
		}
		if back := d.cardBack(n); 2*n >= care && back.height() <= d.heightLeft() {
			d.place(d.cardFront(n))
			d.newPage()
			d.place(back)
			return nil
		}
	}
	d.scale = 1.15
	d.place(d.cardFront(care))
	d.newPage()
	d.place(d.cardBack(care))
	return nil
}

// cardFront is the title, the finish and the first n paragraphs of the care.
func (d *doc) cardFront(n int) flow {
	p := &d.r.Public
	width := d.w - d.left - d.right
	st := d.sized(headline)
	st.size *= 1.25
	if len(d.wrap(st, p.Title, width)) > 2 {
		st = d.sized(headline)
	}
	var f flow
	for _, l := range d.wrap(st, p.Title, width) {
		f = append(f, line{height: 1.5 * d.lineHeight(), keep: true, draw: func(top float64) {
			d.text(d.left, d.baseline(top)+0.25*d.lineHeight(), st, l)
		}})
	}
	if p.Finish != nil {
		f = append(f, d.labelled("", d.sized(bodyItalic), capital(p.Finish.Called()), width)...)
	}
	f = append(f, d.heading(d.say("head.care"))...)
	if len(p.Care) == 0 {
		return append(f, d.namedParagraph("", d.say("care.none"), width)...)
	}
	return append(f, d.spaced(p.Care[:n], width)...)
}

// cardBack is the care after the first n paragraphs, the cautions and the maker.
func (d *doc) cardBack(n int) flow {
	width := d.w - d.left - d.right
	p := &d.r.Public
	f := d.spaced(p.Care[n:], width)
	if len(p.Cautions) > 0 {
		f = slices.Concat(f, d.heading(d.say("head.cautions")), d.spaced(p.Cautions, width))
	}
	return slices.Concat(f, flow{d.gap(1)}, d.contact(width))
}

// spaced are paragraphs with a little room between, where there is some: a card
// is looked at on the wall, and has no second column to keep lines with.
func (d *doc) spaced(all []report.Paragraph, width float64) flow {
	var f flow
	for i, p := range all {
		if i > 0 {
			f = append(f, d.gap(d.between))
		}
		f = append(f, d.namedParagraph(d.paragraphName(p), p.Text, width)...)
	}
	return f
}

// careFooter is the serial, and the page where there are several.
func (d *doc) careFooter(page, pages int) {
	p := &d.r.Public
	y := d.h - 9
	right := d.say("footer.page", "Page", page, "Pages", pages)
	d.text(d.left, y, name, d.shortened(name, joined(p.Serial, p.Title), d.w-d.right-d.left-d.width(name, right)-4))
	if pages > 1 {
		d.textRight(d.w-d.right, y, name, right)
	}
}
