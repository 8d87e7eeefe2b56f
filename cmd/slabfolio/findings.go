package main

import (
	"fmt"
	"io"
	"strings"

	"slabfolio/listing/piece"
)

// finding prints one finding to w: rank, what, where; then the line of the file with
// a mark under the place; then what would be right. Where nobody is at a terminal
// the place stands first, as programs want it.
func (c *console) finding(w io.Writer, folder string, f piece.Finding) {
	c.mu.Lock()
	defer c.mu.Unlock()
	text := describe(folder, f, c.colour)
	if c.forPeople(w) {
		text = tellPerson(folder, f, c.colour)
	}
	if _, err := fmt.Fprint(w, text); err != nil && w == c.out {
		c.failed = err
	}
}

// forPeople reports whether what is written to w is read on a terminal.
func (c *console) forPeople(w io.Writer) bool {
	if w == c.out {
		return c.shown
	}
	return c.terminal // err, or the progress bar that stands there
}

// fileOf is the file that a finding is on, as the maker can go to it.
func fileOf(folder string, f piece.Finding) string {
	where := inLine(folder)
	switch {
	case folder == "":
		where = inLine(f.File)
	case f.File != "":
		where += "/" + inLine(f.File)
	}
	return where
}

// describe is a finding for programs and files: FILE:LINE:COLUMN: RANK: WHAT.
func describe(folder string, f piece.Finding, colour bool) string {
	where := fileOf(folder, f)
	if f.Line > 0 {
		where += fmt.Sprintf(":%d", f.Line)
		if f.Column > 0 {
			where += fmt.Sprintf(":%d", f.Column)
		}
	}
	if where != "" {
		where += ": "
	}
	return fmt.Sprintf("%s%s: %s\n", where, emphasis(string(f.Rank), colour), inLine(f.Message)) + evidence(f)
}

// tellPerson is a finding for somebody at a terminal: RANK: WHAT (FILE, line LINE).
func tellPerson(folder string, f piece.Finding, colour bool) string {
	where := fileOf(folder, f)
	if f.Line > 0 {
		where += fmt.Sprintf(", line %d", f.Line)
	}
	if where != "" {
		where = " (" + where + ")"
	}
	said := strings.TrimPrefix(wrap(fmt.Sprintf("%s: %s%s", f.Rank, inLine(f.Message), where), "       ", personWidth), "       ")
	f.Remedy = strings.TrimSuffix(wrapLines(f.Remedy, "", personWidth-9), "\n")
	return emphasis(string(f.Rank), colour) + strings.TrimPrefix(said, string(f.Rank)) + evidence(f)
}

// personWidth is how long a line for a person is: what every terminal shows whole.
const personWidth = 80

// wrapLines wraps each line of a text by itself.
func wrapLines(text, indent string, most int) string {
	var b strings.Builder
	for line := range strings.SplitSeq(text, "\n") {
		b.WriteString(wrap(line, indent, most))
	}
	return b.String()
}

// evidence is the line of the file with a mark under the place, and the remedy.
func evidence(f piece.Finding) string {
	var b strings.Builder
	if f.Snippet != "" && f.Line > 0 {
		line := printable(strings.TrimRight(strings.ReplaceAll(f.Snippet, "\t", " "), "\r\n"))
		fmt.Fprintf(&b, "  %4d | %s\n", f.Line, clip(line, 110))
		if f.Column > 0 && f.Column <= 100 {
			fmt.Fprintf(&b, "       | %s^\n", strings.Repeat(" ", f.Column-1))
		}
	}
	if f.Remedy != "" {
		fmt.Fprintf(&b, "         %s\n", strings.ReplaceAll(printable(f.Remedy), "\n", "\n         "))
	}
	return b.String()
}
