package sheet

import "strings"

// A run is text in one style; paragraph begins a new, indented paragraph;
// hanging, in the first run, indents every line but the first.
type run struct {
	st        style
	text      string
	paragraph bool
	hanging   bool
}

// indent of a paragraph after the first, or of a hanging line, in millimetres.
const indent = 3.5

// placed is a piece of a line, x millimetres from the line's start.
type placed struct {
	x      float64
	st     style
	text   string
	begins bool // its line is the first of a paragraph after the first
}

// A word is what is not parted: pieces without a space between them.
type word struct {
	pieces    []placed // x from the word's start
	width     float64
	paragraph bool
}

// A row is the words of one line, from one of them to before another, and where in
// the line they begin.
type row struct {
	from, to int
	x        float64
}

// wrapRuns breaks runs into lines of at most width millimetres. A word that is
// wider than a line is broken where it must be, never lost.
func (d *doc) wrapRuns(runs []run, width float64) [][]placed {
	words := d.words(runs, width-indent)
	hang := 0.0
	if len(runs) > 0 && runs[0].hanging {
		hang = indent
	}
	rows := d.rowsOf(words, hang, width)
	for i := 1; i < len(rows); i++ {
		if ends := i+1 == len(rows) || words[rows[i].to].paragraph; ends && !words[rows[i].from].paragraph {
			d.balance(words, &rows[i-1], &rows[i], width)
		}
	}
	var lines [][]placed
	for _, r := range rows {
		lines = append(lines, d.placeRow(words, r))
	}
	return lines
}

// rowsOf fills line after line with words.
func (d *doc) rowsOf(words []word, hang, width float64) []row {
	var rows []row
	end := 0.0
	for i, w := range words {
		space := d.spaceBefore(w)
		switch {
		case i == 0:
			rows = append(rows, row{})
			end = w.width
			if w.paragraph {
				rows[0].x = indent
				end += indent
			}
		case w.paragraph:
			rows = append(rows, row{from: i, x: indent})
			end = indent + w.width
		case end+space+w.width > width:
			rows = append(rows, row{from: i, x: hang})
			end = hang + w.width
		default:
			end += space + w.width
		}
		rows[len(rows)-1].to = i + 1
	}
	return rows
}

// spaceBefore is the space between a word and the one before it in its line.
func (d *doc) spaceBefore(w word) float64 { return d.width(w.pieces[0].st, " ") }

// rowEnd is where in the line a row's last word ends.
func (d *doc) rowEnd(words []word, r row) float64 {
	end := r.x
	for i, w := range words[r.from:r.to] {
		if i > 0 {
			end += d.spaceBefore(w)
		}
		end += w.width
	}
	return end
}

// balance moves words from the last row but one of a paragraph to the last, where
// that would be a short word alone.
func (d *doc) balance(words []word, before, last *row, width float64) {
	for d.rowEnd(words, *last)-last.x < leastLast*width {
		shorter, longer := *before, *last
		shorter.to--
		longer.from--
		if shorter.to <= shorter.from || d.rowEnd(words, shorter) < leastBefore*width || d.rowEnd(words, longer) > width {
			return
		}
		*before, *last = shorter, longer
	}
}

// placeRow sets the words of a row.
func (d *doc) placeRow(words []word, r row) []placed {
	var line []placed
	x := r.x
	for i, w := range words[r.from:r.to] {
		space := 0.0
		if i > 0 {
			space = d.spaceBefore(w)
		}
		for k, p := range w.pieces {
			if k == 0 && space > 0 {
				p.text = " " + p.text
				p.x -= space
			}
			p.x += x + space
			line = append(line, p)
		}
		x += space + w.width
	}
	line[0].begins = words[r.from].paragraph
	return joinPieces(line)
}

// words cuts runs at their spaces; a word over width becomes several.
func (d *doc) words(runs []run, width float64) []word {
	var words []word
	open := false // the last word goes on in the next run
	for _, r := range runs {
		m := d.faces[r.st.face]
		text := d.clean(r.st.face, r.text)
		paragraph := r.paragraph
		if strings.HasPrefix(text, " ") || paragraph {
			open = false
		}
		for i, s := range strings.FieldsFunc(text, func(c rune) bool { return c == ' ' }) {
			for s != "" {
				head := s
				if d.width(r.st, s) > width {
					head = m.fitting(s, width/pt/r.st.size*1000)
				}
				s = s[len(head):]
				w := d.width(r.st, head)
				if open && i == 0 && len(words) > 0 && words[len(words)-1].width+w <= width {
					last := &words[len(words)-1]
					last.pieces = append(last.pieces, placed{x: last.width, st: r.st, text: head})
					last.width += w
				} else {
					words = append(words, word{[]placed{{st: r.st, text: head}}, w, paragraph})
				}
				open, paragraph = false, false
			}
		}
		open = text != "" && !strings.HasSuffix(text, " ")
	}
	return words
}

// joinPieces sets neighbours of one style as one text, so that a line is one
// string in the file and a reader finds the words whole.
func joinPieces(pieces []placed) []placed {
	var out []placed
	for _, p := range pieces {
		if n := len(out); n > 0 && out[n-1].st == p.st {
			out[n-1].text += p.text
			continue
		}
		out = append(out, p)
	}
	return out
}
