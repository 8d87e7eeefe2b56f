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
func Money(amount float64, currency string) string {
	n, known := notations[currency]
	if !known {
		n = notation{"", currency, false, "\u00a0", ",", ".", 1, 2}
	}
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
