package sheet

import (
	"math"
	"strings"
)

// What stands side by side on a page, a name and what is said of it, is one row to the
// eye by the line that it stands on. A program that takes the text out of the file sees
// a wide gap, and takes the names for a column of their own. So the gap is filled with
// spaces, of a size that fills it, that stand for what one would write there: a colon, a
// semicolon (ActualText; ISO 32000-1, 14.9.4). For who reads by the tree of tags, it is an artifact.

// The phrases whose sign fills a gap.
const (
	labelled = "general.labelled"
	apart    = "general.apart"
)

// bridge fills the gap between two texts on one line, the second set in st, with the
// sign that a phrase has between two things.
func (d *doc) bridge(phrase string, from, to, y float64, st style) {
	sign := d.o.Words.Say(phrase, map[string]any{"Name": "", "Value": "", "First": "", "Next": ""})
	bare := strings.TrimSpace(sign)
	if !strings.HasPrefix(sign, bare) { // French has a space before it; what begins with one is passed over by readers
		from += d.width(st, " ")
	}
	d.standIn(bare, from, to, y, st)
}

// standIn fills a gap with spaces that stand for words.
func (d *doc) standIn(words string, from, to, y float64, st style) {
	n := math.Ceil((to - from) / d.width(st, " "))
	if n < 2 || words == "" {
		return
	}
	st.size *= (to - from) / d.width(st, " ") / n
	d.artifact(func() {
		d.span(words+" ", func() { d.text(from, y, st, strings.Repeat(" ", int(n))) })
	})
}

// span draws what is read as other words than it shows.
func (d *doc) span(words string, draw func()) {
	if d.trial != nil {
		return
	}
	d.pdf.RawWriteStr("/Span <</ActualText" + textString(words) + " >> BDC")
	draw()
	d.pdf.RawWriteStr("EMC")
}

// rowLabel draws line i of a row's name. A name of several lines is read as a whole at
// its first, before what stands beside the others.
func (d *doc) rowLabel(x, y float64, st style, lines []string, i int) {
	draw := func() { d.text(x, y, st, goingOn(lines[i], i, len(lines))) }
	switch {
	case len(lines) == 1:
		draw()
	case i == 0:
		d.span(strings.Join(lines, " "), draw)
	default:
		d.span("", draw)
	}
}
