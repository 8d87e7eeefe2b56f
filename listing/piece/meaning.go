package piece

import (
	"fmt"
	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
	"slices"
	"strconv"
	"strings"
	"time"

	"slabfolio/listing/units"
)

// Makers write `price: £1,850` and `wood: elm`, and every reader of such a line
// knows what is meant. This file finds it out, so that a remedy can hold the
// maker's own figures in place of an example's.

// currencySigns are the signs and everyday names of money that can mean one
// currency only, or mean it nearly always.
var currencySigns = map[string]string{"£": "GBP", "€": "EUR", "$": "USD", "¥": "JPY", "euro": "EUR", "euros": "EUR", "pounds": "GBP", "sterling": "GBP", "pounds sterling": "GBP", "pound sterling": "GBP", "british pounds": "GBP", "us$": "USD"}

// currencyWords are the names of money, with the currencies that are called so, the
// most used first (ISO 4217, from memory).
var currencyWords = map[string][]string{
	"dollar": {"USD", "CAD", "AUD", "NZD"}, "pound": {"GBP"}, "quid": {"GBP"}, "euro": {"EUR"}, "yen": {"JPY"}, "franc": {"CHF"}, "krone": {"NOK", "DKK"}, "kroner": {"NOK", "DKK"}, "krona": {"SEK", "ISK"}, "kronor": {"SEK"}, "crown": {"SEK", "NOK", "DKK", "CZK"},
	"rand": {"ZAR"}, "rupee": {"INR"}, "peso": {"MXN", "CLP", "PHP"}, "zloty": {"PLN"}, "złoty": {"PLN"}, "koruna": {"CZK"}, "forint": {"HUF"}, "lira": {"TRY"}, "real": {"BRL"}, "reais": {"BRL"}, "shekel": {"ILS"}, "won": {"KRW"}, "yuan": {"CNY"}, "ringgit": {"MYR"}, "baht": {"THB"}, "buck": {"USD", "CAD", "AUD", "NZD"},
}

// countriesMoney are the words before the name of money that say which it is.
var countriesMoney = map[string]string{
	"us": "USD", "u.s.": "USD", "american": "USD", "canadian": "CAD", "australian": "AUD", "aussie": "AUD", "new zealand": "NZD", "nz": "NZD", "swiss": "CHF", "swedish": "SEK", "norwegian": "NOK", "danish": "DKK", "icelandic": "ISK", "british": "GBP", "uk": "GBP", "czech": "CZK", "mexican": "MXN", "singapore": "SGD", "hong kong": "HKD",
}

// currencyMeant returns the codes that a name of money can mean, such as "dollars",
// "US dollars" or "Swiss francs".
func currencyMeant(text string) []string {
	said := strings.ToLower(strings.TrimSpace(text))
	if code, ok := currencySigns[said]; ok {
		return []string{code}
	}
	words := strings.Fields(said)
	if len(words) == 0 {
		return nil
	}
	last := words[len(words)-1]
	codes, ok := currencyWords[last]
	if !ok {
		codes, ok = currencyWords[strings.TrimSuffix(last, "s")]
	}
	if code, told := countriesMoney[strings.Join(words[:len(words)-1], " ")]; told && ok {
		return []string{code}
	}
	return codes
}

// money takes a price with a sign or letters apart: "£1,850" is 1850 and GBP. The
// currency is empty where there is none; ok is false where the text is no price.
func money(text string) (amount, currency string, ok bool) {
	var digits, rest strings.Builder
	for _, r := range strings.TrimSpace(text) {
		if r >= '0' && r <= '9' || r == ',' || r == '.' {
			digits.WriteRune(r)
		} else if r != ' ' && r != '\u00a0' {
			rest.WriteRune(r)
		}
	}
	amount = strings.TrimSuffix(strings.TrimSuffix(digits.String(), ".-"), ".")
	switch {
	case continental().MatchString(amount) && (rest.Len() > 0 || strings.ContainsRune(amount, ',') || strings.Count(amount, ".") > 1):
		amount = strings.Replace(strings.ReplaceAll(amount, ".", ""), ",", ".", 1)
	case thousands().MatchString(amount):
		amount = strings.ReplaceAll(amount, ",", "")
	case strings.Count(amount, ",") == 1 && !strings.Contains(amount, "."):
		amount = strings.Replace(amount, ",", ".", 1)
	}
	if v, err := strconv.ParseFloat(amount, 64); err != nil || v < 0 {
		return "", "", false
	}
	sign := strings.ToLower(rest.String())
	if code, known := currencySigns[sign]; known {
		return amount, code, true
	}
	if up := strings.ToUpper(sign); units.IsCurrency(up) {
		return amount, up, true
	}
	if codes := currencyMeant(strings.TrimLeft(strings.TrimSpace(text), "0123456789., ")); len(codes) > 0 {
		return amount, codes[0], true
	}
	return amount, "", sign == ""
}

// thousands is a number whose commas part its thousands.
var thousands = spelling.Pattern(`^\d{1,3}(,\d{3})+(\.\d+)?$`)

// continental is a number whose points part its thousands, and whose comma its cents.
var continental = spelling.Pattern(`^\d{1,3}(\.\d{3})+(,\d+)?$`)

// times parts sizes that are written with a cross.
var times = spelling.Pattern(`(?i)\s*(?:[x×*]|\bby\b)\s*`)

// lengths reads "16 x 9 in": every size with the last one's unit where it has
// none of its own. It returns false unless there are n lengths.
func lengths(text string, n int, bare units.System) ([]string, bool) {
	parts := times().Split(strings.TrimSpace(text), -1)
	if len(parts) != n {
		return nil, false
	}
	_, unit := cutNumber(parts[n-1])
	if unit == "" {
		unit = string(bare)
	}
	for i, p := range parts {
		if _, own := cutNumber(p); own == "" {
			p += " " + unit
		}
		l, err := units.ParseLength(p, bare)
		if err != nil || l <= 0 {
			return nil, false
		}
		parts[i] = p
	}
	return parts, true
}

// cutNumber parts a number from what follows it.
func cutNumber(text string) (number, unit string) {
	i := strings.LastIndexAny(text, "0123456789½¼¾⅛⅜⅝⅞")
	if i < 0 {
		return "", text
	}
	for i++; i < len(text) && text[i] >= 0x80 && text[i] < 0xc0; i++ { // the rest of a ½
	}
	return strings.TrimSpace(text[:i]), strings.TrimSpace(text[i:])
}

// wordedAsGroup writes a group that a maker gave as one value the way that it belongs in
// the file, with the maker's own words in it; empty where that is not clear.
func (d *decoder) wordedAsGroup(text string, k *Key) string {
	text = strings.TrimSpace(text)
	if text == "" || len(text) > 60 || strings.ContainsAny(text, "\n:#{}[]") {
		return ""
	}
	switch k.Name {
	case "wood":
		return "{species: " + text + "}"
	case "price":
		if amount, currency, ok := money(text); ok && currency != "" {
			if codes := currencyMeant(strings.TrimLeft(text, "0123456789., ")); len(codes) > 1 {
				return "{amount: " + amount + ", currency: " + currency + "}; or " + spelling.Or(codes[1:]) + ", whose money it is"
			}
			return "{amount: " + amount + ", currency: " + currency + "}"
		} else if ok {
			return "{amount: " + amount + "}"
		}
	case "outline", "footprint":
		if l, ok := lengths(text, 2, d.units); ok {
			return "{length: " + l[0] + ", width: " + l[1] + "}"
		}
	case "resin":
		if v, err := units.ParsePercent(text); err == nil && v > 0 {
			return "{area: " + text + "}"
		}
		if v, err := units.ParseVolume(text); err == nil && v > 0 {
			return "{volume: " + text + "}"
		}
	case "finish":
		if meant := wordsNear(text, &Key{Words: FinishFamilies}); len(meant) == 1 {
			return "{family: " + meant[0] + "}"
		}
	case "buyer":
		return "{name: " + text + "}"
	}
	return ""
}

// months are the names of months by their first three letters.
var months = []string{"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"}

// wordyDate writes "3rd March 2026" or "March 3, 2026" as 2026-03-03; empty where
// the text is no such date.
func wordyDate(text string) string {
	day, month, year := 0, 0, 0
	for _, f := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" ,./-", r) }) {
		letters := strings.TrimLeft(f, "0123456789")
		n, err := strconv.Atoi(f[:len(f)-len(letters)])
		switch {
		case err == nil && n > 31 && letters == "" && year == 0:
			year = n
		case err == nil && n <= 31 && day == 0 && (letters == "" || slices.Contains([]string{"st", "nd", "rd", "th"}, letters)):
			day = n
		case err != nil && month == 0 && len(letters) >= 3 && slices.Contains(months, letters[:3]):
			month = slices.Index(months, letters[:3]) + 1
		case f == "of" || f == "the":
		default:
			return ""
		}
	}
	if !calendar(year, month, day) {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", year, month, day)
}

// noSuchDay says what is wrong with the numbers of a date that is written in the
// right order, and what may be meant.
func noSuchDay(y, m, d int) (problem, remedy string) {
	text := fmt.Sprintf("%04d-%02d-%02d", y, m, d)
	switch {
	case m > 12 && calendar(y, d, m):
		return fmt.Sprintf("%q has no such month; the month stands in the middle", text), fmt.Sprintf("write %04d-%02d-%02d if day and month changed places", y, d, m)
	case m < 1 || m > 12:
		return fmt.Sprintf("%q has no such month", text), "write year, month and day like this: 2026-09-18"
	}
	last := 31
	for !calendar(y, m, last) && last > 28 {
		last--
	}
	return fmt.Sprintf("%q is not a day of the calendar: %s has %d days", text, time.Month(m), last), fmt.Sprintf("write the right day, like this: %04d-%02d-%02d", y, m, min(max(d, 1), last))
}

// otherUnit says what a bare number was read in when it is out of its limits and
// would be within them in another unit; empty otherwise.
func (d *decoder) otherUnit(text string, k *Key) string {
	if k.Type != typeLength || strings.Trim(text, "0123456789. /") != "" {
		return ""
	}
	for _, u := range []units.System{units.Millimetres, units.Centimetres, units.Inches} {
		if u == d.units {
			continue
		}
		if l, err := units.ParseLength(text, u); err == nil && float64(l) >= k.Min && float64(l) <= k.Max {
			return fmt.Sprintf("a number alone counts as %s here: write %s %s if that is meant; or ", d.units, text, u)
		}
	}
	return ""
}

// span is two numbers of percent with a dash between them.
var span = spelling.Pattern(`^(\d+(?:\.\d+)?)\s*%?\s*(?:[-–—]|to)\s*(\d+(?:\.\d+)?)\s*%?$`)

// middle returns the middle of "30-40 %", and false for anything else.
func middle(text string) (string, bool) {
	m := span().FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return "", false
	}
	a, errA := strconv.ParseFloat(m[1], 64)
	b, errB := strconv.ParseFloat(m[2], 64)
	if errA != nil || errB != nil || a >= b {
		return "", false
	}
	return trim((a+b)/2) + " %", true
}

// roughly is what makers put before a figure that they are not sure of.
var roughly = spelling.Pattern(`(?i)^(?:about|approximately|approx\.?|circa|ca\.?|c\.|roughly|around|etwa|rund|ungefähr|environ|env\.?|aprox\.?|ongeveer|~|≈)\s*(\d.*)$`)

// metresAnd is a length as it is said aloud: 1m20.
var metresAnd = spelling.Pattern(`^(\d{1,2})\s*m\s*(\d{2})$`)

// almost finds what is nearly a quantity, with what to write for it; the problem
// is empty where the text is none of those.
func almost(text string, k *Key) (problem, remedy string) {
	if m := roughly().FindStringSubmatch(text); m != nil {
		figure := m[1]
		if comma := units.CommaRemedy(figure, ""); strings.ContainsRune(figure, ',') && !strings.HasSuffix(comma, ": ") {
			figure = strings.TrimPrefix(comma, "write ")
		}
		return fmt.Sprintf("%q has more in it than a figure", yamltext.Shorten(text)), "write " + figure + "; the sums keep a doubt of their own"
	}
	switch k.Type {
	case typeLength:
		if m := metresAnd().FindStringSubmatch(text); m != nil {
			return fmt.Sprintf("%q has its unit in the middle", text), "write " + m[1] + "." + m[2] + " m"
		}
	case typePercent:
		if one, ok := middle(text); ok {
			return fmt.Sprintf("%q is a range, and one value is needed", yamltext.Shorten(text)), "write the middle of it, or what fits better: " + one
		}
		if v, err := strconv.ParseFloat(text, 64); err == nil && v > 0 && v < 1 {
			return fmt.Sprintf("%q has no %% behind it", text), fmt.Sprintf("write %s %% if that is the share", strconv.FormatFloat(v*100, 'g', 6, 64))
		}
	}
	return "", ""
}

// escapedQuote is a text in quotes that holds an escaped quotation mark.
var escapedQuote = spelling.Pattern(`"(?:[^"\\]|\\.)*\\"(?:[^"\\]|\\.)*"`)

// plainQuotes shows an inch mark in a message as the maker wrote it, without a
// backslash: the text around it takes another kind of quotation marks.
func plainQuotes(message string) string {
	return escapedQuote().ReplaceAllStringFunc(message, func(q string) string {
		bare := strings.ReplaceAll(q[1:len(q)-1], `\"`, `"`)
		if strings.Contains(bare, `\`) {
			return q
		}
		if strings.Contains(bare, "'") {
			return "“" + bare + "”"
		}
		return "'" + bare + "'"
	})
}

// sizesExample shows how a list of lengths is written, with the maker's own where they
// stand as "18x11x3.5".
func (d *decoder) sizesExample(at Place, k *Key, n int) string {
	if _, said, ok := strings.Cut(d.s.Line(at.Line), k.Name+":"); ok && k.Type == typeLength {
		if i := strings.IndexAny(said, ",}#"); i >= 0 {
			said = said[:i]
		}
		if l, ok := lengths(said, n, d.units); ok {
			return k.Name + ": [" + strings.Join(l, ", ") + "]"
		}
	}
	return k.line()
}

// figureFirst is a number with a word behind it, such as "12h" or "2 coats".
var figureFirst = spelling.Pattern(`^(\d+(?:\.\d+)?)\s*\p{L}[\p{L} ]*$`)

// currencyPlace says where the currency of an amount belongs.
func currencyPlace(path, currency string) string {
	if strings.HasPrefix(path, "price.") {
		return "; the currency has a place of its own: currency: " + currency
	}
	return "; the currency stands in price or in workshop.yaml"
}
