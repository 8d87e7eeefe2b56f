package piece

import (
	"fmt"
	"strings"

	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// takesName are the keys of both files that take a name, a colour or words, with what
// they take. A figure with its unit alone is none of these.
var takesName = map[string]string{
	"title": "the name of the piece", "top.wood.species": "the name of a wood", "top.resin.material": "the name of a resin", "top.resin.colour": "a colour",
	"base.style": "what it looks like", "base.material": "a material", "base.coating": "what is on the metal", "base.feet": "what touches the floor", "base.fixing.method": "how it is joined",
	"parts.name": "the name of the part", "parts.material": "a material", "finish.product": "the name on the tin", "finish.sheen": "how it shines",
	"materials.use": "what it was used for", "materials.product": "the name on the tin", "materials.chemistry": "what it is", "materials.hardener": "the name on the tin", "materials.supplier": "a name",
	"log.did": "what was done", "log.materials": "the names of materials", "buyer.name": "a name", "packing.crate": "what the crate is made of", "packing.packages.name": "what is in it", "costs.items.for": "what it was for",
	"workshop.name": "the workshop's name", "copyright": "a name", "resins.product": "the name on the tin", "resins.chemistry": "what it is", "finishes.product": "the name on the tin", "glues.product": "the name on the bottle",
	"woods.name": "the name of a wood", "woods.botanical": "a botanical name", "translations.title": "the name of the piece",
}

// moneySaid is a text that is money and nothing else: a figure with one of the signs,
// letters or words that nothing else is written with.
var moneySaid = spelling.Pattern(`(?i)^(?:(?:[€£$¥]|US\$|EUR|USD|GBP|CHF|CAD|AUD|NZD)\s*\d[\d.,'’ ]*(?:[.,][-–])?|\d[\d.,'’ ]*(?:[.,][-–])?\s*(?:[€£$¥]|US\$|EUR|USD|GBP|CHF|CAD|AUD|NZD|SEK|NOK|DKK|euros?|dollars?|francs?|franken|kronor|kroner))$`)

// dateSaid is a day in figures, in whatever order.
var dateSaid = spelling.Pattern(`^(?:\d{4}[./-]\d{1,2}[./-]\d{1,2}|\d{1,2}[./-]\d{1,2}[./-](?:\d{2}|\d{4}))\.?$`)

// ReadsLike says what a text is that holds a figure with its unit and nothing else:
// "money", "a date", "a measure"; "" for any other, a bare number too.
func ReadsLike(text string) string {
	text = strings.TrimSpace(text)
	if len(text) > 40 || !strings.ContainsAny(text, "0123456789½¼¾") {
		return ""
	}
	if moneySaid().MatchString(text) {
		return "money"
	}
	if dateSaid().MatchString(text) || wordyDate(text) != "" {
		return "a date"
	}
	if strings.Trim(text, "0123456789.,/-–½¼¾⅛⅜⅝⅞ ") == "" {
		return ""
	}
	if _, err := units.ParseLength(text, units.Millimetres); err == nil {
		return "a measure"
	}
	for _, parse := range []func(string) error{
		func(s string) error { _, err := units.ParseMass(s); return err }, func(s string) error { _, err := units.ParseVolume(s); return err },
		func(s string) error { _, err := units.ParsePercent(s); return err }, func(s string) error { _, err := units.ParseTemperature(s); return err },
		func(s string) error { _, err := units.ParseDensity(s); return err }, func(s string) error { _, err := units.ParseDays(s); return err },
	} {
		if parse(text) == nil {
			return "a measure"
		}
	}
	for n := 2; n <= 3; n++ {
		if _, ok := lengths(text, n, units.Millimetres); ok {
			return "a measure"
		}
	}
	return ""
}

// translatedTag is the tag of a language in the path of a translation.
var translatedTag = spelling.Pattern(`^translations\.[^.]+\.`)

// doubtNoName doubts money, a measure or a date where a name or a colour belongs.
func (d *decoder) doubtNoName(text string, at Place, path string) {
	takes := takesName[translatedTag().ReplaceAllString(listEntry().ReplaceAllString(path, ""), "translations.")]
	if takes == "" {
		return
	}
	if like := ReadsLike(text); like != "" {
		d.doubt("spec.no-name", at, fmt.Sprintf("%s is %q, which reads like %s; %s belongs there", path, yamltext.Shorten(text), like, takes), noNameRemedy(like))
	}
}

// noNameRemedy says where such a figure belongs.
func noNameRemedy(like string) string {
	switch like {
	case "money":
		return "write it in words; what you ask for the piece stands in price, what it cost you in costs"
	case "a date":
		return "write it in words; the day that the piece was done stands in finished"
	}
	return "write it in words; sizes, weights and shares have keys of their own"
}
