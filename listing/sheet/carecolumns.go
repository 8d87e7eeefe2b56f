package sheet

import (
	"slices"
	"strings"

	"slabfolio/listing/report"
)

// Page two's columns: care at the left in the measure, cautions, guarantee and
// maker at the right. The care gives way or spreads a little where that saves a
// page: the wider it is, the shorter, up to 72 letters a line.
var careWidths = []float64{98, 106, 92, 86}

const gutter = 8

// careColumns is the care, so many millimetres wide, beside the cautions.
func (d *doc) careColumns(careWidth float64) flow {
	right := d.left + careWidth + gutter
	return d.sideBySide(
		d.column(d.left, func() flow { return append(d.careLines(careWidth), d.seasonLines(careWidth)...) }),
		d.column(right, func() flow {
			w := d.w - d.right - right
			return append(d.cautionLines(w), d.makerLines(w)...)
		}))
}

// careColumnsUnderDrawing gives the columns the first widths that leave the drawing its
// heightLeft on their page, and the usual ones where none do.
func (d *doc) careColumnsUnderDrawing() flow {
	for _, w := range careWidths {
		if after := d.careColumns(w); d.drawingFits(d.pageHeight() - after.height()) {
			return after
		}
	}
	return d.careColumns(careWidths[0])
}

// careLines are the care paragraphs under their heading.
func (d *doc) careLines(width float64) flow {
	f := d.heading(d.say("head.care"))
	if len(d.r.Public.Care) == 0 {
		return append(f, d.namedParagraph("", d.say("care.none"), width)...)
	}
	return append(f, d.namedParagraphs(d.r.Public.Care, width)...)
}

// seasonLines are the movement over the year, where the care has no word on it,
// and how the piece is put together.
func (d *doc) seasonLines(width float64) flow {
	p := &d.r.Public
	var f flow
	told := slices.ContainsFunc(p.Care, func(c report.Paragraph) bool { return c.Group == "movement" })
	if p.Movement != nil && !told {
		f = append(f, d.namedParagraph(d.say("name.movement"), p.Movement.Text, width)...)
	}
	if p.Delivery != nil && p.Delivery.Assembly != "" {
		f = append(f, d.namedParagraph(d.say("name.assembly"), capital(p.Delivery.Assembly), width)...)
	}
	return f
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
	return d.namedParagraph(d.say("name.maker"), joined(lines...), width)
}

// contactLines are who and where, and below it how to reach them from afar.
func contactLines(m *report.Maker) []string {
	if m == nil {
		return nil
	}
	var lines []string
	for _, l := range []string{joined(m.Name, flat(m.Address)), joined(m.Email, strings.ReplaceAll(m.Phone, " ", "\u00a0"), m.Web)} {
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
