package sheet

import (
	"slices"
	"strings"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
)

// The widths that care may have, at the left, with cautions, guarantee and maker at
// the right: the one that takes the least height is taken, up to 75 letters a line.
var careWidths = []float64{98, 106, 92, 86}

const gutter = 8

// careFlow is the care, the cautions and what stands with them, at a scale.
func (d *doc) careFlow(scale float64, e extras) flow {
	was := d.scale
	d.scale = scale
	defer func() { d.scale = was }()
	best := d.careColumns(careWidths[0], e)
	for _, w := range careWidths[1:] {
		if f := d.careColumns(w, e); f.height() < best.height()-0.01 {
			best = f
		}
	}
	return best
}

// listFlow are the lists that page one could not hold, at a scale.
func (d *doc) listFlow(scale float64) flow {
	was := d.scale
	d.scale = scale
	defer func() { d.scale = was }()
	return d.longLists()
}

// placeAfterDrawing sets the care and the lists.
func (d *doc) placeAfterDrawing(p plan) {
	was := d.scale
	d.scale = p.scale
	defer func() { d.scale = was }()
	first := d.pageCount()
	d.place(p.care)
	if d.trial != nil {
		d.trial.broken = d.pageCount() > first
	}
	d.place(p.lists)
}

// careColumns is the care, so many millimetres wide, beside the cautions.
func (d *doc) careColumns(careWidth float64, e extras) flow {
	rightX := d.left + careWidth + gutter
	rightWidth := d.w - d.right - rightX
	left := d.column(d.left, func() flow { return append(d.careLines(careWidth), d.assemblyLines(careWidth)...) })
	var right, maker flow
	d.column(rightX, func() flow {
		right, maker = d.cautionLines(rightWidth), d.makerLines(rightWidth)
		return nil
	})
	// The chart and the code stand in the column that has more room for them.
	add := func(make func(width float64) flow, more flow) {
		if left.height() < right.height()+more.height() {
			left = append(left, d.column(d.left, func() flow { return make(careWidth) })...)
			return
		}
		right = append(right, d.column(rightX, func() flow { return make(rightWidth) })...)
	}
	if e.chart {
		add(d.seasonLines, maker)
	}
	right = append(right, maker...)
	if e.code {
		add(d.listingCode, nil)
	}
	return d.sideBySide(left, right)
}

// careLines are the care paragraphs under their heading.
func (d *doc) careLines(width float64) flow {
	f := d.heading(d.say("head.care"))
	if len(d.r.Public.Care) == 0 {
		return append(f, d.namedParagraph("", d.say("care.none"), width)...)
	}
	return append(f, d.namedParagraphs(d.r.Public.Care, width)...)
}

// assemblyLines are the movement over the year, where the care has no word on it,
// and how the piece is put together.
func (d *doc) assemblyLines(width float64) flow {
	p := &d.r.Public
	var f flow
	if p.Movement != nil && !d.caresAboutMovement() {
		f = append(f, d.namedParagraph(d.say("name.movement"), p.Movement.Text, width)...)
	}
	if p.Delivery != nil && p.Delivery.Assembly != "" {
		f = append(f, d.namedParagraph(d.say("name.assembly"), spelling.Capital(p.Delivery.Assembly), width)...)
	}
	return f
}

func (d *doc) caresAboutMovement() bool {
	return slices.ContainsFunc(d.r.Public.Care, func(c report.Paragraph) bool { return c.Group == "movement" })
}

// cautionLines are the cautions, together and plain.
func (d *doc) cautionLines(width float64) flow {
	if len(d.r.Public.Cautions) == 0 {
		return nil
	}
	return append(d.heading(d.say("head.cautions")), d.namedParagraphs(d.r.Public.Cautions, width)...)
}

// makerLines are the guarantee and how to reach the workshop.
func (d *doc) makerLines(width float64) flow {
	p := &d.r.Public
	var f flow
	if p.Guarantee != "" {
		f = append(f, d.namedParagraph(d.say("name.guarantee"), p.Guarantee, width)...)
	}
	f = append(f, d.contact(width)...)
	if f != nil {
		f = append(flow{d.gap(1)}, f...)
	}
	return f
}

// contact is how to reach the workshop: name and postal address, then the
// electronic ones, as product safety rules ask for (Regulation (EU) 2023/988,
// article 9).
func (d *doc) contact(width float64) flow {
	lines := contactLines(d.r.Public.Maker)
	if len(lines) == 0 {
		return nil
	}
	return d.namedParagraph(d.makerLabel(), spelling.Commas(lines...), width)
}

// contactLines are who and where, and below it how to reach them from afar.
func contactLines(m *report.Maker) []string {
	if m == nil {
		return nil
	}
	var lines []string
	for _, l := range []string{spelling.Commas(m.Name, flat(m.Address)), spelling.Commas(m.Email, strings.ReplaceAll(m.Phone, " ", "\u00a0"), m.Web)} {
		if l != "" {
			lines = append(lines, l)
		}
	}
	return lines
}

// flat makes one line of an address of several.
func flat(s string) string { return strings.Join(paragraphLines(s), ", ") }

// paragraphLines are the lines of a text that are not blank.
func paragraphLines(s string) []string {
	var lines []string
	for _, l := range strings.Split(s, "\n") {
		if l = strings.Trim(l, " ,\r\t"); l != "" {
			lines = append(lines, l)
		}
	}
	return lines
}
