package yamltext

import (
	"fmt"
	"strings"
)

// brackets tells of brackets that do not pair, and of commas.
func (t *Text) brackets(m *mistake) remark {
	text := t.reading[m.at.line]
	r := remark{line: m.at.line + 1, column: t.column(m.at)}
	opened := m.open != spot{} && strings.ContainsAny(t.reading[m.open.line][m.open.byte:m.open.byte+1], "[{")
	key := keyLine().MatchString(text)
	switch {
	case m.kind == strayComma:
		r.message, r.remedy = "there is a comma with no value before it", "take it out; a text that begins with a comma goes in quotes"
		r.repaired = text[:m.at.byte] + " " + text[m.at.byte+1:]
	case m.kind == closedTooOften && !opened && strings.TrimSpace(text[:m.at.byte]) != "" && !strings.HasSuffix(strings.TrimSpace(text[:m.at.byte]), ":"):
		r.message, r.remedy, r.repaired = "there is one closing bracket too many", "take it out", text[:m.at.byte]
	case m.kind == closedTooOften && !opened:
		r.message, r.remedy = "a bracket is closed here that was never opened", "take it out, or open it before the values; a text with brackets in it goes in quotes"
	case m.kind == missingComma && !(m.at.line > m.open.line && key):
		r.message, r.remedy = "a comma is missing before this", "put a comma between the values"
		r.repaired, r.guess = text[:m.at.byte]+", "+text[m.at.byte:], true
	default:
		return t.openBracket(m)
	}
	return r
}

// openBracket tells of a bracket that is not closed, and closes it where its last
// value ends.
func (t *Text) openBracket(m *mistake) remark {
	shut := "]"
	open := t.reading[m.open.line][m.open.byte : m.open.byte+1]
	if open == "{" {
		shut = "}"
	}
	r := remark{line: m.open.line + 1, column: t.column(m.open), message: fmt.Sprintf("%q is opened here and not closed", open), remedy: fmt.Sprintf("close it with %s at the end of the values", shut), opener: true}
	last := m.at.line
	if m.kind == closedTooOften {
		r.repairedLine, r.repaired = last+1, t.reading[last][:m.at.byte]+shut+t.reading[last][m.at.byte:]
		return r
	}
	for last > m.open.line && (last == m.at.line && m.at.byte < len(t.reading[last]) || !holdsMore(t.reading[last])) {
		last--
	}
	values, _ := bareLine(t.reading[last])
	r.repairedLine, r.repaired = last+1, strings.TrimRight(values, " ,")+shut+t.reading[last][len(values):]
	return r
}

// lastLine is the last line (1-based) that holds more than a remark.
func (t *Text) lastLine() int {
	n := len(t.reading)
	for n > 1 && !holdsMore(t.reading[n-1]) {
		n--
	}
	return n
}

// Opened reports whether the value at a place begins with a bracket that its maker
// did not close, so that its shape may not be what was meant.
func (t *Text) Opened(at Place) bool {
	column, ok := t.opened[at.Line]
	line := []rune(t.Line(at.Line))
	if !ok || at.Column < 1 || at.Column > column || column > len(line) {
		return false
	}
	return strings.TrimSpace(string(line[at.Column-1:column-1])) == ""
}
