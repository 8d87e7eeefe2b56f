package piece

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"slabfolio/listing/piece/yamltext"
)

// A Place is where a value stands in a maker's file.
type Place = yamltext.Place

// A Value is one value of the spec with its place. The zero Value is absent.
type Value[T any] struct {
	V  T
	At Place
}

// Set reports whether the maker gave the value.
func (v Value[T]) Set() bool { return v.At.Line > 0 }

// Of returns a Value as if it stood on line 1 of a file; for tests and the demo.
func Of[T any](v T) Value[T] { return Value[T]{v, Place{File: "piece.yaml", Line: 1, Column: 1}} }

// maxFindings is how many things are said of one file. Whoever has mended so many
// looks again.
const maxFindings = 1000

// A source is one spec file with what was found wrong with it so far.
type source struct {
	*yamltext.Text
	file     string
	findings []Finding
	unsaid   int // findings beyond maxFindings
}

// newSource takes the slips of a file over as faults.
func newSource(file string, text *yamltext.Text) *source {
	s := &source{Text: text, file: file}
	for _, slip := range text.Slips {
		s.record(Fault, slip.Code, slip.At, slip.Message, slip.Remedy)
	}
	return s
}

// full reports whether nothing more will be said of the file, so that what it
// would take to say it can be saved.
func (s *source) full() bool { return len(s.findings) >= maxFindings }

// add records a finding, with the line it points to. What is said of a value that
// is our own guess is left out, and so is what only follows from a bracket that
// was not closed: the bracket is told of by itself.
func (s *source) add(rank Rank, code string, at Place, message, remedy string) {
	if code == "spec.type" && s.Opened(at) || code == "spec.missing" && s.BreaksOff {
		return
	}
	if !s.Guessed(at.Line) || code == "spec.syntax" {
		s.record(rank, code, at, message, remedy)
	}
}

func (s *source) record(rank Rank, code string, at Place, message, remedy string) {
	if s.full() {
		s.unsaid++
		return
	}
	s.findings = append(s.findings, Finding{Rank: rank, Code: code, File: at.File, Line: at.Line, Column: at.Column,
		Message: plainQuotes(message), Remedy: plainQuotes(remedy), Snippet: showable(s.Line(at.Line))})
}

// sorted returns the findings in the order of the file; of a line its slips of
// form come first, since the rest may follow from them.
func (s *source) sorted() []Finding {
	slices.SortStableFunc(s.findings, func(a, b Finding) int {
		form := func(f Finding) int { return strings.Count(f.Code, "spec.syntax") }
		return cmp.Or(a.Line-b.Line, form(b)-form(a), a.Column-b.Column)
	})
	if s.unsaid > 0 {
		last := s.findings[len(s.findings)-1]
		s.findings = append(s.findings, Finding{Rank: Fault, Code: "spec.too-many", File: s.file, Line: last.Line, Column: last.Column,
			Message: "there is more to say of this file than is said here", Remedy: "mend what is said, and check again"})
	}
	return s.findings
}

// longSnippet is how many letters of a line are shown.
const longSnippet = 240

// showable is a line for a terminal: without control characters, and cut where
// it is very long.
func showable(line string) string {
	cut := false
	if n := longSnippet * utf8.UTFMax; len(line) > n { // so that a long line is not gone over for each finding in it
		line, cut = line[:n], true
	}
	line = strings.Map(func(r rune) rune {
		if r != '\t' && !unicode.IsPrint(r) && r != '\u00a0' {
			return utf8.RuneError
		}
		return r
	}, strings.ToValidUTF8(line, string(utf8.RuneError)))
	if r := []rune(line); len(r) > longSnippet {
		line, cut = string(r[:longSnippet]), true
	}
	if cut {
		return line + "…"
	}
	return line
}

// kindWord names a node for a message.
func kindWord(n *yamltext.Node) string {
	switch n.Shape {
	case yamltext.Mapping:
		return "keys of its own"
	case yamltext.List:
		return "a list"
	case yamltext.Empty:
		return "nothing"
	}
	return "a single value"
}
