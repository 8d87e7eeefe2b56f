package units

import "strings"

// WithPoints writes the decimal commas of a text as points: 2,20 m x 95,5 cm is 2.20 m x
// 95.5 cm. It does so where every comma between digits has that one reading: with
// three digits behind it may part thousands, and several in one number, or one in the
// thousands of another, part something else. ok is false, and the text as it was,
// where that is not so or no such comma is in it.
func WithPoints(text string) (read string, ok bool) {
	b := []byte(text)
	digit := func(i int) bool { return i >= 0 && i < len(b) && b[i] >= '0' && b[i] <= '9' }
	for i := 0; i < len(b); i++ {
		if b[i] != ',' || !digit(i-1) || !digit(i+1) {
			continue
		}
		from, to := i-1, i+1
		for digit(from - 1) {
			from--
		}
		for digit(to + 1) {
			to++
		}
		behind := func(i int) bool { return i >= 0 && i < len(text) && strings.IndexByte(",./", text[i]) >= 0 }
		if to-i == 3 || behind(from-1) || behind(to+1) && digit(to+2) {
			return text, false
		}
		b[i], ok = '.', true
		i = to
	}
	return string(b), ok
}
