package intake

import (
	"cmp"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// ofWorkshop are the questions on the workshop, put once for a collection.
var ofWorkshop = []question{
	{
		ask:     "What is your workshop called?",
		example: fixed("Ostrel Yard"),
		more:    "The name that stands on every sheet, label and page.",
		take:    plain("workshop.name"),
		needed:  true,
	}, {
		ask:     "Its address, as buyers may read it?",
		example: fixed("1 Yard Lane, Ostrel"),
		more:    "It stands on the papers. Skip it if you would rather not.",
		take:    plain("workshop.address"),
	}, {
		ask:     "Which country is it in?",
		example: fixed("GB"),
		more:    "Its two letters, or its name: GB, Ireland, United States. A carrier's terms and a buyer's law hang on it.",
		take:    country,
	}, {
		ask:     "Which mail address may buyers write to?",
		example: fixed("hello@ostrel-yard.example"),
		more:    "It stands on the papers and the listing page.",
		take:    plain("workshop.email"),
	}, {
		ask:      "Which currency are your prices in?",
		example:  func(iv *Interview) string { return cmp.Or(usualMoney(iv), "GBP") },
		more:     "Its three letters, or its name: GBP, euros, US dollars.",
		proposal: usualMoney,
		take:     currency,
	}, {
		ask:      "Which unit do you measure in?",
		example:  fixed("in, cm or mm"),
		more:     "What a number without a unit means, and what is printed first. You can write any unit behind a number all the same.",
		proposal: usualUnit,
		take:     system,
	},
}

// usualUnit is what furniture is measured in where the workshop is; inches where no
// country is told.
func usualUnit(iv *Interview) string {
	return string(cmp.Or(units.UsualIn(iv.text("workshop.country")), units.Inches))
}

// usualMoney is the currency of the workshop's country; "" where none is known.
func usualMoney(iv *Interview) string { return units.CurrencyIn(iv.text("workshop.country")) }

// country takes a country by its two letters or its name.
func country(iv *Interview, text string) said {
	code, ok := piece.ParseCountry(text)
	if !ok {
		return refused("write its two letters, such as GB, or its name, such as Ireland", "%q is no country that is known here", text)
	}
	if code == "GE" && text != code { // the one name that a country shares with a state whose makers leave the country unsaid
		return refused("say US for the state, or GE for the country in the Caucasus", "%q is a state of the US, and a country", text)
	}
	s := iv.put(map[string]*piece.Written{"workshop.country": piece.Plain(code)})
	if s.problem == nil && code != text {
		s.notes = append(s.notes, piece.CountryName(code)+" ("+code+")")
	}
	return s
}

// currency takes a currency by its letters, its sign or its name.
func currency(iv *Interview, text string) said {
	switch codes := piece.ParseCurrency(text); {
	case len(codes) == 1:
		s := iv.put(map[string]*piece.Written{"currency": piece.Plain(codes[0])})
		if s.problem == nil && codes[0] != text {
			s.notes = append(s.notes, codes[0])
		}
		return s
	case len(codes) > 1:
		return refused("say whose, in three letters: "+spelling.Or(codes), "%q can be the money of several countries", text)
	}
	return refused("write the three letters of ISO 4217, such as GBP, USD or EUR", "%q is no currency that is known here", text)
}

// system takes the unit of bare numbers, in letters or by name.
func system(iv *Interview, text string) said {
	unit, sure := units.SystemNamed(text)
	switch {
	case unit == "":
		return refused("say in, cm or mm", "%q is no unit that is known here", text)
	case !sure:
		return refused("say cm if you write 137.2 for a length, mm if you write 1372", "%q can be centimetres or millimetres", text)
	}
	s := iv.put(map[string]*piece.Written{"units": piece.Plain(string(unit))})
	if s.problem == nil && string(unit) != text {
		s.notes = append(s.notes, string(unit))
	}
	return s
}
