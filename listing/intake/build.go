package intake

import (
	"regexp"
	"slices"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

func baseExample(iv *Interview) string {
	return "two welded steel frames, " + iv.size("base.height") + " high, 11 kg"
}

// metals are the words that name what a base is made of, as the table of
// materials has them.
var metals = []string{"steel", "stainless steel", "aluminium", "aluminum", "brass", "bronze", "cast iron"}

// base takes what the top stands on: words, and height and weight where they are
// said.
func base(iv *Interview, text string) said {
	if none.MatchString(text) {
		return iv.put(map[string]*piece.Written{"base": nil})
	}
	if strings.Contains(text, "%") {
		return refused("say it in your own words, such as two welded steel frames", "%q is nothing to stand on", text)
	}
	values := map[string]*piece.Written{"base": nil}
	var style, notes []string
	for _, part := range strings.Split(text, ",") {
		part = strings.TrimSpace(part)
		if _, err := units.ParseMass(part); err == nil {
			values["base.weight"] = piece.Plain(part)
			notes = append(notes, "weight of the base: "+part)
			continue
		}
		high := highWord.ReplaceAllString(part, "")
		if _, err := units.ParseLength(high, iv.Defaults.Units); err == nil && part != "" {
			values["base.height"] = iv.withUnit(high)
			notes = append(notes, "height to the underside of the top: "+high)
			continue
		}
		if part != "" {
			style = append(style, part)
		}
	}
	if len(style) > 0 {
		values["base.style"] = piece.Plain(strings.Join(style, ", "))
	}
	if m := metalIn(text); m != "" {
		values["base.material"] = piece.Plain(m)
	}
	s := iv.put(values)
	s.notes = append(s.notes, notes...)
	return s
}

// metalIn returns the one metal that a text names, or "".
func metalIn(text string) string {
	said := " " + spelling.Plain(text) + " "
	found := ""
	for _, m := range metals {
		if strings.Contains(said, " "+m+" ") && len(m) > len(found) && (found == "" || strings.HasSuffix(m, found)) {
			found = m
		} else if strings.Contains(said, " "+m+" ") && !strings.HasSuffix(found, m) {
			return "" // two metals
		}
	}
	return found
}

var (
	coatsSaid = regexp.MustCompile(`(?i)\b(\d+|one|two|three|four|five|six) coats?\b(?: of\b)?`)
	sheens    = []string{"matt", "matte", "satin", "semi-gloss", "gloss", "high gloss", "silk", "eggshell"}
	numbers   = []string{"", "one", "two", "three", "four", "five", "six"}
)

// finish takes the family, and coats, sheen and product where they are said.
func finish(iv *Interview, text string) said {
	values := map[string]*piece.Written{"finish": nil}
	if m := coatsSaid.FindStringSubmatch(text); m != nil {
		n := m[1]
		if i := slices.Index(numbers, strings.ToLower(n)); i > 0 {
			n = string(rune('0' + i))
		}
		values["finish.coats"] = piece.Plain(n)
		text = coatsSaid.ReplaceAllString(text, "")
	}
	var product []string
	family := ""
	for _, part := range strings.Split(text, ",") {
		switch part = tidy(part); {
		case part == "":
		case slices.Contains(sheens, strings.ToLower(part)):
			values["finish.sheen"] = piece.Plain(part)
		case family == "":
			family = part
		default:
			product = append(product, part)
		}
	}
	if family == "" {
		return refused("name the kind of finish first, such as hardwax oil", "%q does not say which finish", text)
	}
	if len(product) > 0 {
		values["finish.product"] = piece.Plain(strings.Join(product, ", "))
	}
	return iv.word(family, piece.ParseFinish, values, "finish.family")
}

// price takes the figure, and its currency where it is not the workshop's.
func price(iv *Interview, text string) said {
	amount, currency, ok := piece.ParsePrice(text)
	if !ok {
		return refused("write the figure, alone or with its currency, such as 1450 or 1450 GBP", "%q is not a price", text)
	}
	values := map[string]*piece.Written{"price.amount": piece.Plain(amount), "price.currency": nil}
	if iv.pending && currency == "" {
		return iv.put(values)
	}
	if currency != "" && currency != iv.Currency {
		values["price.currency"] = piece.Plain(currency)
	}
	s := iv.put(values)
	if s.problem == nil && currency == "" && iv.Currency == "" {
		s.more = true
		s.problem = &piece.SetError{Message: amount + ": noted; whose money it is is not said", Remedy: "write it with its currency, such as " + amount + " GBP; Enter leaves that open"}
	}
	return s
}
