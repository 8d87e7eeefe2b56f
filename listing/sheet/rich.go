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
	x    float64
	st   style
	text string
}

// A word is what is not parted: pieces without a space between them.
type word struct {
	pieces    []placed // x from the word's start
	width     float64
	paragraph bool
}

// wrapRuns breaks runs into lines of at most width millimetres. A word that is
// wider than a line is broken where it must be, never lost.
func (d *doc) wrapRuns(runs []run, width float64) [][]placed {
	var lines [][]placed
	var cur []placed
	x, hang := 0.0, 0.0
	if len(runs) > 0 && runs[0].hanging {
		hang = indent
	}
	flush := func() {
		if cur != nil {
			lines = append(lines, joinPieces(cur))
			x = hang
		}
		cur = nil
	}
	for _, w := range d.words(runs, width-indent) {
		space := 0.0
		if cur != nil {
			space = d.width(w.pieces[0].st, " ")
		}
		if w.paragraph {
			flush()
			x, space = indent, 0
		} else if cur != nil && x+space+w.width > width {
			flush()
			space = 0
		}
		for i, p := range w.pieces {
			if i == 0 && space > 0 {
				p.text = " " + p.text
				p.x -= space
			}
			p.x += x + space
			cur = append(cur, p)
		}
		x += space + w.width
	}
	flush()
	return lines
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
					last.pieces = append(last.pieces, placed{last.width, r.st, head})
					last.width += w
				} else {
					words = append(words, word{[]placed{{0, r.st, head}}, w, paragraph})
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
