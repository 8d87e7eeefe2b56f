package piece

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"
)

// keyLine takes a line with a key apart: indent with hyphens, key, the rest.
var keyLine = regexp.MustCompile(`^(\s*(?:- +)*)("[^"]*"|'[^']*'|[\p{L}_][\p{L}\p{N}_. -]*?)\s*:(\s.*|)$`)

// tightKey is a key without a space behind its colon.
var tightKey = regexp.MustCompile(`^(\s*(?:- +)*[\p{L}_][\p{L}\p{N}_]*):(\S.*)$`)

// equalsKey is a key with an equals sign behind it.
var equalsKey = regexp.MustCompile(`^(\s*(?:- +)*[\p{L}_][\p{L}\p{N}_]*)\s*=\s*(.*)$`)

// A slip is a syntax fault in a maker's words.
type slip struct {
	line, column    int // 1-based
	message, remedy string
	repaired        string // the line as it was meant; empty: blank it
	guess           bool   // what the line was meant to be is not sure: its value is not looked at
}

// diagnose finds the slip behind a library error.
func diagnose(lines []string, line, column int, message string) slip {
	text := lines[line-1]
	if sl, ok := quoteSlip(lines, line, message); ok {
		return sl
	}
	if sl, ok := bracketSlip(lines, line, column, message); ok {
		return sl
	}
	if m := tightKey.FindStringSubmatch(text); m != nil && !strings.HasPrefix(m[2], "//") {
		return slip{line, utf8.RuneCountInString(m[1]) + 1, "there is no space behind the colon", fmt.Sprintf("write %s: %s", strings.TrimLeft(strings.TrimSpace(m[1]), "- "), shorten(m[2])), m[1] + ": " + m[2], false}
	}
	if m := equalsKey.FindStringSubmatch(text); m != nil && !keyLine.MatchString(text) {
		return slip{line, utf8.RuneCountInString(m[1]) + 1, "there is an equals sign where a colon belongs", fmt.Sprintf("write %s: %s", strings.TrimLeft(strings.TrimSpace(m[1]), "- "), shorten(m[2])), m[1] + ": " + m[2], false}
	}
	if sl, ok := valueSlip(lines, line, column, message); ok {
		return sl
	}
	if sl, ok := indentSlip(lines, line, message); ok {
		return sl
	}
	return slip{line, column, "the line cannot be read", "write a key, a colon, a space and the value, like this: title: Estuary table; put a text with special signs in quotes", "", false}
}

// opening returns the value of a line that begins with a quote, with the column
// of the quote (0-based, in bytes), or false.
func opening(text string) (value string, at int, ok bool) {
	i := strings.IndexAny(text, `"'`)
	if i < 0 {
		return "", 0, false
	}
	before := strings.TrimRight(text[:i], " ")
	if before == "" || strings.HasSuffix(before, ":") || strings.HasSuffix(before, "-") || strings.HasSuffix(before, "[") || strings.HasSuffix(before, "{") || strings.HasSuffix(before, ",") {
		return text[i:], i, true
	}
	return "", 0, false
}

// quoteSlip looks for a quote that is not closed, or closed too early.
func quoteSlip(lines []string, line int, message string) (slip, bool) {
	if strings.Contains(message, "unknown escape character") || strings.Contains(message, "escape") {
		return slip{line, strings.Index(lines[line-1], `\`) + 1, "a backslash means something of its own between double quotes", "write two backslashes, or put the text in single quotes", strings.ReplaceAll(lines[line-1], `\`, `\\`), false}, true
	}
	unclosed := strings.Contains(message, "could not find end character")
	for n := line; n >= max(1, line-5); n-- {
		value, at, ok := opening(lines[n-1])
		if !ok {
			continue
		}
		quote, inner := value[:1], value[1:]
		column := utf8.RuneCountInString(lines[n-1][:at]) + 1
		end := strings.Index(inner, quote)
		if end < 0 {
			if n == line && !unclosed || n < line && !runsInto(lines, n, line, quote) {
				continue
			}
			key := ""
			if m := keyLine.FindStringSubmatch(lines[n-1]); m != nil {
				key = m[2] + ": "
			}
			return slip{n, column, "a quotation mark is opened here and not closed", fmt.Sprintf("close it at the end of the text: %s%s%s%s", key, quote, shorten(strings.TrimRight(inner, " ")), quote), lines[n-1] + quote, true}, true
		}
		if rest := strings.TrimSpace(inner[end+1:]); n == line && rest != "" && !strings.ContainsAny(rest[:1], "#,]}:") {
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
			return slip{n, column, "the text goes on behind the closing quotation mark", "put the whole text in quotes: " + other + shorten(whole) + other, "", false}, true
		}
	}
	return slip{}, false
}

// runsInto reports whether a quotation mark that line n opens and does not close
// is closed by one that was meant to open the value of a later line.
func runsInto(lines []string, n, line int, quote string) bool {
	for i := n; i < line; i++ {
		if !strings.Contains(lines[i], quote) {
			continue
		}
		m := keyLine.FindStringSubmatch(lines[i])
		return m != nil && strings.HasPrefix(strings.TrimSpace(m[3]), quote)
	}
	return false
}

// bracketSlip looks for [ ] and { } that do not pair.
func bracketSlip(lines []string, line, column int, message string) (slip, bool) {
	switch {
	case strings.Contains(message, "could not find '[' character"), strings.Contains(message, "could not find '{' character"):
		return slip{line, column, "a bracket is closed here that was never opened", "take it out, or open it before the values; a text with brackets in it goes in quotes", "", false}, true
	case strings.Contains(message, "must be specified"), strings.Contains(message, "end token"):
	case strings.Contains(message, "is not allowed in this context") && column > 1 && strings.ContainsAny(runeAt(lines[line-1], column), "]}"):
		return slip{line, column, "there is one closing bracket too many", "take it out", string([]rune(lines[line-1])[:column-1]), false}, true
	default:
		return slip{}, false
	}
	// The last bracket that is still open before the place.
	type open struct {
		line, column int
		r            rune
	}
	var stack []open
	for n := max(1, line-200); n <= line; n++ {
		for i, r := range []rune(lines[n-1]) {
			if n == line && i+1 >= column {
				break
			}
			switch r {
			case '[', '{':
				stack = append(stack, open{n, i + 1, r})
			case ']', '}':
				if len(stack) > 0 {
					stack = stack[:len(stack)-1]
				}
			}
		}
	}
	if len(stack) == 0 {
		return slip{line, column, "the line cannot be read: a bracket or a comma is missing", "look at whether every [ has its ] and every { its }", "", false}, true
	}
	last := stack[len(stack)-1]
	closing := "]"
	if last.r == '{' {
		closing = "}"
	}
	if last.line == line && strings.Contains(string([]rune(lines[line-1])[column-1:]), closing) {
		return slip{line, column, "a comma is missing before this", "put a comma between the values", "", false}, true
	}
	return slip{last.line, last.column, fmt.Sprintf("%q is opened here and not closed", string(last.r)), fmt.Sprintf("close it with %s at the end of the values", closing), strings.TrimRight(lines[last.line-1], " ,") + closing, false}, true
}

func runeAt(text string, column int) string {
	if r := []rune(text); column >= 1 && column <= len(r) {
		return string(r[column-1])
	}
	return ""
}

// valueSlip looks for a value that has to stand in quotes.
func valueSlip(lines []string, line, column int, message string) (slip, bool) {
	text := lines[line-1]
	m := keyLine.FindStringSubmatch(text)
	if m == nil {
		return slip{}, false
	}
	value := strings.TrimSpace(m[3])
	quoted := m[1] + m[2] + ": " + quote(value)
	at := utf8.RuneCountInString(m[1]+m[2]) + 3
	switch {
	case value == "":
		return slip{}, false
	case strings.Contains(message, "reserved character") || strings.ContainsAny(value[:1], "@`%*&!"):
		return slip{line, at, fmt.Sprintf("a text cannot begin with %s unless it stands in quotes", value[:1]), "write " + m[2] + ": " + shorten(quote(value)), quoted, true}, true
	case strings.Contains(message, "header option"):
		return slip{line, at, fmt.Sprintf("nothing may follow %s on its line", value[:1]), "begin the text on the next line, indented; or take the sign out", "", false}, true
	case strings.HasPrefix(value, "- "):
		return slip{line, at, "a list cannot begin on the line of its key", "begin each entry on a line of its own, below the key: - and a space", "", false}, true
	case strings.Contains(value, ": ") && !strings.ContainsAny(value[:1], `"'[{`):
		return slip{line, at, "a colon with a space behind it stands inside the text", "put the whole text in quotes: " + m[2] + ": " + shorten(quote(value)), quoted, true}, true
	}
	return slip{}, false
}

// quote puts a text into double quotes.
func quote(text string) string {
	if strings.ContainsAny(text, `"\`) {
		return "'" + strings.ReplaceAll(text, "'", "''") + "'"
	}
	return `"` + text + `"`
}

// indentSlip looks for a line that begins too far left or right.
func indentSlip(lines []string, line int, message string) (slip, bool) {
	text := lines[line-1]
	next := line
	for next < len(lines) && (strings.TrimSpace(lines[next]) == "" || strings.HasPrefix(strings.TrimSpace(lines[next]), "#")) {
		next++
	}
	for _, n := range []int{line, next + 1} {
		if sl, ok := firstSlip(lines, n); ok {
			return sl, true
		}
	}
	// The library points at the value above a line that is indented too far.
	if strings.Contains(message, "mapping value is not allowed") && next < len(lines) && indentOf(lines[next]) > indentOf(text) && keyLine.MatchString(lines[next]) {
		return slip{next + 1, 1, fmt.Sprintf("the line is indented further than line %d, which has its value already", line), "begin the line under the one that it belongs with", strings.Repeat(" ", indentOf(text)) + strings.TrimLeft(lines[next], " "), false}, true
	}
	trimmed := strings.TrimSpace(text)
	switch {
	case strings.HasPrefix(trimmed, "- ") || trimmed == "-":
		return slip{line, indentOf(text) + 1, "a list entry stands here among keys", "indent it below the key that it belongs to, or write a key, a colon and a space", "", false}, true
	case keyLine.MatchString(text):
		return slip{line, 1, fmt.Sprintf("the line is indented by %s, which fits none of the lines above it", spacesWord(indentOf(text))), "begin it under the key that it belongs with, with two spaces more for each level", "", false}, true
	case !strings.Contains(trimmed, ":"):
		remedy := "write a key, a colon and a space before it; a text of several lines begins with | behind its key, and its lines are indented"
		return slip{line, indentOf(text) + 1, fmt.Sprintf("%q has no key before it", shorten(trimmed)), remedy, "", false}, true
	}
	return slip{}, false
}

// depth is the column (0-based) where the key of a line begins, behind its
// hyphens; -1 for a line without one.
func depth(line string) int {
	body := strings.TrimLeft(line, " ")
	if body == "" || body[0] == '#' {
		return -1
	}
	for strings.HasPrefix(body, "- ") {
		body = strings.TrimLeft(body[2:], " ")
	}
	return len(line) - len(body)
}

// firstSlip looks whether it is not line n that is indented wrongly but the
// first line of its group, further up: most lines of the group then stand where
// n does.
func firstSlip(lines []string, n int) (slip, bool) {
	if n > len(lines) || depth(lines[n-1]) < 0 || !keyLine.MatchString(lines[n-1]) {
		return slip{}, false
	}
	x := indentOf(lines[n-1])
	first := groupHead(lines, n, x)
	if first == 0 {
		return slip{}, false
	}
	y := depth(lines[first-1])
	here, there := 0, 0
	within := -1 // lines deeper than this belong to a key that was counted
	for i := first; i <= len(lines); i++ {
		at := depth(lines[i-1])
		if at < 0 || within >= 0 && at > within {
			continue
		}
		if i > first && at < min(x, y) {
			break
		}
		within = -1
		if m := keyLine.FindStringSubmatch(lines[i-1]); m != nil && strings.TrimSpace(m[3]) == "" {
			within = at
		}
		if at == x && indentOf(lines[i-1]) == x {
			here++
		}
		if at == y {
			there++
		}
	}
	if here <= there {
		return slip{}, false
	}
	hyphens := y - indentOf(lines[first-1])
	if x < hyphens {
		return slip{}, false
	}
	message := fmt.Sprintf("the line begins in column %d, and those below that belong with it in column %d", y+1, x+1)
	return slip{first, indentOf(lines[first-1]) + 1, message, "begin them all in the same column", strings.Repeat(" ", x-hyphens) + strings.TrimLeft(lines[first-1], " "), false}, true
}

// groupHead returns the line (1-based) above line n that is the first of its
// group, where n at column x seems to belong to the same group; 0 when there is
// none.
func groupHead(lines []string, n, x int) int {
	head, agree := 0, false // agree: two lines stand where head does, so neither is the slip
	for i := n - 1; i >= 1; i-- {
		at := depth(lines[i-1])
		if at < 0 {
			continue
		}
		m := keyLine.FindStringSubmatch(lines[i-1])
		if m == nil || at == x {
			return 0
		}
		open := strings.TrimSpace(m[3]) == "" || strings.HasPrefix(strings.TrimSpace(m[3]), "#")
		if head != 0 && open && at < min(x, depth(lines[head-1])) {
			break // the key that the group hangs on
		}
		if head == 0 || at < depth(lines[head-1]) {
			head, agree = i, false
		} else if at == depth(lines[head-1]) {
			agree = true
		}
	}
	if agree {
		return 0
	}
	return head
}

func spacesWord(n int) string {
	switch n {
	case 0:
		return "nothing"
	case 1:
		return "one space"
	}
	return fmt.Sprintf("%d spaces", n)
}
