package piece

import (
	"strings"
)

// maxRetries bounds how many syntax faults of one file are looked for.
const maxRetries = 12

// tree parses the file into nodes. A line with a syntax fault is reported,
// blanked, and the rest read on, so that one slip does not hide the others. It
// returns nil when nothing can be read, and the text of the blanked lines, so
// that what stood there is not called missing.
func (s *source) tree() (root *node, blanked []string) {
	lines := s.prepare()
	if s.tooDeep(lines) {
		return nil, nil
	}
	for try := range maxRetries {
		file, err := parse(strings.Join(lines, "\n") + "\n")
		if err == nil {
			return s.body(file), blanked
		}
		line, column, message := syntaxPlace(err)
		if try == 0 && s.afterHash(lines, line) {
			continue
		}
		gone, ok := s.syntaxFault(lines, line, column, message)
		if !ok {
			break
		}
		blanked = append(blanked, gone...)
	}
	return nil, blanked
}

// tooDeep refuses, before the library recurses into them, more levels than any
// spec has: brackets in brackets, or hyphens behind hyphens.
func (s *source) tooDeep(lines []string) bool {
	open := 0
	for i, line := range lines {
		if body := strings.TrimLeft(line, " "); strings.HasPrefix(body, strings.Repeat("- ", maxDepth)) || strings.HasPrefix(body, strings.Repeat("? ", maxDepth)) {
			open = maxOpen + 1
		}
		for _, r := range line {
			switch r {
			case '[', '{':
				open++
			case ']', '}':
				open = max(0, open-1)
			}
		}
		if open > maxOpen || indentOf(line) > 500 {
			s.add(Fault, "spec.too-deep", Place{s.file, i + 1, 1}, "the file has more levels than a spec can have", "keep to the keys that `slabfolio new` writes into a fresh piece.yaml")
			return true
		}
	}
	return false
}

// maxOpen bounds the brackets that are open at once.
const maxOpen = 200

// blankFrom empties line n (1-based) and the deeper lines below it, and returns
// what stood there.
func blankFrom(lines []string, n int) (gone []string) {
	base := indentOf(lines[n-1])
	if strings.TrimSpace(lines[n-1]) != "" {
		gone = append(gone, lines[n-1])
	}
	lines[n-1] = ""
	for i := n; i < len(lines); i++ {
		if strings.TrimSpace(lines[i]) != "" && indentOf(lines[i]) <= base {
			break
		}
		if strings.TrimSpace(lines[i]) != "" {
			gone = append(gone, lines[i])
		}
		lines[i] = ""
	}
	return gone
}

func indentOf(line string) int { return len(line) - len(strings.TrimLeft(line, " ")) }

// uncurl takes curly quotes off a text that stands in them.
func uncurl(text string) string {
	for _, q := range [][2]string{{"“", "”"}, {"„", "“"}, {"„", "”"}, {"‘", "’"}, {"”", "”"}, {"’", "’"}, {"«", "»"}} {
		inner, ok := strings.CutPrefix(text, q[0])
		if !ok || len(inner) < len(q[1]) {
			continue
		}
		if inner, ok = strings.CutSuffix(inner, q[1]); ok && !strings.ContainsAny(inner, q[0]+q[1]) {
			return inner
		}
	}
	return text
}

// longLine is a line on which nobody counts columns, in bytes.
const longLine = 4096

// settle moves a place to where the text really stands on the line, if the
// library's column is off.
func (s *source) settle(at Place, text string) Place {
	plain := s.line(at.Line)
	if n := at.Column - 1; n >= 0 && n <= len(plain) && s.lineLetters(at.Line) == len(plain) && strings.HasPrefix(plain[n:], text) {
		return at
	}
	if len(plain) > longLine {
		return at // not worth the time that a long list on one line would take
	}
	line := []rune(plain)
	if at.Line == 0 || text == "" || strings.HasPrefix(string(line[min(at.Column-1, len(line)):]), text) {
		return at
	}
	if before, _, ok := strings.Cut(string(line), text); ok && strings.Count(string(line), text) == 1 {
		at.Column = len([]rune(before)) + 1
	}
	return at
}
