package yamltext

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"
)

// blockHead is a line whose value is a block of text on the lines below it.
var blockHead = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(^|[\s:-])[|>][0-9+-]{0,2}\s*(#.*)?$`) })

// curlyValue is a text in curly quotes where a value begins.
var curlyValue = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`((?:^|[:,\[{]|- )\s*)[“„]([^“”„"\\]*)[”“]`)
})

// inBlocks marks the lines (0-based) that are the text of a block, with the
// column before which their indentation ends.
func inBlocks(lines []string) map[int]int {
	in := map[int]int{}
	for i := 0; i < len(lines); i++ {
		line := lines[i]
		if trimmed := strings.TrimSpace(line); trimmed == "" || trimmed[0] == '#' || !strings.ContainsAny(line, "|>") || !blockHead().MatchString(line) {
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

// prepare makes the lines for the reader: without the tabs and hard spaces that
// a line was indented with, each of which is a slip, and with straight quotes
// where curly ones hold what YAML would trip over.
func (t *Text) prepare() {
	lines := slices.Clone(t.lines)
	t.reading = lines
	t.indentProse()
	blocks := inBlocks(lines)
	begun := false
	last := lastWith(lines)
	var tabs, hard []int         // lines that are indented with them
	for i, line := range lines { // with what was indented before
		base, block := blocks[i]
		if mark := strings.TrimSpace(line); (mark == "---" || mark == "...") && line[0] == mark[0] {
			if begun && i < last {
				t.syntax(i+1, 1, "a second document begins here", "one file is one piece: take the line "+mark+" out, and put another piece into a folder of its own")
			}
			lines[i] = ""
			continue
		}
		if !begun && directive().MatchString(line) {
			lines[i] = ""
			continue
		}
		begun = begun || holdsMore(line)
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
			t.shift[i+1] = utf8.RuneCountInString(fixed) - utf8.RuneCountInString(lead)
			lines[i] = fixed + line[len(lead):]
		}
		if !block && strings.ContainsAny(line, "“„") {
			lines[i] = straightened(lines[i])
		}
	}
	t.indented(tabs, "a tab", "in an editor, find and replace every tab by two spaces; YAML does not know tabs")
	t.indented(hard, "a hard space, as web pages and word processors have it", "indent with plain spaces, two for each level")
}

// directive is the line that may say which YAML a file is in.
var directive = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^%YAML 1\.\d\s*$`) })

// indented reports the lines that are indented with something else than spaces:
// once for all of them, since an editor that writes one tab writes many.
func (t *Text) indented(lines []int, what, remedy string) {
	if len(lines) == 0 {
		return
	}
	message := "the line is indented with " + what
	if n := len(lines); n > 1 {
		message = fmt.Sprintf("this line and %d more are indented with %s, the last of them line %d", n-1, what, lines[n-1])
	}
	t.syntax(lines[0], 1, message, remedy)
	for _, n := range lines[1:] {
		t.faulty[n] = true
	}
}

// holdsMore reports whether a line holds more than a remark.
func holdsMore(line string) bool {
	body := strings.TrimSpace(line)
	return body != "" && body[0] != '#' && body[0] != '%'
}

// lastWith returns the last line (0-based) that holds more than a remark or the
// mark of a document's end; -1 when there is none.
func lastWith(lines []string) int {
	for i := len(lines) - 1; i >= 0; i-- {
		if mark := strings.TrimSpace(lines[i]); holdsMore(lines[i]) && mark != "---" && mark != "..." {
			return i
		}
	}
	return -1
}

// straightened is a line with straight quotes around its curly values; what stands
// between straight ones already stays.
func straightened(line string) string {
	if strings.ContainsRune(line, '"') {
		return line
	}
	return curlyValue().ReplaceAllStringFunc(line, straighten)
}

// straighten puts a text that holds special signs into straight quotes; other
// curly quotes stay, and are taken off later.
func straighten(match string) string {
	m := curlyValue().FindStringSubmatch(match)
	if !strings.Contains(m[2], ": ") && !strings.Contains(m[2], "#") && !strings.ContainsAny(m[2], "[]{}") {
		return match
	}
	return m[1] + `"` + m[2] + `"`
}

// withoutCurlyQuotes takes curly quotes off a text that stands in them.
func withoutCurlyQuotes(text string) string {
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

func indentOf(line string) int { return len(line) - len(strings.TrimLeft(line, " ")) }
