package trace

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// split parts a text into words: runs of letters and digits.
func split(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r) })
}

// parted puts a space where a name that is written as one begins a new word with a
// capital letter: DeepRiver is Deep River.
func parted(s string) string {
	var b strings.Builder
	small := false
	for _, r := range s {
		if small && unicode.IsUpper(r) {
			b.WriteByte(' ')
		}
		small = unicode.IsLower(r)
		b.WriteRune(r)
	}
	return b.String()
}

// plainWords parts a text into words without case, accents and plural.
func plainWords(s string) []string {
	words := split(strings.ToLower(withoutAccents(strings.ToValidUTF8(s, " "))))
	for i, w := range words {
		words[i] = singular(w)
	}
	return words
}

// letters are those that no accent can be taken off, as people type them.
var letters = strings.NewReplacer("ß", "ss", "ø", "o", "Ø", "o", "æ", "ae", "Æ", "ae", "œ", "oe", "Œ", "oe", "ł", "l", "Ł", "l", "đ", "d", "Đ", "d", "ı", "i")

// withoutAccents takes the accents off.
func withoutAccents(s string) string {
	for i := range len(s) {
		if s[i] >= 0x80 {
			return letters.Replace(strings.Map(func(r rune) rune {
				if unicode.Is(unicode.Mn, r) {
					return -1
				}
				return r
			}, norm.NFD.String(s)))
		}
	}
	return s
}

// singular takes the plural off an English word, roughly: it is used on both
// sides, so that it need not be right, only the same. Words with digits, such as
// batches, stay whole.
func singular(w string) string {
	if w == "feet" {
		return "foot"
	}
	if len(w) < 4 || strings.ContainsFunc(w, unicode.IsDigit) {
		return w
	}
	switch {
	case strings.HasSuffix(w, "ves"): // shelves, knives, sleeves
		return w[:len(w)-3] + "f"
	case strings.HasSuffix(w, "ve"), strings.HasSuffix(w, "ife"): // sleeve, knife
		return w[:len(w)-2] + "f"
	case strings.HasSuffix(w, "ies") && len(w) > 4:
		return w[:len(w)-3] + "y"
	case strings.HasSuffix(w, "ches"), strings.HasSuffix(w, "shes"), strings.HasSuffix(w, "xes"), strings.HasSuffix(w, "sses"):
		return w[:len(w)-2]
	case strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && !strings.HasSuffix(w, "us"):
		return w[:len(w)-1]
	}
	return w
}

// compareNatural compares names with numbers in them as people do: rev9 before
// rev10.
func compareNatural(a, b string) int {
	for a != "" && b != "" {
		if isDigit(a[0]) && isDigit(b[0]) {
			x, restA := number(a)
			y, restB := number(b)
			if len(x) != len(y) {
				return len(x) - len(y)
			}
			if c := strings.Compare(x, y); c != 0 {
				return c
			}
			a, b = restA, restB
			continue
		}
		if a[0] != b[0] {
			return int(a[0]) - int(b[0])
		}
		a, b = a[1:], b[1:]
	}
	return len(a) - len(b)
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func number(s string) (digits, rest string) {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	return strings.TrimLeft(s[:n], "0"), s[n:]
}

// HasWords reports whether a text has anything in it to look for.
func HasWords(s string) bool { return len(plainWords(s)) > 0 }
