package intake

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
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
// said, with commas or without.
func base(iv *Interview, text string) said {
	if none().MatchString(text) {
		return iv.put(map[string]*piece.Written{"base": nil})
	}
	if like := piece.ReadsLike(text); strings.Contains(text, "%") || like == "money" || like == "a date" {
		return refused("say it in your own words, such as two welded steel frames", "%q is nothing to stand on", text)
	}
	values, whole := map[string]*piece.Written{"base": nil}, text
	text, notes := iv.points(text, false)
	text, weight := ofEach(text, values)
	notes = append(notes, weight...)
	var style []string
	for _, part := range strings.Split(text, ",") {
		words, figure := iv.lastFigure(strings.TrimSpace(part))
		if figure != "" {
			note, problem := iv.baseFigure(whole, figure, values)
			if problem != nil {
				return said{problem: problem}
			}
			notes = append(notes, note)
		}
		if words != "" {
			style = append(style, words)
		}
	}
	metal := metalIn(text)
	if metal != "" {
		values["base.material"] = piece.Plain(metal)
	}
	if words := strings.Join(style, ", "); words != "" {
		values["base.style"] = piece.Plain(withoutMetal(words, metal))
	}
	left := strings.Join(style, ", ")
	if values["base.height"] == nil && lengthSaid().MatchString(left) {
		notes = append(notes, "no height is noted: none of the sizes in it is said to be one; if one is, type back, and say: … "+iv.size("base.height")+" high")
	}
	if values["base.weight"] == nil && weight == nil && massSaid().MatchString(left) {
		notes = append(notes, "no weight is noted; to give one, type back, and put it last: …, 11 kg")
	}
	s := iv.put(values)
	s.notes = append(s.notes, notes...)
	if hint := iv.sidesOfSlab(); hint != "" && s.problem == nil && values["base.weight"] == nil && waterfall().MatchString(whole) {
		s.notes = append(s.notes, hint)
	}
	return s
}

// waterfall names a base of the slab itself, turned down at the ends (from memory).
var waterfall = spelling.Pattern(`(?i)\b(?:waterfall|mitred|mitered|mitre|miter|gehrung|cascade|cascada|onglet|inglete|verstek)|\b(?:sides?|ends?) of the (?:same )?slab`)

// sidesOfSlab shows how the sides of such a base are written, so that their wood counts,
// with the sizes that are known; "" where they are not.
func (iv *Interview) sidesOfSlab() string {
	size := &piece.Written{}
	for _, path := range []string{"base.height", "top.outline.width", "top.thickness"} {
		l, err := units.ParseLength(iv.text(path), iv.bareUnit())
		if err != nil {
			return ""
		}
		size.Items = append(size.Items, piece.Plain(l.Plain(iv.bareUnit())))
	}
	side := &piece.Written{}
	side.Put("name", piece.Plain("side"))
	if wood := iv.text("top.wood.species"); wood != "" {
		side.Put("material", piece.Plain(wood))
	}
	side.Put("count", piece.Plain("2"))
	side.Put("size", size)
	return "its sides weigh nothing yet; write them into piece.yaml: parts: [{" + side.String() + "}]"
}

// baseFigure puts a weight or height among the values, and says how it is read.
func (iv *Interview) baseFigure(whole, figure string, values map[string]*piece.Written) (note string, problem *piece.SetError) {
	if _, err := units.ParseMass(figure); err == nil {
		values["base.weight"] = piece.Plain(figure)
		return "weight of the base: " + figure, nil
	}
	if figure, _, problem = iv.withUnit(whole, figure, "height"); problem != nil {
		return "", problem
	}
	values["base.height"] = piece.Plain(figure)
	return "height to the underside of the top: " + figure, nil
}

var (
	// lengthSaid is a figure with a unit of length.
	lengthSaid = spelling.Pattern(`(?i)\d\s*(?:in|inch|inches|ins|"|cm|mm|ft|m)(?:$|[^a-z])`)
	// massSaid is a figure with a unit of mass.
	massSaid = spelling.Pattern(`(?i)\d\s*(?:kg|lbs?|pounds?)(?:$|[^a-z])`)
	// heightWithin is a height among words that say that it is one.
	heightWithin = spelling.Pattern(`(?i)^(.*?)\b(\d[\d ./½¼¾⅛⅜⅝⅞-]*\s*(?:inches|inch|ins|in|"|cm|mm))\s+(?:high|tall|in height|to the underside(?: of the top)?|hoch|hoog|de haut|de hauteur|de alto|de altura)(?:\s+(.*))?$`)
	// figureLast is a figure with its unit behind words.
	figureLast = spelling.Pattern(`(?i)^(.*[a-z)][,;:]?)\s+(\d[\d ./½¼¾⅛⅜⅝⅞-]*\s*(?:inches|inch|ins|in|"|cm|mm|kg|lbs?|pounds))$`)
)

// leastHeight is the least that a length behind words is taken for a height; a
// shorter one is the size of a tube or bar (common practice, no source).
const leastHeight = units.Length(100)

// lastFigure parts a weight or height from the words before it: "steel hairpin legs
// 16 in". A part that is a figure alone has no words.
func (iv *Interview) lastFigure(part string) (words, figure string) {
	if part == "" {
		return "", ""
	}
	bare := highWord().ReplaceAllString(part, "")
	if _, err := units.ParseMass(part); err == nil {
		return "", part
	}
	if _, err := units.ParseLength(bare, iv.bareUnit()); err == nil {
		return "", bare
	}
	if m := heightWithin().FindStringSubmatch(part); m != nil {
		if l, err := units.ParseLength(m[2], iv.bareUnit()); err == nil && l >= leastHeight {
			return tidy(m[1] + " " + m[3]), m[2]
		}
	}
	m := figureLast().FindStringSubmatch(bare)
	if m == nil || strings.HasSuffix(strings.ToLower(m[1]), " x") || strings.HasSuffix(strings.ToLower(m[1]), " by") {
		return part, ""
	}
	if _, err := units.ParseMass(m[2]); err == nil {
		return strings.Trim(m[1], " ,;:"), m[2]
	}
	if l, err := units.ParseLength(m[2], iv.bareUnit()); err != nil || l < leastHeight && bare == part {
		return part, ""
	}
	return strings.Trim(m[1], " ,;:"), m[2]
}

// withoutMetal takes the metal off the front of what a base is, where words are left
// behind it: "steel hairpin legs" of steel are hairpin legs.
func withoutMetal(words, metal string) string {
	if len(words) > len(metal)+1 && metal != "" && strings.EqualFold(words[:len(metal)+1], metal+" ") {
		return words[len(metal)+1:]
	}
	return words
}

// earlierBase proposes the base of the earlier piece, with its metal.
func earlierBase(iv *Interview) string {
	style, metal := earlier("base.style")(iv), earlier("base.material")(iv)
	if style == "" || !slices.Contains(metals, metal) || metalIn(style) != "" {
		return style
	}
	return metal + " " + style
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

// pointedThousands is a figure whose point parts thousands in half of Europe, and is a
// decimal one elsewhere.
var pointedThousands = spelling.Pattern(`^[^\d]*\d{1,3}\.\d{3}[^\d]*$`)

// price takes the figure, its currency where it is not the workshop's, and of how many
// pieces it is. Where there are several and it does not say, that is asked.
func price(iv *Interview, text string) said {
	if pointedThousands().MatchString(text) {
		return refused("write "+strings.Replace(text, ".", "", 1)+" if thousands are meant; else two figures behind the point", "%q can be thousands or not", text)
	}
	if codes := piece.ParseCurrency(text); iv.pending && len(codes) == 1 { // the figure is noted already
		return iv.ofHowMany(iv.put(map[string]*piece.Written{"price.currency": piece.Plain(codes[0])}))
	}
	if values, notes := iv.priceOf(text); iv.pending && values != nil {
		s := iv.put(values)
		s.notes = notes
		return s
	}
	figure, tail := priceAndTail(text)
	amount, currency, ok := piece.ParsePrice(figure, iv.Currency)
	of, ofNotes := iv.priceOf(tail)
	if !ok || tail != "" && of == nil {
		return refused("write the figure, alone or with its currency, such as 1450 or 1450 GBP", "%q is not a price", text)
	}
	if v, err := strconv.ParseFloat(amount, 64); err == nil && v == 0 {
		return refused("write what you ask for it; skip leaves the question open", "%q would offer the piece for nothing", text)
	}
	values := map[string]*piece.Written{"price.amount": piece.Plain(amount), "price.currency": nil, "price.note": nil}
	if iv.pending && currency == "" {
		delete(values, "price.currency")
	}
	if currency != "" && currency != iv.Currency {
		values["price.currency"] = piece.Plain(currency)
	}
	maps.Copy(values, of)
	asked := iv.pending
	s := iv.put(values)
	if s.problem != nil {
		return s
	}
	s.notes = append(s.notes, ofNotes...)
	if currency != "" && iv.Currency != "" && currency != iv.Currency {
		s.notes = append(s.notes, "in "+currency+"; the workshop's own prices are in "+iv.Currency)
	}
	if currency == "" && iv.Currency == "" && !asked {
		s.more = true
		s.problem = &piece.SetError{Message: amount + ": noted; whose money it is is not said", Remedy: "write it with its currency, such as " + amount + " GBP; Enter leaves that open"}
		return s
	}
	return iv.ofHowMany(s)
}

// priceAndTail parts a price from what is said behind it: 780 EUR from the pair.
func priceAndTail(text string) (figure, tail string) {
	words := strings.Fields(text)
	for i := len(words); i > 0; i-- {
		figure = strings.TrimRight(strings.Join(words[:i], " "), ",;")
		if _, _, ok := piece.ParsePrice(figure, ""); ok {
			return figure, strings.Join(words[i:], " ")
		}
	}
	return text, ""
}

// priceOf is what the spec holds for a price that is said to be of each or of several;
// nil where that is not said. Where nothing was said of several before, they are.
func (iv *Interview) priceOf(said string) (values map[string]*piece.Written, notes []string) {
	if said == "" {
		return nil, nil
	}
	quantity, _ := strconv.Atoi(iv.text("quantity"))
	switch n, each := piece.PriceSaysOf(said, quantity); {
	case each:
		if quantity < 2 {
			notes = []string{"the price of one; where there are several, write quantity: into piece.yaml"}
		}
		return map[string]*piece.Written{"price.note": piece.Plain("each")}, notes
	case n > 1 && (quantity < 2 || quantity == n):
		word := map[bool]string{true: "pair", false: "set"}[n == 2]
		notes = []string{fmt.Sprintf("the price of %d together", n)}
		if quantity < 2 {
			notes[0] = fmt.Sprintf("taken for %d pieces, and the price of the %d together: sizes and weights are those of one", n, n)
		}
		return map[string]*piece.Written{"price.note": piece.Plain("for the " + word), "quantity": piece.Plain(strconv.Itoa(n))}, notes
	}
	return nil, nil
}

// ofHowMany asks of how many pieces a price is, where there are several and that is not
// said.
func (iv *Interview) ofHowMany(s said) said {
	n, _ := strconv.Atoi(iv.text("quantity"))
	if s.problem != nil || n < 2 || iv.text("price.note") != "" {
		return s
	}
	together := map[bool]string{true: "for the pair", false: "for the set"}[n == 2]
	s.more = true
	s.problem = &piece.SetError{Message: fmt.Sprintf("%s: noted; there are %d, and it is not said whether it is the price of one", iv.text("price.amount"), n),
		Remedy: fmt.Sprintf("say each, or %s; Enter takes it for the price of one", together)}
	return s
}
