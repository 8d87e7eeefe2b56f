package units

import (
	"math"
	"slices"
	"strings"
)

// currencies are the codes of ISO 4217 (list one) that people pay with: no metals,
// no funds, no codes for tests. Those that were withdrawn since 2021 are kept, since
// older pieces were priced in them.
const currencies = " AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD" +
	" CAD CDF CHF CLP CNY COP CRC CUC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GNF GTQ GYD" +
	" HKD HNL HRK HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD KZT LAK LBP LKR LRD LSL LYD" +
	" MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR" +
	" RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE SLL SOS SRD SSP STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS" +
	" UAH UGX USD UYU UZS VED VES VND VUV WST XAF XCD XCG XOF XPF YER ZAR ZMW ZWG ZWL "

// withoutCents are the currencies that ISO 4217 gives no minor unit.
const withoutCents = " BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF "

// IsCurrency reports whether three capital letters are the code of money in ISO 4217.
func IsCurrency(code string) bool { return strings.Contains(currencies, " "+code+" ") }

// withMils are those that it divides by a thousand.
const withMils = " BHD IQD JOD KWD LYD OMR TND "

// CentDigits is how many digits of an amount stand behind its point, when any do, by the
// minor unit of ISO 4217; two where the currency is not known.
func CentDigits(code string) int {
	switch {
	case code == "":
	case strings.Contains(withoutCents, " "+code+" "):
		return 0
	case strings.Contains(withMils, " "+code+" "):
		return 3
	}
	return 2
}

// InCoins rounds an amount to what the currency has coins for, halves away from zero.
func InCoins(amount float64, currency string) float64 {
	p := math.Pow10(CentDigits(currency))
	return math.Round(amount*p) / p
}

// euro are the countries of the euro (from memory, in 2026).
var euro = strings.Fields("AT BE BG CY DE EE ES FI FR GR HR IE IT LT LU LV MT NL PT SI SK")

// moneyOf is what is paid with in other countries that workshops stand in (from memory).
var moneyOf = map[string]string{
	"GB": "GBP", "US": "USD", "CA": "CAD", "MX": "MXN", "AU": "AUD", "NZ": "NZD", "CH": "CHF", "JP": "JPY",
	"SE": "SEK", "NO": "NOK", "DK": "DKK", "PL": "PLN", "CZ": "CZK", "ZA": "ZAR",
}

// CurrencyIn is the code of the money (ISO 4217) that a country pays with, by its two
// letters (ISO 3166-1); "" where no country is told, or one that is not known here.
func CurrencyIn(country string) string {
	if slices.Contains(euro, country) {
		return "EUR"
	}
	return moneyOf[country]
}
