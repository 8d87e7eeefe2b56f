package units

import (
	"math"
	"strconv"
	"strings"
)

// A notation is how the readers of a currency write an amount of it.
type notation struct {
	locale         string // whose way it is, for the test
	symbol         string
	before         bool   // the symbol stands before the amount
	gap            string // between symbol and amount
	group, decimal string
	least          int // digits before the first group mark, from which on groups are parted
	digits         int // decimals, where there are any
}

// notations are by ISO 4217 code. Source: Unicode CLDR, the decimal and currency
// patterns of the locale named, its symbol for its own currency; dollars other than
// the United States' keep the letters that CLDR's English gives them, since a buyer
// abroad would take them for those. The euro is written as most of its readers do,
// after the amount.
var notations = map[string]notation{
	"USD": {"en-US", "$", true, "", ",", ".", 1, 2},
	"GBP": {"en-GB", "£", true, "", ",", ".", 1, 2},
	"EUR": {"de-DE", "€", false, "\u00a0", ".", ",", 1, 2},
	"CAD": {"en-CA", "CA$", true, "", ",", ".", 1, 2},
	"AUD": {"en-AU", "A$", true, "", ",", ".", 1, 2},
	"NZD": {"en-NZ", "NZ$", true, "", ",", ".", 1, 2},
	"JPY": {"en-US", "¥", true, "", ",", ".", 1, 0},
	"CHF": {"de-CH", "CHF", true, "\u00a0", "’", ".", 1, 2},
	"SEK": {"sv-SE", "kr", false, "\u00a0", "\u00a0", ",", 1, 2},
	"NOK": {"nb-NO", "kr", false, "\u00a0", "\u00a0", ",", 1, 2},
	"DKK": {"da-DK", "kr.", false, "\u00a0", ".", ",", 1, 2},
	"PLN": {"pl-PL", "zł", false, "\u00a0", "\u00a0", ",", 2, 2},
	"CZK": {"cs-CZ", "Kč", false, "\u00a0", "\u00a0", ",", 1, 2},
}

// Money writes an amount as the readers of its currency, an ISO 4217 code, write
// it: "$1,450", "1.890 €", "£48.50". Decimals are left out where there are none. A
// currency that is not known here stands behind the amount as its code.
func Money(amount float64, currency string) string { return notationOf(currency).write(amount) }

// A manner is how a language other than English writes amounts of any currency.
type manner struct {
	before         bool // the symbol stands before the amount
	group, decimal string
	least          int // as notation's
}

// manners are by language. Source: Unicode CLDR, the decimal and currency patterns of
// the language; French parts thousands by a no-break space, here one of full width.
var manners = map[string]manner{
	"de": {false, ".", ",", 1}, "es": {false, ".", ",", 2}, "fr": {false, "\u00a0", ",", 1}, "nl": {true, ".", ",", 1},
}

// MoneyIn writes an amount as the readers of a language do, an IETF tag: "1.890 £" in
// German, "£ 1.890" in Dutch. English, and a language that is not known here, write
// it as Money does.
func MoneyIn(lang string, amount float64, currency string) string {
	n := notationOf(currency)
	base, _, _ := strings.Cut(lang, "-")
	if m, ok := manners[base]; ok {
		n.before, n.gap, n.group, n.decimal, n.least = m.before, "\u00a0", m.group, m.decimal, m.least
	}
	return n.write(amount)
}

// notationOf is how the readers of a currency write it.
func notationOf(currency string) notation {
	if n, ok := notations[currency]; ok {
		return n
	}
	return notation{"", currency, false, "\u00a0", ",", ".", 1, 2}
}

func (n notation) write(amount float64) string {
	s := strconv.FormatFloat(math.Abs(amount), 'f', n.digits, 64)
	whole, cents, _ := strings.Cut(s, ".")
	number := grouped(whole, n.group, n.least)
	if strings.Trim(cents, "0") != "" {
		number += n.decimal + cents
	}
	switch {
	case n.symbol == "":
	case n.before:
		number = n.symbol + n.gap + number
	default:
		number += n.gap + n.symbol
	}
	if amount < 0 && strings.ContainsAny(s, "123456789") {
		number = "−" + number
	}
	return number
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
