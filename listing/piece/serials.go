package piece

import (
	"fmt"
	"strconv"
	"strings"

	"slabfolio/listing/spelling"
)

// numbered is a serial that ends in a number.
var numbered = spelling.Pattern(`^(.*?)(\d{1,9})$`)

// NextSerial returns the serial that follows those of a collection: the highest
// number behind the beginning that most of them have, plus one, with as many
// digits. It is empty where no serial ends in a number.
func NextSerial(taken []string) string {
	count := map[string]int{}
	best := ""
	for _, s := range taken {
		if m := numbered().FindStringSubmatch(s); m != nil {
			count[m[1]]++
			if c := count[m[1]]; c > count[best] || c == count[best] && m[1] < best || count[best] == 0 {
				best = m[1]
			}
		}
	}
	if count[best] == 0 {
		return ""
	}
	high, digits := 0, 1
	for _, s := range taken {
		if m := numbered().FindStringSubmatch(s); m != nil && strings.EqualFold(m[1], best) {
			if n, _ := strconv.Atoi(m[2]); n >= high {
				high, digits = n, max(digits, len(m[2]))
			}
		}
	}
	return fmt.Sprintf("%s%0*d", best, digits, high+1)
}

// shortSerial is what reads like a serial and not like a word with a number behind it: a year
// or a few letters, and a number.
var shortSerial = spelling.Pattern(`^(?:[A-Za-z]{1,3}|[A-Z]{1,6}|(?:19|20)\d\d)[-_]?\d{1,9}$`)

// ReadsAsSerial reports whether a text reads like a serial of anybody's, such as C-7,
// B12 or 2026-04.
func ReadsAsSerial(text string) bool { return shortSerial().MatchString(text) }

// LikeSerials reports whether a serial begins as one of a collection does and ends
// in a number, as they do.
func LikeSerials(serial string, taken []string) bool {
	m := numbered().FindStringSubmatch(serial)
	if m == nil {
		return false
	}
	for _, s := range taken {
		if n := numbered().FindStringSubmatch(s); n != nil && strings.EqualFold(n[1], m[1]) {
			return true
		}
	}
	return false
}
