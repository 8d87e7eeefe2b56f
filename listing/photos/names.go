package photos

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// publishedName is the name of the nth published photo, without width and
// ending: its number, then its view or the file's own name.
func publishedName(n int, s Source) string {
	word := Slug(s.View)
	if word == "" {
		word = Slug(stem(s.Name))
	}
	if word == "" {
		word = "photo"
	}
	return fmt.Sprintf("%02d-%s", n, word)
}

// plainSpelling writes the letters that do not come apart into a plain one and a sign as
// their languages do where they have to.
var plainSpelling = strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss", "æ", "ae", "œ", "oe", "ø", "o", "ł", "l", "đ", "d", "ð", "d", "þ", "th")

// Slug makes a word for a file name or an address of a text: it keeps lower-case letters a to z, digits and single hyphens; 48 at most,
// so that names stay short enough for every file system. A letter with a sign on
// it loses the sign, however the name is composed.
func Slug(s string) string {
	var b strings.Builder
	for _, r := range norm.NFD.String(plainSpelling.Replace(norm.NFC.String(strings.ToLower(s)))) {
		switch {
		case unicode.Is(unicode.Mn, r):
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case r == '\'' || r == '’':
		default:
			if b.Len() > 0 && !strings.HasSuffix(b.String(), "-") {
				b.WriteByte('-')
			}
		}
		if b.Len() >= 48 {
			break
		}
	}
	return strings.Trim(b.String(), "-")
}

// IsMask reports whether a file's name says that it is a mask: the word stands in it by
// itself.
func IsMask(name string) bool {
	return slices.ContainsFunc(strings.FieldsFunc(strings.ToLower(stem(name)), func(r rune) bool { return !unicode.IsLetter(r) }), func(w string) bool {
		return w == "mask" || w == "masks" || w == "maske"
	})
}
