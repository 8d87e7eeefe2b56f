package units

import (
	"cmp"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A manner is how a language writes amounts of money.
type manner struct {
	before         bool // the symbol stands before the amount
	gap            bool // a space parts a sign from it; letters are always parted
	group, decimal string
	least          int // digits before the first group mark, from which on groups are parted
	symbols        map[string]string
}

// manners are by language, an IETF tag. Source: Unicode CLDR, the decimal and currency
// patterns of the language and what it calls currencies of other countries; one that is
// not here it calls by the code of ISO 4217. French parts thousands by a narrow no-break
// space (CLDR since release 34, from memory).
var manners = map[string]manner{
	"en":    {true, false, ",", ".", 1, map[string]string{"USD": "$", "GBP": "£", "EUR": "€", "CAD": "CA$", "AUD": "A$", "NZD": "NZ$", "JPY": "¥"}},
	"en-GB": {true, false, ",", ".", 1, map[string]string{"USD": "US$", "GBP": "£", "EUR": "€", "CAD": "CA$", "AUD": "A$", "NZD": "NZ$", "JPY": "JP¥"}},
	"de":    {false, true, ".", ",", 1, map[string]string{"USD": "$", "GBP": "£", "EUR": "€", "CAD": "CA$", "AUD": "AU$", "NZD": "NZ$", "JPY": "¥"}},
	"es":    {false, true, ".", ",", 2, map[string]string{"USD": "US$", "EUR": "€", "CAD": "CA$"}},
	"fr":    {false, true, "\u202f", ",", 1, map[string]string{"USD": "$US", "GBP": "£GB", "EUR": "€", "CAD": "$CA", "AUD": "$AU", "NZD": "$NZ"}},
	"nl":    {true, true, ".", ",", 1, map[string]string{"USD": "US$", "GBP": "£", "EUR": "€", "CAD": "C$", "AUD": "AU$", "NZD": "NZ$", "JPY": "JP¥"}},
}

// Money writes an amount of a currency, an ISO 4217 code, as the readers of a language
// do, an IETF tag: "€1,890" in English, "1.890 €" in German, "€ 1.890" in Dutch.
// Decimals are left out where there are none. A language that is not known here writes
// it as English.
func Money(lang string, amount float64, currency string) string {
	base, _, _ := strings.Cut(lang, "-")
	m, ok := manners[lang]
	if !ok {
		if m, ok = manners[base]; !ok {
			m = manners["en"]
		}
	}
	s := strconv.FormatFloat(math.Abs(amount), 'f', CentDigits(currency), 64)
	whole, cents, _ := strings.Cut(s, ".")
	number := grouped(whole, m.group, m.least)
	if strings.Trim(cents, "0") != "" {
		number += m.decimal + cents
	}
	number = m.withSymbol(number, cmp.Or(m.symbols[currency], currency))
	if amount < 0 && strings.ContainsAny(s, "123456789") {
		number = "−" + number
	}
	return number
}

// withSymbol puts the symbol of a currency to a number; "" is none.
func (m manner) withSymbol(number, symbol string) string {
	if symbol == "" {
		return number
	}
	gap := ""
	if last, _ := utf8.DecodeLastRuneInString(symbol); m.gap || unicode.IsLetter(last) {
		gap = "\u00a0"
	}
	if m.before {
		return symbol + gap + number
	}
	return number + gap + symbol
}

// grouped parts whole thousands from `least` digits before the first mark on.
func grouped(whole, mark string, least int) string {
	if len(whole) < 3+least {
		return whole
	}
	var b strings.Builder
	for i, c := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteString(mark)
		}
		b.WriteRune(c)
	}
	return b.String()
}
