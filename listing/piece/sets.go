package piece

import (
	"fmt"
	"strconv"
	"strings"

	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
)

// Words by which a title says that it is of several pieces, in the languages of the
// papers: a pair, or a set with its number. Between a word for "with" and the end a pair
// is a part of the piece, as in a desk with a pair of drawers. From memory.
var (
	pairOf = spelling.Pattern(`(?i)(\bpairs? of\b|\bpair$|\bpair\b[,;:)]|\bpaar\b|\bpaire de\b|\bpaire\b|\bpar de\b|\bpareja de\b)`)
	setOf  = spelling.Pattern(`(?i)\b(?:set of|set von|satz von|satz aus|set aus|ensemble de|jeu de|lot de|juego de|conjunto de|lote de|set van|stel van)\s+(\pL+|\d{1,3})\b`)
	fitted = spelling.Pattern(`(?i)\b(with|on|for|mit|auf|für|avec|sur|pour|con|sobre|para|met|op|voor)\b`)
	// justOfOne is a note that says no more than that the price is of each.
	justOfOne = spelling.Pattern(`(?i)^\W*(each|apiece|per (piece|item|stool|chair|board|bench|table|one)|(je|pro) (stück|stk\.?|hocker|brett|bank)|(la|par) (pièce|unité)|chacune?|l['’]unité|cada un[oa]|por (unidad|pieza)|la unidad|per stuk)\W*$`)
)

// numberWords are the numbers to twelve in the languages of the papers.
var numberWords = map[string]int{
	"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "eight": 8, "ten": 10, "twelve": 12,
	"zwei": 2, "drei": 3, "vier": 4, "fünf": 5, "sechs": 6, "acht": 8, "zehn": 10, "zwölf": 12,
	"deux": 2, "trois": 3, "quatre": 4, "cinq": 5, "huit": 8, "dix": 10, "douze": 12,
	"dos": 2, "tres": 3, "cuatro": 4, "cinco": 5, "seis": 6, "ocho": 8, "diez": 10, "doce": 12,
	"twee": 2, "drie": 3, "vijf": 5, "zes": 6, "tien": 10, "twaalf": 12,
}

// TitleCount is how many pieces a title says it is of: 2 for a pair, the number of a set;
// 0 where it says nothing of the kind.
func TitleCount(title string) int {
	before := func(at []int) bool { return at != nil && !fitted().MatchString(title[:at[0]]) }
	if m := setOf().FindStringSubmatchIndex(title); before(m) {
		word := strings.ToLower(title[m[2]:m[3]])
		if n, err := strconv.Atoi(word); err == nil {
			return n
		}
		return numberWords[word]
	}
	if before(pairOf().FindStringIndex(title)) {
		return 2
	}
	return 0
}

// PricedTogether reports whether the price is that of all pieces of a quantity at once,
// as its note says: for the pair, the set of four.
func (p *Piece) PricedTogether() bool {
	return p.Quantity.V > 1 && p.Price != nil && p.Price.Amount.Set() && ofSeveral().MatchString(p.Price.Note.V) && !ofOne().MatchString(p.Price.Note.V)
}

// SaysEach reports whether a price's note says only that the price is of each, which
// every paper says of a quantity anyway.
func SaysEach(note string) bool { return justOfOne().MatchString(note) }

// ofSeveral is a price's note that speaks of several pieces at once, ofOne one that says
// it is of each, in the languages of the papers (from memory).
var (
	ofSeveral = spelling.Pattern(`(?i)\b(set|pair|both|dozen|lot|together|satz|paar|beide|zusammen|ensemble|paire|juego|conjunto|par|juntos|juntas|stel|samen)\b`)
	ofOne     = spelling.Pattern(`(?i)\b(each|apiece|per|je|pro|chacun|chacune|cada|stuk)\b`)
)

// checkSets holds a title and a price that speak of several pieces against the quantity:
// size and weight are those of one.
func checkSets(d *decoder, p *Piece) {
	n := p.Quantity.V
	if p.PricedTogether() {
		d.s.add(Note, "price.of-all", p.Price.Note.At, fmt.Sprintf("the amount is taken for the price of all %d together, as its note says: %q", n, yamltext.Shorten(p.Price.Note.V)),
			"nothing is to be done; where it is the price of one, write note: each")
	}
	if said := TitleCount(p.Title.V); said > 1 && n == 1 {
		d.doubt("quantity.title", p.Title.At, fmt.Sprintf("the title says %d, and quantity says 1: every size, weight and package is taken for that of all %d together", said, said),
			fmt.Sprintf("where you wrote the sizes of one, write quantity: %d; a price of all together stays as it is, with note: for the %s", said, map[bool]string{true: "pair", false: "set"}[said == 2]))
	}
}
