package piece

import (
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/language"
	"golang.org/x/text/language/display"

	"slabfolio/listing/spelling"
)

// otherCountries are what people call their country, and its two letters.
var otherCountries = map[string]string{
	"uk": "GB", "great britain": "GB", "britain": "GB", "england": "GB", "scotland": "GB", "wales": "GB", "northern ireland": "GB",
	"usa": "US", "us of a": "US", "america": "US", "united states of america": "US", "the states": "US", "holland": "NL", "republic of ireland": "IE", "eire": "IE", "czech republic": "CZ",
}

// ParseCountry returns the two letters (ISO 3166-1) of a country by its letters or its
// name in English or another language of the papers.
func ParseCountry(text string) (letters string, ok bool) {
	said := spelling.Plain(strings.ReplaceAll(text, ".", ""))
	said = strings.TrimPrefix(said, "the ")
	if strings.IndexFunc(said, unicode.IsLetter) < 0 {
		return "", false // a sign, such as one of money
	}
	if code := otherCountries[said]; code != "" {
		return code, true
	}
	for _, names := range []display.Namer{display.English.Regions(), display.German.Regions(), display.French.Regions(), display.Spanish.Regions(), display.Dutch.Regions()} {
		if code, ok := named(names, said); ok {
			return code, true
		}
	}
	return "", false
}

// CountryName is the English name of a country by its two letters.
func CountryName(letters string) string {
	region, ok := countryOf(letters)
	if !ok {
		return letters
	}
	return display.English.Regions().Name(region)
}

// named is the country of two letters or of a name that a language has for it.
func named(names display.Namer, said string) (letters string, ok bool) {
	for a := 'A'; a <= 'Z'; a++ {
		for b := 'A'; b <= 'Z'; b++ {
			code := string(a) + string(b)
			if region, ok := countryOf(code); ok && (strings.EqualFold(code, said) || spelling.Plain(names.Name(region)) == said) {
				return code, true
			}
		}
	}
	return "", false
}

// countryOf is the country that two capital letters stand for in ISO 3166-1.
func countryOf(code string) (language.Region, bool) {
	region, err := language.ParseRegion(code)
	return region, err == nil && region.IsCountry() && region.Canonicalize().String() == code
}

// checkCountry holds a code against ISO 3166-1, which has GB and keeps UK only reserved.
func checkCountry(d *decoder, c Value[string]) {
	if !c.Set() {
		return
	}
	if _, ok := countryOf(c.V); ok {
		return
	}
	if d.s.full() {
		d.s.unsaid++
		return
	}
	if code, ok := ParseCountry(c.V); ok {
		d.doubt("spec.country", c.At, fmt.Sprintf("%q is not the country's ISO code", c.V), "write "+code)
		return
	}
	d.doubt("spec.country", c.At, fmt.Sprintf("%q is no country's code", c.V), "write the two letters of ISO 3166-1, such as GB, US, DE, FR, NL or CA")
}

// languageRemedy says the letters of a language of the papers whose name, in any of
// them, stands where they belong; "" for anything else.
func languageRemedy(text string, k *Key) string {
	if k.Pattern != langPattern {
		return ""
	}
	said := spelling.Plain(text)
	for _, namer := range []display.Namer{display.English.Languages(), display.German.Languages(), display.French.Languages(), display.Spanish.Languages(), display.Dutch.Languages()} {
		for _, tag := range []string{"en", "de", "fr", "es", "nl"} {
			if spelling.Plain(namer.Name(language.Make(tag))) == said {
				return "write its letters: " + tag
			}
		}
	}
	return ""
}
