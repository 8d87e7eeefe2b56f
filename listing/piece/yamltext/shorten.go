package yamltext

import (
	"strings"
	"unicode"
)

// Shorten makes a maker's text fit for a message: at most 60 letters, and without
// signs that a terminal would act on.
func Shorten(text string) string {
	cut := false
	if n := 0; len(text) > keptLetters {
		for i := range text {
			if n == keptLetters {
				text, cut = text[:i], true
				break
			}
			n++
		}
	}
	text = strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\u00a0':
			return ' '
		case !unicode.IsPrint(r):
			return unicode.ReplacementChar
		}
		return r
	}, text)
	if cut {
		return text + "…"
	}
	return text
}

// keptLetters is how much of a text Shorten keeps.
const keptLetters = 60
