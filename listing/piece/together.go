package piece

import (
	"fmt"
	"regexp"
	"strings"

	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
)

// Forms of a price's note, in the languages of the papers (from memory). Each is held
// against the beginning of what stands between commas.
var (
	noteParts = spelling.Pattern(`\s*[,;()/+–—]\s*|\s+-\s+`)
	priceWord = spelling.Pattern(`(?i)^(the |der |le |el |de )?(price|preis|prix|precio|prijs)( is| ist| est| es)?:? +`)
	// forSeveral names a pair or a set: for the pair, je Paar, la paire, el par, per stel.
	forSeveral = spelling.Pattern(`(?i)^(?:(?:for|per|the|a|each|one|whole|complete|as|für|pro|je|das|der|den|die|ein|jedes|ganze|ganzen|pour|par|la|le|l['’]|un|une|chaque|por|para|el|cada|una|voor|het|de|een|elk|elke)[ ]*\b ?)*` +
		`(pair|set|dozen|lot|paar|set|satz|dutzend|paire|jeu|lot|ensemble|douzaine|par|pareja|juego|conjunto|lote|docena|stel|dozijn)\b(?: (?:of|von|aus|de|van) (\pL+|\d+)\b)?`)
	// forNumber counts: for two, die zwei, pour les deux, both, all of them.
	forNumber = spelling.Pattern(`(?i)^(?:(?:for|per|je|für|pro|pour|por|para|voor)(?: the| die| alle| les| los| las| de| all)?|the|die|les|los|las|all|alle) (\pL+|\d{1,3})\b`)
	forAll    = spelling.Pattern(`(?i)^(?:(?:for|für|pour|por|para|voor) )?(?:all of them|all together|alles? zusammen|all|alle|alles|tous|toutes|todos|todas|allemaal)\b`)
	forBoth   = spelling.Pattern(`(?i)^(?:(?:for|für|pour|por|para|voor) )?(?:both of them|both|beide|ambos|ambas|allebei)\b`)
	together  = spelling.Pattern(`(?i)^(together|zusammen|ensemble|juntos|juntas|samen|tezamen)\b`)
	// goesOn is what may follow such a form: nothing, a mark, or how it is handed over.
	goesOn = spelling.Pattern(`(?i)^\W*($|(together|only|collected|delivered|including|incl|inkl|inklusive|excl|exkl|excluding|plus|zzgl|and|und|et|y|ex|zusammen|abgeholt|ensemble|juntos|juntas|samen|of them|compris|comprise)\b)`)
	// beginsEach begins a note of one piece; saysEach stands anywhere.
	beginsEach = spelling.Pattern(`(?i)^(each|apiece|chacune?|cada un[oa]|l['’]unité|la unidad|la pièce|(per|je|pro|par|por) (piece|item|stool|chair|board|bench|table|one|stück|stk|hocker|brett|bank|pièce|unité|unidad|pieza|stuk)|je)\b(\W|$)`)
	saysEach   = spelling.Pattern(`(?i)\b(each|apiece|chacune?|cada un[oa]|stück|per stuk)\b`)
	// ofSeveral are the words that a note of several pieces has. French "par" is no such word.
	ofSeveral = spelling.Pattern(`(?i)\b(sets?|pairs?|both|dozen|lot|together|satz|paar|beide|zusammen|ensemble|paires?|juego|conjunto|(?:el|un|por|cada) par|parejas?|juntos|juntas|stel|samen|(?:for|für|pour|por|para|voor) (?:the |die |les |los |las |de )?(?:all|alle|tous|todos|both|beide))\b`)
	// otherCount is what a number counts that counts no pieces.
	otherCount = spelling.Pattern(`(?i)^ ?(?:working |business |full )?(days?|weeks?|months?|years?|hours?|km|kilomet|miles?|mi|people|persons?|tage?n?|wochen?|monate?n?|jahre?n?|stunden|personen|kilometer|jours?|semaines?|mois|ans|heures?|personnes|kilomètres|días?|semanas?|mes(?:es)?|años?|horas?|personas|kilómetros|dag(?:en)?|weken|maand(?:en)?|jaar|uur|cm|mm|m|kg|%)(?:\PL|$)`)
	forCount   = spelling.Pattern(`(?i)\b(?:for|für|pour|por|para|voor) (?:the |die |les |los |las |de )?(\pL+|\d{1,3})\b`)
)

// groups are the numbers that words for several pieces say; any other is of as many as
// there are.
var groups = map[string]int{"pair": 2, "paar": 2, "paire": 2, "par": 2, "pareja": 2, "dozen": 12, "dutzend": 12, "douzaine": 12, "docena": 12, "dozijn": 12}

// priceOf says what a price's note says that the price is of.
type priceOf int

const (
	notSaid priceOf = iota // the price of one, as without a note
	ofEach
	ofAll
	unclear // it speaks of several and does not say clearly of which: printed as the price of one
)

// PricedTogether reports whether the price is that of all pieces of a quantity at once,
// as its note clearly says: for the pair, the set of four.
func (p *Piece) PricedTogether() bool { return p.pricedFor() == ofAll }

// PriceSaysOf reads what is said behind a price: of how many pieces it is, where it speaks
// of several, or that it is of each. quantity is how many there are, as far as is known.
func PriceSaysOf(note string, quantity int) (several int, each bool) {
	p := &Piece{Quantity: Value[int]{V: max(2, quantity)}}
	if n, clear := p.several(note); clear {
		return n, false
	}
	return 0, beginsEach().MatchString(note)
}

// pricedFor reads a price's note against the quantity. The first part of it that says
// what the price is of counts.
func (p *Piece) pricedFor() priceOf {
	if p.Quantity.V < 2 || p.Price == nil || !p.Price.Amount.Set() {
		return notSaid
	}
	for _, part := range noteParts().Split(p.Price.Note.V, -1) {
		part = priceWord().ReplaceAllString(spelling.OneLine(part), "")
		if n, clear := p.several(part); n > 0 {
			if !clear || n != p.Quantity.V || saysEach().MatchString(part[1:]) { // of "each pair", what comes behind "each"
				return unclear
			}
			return ofAll
		}
		if beginsEach().MatchString(part) {
			return ofEach
		}
	}
	if note := p.Price.Note.V; ofSeveral().MatchString(note) || countsIn(note) {
		return unclear
	}
	return notSaid
}

// several is of how many pieces a part of a note begins to speak, 0 where it does not, and
// whether it then goes on as such a note does.
func (p *Piece) several(part string) (n int, clear bool) {
	rest := func(form func() *regexp.Regexp) (m []string, tail string) {
		if m = form().FindStringSubmatch(part); m != nil {
			tail = part[len(m[0]):]
		}
		return m, tail
	}
	if m, tail := rest(forSeveral); m != nil {
		n = groups[strings.ToLower(m[1])]
		if n == 0 {
			n = p.Quantity.V
		}
		if strings.EqualFold(m[0], "par") && tail != "" { // French "par" begins much else
			return 0, false
		}
		if m[2] == "" {
			return n, goesOn().MatchString(tail)
		}
		if said := numberSaid(m[2]); said > 0 {
			return said, p.piecesThen(tail)
		}
		return n, p.names(m[2]) && goesOn().MatchString(tail)
	}
	if m, tail := rest(forNumber); m != nil && numberSaid(m[1]) > 1 && !otherCount().MatchString(tail) {
		return numberSaid(m[1]), p.piecesThen(tail)
	}
	if m, tail := rest(forBoth); m != nil {
		return 2, p.piecesThen(tail)
	}
	for _, form := range []func() *regexp.Regexp{forAll, together} {
		if m, tail := rest(form); m != nil {
			return p.Quantity.V, p.piecesThen(strings.TrimPrefix(tail, " "+fmt.Sprint(p.Quantity.V)))
		}
	}
	return 0, false
}

// piecesThen reports whether a note goes on as one of several pieces does, with or without
// a word for them.
func (p *Piece) piecesThen(tail string) bool {
	if goesOn().MatchString(tail) {
		return true
	}
	word, rest, _ := strings.Cut(strings.TrimSpace(tail), " ")
	return p.names(word) && goesOn().MatchString(rest)
}

// names reports whether a word is one for the piece, of its kind or title, or for any piece.
func (p *Piece) names(word string) bool {
	word = strings.ToLower(strings.Trim(word, ".,:!"))
	if len(word) < 4 {
		return false
	}
	for _, own := range strings.Fields(strings.ToLower(p.Kind.V + " " + p.Title.V + " pieces piezas pièces stücke stuks stukken")) {
		if own = strings.Trim(own, ".,:;()"); len(own) >= 4 && (strings.HasPrefix(own, word[:min(len(word), max(4, len(word)-2))])) {
			return true
		}
	}
	return false
}

// countsIn reports whether a note has "for" with a number of pieces in it.
func countsIn(note string) bool {
	for _, m := range forCount().FindAllStringSubmatchIndex(note, -1) {
		if numberSaid(note[m[2]:m[3]]) > 1 && !otherCount().MatchString(note[m[1]:]) {
			return true
		}
	}
	return false
}

// checkPriceOfSeveral says for what a price is taken whose note speaks of several pieces,
// and asks where it does not say of which.
func checkPriceOfSeveral(d *decoder, p *Piece) {
	switch n := p.Quantity.V; p.pricedFor() {
	case ofAll:
		d.s.add(Note, "price.of-all", p.Price.Note.At, fmt.Sprintf("the amount is taken for the price of all %d together, as its note says: %q", n, yamltext.Shorten(p.Price.Note.V)),
			"nothing is to be done; where it is the price of one, write note: each")
	case notSaid:
		if n > 1 && TitleCount(p.Title.V) == n && p.Price != nil && p.Price.Amount.Set() {
			d.doubt("price.of-which", p.Price.Amount.At, fmt.Sprintf("the amount is taken for the price of one, and the title is of %d together", n),
				fmt.Sprintf("for the price of all %d together, write note: for the %s; for that of one, note: each", n, map[bool]string{true: "pair", false: "set"}[n == 2]))
		}
	case unclear:
		d.doubt("price.of-which", p.Price.Note.At, fmt.Sprintf("the amount is taken for the price of one of %d, and its note may say that it is of several: %q", n, yamltext.Shorten(p.Price.Note.V)),
			fmt.Sprintf("for the price of all %d together, write note: for the %s; for that of one, note: each", n, map[bool]string{true: "pair", false: "set"}[n == 2]))
	}
}
