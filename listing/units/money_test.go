package units

import (
	"strings"
	"testing"

	"golang.org/x/text/currency"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	cldr "golang.org/x/text/number"
)

func TestMoney(t *testing.T) {
	for _, c := range []struct {
		amount   float64
		currency string
		want     string
	}{
		{1450, "USD", "$1,450"},
		{1890, "EUR", "1.890\u00a0€"},
		{1890, "GBP", "£1,890"},
		{48.5, "EUR", "48,50\u00a0€"},
		{48.5, "GBP", "£48.50"},
		{-265, "GBP", "−£265"},
		{-1265.25, "EUR", "−1.265,25\u00a0€"},
		{-0.001, "GBP", "£0"},
		{1234567, "CHF", "CHF\u00a01’234’567"},
		{1890, "PLN", "1890\u00a0zł"},
		{18900, "PLN", "18\u00a0900\u00a0zł"},
		{99999.6, "JPY", "¥100,000"},
		{1450, "XAU", "1,450\u00a0XAU"},
		{999, "SEK", "999\u00a0kr"},
		{1450, "", "1,450"},
	} {
		if got := Money(c.amount, c.currency); got != c.want {
			t.Errorf("Money(%v, %q) = %q, want %q", c.amount, c.currency, got, c.want)
		}
	}
}

// The marks and symbols are those of CLDR as golang.org/x/text carries it (release
// 32; the Swiss mark was ' there in part and is ’ since).
func TestMoneyAgainstCLDR(t *testing.T) {
	spaces := strings.NewReplacer("\u202f", "\u00a0", "'", "’")
	for code, n := range notations {
		tag := language.MustParse(n.locale)
		p := message.NewPrinter(tag)
		want := spaces.Replace(p.Sprint(cldr.Decimal(1234567.5, cldr.MinFractionDigits(2))))
		got := grouped("1234567", n.group, n.least) + n.decimal + "50"
		if got != want {
			t.Errorf("%s: %q, CLDR has %q for %s", code, got, want, n.locale)
		}
		unit := currency.MustParseISO(code)
		if strings.HasSuffix(n.symbol, "$") && n.symbol != "$" || code == "JPY" {
			p = message.NewPrinter(language.English)
		}
		symbol := strings.Fields(spaces.Replace(p.Sprint(currency.Symbol(unit.Amount(1)))))
		if len(symbol) == 0 || symbol[0] != n.symbol {
			t.Errorf("%s: symbol %q, CLDR has %q", code, n.symbol, symbol)
		}
		if scale, _ := currency.Cash.Rounding(unit); code == "JPY" && scale != n.digits {
			t.Errorf("%s: %d decimals, CLDR has %d", code, n.digits, scale)
		}
	}
}

// Unicode CLDR (from memory): de "1.890,50 €", es parts thousands from five digits on,
// fr with a space, nl with the symbol first.
func TestMoneyIn(t *testing.T) {
	for _, c := range []struct {
		lang     string
		amount   float64
		currency string
		want     string
	}{
		{"de", 1890, "GBP", "1.890\u00a0£"}, {"de-AT", 1890.5, "EUR", "1.890,50\u00a0€"}, {"fr", 12345.6, "USD", "12\u00a0345,60\u00a0$"},
		{"es", 1890, "EUR", "1890\u00a0€"}, {"es", 18900, "EUR", "18.900\u00a0€"}, {"nl", 1890, "EUR", "€\u00a01.890"}, {"nl", -5, "EUR", "−€\u00a05"},
		{"en-GB", 1890, "GBP", "£1,890"}, {"en-US", 1450, "USD", "$1,450"}, {"pt", 1450, "USD", "$1,450"}, {"de", 1450, "XTS", "1.450\u00a0XTS"},
	} {
		if got := MoneyIn(c.lang, c.amount, c.currency); got != c.want {
			t.Errorf("%s %v %s: got %q, want %q", c.lang, c.amount, c.currency, got, c.want)
		}
	}
}
