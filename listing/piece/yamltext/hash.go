package yamltext

import (
	"context"
	"fmt"
	"slices"
	"strings"
)

// afterHash mends what makers do first of all with a fresh file: they take the #
// away and leave the space behind it. Those lines then stand in odd columns while
// all the others stand in even ones, and a line that is right would be blamed. m
// is where the reader gave up. It returns false, with nothing said, where taking
// the space away as well would not let the file be read any further.
func (t *Text) afterHash(ctx context.Context, m *mistake) bool {
	odd := oddLines(t.reading)
	if len(odd) == 0 {
		return false
	}
	mended := slices.Clone(t.reading)
	for _, i := range odd {
		mended[i] = mended[i][1:]
	}
	if _, again := t.readOnce(ctx, mended); again != nil {
		above := again.at.line - 1 // the line that the next slip may be the fault of
		for above > 0 && !holdsMore(mended[above]) {
			above--
		}
		if again.at.line <= m.at.line || again.at.line <= odd[0] || slices.Contains(odd, above) {
			return false
		}
	}
	message := "the line stands one space too far in"
	if n := len(odd); n > 1 {
		message = fmt.Sprintf("this line and %d more stand one space too far in, the last of them line %d", n-1, odd[n-1]+1)
	}
	first := odd[0] + 1
	remedy := "where you took a # away, take the one space behind it away too"
	if above := lineAbove(t.reading, odd[0]); len(odd) == 1 && above >= 0 && depth(t.reading[above]) == depth(t.reading[odd[0]])+1 {
		message, remedy = "the line stands one space too far out", fmt.Sprintf("put one space more before it, if it belongs with line %d; take one away, if it belongs with those further out", above+1)
		mended[odd[0]] = " " + t.reading[odd[0]]
	}
	t.syntax(first, indentOf(t.reading[odd[0]])+1, message, remedy)
	for _, i := range odd {
		t.shift[i+1] += indentOf(mended[i]) - indentOf(t.reading[i])
		t.faulty[i+1] = true
	}
	t.reading = mended
	return true
}

// lineAbove is the line (0-based) above one that is neither empty nor a remark; -1 for
// none.
func lineAbove(lines []string, i int) int {
	for i--; i >= 0 && !holdsMore(lines[i]); i-- {
	}
	return i
}

// oddLines returns the lines (0-based) that are indented by an odd number of
// spaces, where they are the fewer; remarks and the text of blocks do not count.
func oddLines(lines []string) []int {
	blocks := inBlocks(lines)
	var odd []int
	even := 0
	for i, line := range lines {
		body := strings.TrimSpace(line)
		if _, text := blocks[i]; text || body == "" || body[0] == '#' {
			continue
		}
		if indentOf(line)%2 == 1 {
			odd = append(odd, i)
		} else {
			even++
		}
	}
	if len(odd) > even {
		return nil
	}
	return odd
}
