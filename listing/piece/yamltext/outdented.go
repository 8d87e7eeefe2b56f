package yamltext

import (
	"fmt"
	"regexp"
	"strings"
	"sync"
)

// plainKey is a line that begins with a key as a spec has them: one word, or one in quotes.
var plainKey = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(?:- +)*(?:"[^"]*"|'[^']*'|[\p{L}\p{N}_.-]+)\s*[:=](?:\s|$)`)
})

// isProse reports whether a line is the text of somebody who left out the indent: neither
// blank nor a key, an entry of a list, a remark or a mark between documents.
func isProse(line string) bool {
	body := strings.TrimSpace(line)
	return body != "" && !strings.HasPrefix(body, "#") && body != "-" && !strings.HasPrefix(body, "- ") && body != "---" && body != "..." && !plainKey().MatchString(body)
}

// indentProse indents the lines below a | or > that begin where their key does, as far as
// they are prose: one slip, however many lines there are.
func (t *Text) indentProse() {
	lines := t.reading
	for i := 0; i < len(lines); i++ {
		k := keyLine().FindStringSubmatch(shortLine(lines[i]))
		if k == nil || !blockHead().MatchString(k[3]) || !strings.ContainsAny(k[3][:min(len(k[3]), 4)], "|>") {
			continue
		}
		base := indentOf(lines[i])
		first, last := -1, -1
		for j := i + 1; j < len(lines); j++ {
			if strings.TrimSpace(lines[j]) == "" {
				continue
			}
			in := indentOf(lines[j])
			if in < base || in == base && !isProse(lines[j]) || in > base && first < 0 {
				break
			}
			if first < 0 {
				first = j
			}
			last = j
		}
		if first < 0 {
			continue
		}
		for j := first; j <= last; j++ {
			lines[j] = "  " + lines[j]
			t.shift[j+1] += 2
			t.faulty[j+1] = true
		}
		said := fmt.Sprintf("lines %d to %d", first+1, last+1)
		if first == last {
			said = fmt.Sprintf("line %d", first+1)
		}
		t.syntax(i+1, t.column(spot{i, len(k[1])}), "the text of "+k[2]+" is not indented, so "+k[2]+" has none", "put two spaces at the beginning of "+said)
		i = last
	}
}

// shortLine is a line that somebody may have typed, else nothing.
func shortLine(line string) string {
	if len(line) > longLine {
		return ""
	}
	return line
}
