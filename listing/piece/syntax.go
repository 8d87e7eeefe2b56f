package piece

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"
)

// blockHead is a line whose value is a block of text on the lines below it.
var blockHead = regexp.MustCompile(`(^|[\s:-])[|>][0-9+-]{0,2}\s*(#.*)?$`)

// curlyValue is a text in curly quotes where a value begins.
var curlyValue = regexp.MustCompile(`((?:^|[:,\[{]|- )\s*)[“„]([^“”„"\\]*)[”“]`)

// inBlocks marks the lines (0-based) that are the text of a block, with the
// column before which their indentation ends.
func inBlocks(lines []string) map[int]int {
	in := map[int]int{}
	for i := 0; i < len(lines); i++ {
		line := lines[i]
		if trimmed := strings.TrimSpace(line); trimmed == "" || trimmed[0] == '#' || !strings.ContainsAny(line, "|>") || !blockHead.MatchString(line) {
			continue
		}
		base := indentOf(line)
		j := i + 1
		for ; j < len(lines) && (strings.TrimSpace(lines[j]) == "" || indentOf(lines[j]) > base || strings.HasPrefix(lines[j], "\t")); j++ {
			in[j] = base + 1
		}
		i = j - 1
	}
	return in
}

// prepare returns the lines for the YAML reader: without the tabs and hard
// spaces that a line was indented with, each of which is a fault, and with
// straight quotes where curly ones hold what YAML would trip over.
func (s *source) prepare() []string {
	lines := slices.Clone(s.lines)
	blocks := inBlocks(lines)
	begun := false
	var tabs, hard []int // lines that are indented with them
	for i, line := range lines {
		base, block := blocks[i]
		if mark := strings.TrimSpace(line); (mark == "---" || mark == "...") && line[0] == mark[0] {
			if begun && anything(lines[i+1:]) {
				s.syntax(i+1, 1, "a second document begins here", "one file is one piece: take the line "+mark+" out, and put another piece into a folder of its own")
				lines[i] = ""
			}
			continue
		}
		begun = begun || anything(lines[i:i+1])
		body := strings.TrimLeft(line, " \t\u00a0")
		lead := line[:len(line)-len(body)]
		if block && len(lead) > base {
			lead = lead[:base]
		}
		if body != "" && strings.ContainsAny(lead, "\t\u00a0") {
			if strings.Contains(lead, "\t") {
				tabs = append(tabs, i+1)
			} else {
				hard = append(hard, i+1)
			}
			fixed := strings.ReplaceAll(strings.ReplaceAll(lead, "\t", "  "), "\u00a0", " ")
			s.shift[i+1] = utf8.RuneCountInString(fixed) - utf8.RuneCountInString(lead)
			lines[i] = fixed + line[len(lead):]
		}
		if !block { // spaces at the end mean nothing, and the library counts them into the column
			lines[i] = strings.TrimRight(lines[i], " \t")
		}
		if !block && strings.ContainsAny(line, "“„") {
			lines[i] = curlyValue.ReplaceAllStringFunc(lines[i], straighten)
		}
	}
	s.indented(tabs, "a tab", "in an editor, find and replace every tab by two spaces; YAML does not know tabs")
	s.indented(hard, "a hard space, as web pages and word processors have it", "indent with plain spaces, two for each level")
	return lines
}

// indented reports the lines that are indented with something else than spaces:
// once for all of them, since an editor that writes one tab writes many.
func (s *source) indented(lines []int, what, remedy string) {
	if len(lines) == 0 {
		return
	}
	message := "the line is indented with " + what
	if n := len(lines); n > 1 {
		message = fmt.Sprintf("this line and %d more are indented with %s, the last of them line %d", n-1, what, lines[n-1])
	}
	s.syntax(lines[0], 1, message, remedy)
	for _, n := range lines[1:] {
		s.faulty[n] = true
	}
}

// anything reports whether lines hold more than remarks.
func anything(lines []string) bool {
	return slices.ContainsFunc(lines, func(line string) bool {
		body := strings.TrimSpace(line)
		return body != "" && body[0] != '#' && body[0] != '%'
	})
}

// straighten puts a text that holds special signs into straight quotes; other
// curly quotes stay, and are taken off later.
func straighten(match string) string {
	m := curlyValue.FindStringSubmatch(match)
	if !strings.Contains(m[2], ": ") && !strings.Contains(m[2], "#") && !strings.ContainsAny(m[2], "[]{}") {
		return match
	}
	return m[1] + `"` + m[2] + `"`
}

// syntax records one syntax fault a line.
func (s *source) syntax(line, column int, message, remedy string) {
	if s.faulty[line] {
		return
	}
	s.faulty[line] = true
	column = min(max(column, 1), utf8.RuneCountInString(s.line(line))+1)
	s.add(Fault, "spec.syntax", Place{s.file, line, column}, message, remedy)
}

// syntaxFault reports a library error in a maker's words and mends or blanks
// its line, so that reading can go on. It returns what stood on blanked lines,
// and false when nothing was left to blank.
func (s *source) syntaxFault(lines []string, line, column int, message string) (gone []string, ok bool) {
	line, column = min(max(line, 1), len(lines)), max(column, 1)
	for line > 1 && strings.TrimSpace(lines[line-1]) == "" { // the library points behind the end
		line, column = line-1, 1
	}
	sl := diagnose(lines, line, column, message)
	s.syntax(sl.line, sl.column, sl.message, sl.remedy)
	if sl.repaired != "" && sl.repaired != lines[sl.line-1] && !s.mended[sl.line] {
		s.mended[sl.line] = true
		s.guessed[sl.line] = sl.guess
		s.shift[sl.line] += utf8.RuneCountInString(sl.repaired) - utf8.RuneCountInString(lines[sl.line-1])
		lines[sl.line-1] = sl.repaired
		return nil, true
	}
	gone = blankFrom(lines, sl.line)
	if len(gone) == 0 { // blanked before: blank where the library pointed
		gone = blankFrom(lines, line)
	}
	return gone, len(gone) > 0
}

// sorted returns the findings in the order of the file.
func (s *source) sorted() []Finding {
	slices.SortStableFunc(s.findings, func(a, b Finding) int {
		if a.Line != b.Line {
			return a.Line - b.Line
		}
		return a.Column - b.Column
	})
	return s.findings
}
