package intake

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

var (
	coatsSaid = spelling.Pattern(`(?i)(?:^|[ ,])(\d+|\p{L}+) (?:coats?|schicht(?:en)?|anstriche?|aufträge?|lagen?|couches?|manos?|capas?|laag)(?: of| de)?(?:$|[ ,])`)
	// sheens are how a coat shines, in the languages of the papers.
	sheens = []string{
		"matt", "matte", "satin", "semi-gloss", "gloss", "high gloss", "silk", "eggshell", "seidenmatt", "seidenglanz", "seidenglänzend", "glänzend", "hochglanz", "hochglänzend",
		"mat", "satiné", "brillant", "mate", "satinado", "brillante", "zijdemat", "zijdeglans", "glanzend", "hoogglans",
	}
	// countOf is a number and one word, which may be the coats in words of the maker's own.
	countOf = spelling.Pattern(`^\d{1,2}[ ×x]*\p{Ll}+$|^\d{1,2} \p{L}+$`)
)

// finish takes the family, and coats, sheen and product where they are said.
func finish(iv *Interview, text string) said {
	values := map[string]*piece.Written{"finish": nil}
	maps.Copy(values, iv.also)
	iv.also = nil
	whole := text
	if m := coatsSaid().FindStringSubmatchIndex(text); m != nil && spelling.Number(text[m[2]:m[3]]) > 0 {
		values["finish.coats"] = piece.Plain(strconv.Itoa(spelling.Number(text[m[2]:m[3]])))
		text = text[:m[0]] + ", " + text[m[1]:]
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
	for _, name := range product {
		if countOf().MatchString(name) && iv.insisted != whole {
			iv.insisted = whole
			return refused("say 2 coats if that is how many coats there are; or say it again, and it is kept as the name on the tin", "%q can be how many coats there are, or the name on the tin", name)
		}
	}
	if len(product) > 0 {
		values["finish.product"] = piece.Plain(strings.Join(product, ", "))
	}
	s := iv.word(family, piece.ParseFinish, values, "finish.family")
	if s.problem != nil {
		iv.also = besideFamily(values)
	}
	return s
}

// besideFamily is what was said of a finish besides its kind, so that naming the
// kind again is enough.
func besideFamily(values map[string]*piece.Written) map[string]*piece.Written {
	also := maps.Clone(values)
	delete(also, "finish")
	delete(also, "finish.family")
	return also
}
