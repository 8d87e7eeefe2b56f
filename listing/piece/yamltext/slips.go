package yamltext

import (
	"fmt"
	"regexp"
	"strings"
	"sync"
	"unicode/utf8"
)

// keyLine takes a line with a key apart: indent with hyphens, key, the rest.
var keyLine = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(\s*(?:- +)*)("[^"]*"|'[^']*'|[\p{L}_][\p{L}\p{N}_. -]*?)\s*:(\s.*|)$`)
})

// tightKey is a key without a space behind its colon.
var tightKey = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(\s*(?:- +)*[\p{L}_][\p{L}\p{N}_]*):(\S.*)$`) })

// equalsKey is a key with an equals sign behind it.
var equalsKey = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(\s*(?:- +)*[\p{L}_][\p{L}\p{N}_]*)\s*=\s*(.*)$`) })

// otherColon is a key with a colon behind it that is not ours: the wide one of Chinese and
// Japanese keyboards, the sign of a ratio, and others that look like one.
var otherColon = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(\s*(?:- +)*[\p{L}_][\p{L}\p{N}_]*?)\s*[：﹕︓∶ː꞉։]\s*(.*)$`)
})

// loneWord is a line that may be a key, and nothing else.
var loneWord = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(\s*(?:- +)*)([\p{L}_][\p{L}\p{N}_]*)\s*(#.*)?$`) })

// longLine is a line that nobody mends by hand, in bytes.
const longLine = 4096

// A remark is what is said of a mistake, in a maker's words.
type remark struct {
	line, column    int // 1-based, the column in letters of the mended line
	message, remedy string
	code            string // spec.syntax when empty
	repaired        string // the line as it was meant; empty: blank it
	repairedLine    int    // which line that is; the same when 0
	guess           bool   // what the line was meant to be is not sure: its value is not looked at
	opener          bool   // the place is that of a bracket that is closed for its maker
}

// mend says what is wrong and mends or blanks a line, so that reading can go on.
// It returns false when nothing was left to blank.
func (t *Text) mend(m *mistake) bool {
	at := min(m.at.line, len(t.reading)-1)
	for at > 0 && strings.TrimSpace(t.reading[at]) == "" { // the end of the file
		at--
	}
	if at != m.at.line {
		m.at = spot{at, len(t.reading[at])}
	}
	s := t.diagnose(m)
	if s.code != "" && !t.faulty[s.line] {
		t.faulty[s.line] = true
		t.slip(s.code, Place{t.file, s.line, s.column}, s.message, s.remedy)
	}
	t.syntax(s.line, s.column-t.shift[s.line], s.message, s.remedy)
	if s.opener {
		t.opened[s.line] = s.column - t.shift[s.line]
		t.BreaksOff = t.BreaksOff || s.line == t.lastLine()
	}
	n := s.line
	if s.repairedLine > 0 {
		n = s.repairedLine
	}
	if s.repaired != "" && s.repaired != t.reading[n-1] && !t.mended[n] {
		t.mended[n] = true
		t.guessed[s.line] = t.guessed[s.line] || s.guess
		t.shift[n] += utf8.RuneCountInString(s.repaired) - utf8.RuneCountInString(t.reading[n-1])
		t.reading[n-1] = s.repaired
		return true
	}
	gone := blankFrom(t.reading, s.line)
	if len(gone) == 0 { // blanked before: blank where the reader stopped
		gone = blankFrom(t.reading, m.at.line+1)
	}
	t.Lost = append(t.Lost, gone...)
	return len(gone) > 0
}

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

// column is a spot's column in letters, 1-based.
func (t *Text) column(s spot) int {
	return utf8.RuneCountInString(t.reading[s.line][:min(s.byte, len(t.reading[s.line]))]) + 1
}

// diagnose puts a mistake into words and finds what was meant.
func (t *Text) diagnose(m *mistake) remark {
	line := m.at.line + 1
	unread := remark{line: line, column: t.column(m.at), message: "the line cannot be read", remedy: "write a key, a colon, a space and the value, like this: title: Estuary table; put a text with special signs in quotes"}
	if len(t.reading[m.at.line]) > longLine || len(t.reading[m.open.line]) > longLine {
		return unread
	}
	switch m.kind {
	case openQuote:
		return t.openQuote(m)
	case textBehind:
		return t.textBehind(m, unread)
	case badEscape:
		return remark{line: line, column: t.column(m.at), message: "a backslash means something of its own between double quotes", remedy: "write two backslashes, or put the text in single quotes", repaired: strings.ReplaceAll(t.reading[m.at.line], `\`, `\\`)}
	case openBracket, closedTooOften, missingComma, strayComma:
		return t.brackets(m)
	case mergeKey:
		return remark{line: line, column: t.column(m.at), message: "<< takes keys over from somewhere else, which is not done here", remedy: "write the keys out", code: "spec.alias"}
	case complexKey:
		return remark{line: line, column: t.column(m.at), message: "a key that begins with ? or a bracket means something else in YAML", remedy: "write the key, a colon, a space and the value"}
	}
	text := t.reading[m.at.line]
	said := func(m []string, message string) remark {
		return remark{line: line, column: utf8.RuneCountInString(m[1]) + 1, message: message,
			remedy: fmt.Sprintf("write %s: %s", strings.TrimLeft(strings.TrimSpace(m[1]), "- "), Shorten(m[2])), repaired: m[1] + ": " + m[2]}
	}
	if m := tightKey().FindStringSubmatch(text); m != nil && !strings.HasPrefix(m[2], "//") {
		return said(m, "there is no space behind the colon")
	}
	if m := otherColon().FindStringSubmatch(text); m != nil && !keyLine().MatchString(text) {
		return said(m, "the colon is one of another alphabet, which YAML does not know")
	}
	if k := loneWord().FindStringSubmatch(text); k != nil && m.kind == noKey && !t.mended[line] {
		return remark{line: line, column: utf8.RuneCountInString(k[1]+k[2]) + 1, message: "there is no colon behind " + Shorten(k[2]),
			remedy: "write " + Shorten(k[2]) + ": and its value behind it, or its parts below it; a word of the text above is indented as that text is", repaired: k[1] + k[2] + ":", guess: true}
	}
	if m := equalsKey().FindStringSubmatch(text); m != nil && !keyLine().MatchString(text) {
		return said(m, "there is an equals sign where a colon belongs")
	}
	if r, ok := t.valueWords(m); ok {
		return r
	}
	if r, ok := t.indentWords(m); ok {
		return r
	}
	return unread
}

// openQuote tells of a quotation mark that is not closed.
func (t *Text) openQuote(m *mistake) remark {
	text := strings.TrimRight(t.reading[m.open.line], " \t")
	quote, inner := text[m.open.byte:m.open.byte+1], text[m.open.byte+1:]
	key := ""
	if k := keyLine().FindStringSubmatch(text); k != nil && strings.HasPrefix(strings.TrimSpace(k[3]), quote) {
		key = k[2] + ": "
	}
	return remark{line: m.open.line + 1, column: t.column(m.open), message: "a quotation mark is opened here and not closed",
		remedy: fmt.Sprintf("close it at the end of the text: %s%s%s%s", key, quote, Shorten(inner), quote), repaired: text + quote, guess: true}
}

// textBehind tells of a text that goes on behind its closing quotation mark or
// bracket.
func (t *Text) textBehind(m *mistake, unread remark) remark {
	text := t.reading[m.at.line]
	before := strings.TrimRight(text[:m.at.byte], " \t")
	if strings.HasSuffix(before, "]") || strings.HasSuffix(before, "}") {
		unread.message, unread.remedy = "the line goes on behind the closing bracket", "take out what stands behind it, or put it into the brackets"
		unread.repaired, unread.guess = before, true
		return unread
	}
	value, at, ok := opening(text)
	if !ok {
		return unread
	}
	quote, inner := value[:1], value[1:]
	whole := strings.TrimSuffix(strings.TrimSpace(inner), quote)
	if strings.Contains(whole, quote) {
		whole = strings.Replace(whole, quote, "", 1)
		if quote == "'" {
			whole = strings.TrimSuffix(strings.TrimSpace(inner), quote)
		}
	}
	other := `"`
	if strings.Contains(whole, `"`) {
		other = `'`
	}
	return remark{line: m.at.line + 1, column: t.column(spot{m.at.line, at}), message: "the text goes on behind the closing quotation mark", remedy: "put the whole text in quotes: " + other + Shorten(whole) + other}
}

// opening returns the value of a line that begins with a quote, with the column
// of the quote (0-based, in bytes), or false.
func opening(text string) (value string, at int, ok bool) {
	i := strings.IndexAny(text, `"'`)
	if i < 0 {
		return "", 0, false
	}
	before := strings.TrimRight(text[:i], " ")
	if before == "" || strings.ContainsAny(before[len(before)-1:], ":-[{,") {
		return text[i:], i, true
	}
	return "", 0, false
}

// InQuotes puts a text into quotes, for showing how it is written.
func InQuotes(text string) string {
	if strings.ContainsAny(text, `"\`) {
		return "'" + strings.ReplaceAll(text, "'", "''") + "'"
	}
	return `"` + text + `"`
}
