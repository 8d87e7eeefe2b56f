package yamltext

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"
)

// split cuts a file into lines and looks for what makes it no text at all. It
// returns false when there is no use in reading on.
func (t *Text) split(data []byte) bool {
	first := Place{t.file, 1, 1}
	if len(data) > MaxFile {
		t.slip("spec.too-large", first, fmt.Sprintf("the file is larger than %d KiB", MaxFile>>10), "keep the spec short; photos, sheets and receipts belong beside it, in photos/ and papers/")
		return false
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		t.slip("spec.encoding", first, "the file is saved as UTF-16", "save it as UTF-8 in your editor")
		return false
	}
	t.lines = strings.Split(plainEnds(string(data)), "\n")
	if len(t.lines) > maxLines {
		t.slip("spec.too-large", Place{t.file, maxLines + 1, 1}, fmt.Sprintf("the file has more than %d lines", maxLines), "keep the spec short; what was written down while working belongs beside it, in papers/")
		return false
	}
	for i, line := range t.lines {
		t.checkBytes(i, line)
	}
	return len(t.Slips) == 0
}

// plainEnds makes every line end a line feed, whatever system wrote the file.
func plainEnds(text string) string {
	return strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
}

// mostOdd bounds how many lines that hold no text are named.
const mostOdd = 20

// checkBytes reports a line that holds what no text file holds.
func (t *Text) checkBytes(i int, line string) {
	if len(t.Slips) >= mostOdd {
		return
	}
	at := func(byteIndex int) Place {
		return Place{t.file, i + 1, utf8.RuneCountInString(line[:byteIndex]) + 1}
	}
	if len(line) > maxLine {
		t.slip("spec.too-large", at(0), "the line is too long to be read", "break it into shorter lines")
		return
	}
	for n, r := range line {
		if r == utf8.RuneError {
			if _, size := utf8.DecodeRuneInString(line[n:]); size == 1 {
				t.slip("spec.encoding", at(n), "there is a letter here that is not UTF-8", "save the file as UTF-8 in your editor, and type the letter again if it still looks wrong")
				return
			}
		}
	}
	for n, r := range line {
		if r < ' ' && r != '\t' || r == 0x7f {
			t.slip("spec.encoding", at(n), fmt.Sprintf("there is an invisible character here (U+%04X) that no text has", r), "delete it, or type the line again")
			return
		}
	}
}

// slip records a slip.
func (t *Text) slip(code string, at Place, message, remedy string) {
	t.Slips = append(t.Slips, Slip{code, at, message, remedy})
}

// syntax records one slip of syntax a line.
func (t *Text) syntax(line, column int, message, remedy string) {
	if t.faulty[line] {
		return
	}
	t.faulty[line] = true
	column = min(max(column, 1), utf8.RuneCountInString(t.Line(line))+1)
	t.slip("spec.syntax", Place{t.file, line, column}, message, remedy)
}
