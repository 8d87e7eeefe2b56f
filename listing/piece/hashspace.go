package piece

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// afterHash mends what makers do first of all with a fresh file: they take the #
// away and leave the space behind it. Those lines then stand in odd columns while
// all the others stand in even ones, and the reader of YAML blames a line that is
// right. line is where it gave up. It returns false, with nothing said, where
// taking the space away as well would not let the file be read any further.
func (s *source) afterHash(lines []string, line int) bool {
	odd := oddLines(lines)
	if len(odd) == 0 {
		return false
	}
	mended := slices.Clone(lines)
	for _, i := range odd {
		mended[i] = mended[i][1:]
	}
	if _, err := parse(strings.Join(mended, "\n") + "\n"); err != nil {
		if at, _, _ := syntaxPlace(err); at <= line || at <= odd[0]+1 {
			return false
		}
	}
	message := "the line stands one space too far in"
	if n := len(odd); n > 1 {
		message = fmt.Sprintf("this line and %d more stand one space too far in, the last of them line %d", n-1, odd[n-1]+1)
	}
	first := odd[0] + 1
	s.syntax(first, utf8.RuneCountInString(lines[odd[0]])-utf8.RuneCountInString(strings.TrimLeft(lines[odd[0]], " "))+1, message,
		"where you took a # away, take the one space behind it away too")
	for _, i := range odd {
		s.faulty[i+1] = true
		s.shift[i+1]--
	}
	copy(lines, mended)
	return true
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
