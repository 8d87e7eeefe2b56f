package units

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// An Error is a quantity that cannot be read: what is wrong with it and what
// would be right, both for a maker's eyes: lower case, no full stop.
type Error struct {
	Text    string // as written
	Message string // what is wrong; quotes the text
	Remedy  string // what to write instead, with an example
}

// Error returns the message with its remedy.
func (e *Error) Error() string { return e.Message + "; " + e.Remedy }

// maxText bounds a quantity: nobody writes a length of 80 letters.
const maxText = 80

// A part is one number with the unit behind it: "4 ft 6 in" has two.
type part struct {
	value float64
	unit  string // as written, trimmed, lower case; empty when bare
}

// vulgar are the fractions that have a sign of their own in Unicode.
var vulgar = map[rune]string{
	'½': "1/2", '⅓': "1/3", '⅔': "2/3", '¼': "1/4", '¾': "3/4", '⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5",
	'⅙': "1/6", '⅚': "5/6", '⅐': "1/7", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '⅑': "1/9", '⅒': "1/10",
}

// superscript and subscript digits build fractions such as ¹³⁄₁₆.
const (
	superscripts = "⁰¹²³⁴⁵⁶⁷⁸⁹"
	subscripts   = "₀₁₂₃₄₅₆₇₈₉"
)

// plain turns the signs that keyboards, phones and word processors put in into
// the plain ones: curly and prime marks, dashes, thin spaces, ¾ and ³.
func plain(text string) string {
	var b strings.Builder
	runes := []rune(text)
	for i := 0; i < len(runes); i++ {
		r := runes[i]
		if f, ok := vulgar[r]; ok {
			b.WriteString(" " + f + " ")
			continue
		}
		switch {
		case strings.ContainsRune(superscripts, r):
			n := strings.IndexRune(superscripts, r)
			digit := byte('0' + len([]rune(superscripts[:n])))
			// A raised digit is a power behind a letter and a numerator elsewhere.
			if i > 0 && !unicode.IsLetter(runes[i-1]) && !strings.ContainsRune(superscripts, runes[i-1]) {
				b.WriteByte(' ')
			}
			b.WriteByte(digit)
		case strings.ContainsRune(subscripts, r):
			n := strings.IndexRune(subscripts, r)
			b.WriteByte(byte('0' + len([]rune(subscripts[:n]))))
		case strings.ContainsRune("’‘′ʹ´", r):
			b.WriteByte('\'')
		case strings.ContainsRune("”“″‟ʺ", r):
			b.WriteByte('"')
		case strings.ContainsRune("‐‑‒–−", r):
			b.WriteByte('-')
		case strings.ContainsRune("⁄∕", r):
			b.WriteByte('/')
		case r == '×' || r == '✕':
			b.WriteByte('x')
		case r == 'º': // a keyboard's ordinal sign, meant as a degree
			b.WriteRune('°')
		case unicode.IsSpace(r) || r == '\u200b' || r == '\ufeff':
			b.WriteByte(' ')
		default:
			b.WriteRune(r)
		}
	}
	return strings.ReplaceAll(strings.TrimSpace(b.String()), "''", "\"")
}

// scan cuts a quantity into its numbers and units. What says what is read
// ("length"), example what a right one looks like.
func scan(text, what, example string) ([]part, *Error) {
	fault := func(message, remedy string) ([]part, *Error) {
		return nil, &Error{Text: text, Message: message, Remedy: remedy}
	}
	write := "write the " + what + " like this: " + example
	if len(text) > maxText || !utf8.ValidString(text) {
		return fault(fmt.Sprintf("%q is too long or unreadable for a %s", cut(text), what), write)
	}
	s := plain(text)
	if s == "" {
		return fault("the "+what+" is empty", write)
	}
	if i := strings.IndexByte(s, ','); i >= 0 {
		return fault(fmt.Sprintf("%q has a comma in it", text), CommaRemedy(text, example))
	}
	lower := strings.ToLower(s)
	for _, word := range []string{"nan", "inf", "infinity", ".nan", ".inf", "-inf", "-.inf", "∞"} {
		if lower == word || strings.HasPrefix(lower, word+" ") {
			return fault(fmt.Sprintf("%q is not a number", text), write)
		}
	}
	var parts []part
	for rest := lower; rest != ""; {
		n, after, odd := number(rest)
		if odd.problem != "" {
			if odd.instead != "" {
				write = "write " + strings.TrimSuffix(lower, rest) + odd.instead + after
			}
			return fault(fmt.Sprintf("%q %s", text, odd.problem), write)
		}
		unit, next := unitOf(after)
		parts = append(parts, part{n, unit})
		if len(parts) > 3 {
			return fault(fmt.Sprintf("%q holds more numbers than one %s has", text, what), write)
		}
		rest = next
	}
	if parts[0].value < 0 || strings.HasPrefix(lower, "-") {
		return fault(fmt.Sprintf("%q is negative", text), "write the "+what+" without the minus sign, like this: "+example)
	}
	return parts, nil
}

// A numberFault is what is wrong with a number, to follow the quoted text, and what may be
// meant instead; both are empty where nothing is wrong.
type numberFault struct{ problem, instead string }

// number reads a number at the start of s: 12, 1.75, .5, 3/4, 1 3/4, 1-3/4. It
// returns the rest behind it.
func number(s string) (n float64, rest string, o numberFault) {
	sign := 1.0
	if strings.HasPrefix(s, "-") {
		sign, s = -1, strings.TrimSpace(s[1:])
	}
	whole, rest := digits(s)
	if strings.HasPrefix(rest, ".") {
		n, rest, o = decimal(whole, rest[1:])
		return sign * n, rest, o
	}
	if whole == "" {
		return 0, "", numberFault{problem: "does not begin with a number"}
	}
	n, err := strconv.ParseFloat(whole, 64)
	if err != nil || math.IsInf(n, 0) {
		return 0, "", numberFault{problem: "is not a number that makes sense"}
	}
	after := strings.TrimLeft(rest, " ")
	if strings.HasPrefix(after, "/") {
		n, rest, o = fraction(0, whole, after)
		return sign * n, rest, o
	}
	loose := strings.HasPrefix(after, "-") && after != rest // a hyphen with a space before it
	after = strings.TrimLeft(strings.TrimPrefix(after, "-"), " ")
	numerator, tail := digits(after)
	slash := strings.TrimLeft(tail, " ")
	switch {
	case numerator == "" || after == rest:
		return sign * n, rest, numberFault{}
	case !strings.HasPrefix(slash, "/"):
		return 0, "", numberFault{problem: "has two numbers and no unit between them"}
	}
	n, rest, o = fraction(n, numerator, slash)
	if loose && o.problem == "" {
		o = numberFault{"has a hyphen that stands apart", strings.TrimSpace(strings.Join([]string{whole, numerator + strings.TrimSuffix(slash, rest)}, " "))}
	}
	return sign * n, rest, o
}

// decimal reads what stands behind the point of a number.
func decimal(whole, s string) (n float64, rest string, o numberFault) {
	part, rest := digits(s)
	after := strings.TrimSpace(rest)
	if whole == "" && part == "" || strings.HasPrefix(rest, ".") {
		return 0, "", numberFault{problem: "has a point that belongs to no number"}
	}
	numerator, tail := digits(strings.TrimLeft(after, " -"))
	if strings.HasPrefix(after, "/") || numerator != "" && strings.HasPrefix(tail, "/") {
		return 0, "", numberFault{problem: "mixes a decimal point with a fraction"}
	}
	n, err := strconv.ParseFloat("0"+whole+"."+part+"0", 64)
	if err != nil || math.IsInf(n, 0) {
		return 0, "", numberFault{problem: "is not a number that makes sense"}
	}
	return n, rest, numberFault{}
}

// fraction reads "/den" behind a numerator and adds it to a whole number, behind
// which a fraction is less than one.
func fraction(whole float64, numerator, s string) (v float64, rest string, o numberFault) {
	den, rest := digits(strings.TrimLeft(s[1:], " "))
	if den == "" || len(den) > 4 || len(numerator) > 4 {
		return 0, "", numberFault{problem: "has a fraction that cannot be read"}
	}
	n, _ := strconv.Atoi(numerator)
	d, _ := strconv.Atoi(den)
	next := strings.TrimLeft(rest, " ")
	switch {
	case d == 0:
		return 0, "", numberFault{problem: "has a fraction with nothing below the line"}
	case n == 0:
		return 0, "", numberFault{problem: "has a fraction with nothing above the line"}
	case next != "" && (next[0] >= '0' && next[0] <= '9' || next[0] == '/' || next[0] == '.'):
		return 0, "", numberFault{problem: "has a second number or fraction behind the first and no unit between them"}
	case whole > 0 && n >= d:
		total := int(whole)*d + n
		instead := strconv.Itoa(total / d)
		if total%d > 0 {
			instead += fmt.Sprintf(" %d/%d", total%d, d)
		}
		return 0, rest, numberFault{"has a fraction of one or more behind a whole number", instead}
	}
	return whole + float64(n)/float64(d), rest, numberFault{}
}

// digits splits the leading ASCII digits off s.
func digits(s string) (run, rest string) {
	i := 0
	for i < len(s) && s[i] >= '0' && s[i] <= '9' {
		i++
	}
	return s[:i], s[i:]
}

// unitOf reads the unit at the start of s: everything up to the next number. A
// digit that hangs on a letter, as in cm3, belongs to the unit.
func unitOf(s string) (unit, rest string) {
	s = strings.TrimLeft(s, " ")
	end := len(s)
	for i := 1; i < len(s); i++ {
		if c := s[i]; c >= '0' && c <= '9' || c == '.' && i+1 < len(s) && s[i+1] >= '0' && s[i+1] <= '9' {
			prev := s[i-1]
			power := (c == '2' || c == '3') && prev >= 'a' && prev <= 'z' && (i+1 == len(s) || s[i+1] == ' ' || s[i+1] == '/')
			if !power {
				end = i
				break
			}
		}
	}
	if s != "" && (s[0] >= '0' && s[0] <= '9') {
		end = 0
	}
	unit = strings.TrimSpace(s[:end])
	rest = strings.TrimSpace(s[end:])
	// "4'-6"": a hyphen joins feet and inches on drawings.
	if rest != "" {
		unit = strings.TrimSpace(strings.TrimSuffix(unit, "-"))
	}
	return strings.TrimSuffix(unit, "."), rest
}

// CommaRemedy says what to write for a number with a comma in it: with two
// digits behind, a point is meant; with three, it may be either.
func CommaRemedy(text, example string) string {
	before, after, _ := strings.Cut(text, ",")
	before = strings.TrimSpace(before)
	run, unit := digits(after)
	if whole, odd := digits(before); odd != "" || whole == "" || strings.IndexFunc(unit, func(r rune) bool { return !unicode.IsLetter(r) && r != ' ' && r != '%' && r != '"' }) >= 0 {
		run = ""
	}
	switch {
	case run == "":
		return "write the number with a point, and with nothing between the thousands, like this: " + example
	case len(run) == 3:
		return fmt.Sprintf("write %s or %s", strings.TrimSpace(before+after), strings.TrimSpace(before+"."+after))
	}
	return "write " + strings.TrimSpace(before+"."+after)
}

// cut shortens a text for a message.
func cut(text string) string {
	r := []rune(strings.ToValidUTF8(text, "?"))
	if len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return string(r)
}
