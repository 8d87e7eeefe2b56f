package piece

import (
	"slices"
	"strings"

	"github.com/goccy/go-yaml/token"
)

// prepare returns the lines for the YAML reader.
func (s *source) prepare() []string {
	lines := slices.Clone(s.lines)
	for i, line := range lines {
		body := strings.TrimLeft(line, " \t\u00a0")
		if lead := line[:len(line)-len(body)]; strings.ContainsAny(lead, "\t\u00a0") && body != "" {
			s.faulty[i+1] = true
			s.add(Fault, "spec.syntax", Place{s.file, i + 1, 1}, "the line is indented with a tab", "indent with spaces, two for each level")
			lines[i] = strings.ReplaceAll(strings.ReplaceAll(lead, "\t", "  "), "\u00a0", " ") + body
		}
	}
	return lines
}

// syntaxFault reports a library error in a maker's words and returns its line.
func (s *source) syntaxFault(lines []string, at *token.Position, message string) int {
	line, column := 1, 1
	if at != nil {
		line, column = min(max(at.Line, 1), len(lines)), max(at.Column, 1)
	}
	if !s.faulty[line] {
		s.faulty[line] = true
		s.add(Fault, "spec.syntax", Place{s.file, line, min(column, len([]rune(s.line(line)))+1)}, "the line cannot be read: "+message, "write a key, a colon, a space and the value; put a text with special signs in quotes")
	}
	return line
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
