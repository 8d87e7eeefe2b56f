package units

import (
	"math"
	"strings"
	"testing"

	"golang.org/x/text/currency"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	cldr "golang.org/x/text/number"
)

// Unicode CLDR 44, the currency patterns (from memory): en "¤#,##0.00", letters parted
// from the figure by a no-break space; de, es, fr "#,##0.00 ¤"; nl "¤ #,##0.00"; es
// parts thousands from five digits on.
func TestMoney(t *testing.T) {
	for _, c := range []struct {
		lang     string
		amount   float64
		currency string
		want     string
	}{
		{"en", 1450, "USD", "$1,450"}, {"en-US", 1450, "USD", "$1,450"}, {"en-GB", 1450, "USD", "US$1,450"},
		{"en", 1890, "EUR", "€1,890"}, {"en-GB", 1890, "EUR", "€1,890"}, {"en-US", 48.5, "EUR", "€48.50"},
		{"en", 1890, "GBP", "£1,890"}, {"en-US", 48.5, "GBP", "£48.50"}, {"en", 999, "SEK", "SEK\u00a0999"}, {"en", 1234567, "CHF", "CHF\u00a01,234,567"},
		{"en", -265, "GBP", "−£265"}, {"en", -1265.25, "EUR", "−€1,265.25"}, {"en", -0.001, "GBP", "£0"}, {"en", 99999.6, "JPY", "¥100,000"},
		{"en", 1450, "XAU", "XAU\u00a01,450"}, {"en", 1450, "", "1,450"}, {"pt", 1450, "USD", "$1,450"},
		{"de", 1890, "GBP", "1.890\u00a0£"}, {"de-AT", 1890.5, "EUR", "1.890,50\u00a0€"}, {"de", 1450, "XTS", "1.450\u00a0XTS"}, {"de", 1450, "", "1.450"},
		{"fr", 1890, "EUR", "1\u202f890\u00a0€"}, {"fr", 12345.6, "USD", "12\u202f345,60\u00a0$US"},
		{"es", 1890, "EUR", "1890\u00a0€"}, {"es", 18900, "EUR", "18.900\u00a0€"}, {"es", 1890, "GBP", "1890\u00a0GBP"},
		{"nl", 1890, "EUR", "€\u00a01.890"}, {"nl", -5, "EUR", "−€\u00a05"},
	} {
		if got := Money(c.lang, c.amount, c.currency); got != c.want {
			t.Errorf("Money(%q, %v, %q) = %q, want %q", c.lang, c.amount, c.currency, got, c.want)
		}
	}
}

// The marks and symbols are those of CLDR as golang.org/x/text carries it (release 32;
// French has a narrow space since).
func TestMoneyAgainstCLDR(t *testing.T) {
	spaces := strings.NewReplacer("\u202f", "\u00a0")
	for lang, m := range manners {
		p := message.NewPrinter(language.MustParse(lang))
		want := p.Sprint(cldr.Decimal(1234567.5, cldr.MinFractionDigits(2)))
		if got := spaces.Replace(grouped("1234567", m.group, m.least) + m.decimal + "50"); got != want {
			t.Errorf("%s: %q, CLDR has %q", lang, got, want)
		}
		for _, code := range []string{"USD", "GBP", "EUR", "CAD", "AUD", "NZD", "JPY", "CHF", "SEK", "NOK", "DKK", "PLN", "CZK"} {
			unit := currency.MustParseISO(code)
			if want := p.Sprint(currency.Symbol(unit)); !strings.Contains(Money(lang, 7, code), want) {
				t.Errorf("%s: %q, CLDR calls it %q", lang, Money(lang, 7, code), want)
			}
			scale, _ := currency.Cash.Rounding(unit)
			if got := strings.Contains(Money(lang, 7.25, code), "25"); got != (scale != 0) && code == "JPY" {
				t.Errorf("%s: %q, CLDR has %d decimals", lang, Money(lang, 7.25, code), scale)
			}
		}
	}
}

// ISO 4217, list one, minor units: none for the yen, thousandths for the dinars of Kuwait,
// Bahrain, Iraq, Jordan, Libya and Tunisia and the rial of Oman, hundredths for the others.
func TestInCoins(t *testing.T) {
	for _, c := range []struct {
		amount   float64
		currency string
		want     float64
		written  string
	}{
		{1234.5, "JPY", 1235, "¥1,235"}, {1234.5678, "KWD", 1234.568, "KWD\u00a01,234.568"}, {1890.999, "GBP", 1891, "£1,891"},
		{0.125, "EUR", 0.13, "€0.13"}, {1890, "USD", 1890, "$1,890"}, {12.345, "", 12.35, "12.35"}, {7.0005, "TND", 7.001, "TND\u00a07.001"},
	} {
		got := InCoins(c.amount, c.currency)
		if math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%g %s is %g in coins, want %g", c.amount, c.currency, got, c.want)
		}
		if w := Money("en", got, c.currency); w != c.written {
			t.Errorf("%g %s is written %q, want %q", c.amount, c.currency, w, c.written)
		}
	}
}
