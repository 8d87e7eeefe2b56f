package piece

import (
	"bytes"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Limits of a spec file. A long story is ten kilobytes; a traced outline of
// 20,000 corners is under half a megabyte.
const (
	maxFile  = 1 << 20
	maxLine  = 1 << 19
	maxLines = 20000 // the reader of YAML slows down with the square of the keys
	maxDepth = 20    // keys within keys
	maxNodes = 200000
)

// A source is one spec file with what was found wrong with it so far.
type source struct {
	file     string
	lines    []string // as read, without line ends
	findings []Finding
	faulty   map[int]bool // lines that already have a syntax fault
	mended   map[int]bool // lines that were mended for the YAML reader
	guessed  map[int]bool // mended lines whose value may not be what was meant
	shift    map[int]int  // columns that a mended line is longer by
	letters  map[int]int  // how many each line has that was asked about
}

// newSource splits a file into lines and looks for what makes it no text at
// all. It returns false when there is no use in reading on.
func newSource(file string, data []byte) (*source, bool) {
	s := &source{file: file, faulty: map[int]bool{}, mended: map[int]bool{}, guessed: map[int]bool{}, shift: map[int]int{}, letters: map[int]int{}}
	if len(data) > maxFile {
		s.add(Fault, "spec.too-large", Place{file, 1, 1}, fmt.Sprintf("the file is larger than %d KiB", maxFile>>10), "keep the spec short; photos, sheets and receipts belong beside it, in photos/ and papers/")
		return s, false
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	if bytes.HasPrefix(data, []byte("\xff\xfe")) || bytes.HasPrefix(data, []byte("\xfe\xff")) {
		s.add(Fault, "spec.encoding", Place{file, 1, 1}, "the file is saved as UTF-16", "save it as UTF-8 in your editor")
		return s, false
	}
	text := strings.ReplaceAll(string(data), "\r\n", "\n")
	text = strings.ReplaceAll(text, "\r", "\n")
	s.lines = strings.Split(text, "\n")
	if len(s.lines) > maxLines {
		s.add(Fault, "spec.too-large", Place{file, maxLines + 1, 1}, fmt.Sprintf("the file has more than %d lines", maxLines), "keep the spec short; what was written down while working belongs beside it, in papers/")
		return s, false
	}
	for i, line := range s.lines {
		s.checkBytes(i, line)
	}
	return s, len(s.findings) == 0
}

// checkBytes reports a line that holds what no text file holds; once a file is
// enough for each kind.
func (s *source) checkBytes(i int, line string) {
	if len(s.findings) >= 20 {
		return
	}
	at := func(byteIndex int) Place {
		return Place{s.file, i + 1, utf8.RuneCountInString(line[:byteIndex]) + 1}
	}
	if len(line) > maxLine {
		s.add(Fault, "spec.too-large", at(0), "the line is too long to be read", "break it into shorter lines")
		return
	}
	if !utf8.ValidString(line) {
		n := 0
		for n < len(line) {
			r, size := utf8.DecodeRuneInString(line[n:])
			if r == utf8.RuneError && size == 1 {
				break
			}
			n += size
		}
		s.add(Fault, "spec.encoding", at(n), "there is a letter here that is not UTF-8", "save the file as UTF-8 in your editor, and type the letter again if it still looks wrong")
		return
	}
	for n, r := range line {
		if r < ' ' && r != '\t' || r == 0x7f {
			s.add(Fault, "spec.encoding", at(n), fmt.Sprintf("there is an invisible character here (U+%04X) that no text has", r), "delete it, or type the line again")
			return
		}
	}
}

// add records a finding, with the line it points to.
func (s *source) add(rank Rank, code string, at Place, message, remedy string) {
	if s.guessed[at.Line] && code != "spec.syntax" {
		return // the value is our own guess
	}
	f := Finding{Rank: rank, Code: code, File: at.File, Line: at.Line, Column: at.Column, Message: plainQuotes(message), Remedy: plainQuotes(remedy)}
	if at.Line > 0 && at.Line <= len(s.lines) {
		f.Snippet = showable(s.lines[at.Line-1])
	}
	s.findings = append(s.findings, f)
}

// showable is a line for a terminal: without control characters, and cut where
// it is very long.
func showable(line string) string {
	line = strings.Map(func(r rune) rune {
		if r != '\t' && !unicode.IsPrint(r) && r != '\u00a0' {
			return utf8.RuneError
		}
		return r
	}, strings.ToValidUTF8(line, string(utf8.RuneError)))
	if r := []rune(line); len(r) > 240 {
		return string(r[:240]) + "…"
	}
	return line
}

// line returns a line of the file, 1-based.
func (s *source) line(n int) string {
	if n < 1 || n > len(s.lines) {
		return ""
	}
	return s.lines[n-1]
}

// lineLetters counts the letters of a line, 1-based, and keeps the count: a
// traced outline on one line asks for it ten thousand times.
func (s *source) lineLetters(n int) int {
	count, ok := s.letters[n]
	if !ok {
		count = utf8.RuneCountInString(s.line(n))
		s.letters[n] = count
	}
	return count
}
