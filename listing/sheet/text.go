package sheet

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
)

// standIns are characters that a font may lack and what may stand for them.
var standIns = map[rune]string{
	'\u2212': "\u2013", // minus sign
	'\u2248': "~",
	'\u2264': "<=",
	'\u2265': ">=",
	'\u2300': "\u00d8", // diameter sign
	'\u2205': "\u00d8",
	'\u2192': "->",
	'\u0149': "\u02bcn", // n preceded by apostrophe, deprecated in Unicode
	'\u2011': "-",       // non-breaking hyphen
	'\u202f': "\u00a0",  // narrow no-break space
	'\u2007': "\u00a0",
	'\u2009': " ",
}

// replacement is drawn for a character that no font of ours has.
const replacement = '\ufffd'

// clean returns s as the font can draw it: composed, without control and
// direction characters, line ends as spaces, pictures that the font lacks left out
// with the blank before them, and letters that it lacks replaced. All text passes through here, since gofpdf panics beyond
// U+FFFF and leaves a gap for a missing glyph.
func (m *metrics) clean(s string) string {
	s = norm.NFC.String(strings.ToValidUTF8(s, string(replacement)))
	var b strings.Builder
	leftOut := false
	for _, r := range s {
		switch {
		case r == ' ' && leftOut && b.Len() == 0: // behind a picture that a text began with
		case r == '\n' || r == '\r' || r == '\t' || r == '\u2028' || r == '\u2029':
			b.WriteByte(' ')
		case unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Variation_Selector, r):
			// Controls, soft hyphens, direction marks and joiners are not drawn.
		case m.has(r):
			b.WriteRune(r)
		case standIns[r] != "":
			b.WriteString(standIns[r])
		case unicode.IsSpace(r):
			b.WriteByte(' ')
		case isPicture(r):
			kept := strings.TrimRight(b.String(), " ")
			b.Reset()
			b.WriteString(kept)
			leftOut = true
		default:
			b.WriteRune(replacement)
		}
	}
	s = inOneSign().ReplaceAllStringFunc(b.String(), inParts)
	s = fraction().ReplaceAllStringFunc(s, fractionGlyphs)
	if strings.ContainsRune(s, '×') {
		s = beforeTimes().ReplaceAllString(afterTimes().ReplaceAllString(s, "×\u00a0$1"), "$1\u00a0×")
	}
	return dayMonth().ReplaceAllString(numberUnit().ReplaceAllString(s, "$1\u00a0$2"), "$1\u00a0$2")
}

// isPicture reports whether a character is a small picture, such as an emoji or the
// colour of one, which says nothing that the words beside it do not.
func isPicture(r rune) bool { return unicode.Is(unicode.So, r) || unicode.Is(unicode.Sk, r) }

// fraction is a fraction written with the fraction slash, as 11⁄16, with the space
// that parts it from a whole number.
var fraction = spelling.Pattern(`(\d[ \x{00a0}])?(\d+)⁄(\d+)`)

const (
	raisedFigures  = "⁰¹²³⁴⁵⁶⁷⁸⁹"
	loweredFigures = "₀₁₂₃₄₅₆₇₈₉"
)

// inOneSign is a fraction that fonts have as one letter, with the whole number before it.
var inOneSign = spelling.Pattern(`\d?[¼½¾⅐-⅞]`)

// inParts writes such a fraction as the others are, so that all look alike: 8¼ as 8 1⁄4.
func inParts(s string) string {
	if whole := s[0]; whole < utf8.RuneSelf {
		return string(whole) + " " + norm.NFKD.String(s[1:])
	}
	return norm.NFKD.String(s)
}

// fractionGlyphs sets a fraction in raised and lowered figures, a narrow space after
// the whole number.
func fractionGlyphs(s string) string {
	parts := fraction().FindStringSubmatch(s)
	var b strings.Builder
	if parts[1] != "" {
		b.WriteByte(parts[1][0])
		b.WriteRune('\u00a0')
	}
	for _, c := range parts[2] {
		b.WriteRune([]rune(raisedFigures)[c-'0'])
	}
	b.WriteRune('⁄')
	for _, c := range parts[3] {
		b.WriteRune([]rune(loweredFigures)[c-'0'])
	}
	return b.String()
}

// numberUnit is a number and its unit, which no line end may part.
var numberUnit = spelling.Pattern(`(\d|[₀-₉]) (%|(?:mm|cm|m|in|ft|kg|g|lb|oz|l|°C|°F)\b)`)

// A size such as 142.2 × 41.3 cm is not parted at its signs.
var (
	beforeTimes = spelling.Pattern(`([\d₀-₉]) ×`)
	afterTimes  = spelling.Pattern(`× ([\d⁰¹²³⁴-⁹])`)
)

// dayMonth is a number of one or two digits before a capital, such as a day and
// its month or a house and its street, which are better kept together too.
var dayMonth = spelling.Pattern(`\b(\d{1,2}) (\p{Lu})`)

// Unprintable lists the characters of the public part of a report that the fonts lack,
// sorted, so that the maker can be told: letters, for which a replacement sign is
// printed, and pictures, which are left out.
func Unprintable(r *report.Report) (letters, pictures []rune) {
	faces, err := loadFaces()
	if err != nil || r == nil {
		return nil, nil
	}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if enc.Encode(&r.Public) != nil {
		return nil, nil
	}
	seen := map[rune]bool{}
	for _, c := range norm.NFC.String(b.String()) {
		if seen[c] {
			continue
		}
		seen[c] = true
		switch printed := faces[serif].clean(string(c)); {
		case c == replacement:
		case strings.ContainsRune(printed, replacement):
			letters = append(letters, c)
		case printed == "" && isPicture(c):
			pictures = append(pictures, c)
		}
	}
	slices.Sort(letters)
	slices.Sort(pictures)
	return letters, pictures
}

// wrap breaks s into lines no wider than width, in thousandths of the type
// size times points. Blank lines of s part paragraphs and come back as "".
// A word wider than the line is broken where it must be, never lost.
func (m *metrics) wrap(s string, width float64) []string {
	var lines []string
	for i, para := range spelling.Paragraphs(s) {
		if i > 0 {
			lines = append(lines, "")
		}
		lines = append(lines, m.wrapParagraph(m.clean(para), width)...)
	}
	return lines
}

func (m *metrics) wrapParagraph(s string, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.FieldsFunc(s, func(r rune) bool { return r == ' ' }) {
		candidate := word
		if line != "" {
			candidate = line + " " + word
		}
		if m.width(candidate) <= width {
			line = candidate
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = word
		for line != "" && m.width(line) > width {
			head := m.fitting(line, width)
			lines = append(lines, head)
			line = line[len(head):]
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	m.balance(lines, width)
	return lines
}

// A last line that is shorter than leastLast of the measure, which is one short word,
// takes words from the line before it, no more than it needs, as long as that line
// stays as long as leastBefore. More than that only makes two ragged lines of one.
const (
	leastLast   = 0.12
	leastBefore = 0.55
)

// balance moves words from the last line but one of a paragraph to the last, where
// that would be a short word alone.
func (m *metrics) balance(lines []string, width float64) {
	n := len(lines)
	if n < 2 {
		return
	}
	before, last := lines[n-2], lines[n-1]
	for m.width(last) < leastLast*width {
		i := strings.LastIndexByte(before, ' ')
		if i < 0 || m.width(before[:i]) < leastBefore*width || m.width(before[i+1:]+" "+last) > width {
			return
		}
		before, last = before[:i], before[i+1:]+" "+last
		lines[n-2], lines[n-1] = before, last
	}
}

// fitting returns the longest start of word that fits, at least one character; where
// the word is a size or an address, it ends behind one of its signs.
func (m *metrics) fitting(word string, width float64) string {
	var w float64
	for i, r := range word {
		w += m.glyphs[r].width
		if w > width && i > 0 {
			for _, end := range []string{"×\u00a0", "\u00a0", "/", "@"} {
				if j := strings.LastIndex(word[:i], end); j > len("https:/") || j > 0 && end != "/" {
					return word[:j+len(end)]
				}
			}
			return word[:i]
		}
	}
	return word
}
