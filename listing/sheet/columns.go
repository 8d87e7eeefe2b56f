package sheet

import (
	"slices"
	"unicode"
	"unicode/utf8"

	"slabfolio/listing/report"
)

// namedParagraph is a paragraph that begins with its name in italics; its further lines
// are indented, so that the names stand out at the left. One size for both keeps them
// one line for who takes the text out of the file.
func (d *doc) namedParagraph(head, text string, width float64) flow {
	if head == "" {
		return d.labelledRuns("", []run{{st: d.sized(body), text: text}}, width)
	}
	if last, _ := utf8.DecodeLastRuneInString(head); !unicode.IsPunct(last) {
		head += "."
	}
	return d.labelledRuns("", []run{{st: d.sized(bodyItalic), text: head + "\u00a0 ", hanging: true}, {st: d.sized(body), text: text}}, width)
}

// hangingRuns are runs whose further lines are indented.
func (d *doc) hangingRuns(runs []run, width float64) flow {
	runs = slices.Clone(runs)
	if len(runs) > 0 {
		runs[0].hanging = true
	}
	return d.labelledRuns("", runs, width)
}

// namedParagraphs are paragraphs that begin with their names.
func (d *doc) namedParagraphs(all []report.Paragraph, width float64) flow {
	var f flow
	for _, p := range all {
		f = append(f, d.namedParagraph(d.paragraphName(p), p.Text, width)...)
	}
	return f
}

// paragraphName is the paragraph's own head, or the name of its group.
func (d *doc) paragraphName(p report.Paragraph) string {
	if p.Head != "" {
		return p.Head
	}
	if id := "sheet.group." + p.Group; d.o.Words.Has(id) {
		return d.o.Words.Say(id, nil)
	}
	return ""
}

// column builds lines that stand at x.
func (d *doc) column(x float64, build func() flow) flow {
	was := d.axis
	d.axis = x
	defer func() { d.axis = was }()
	return build()
}

// sideBySide sets two columns side by side, line by line on the grid. The last
// lines stay together, so that no page has a lone one.
func (d *doc) sideBySide(left, right flow) flow {
	a, b := d.gridRows(left), d.gridRows(right)
	var f flow
	for i := range max(len(a), len(b)) {
		row := line{height: d.lineHeight(), space: i < len(a) && a[i].space && (i >= len(b) || b[i].space)}
		if i < len(a) {
			row.draw, row.keep = d.painter(a[i]), a[i].keep
		}
		if i < len(b) {
			row.beside = d.painter(b[i])
			row.keep = row.keep || b[i].keep
		}
		f = append(f, row)
	}
	for i := max(0, len(f)-6); i+1 < len(f); i++ {
		f[i].keep = true
	}
	return f
}

// gridRows cuts taller lines into lines of one step; what is drawn, is drawn from
// the first of them.
func (d *doc) gridRows(f flow) flow {
	var out flow
	for _, l := range f {
		out = append(out, line{height: d.lineHeight(), draw: l.draw, part: l.part, keep: l.keep, space: l.space})
		for h := l.height - d.lineHeight(); h > 0.5*d.lineHeight(); h -= d.lineHeight() {
			out = append(out, line{height: d.lineHeight(), keep: l.keep, space: l.space})
		}
	}
	return out
}
