package sheet

import (
	"strings"
	"unicode"

	"slabfolio/listing/spelling"
)

// A line is one row of a page: text on the grid, a picture, a drawing or space.
type line struct {
	height float64           // in millimetres
	draw   func(top float64) // nil for space
	beside func(top float64) // of the right of two columns, drawn after all of the left
	keep   bool              // not parted from the line after it
	space  bool              // dropped at the head of a page
	part   *element          // what is drawn belongs to
}

// withDraw returns the line with something drawn after its own.
func (d *doc) withDraw(l line, draw func(top float64)) line {
	before := d.painter(l)
	l.part = nil
	l.draw = func(top float64) {
		if before != nil {
			before(top)
		}
		draw(top)
	}
	return l
}

// flow is what is still to be placed, in reading order.
type flow []line

// height of the whole, in millimetres.
func (f flow) height() float64 {
	var h float64
	for _, l := range f {
		h += l.height
	}
	return h
}

// place sets the lines down the page and goes on to a new page where one is
// full, so that nothing is lost. Lines that belong together stay together as
// far as a page can hold them.
//
// Of two columns the left is drawn first, page by page, so that a reader of the
// file comes upon the words in their order.
func (d *doc) place(f flow) {
	var right []func()
	finishPage := func() {
		for _, draw := range right {
			draw()
		}
		right = nil
	}
	for i, l := range f {
		if d.endsPage(f, i) {
			finishPage()
			d.newPage()
		}
		if l.space && d.y <= d.top {
			continue
		}
		if l.draw != nil || l.beside != nil {
			d.fills(d.y+l.height, 1)
		}
		if draw := d.painter(l); draw != nil && d.trial == nil {
			draw(d.y)
		}
		if y := d.y; l.beside != nil && d.trial == nil {
			right = append(right, func() { l.beside(y) })
		}
		d.y += l.height
	}
	finishPage()
}

// painter returns what draws a line as part of its element.
func (d *doc) painter(l line) func(top float64) {
	if l.draw == nil {
		return nil
	}
	return func(top float64) { d.tagged(l.part, func() { l.draw(top) }) }
}

// endsPage reports whether line i, with those that belong to it, has no room left.
// A hundredth of a millimetre forgives the rounding of sums.
func (d *doc) endsPage(f flow, i int) bool {
	if d.y <= d.top {
		return false
	}
	together := f[i].height
	for j := i; f[j].keep && j+1 < len(f); j++ {
		together += f[j+1].height
	}
	left := d.heightLeft() + 0.01
	return f[i].height > left || together > left && together <= d.pageHeight() && !midGroup(f, i)
}

// midGroup reports whether line i belongs to the line before it.
func midGroup(f flow, i int) bool { return i > 0 && f[i-1].keep }

// lineHeight is the line distance of the document's type.
func (d *doc) lineHeight() float64 { return grid * d.scale }

// baseline is where the baseline stands in a line that begins at top.
func (d *doc) baseline(top float64) float64 { return top + 0.76*d.lineHeight() }

// gap is empty room of n lines.
func (d *doc) gap(n float64) line { return line{height: n * d.lineHeight(), space: true} }

// sized returns the style in the document's own scale.
func (d *doc) sized(st style) style { st.size *= d.scale; return st }

// measure is the width of running text: 60 to 70 characters, 25 ems or so.
func (d *doc) measure() float64 {
	return min(d.w-d.right-d.axis, 103*d.scale)
}

// labelled is a quiet name in the margin and text beside it, wrapped to width. A
// paragraph after the first begins with an indent, so that all lines stay on
// the grid.
func (d *doc) labelled(label string, st style, text string, width float64) flow {
	var runs []run
	for i, p := range spelling.Paragraphs(text) {
		runs = append(runs, run{st: st, text: p, paragraph: i > 0})
	}
	return d.labelledRuns(label, runs, width)
}

// labelledRuns is prose of runs in several styles.
func (d *doc) labelledRuns(label string, runs []run, width float64) flow {
	lines := d.wrapRuns(runs, width)
	labels := d.wrap(d.sized(name), label, d.axis-d.left-4)
	x := d.axis
	head, text := d.rowParts(label)
	var f flow
	for i := range max(len(lines), len(labels)) {
		f = append(f, line{height: d.lineHeight(), draw: func(top float64) {
			if i < len(labels) {
				d.tagged(head, func() { d.rowLabel(d.left, d.baseline(top), d.sized(name), labels, i) })
			}
			if i >= len(lines) {
				return
			}
			if i == 0 && len(labels) > 0 {
				begin := lines[0][0]
				d.bridge(labelled, d.left+d.width(d.sized(name), labels[0]), x+begin.x, d.baseline(top), begin.st)
			}
			d.tagged(text, func() {
				for k, p := range lines[i] {
					if k+1 == len(lines[i]) {
						p.text = goingOn(p.text, i, len(lines))
					}
					d.text(x+p.x, d.baseline(top), p.st, p.text)
				}
			})
		}})
	}
	// No lonely first or last line.
	for i := range f[:max(0, len(f)-1)] {
		f[i].keep = i == 0 || i == len(f)-2 || begins(lines, i) && !begins(lines, i+1) || begins(lines, i+2) && !begins(lines, i+1)
	}
	return f
}

// begins reports whether line i begins a paragraph after the first.
func begins(lines [][]placed, i int) bool { return i < len(lines) && lines[i][0].begins }

// goingOn ends a line that is not the last with a space, so that who has the page
// read out does not hear two words as one.
func goingOn(text string, i, lines int) string {
	if i+1 < lines {
		return text + " "
	}
	return text
}

// rowParts are the elements of a row: its name and what it says are an item of the
// list that the rows before it began. Without a name it is a paragraph, and ends
// the list.
func (d *doc) rowParts(label string) (head, text *element) {
	if label == "" {
		d.rows = nil
		return nil, d.element("P")
	}
	if d.rows == nil {
		d.rows = d.element("L")
	}
	item := d.under(d.rows, "LI")
	return d.under(item, "Lbl"), d.under(item, "LBody")
}

// heading stands over a section, on the axis, and stays with what follows.
func (d *doc) heading(text string) flow {
	st := d.sized(headline)
	st.color = d.accent
	x := d.axis
	d.rows = nil
	return flow{d.gap(1), {height: d.lineHeight(), keep: true, part: d.element("H2"), draw: func(top float64) {
		d.addBookmark(text, 2, top)
		d.text(x, d.baseline(top)-0.25*d.lineHeight(), st, text)
	}}}
}

// A pair is one figure in both systems, the preferred one first.
type pair struct{ name, first, second string }

// pairs sets figures as a specimen label does: the name in the margin, then the
// value in both systems, whole numbers ending on one line in each column.
func (d *doc) pairs(rows []pair) flow {
	st := d.sized(body)
	var whole [2]float64
	for i := range rows {
		rows[i].first, rows[i].second = d.number(rows[i].first), d.number(rows[i].second)
	}
	for _, r := range rows {
		for i, v := range []string{r.first, r.second} {
			n, _ := splitNumber(v)
			whole[i] = max(whole[i], d.width(st, n))
		}
	}
	column := d.rowWidth() * 0.44
	for _, r := range rows { // a range that may stand below its value is not broken
		if _, span, parted := strings.Cut(r.first, ", "); parted {
			column = max(column, min(d.width(st, span)+4, d.rowWidth()/2))
		}
	}
	table := d.element("Table")
	var f flow
	for _, r := range rows {
		f = append(f, d.pairRow(table, r, whole, column, st)...)
	}
	return f
}

func (d *doc) pairRow(table *element, r pair, whole [2]float64, column float64, st style) flow {
	labels := d.wrap(d.sized(name), r.name, d.axis-d.left-4)
	var numbers [2]string
	var rests [2][]string
	var ranges [2][]string // below the values, where one of them does not fit beside its own
	var later [2]float64   // the room behind each number
	broken := false
	rows := max(1, len(labels))
	for i, v := range []string{r.first, r.second} {
		n, rest := splitNumber(v)
		numbers[i] = n
		room := column - whole[i] - 3
		if i == 1 {
			room = d.rowWidth() - column - whole[1]
		}
		rests[i] = d.wrapAfter(st, rest, room)
		broken = broken || len(rests[i]) > 1
		later[i] = room
	}
	for i, v := range []string{r.first, r.second} {
		_, rest := splitNumber(v)
		if value, span, parted := strings.Cut(rest, ", "); broken && parted {
			rests[i] = d.wrapAfter(st, value, later[i])
			ranges[i] = d.wrap(st, span, later[i]+whole[i])
		}
		rows = max(rows, len(rests[i])+len(ranges[i]))
	}
	row := d.under(table, "TR")
	cells := [3]*element{d.under(row, "TH"), d.under(row, "TD"), d.under(row, "TD")}
	var f flow
	for k := range rows {
		f = append(f, line{height: d.lineHeight(), keep: k+1 < rows, draw: func(top float64) {
			y, end := d.baseline(top), d.left+d.width(d.sized(name), first(labels))
			if k < len(labels) {
				d.tagged(cells[0], func() { d.rowLabel(d.left, y, d.sized(name), labels, k) })
			}
			for i := range 2 {
				x := d.axis + float64(i)*column + whole[i]
				if begins := x - d.width(st, numbers[i]); k == 0 {
					d.bridge([]string{labelled, apart}[i], end, begins, y, st)
					end = x + d.width(st, first(rests[i]))
				}
				d.tagged(cells[i+1], func() {
					if k == 0 {
						d.textRight(x, y, st, numbers[i])
					}
					if k < len(rests[i]) {
						d.text(x, y, st, rests[i][k])
					} else if below := k - len(rests[i]); below < len(ranges[i]) {
						d.text(x-whole[i], y, st, ranges[i][below])
					}
				})
			}
		}})
	}
	return f
}

// first is the first line of a text, if there is one.
func first(lines []string) string {
	if len(lines) == 0 {
		return ""
	}
	return lines[0]
}

// wrapAfter wraps what stands behind a number, keeping the space before it.
func (d *doc) wrapAfter(st style, s string, width float64) []string {
	text := strings.TrimLeft(s, " \u00a0")
	lines := d.wrap(st, text, width)
	if len(lines) > 0 {
		lines[0] = s[:len(s)-len(text)] + lines[0]
	}
	return lines
}

// splitNumber parts the whole number that a value begins with from the rest:
// "137.2 cm" is "137" and ".2 cm", "1¾ in" is "1" and "¾ in", with the space that is
// set before a fraction; 15⁄16 in has no whole number.
func splitNumber(s string) (whole, rest string) {
	i := strings.IndexFunc(s, func(r rune) bool { return !unicode.Is(unicode.Nd, r) })
	if i < 0 {
		return s, ""
	}
	whole, rest = s[:i], s[i:]
	if strings.HasPrefix(rest, "⁄") { // 15⁄16 in is a fraction and no whole number
		return "", s
	}
	if at := fraction().FindStringIndex(inOneSign().ReplaceAllStringFunc(strings.TrimLeft(rest, " \u00a0"), inParts)); whole != "" && at != nil && at[0] == 0 {
		rest = "\u00a0" + strings.TrimLeft(rest, " \u00a0")
	}
	return whole, rest
}
