package yamltext

import (
	"fmt"
	"strings"
)

// indentWords tells of a line that begins too far left or right.
func (t *Text) indentWords(m *mistake) (remark, bool) {
	lines, line := t.reading, m.at.line+1
	text := lines[line-1]
	next := line
	for next < len(lines) && (strings.TrimSpace(lines[next]) == "" || strings.HasPrefix(strings.TrimSpace(lines[next]), "#")) {
		next++
	}
	for _, n := range []int{line, next + 1} {
		if r, ok := firstOfGroup(lines, n); ok {
			return r, true
		}
	}
	if m.kind == tooFarIn && keyLine().MatchString(text) {
		above := line - 2
		for above > 0 && !holdsMore(lines[above]) {
			above--
		}
		return remark{line: line, column: 1, message: fmt.Sprintf("the line is indented further than line %d, which has its value already", above+1),
			remedy: "begin the line under the one that it belongs with", repaired: strings.Repeat(" ", indentOf(lines[above])) + strings.TrimLeft(text, " ")}, true
	}
	trimmed := strings.TrimSpace(text)
	switch {
	case isEntry(trimmed):
		return remark{line: line, column: indentOf(text) + 1, message: "a list entry stands here among keys", remedy: "indent it below the key that it belongs to, or write a key, a colon and a space"}, true
	case keyLine().MatchString(text):
		return remark{line: line, column: 1, message: fmt.Sprintf("the line is indented by %s, which fits none of the lines above it", spacesWord(indentOf(text))), remedy: "begin it under the key that it belongs with, with two spaces more for each level"}, true
	case !strings.Contains(trimmed, ":"):
		remedy := "write a key, a colon and a space before it; a text of several lines begins with | behind its key, and its lines are indented"
		return remark{line: line, column: indentOf(text) + 1, message: fmt.Sprintf("%q has no key before it", Shorten(trimmed)), remedy: remedy}, true
	}
	return remark{}, false
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

// shortKeyLine is keyLine for lines that somebody could have typed.
func shortKeyLine(line string) []string {
	if len(line) > longLine {
		return nil
	}
	return keyLine().FindStringSubmatch(line)
}

// firstOfGroup looks whether it is not line n that is indented wrongly but the
// first line of its group, further up: most lines of the group then stand where
// n does.
func firstOfGroup(lines []string, n int) (remark, bool) {
	if n > len(lines) || depth(lines[n-1]) < 0 || shortKeyLine(lines[n-1]) == nil {
		return remark{}, false
	}
	x := indentOf(lines[n-1])
	first := groupHead(lines, n, x)
	if first == 0 {
		return remark{}, false
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
		if m := shortKeyLine(lines[i-1]); m != nil && strings.TrimSpace(m[3]) == "" {
			within = at
		}
		if at == x && indentOf(lines[i-1]) == x {
			here++
		}
		if at == y {
			there++
		}
	}
	hyphens := y - indentOf(lines[first-1])
	if here <= there || x < hyphens {
		return remark{}, false
	}
	message := fmt.Sprintf("the line begins in column %d, and those below that belong with it in column %d", y+1, x+1)
	return remark{line: first, column: indentOf(lines[first-1]) + 1, message: message, remedy: "begin them all in the same column", repaired: strings.Repeat(" ", x-hyphens) + strings.TrimLeft(lines[first-1], " ")}, true
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
		m := shortKeyLine(lines[i-1])
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
