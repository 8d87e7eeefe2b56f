package piece

import (
	"fmt"
	"strings"

	"slabfolio/listing/spelling"
)

// Words by which a title says that it is of several pieces, in the languages of the
// papers: a pair, or a set with its number. Between a word for "with" and the end a pair
// is a part of the piece, as in a desk with a pair of drawers. From memory.
var (
	pairOf = spelling.Pattern(`(?i)(\bpairs? of\b|\bpair$|\bpair\b[,;:)]|\bpaar\b|\bpaire de\b|\bpaire$|\bpar de\b|\bpareja de\b)`)
	setOf  = spelling.Pattern(`(?i)\b(?:set of|set von|satz von|satz aus|set aus|ensemble de|jeu de|lot de|juego de|conjunto de|lote de|set van|stel van)\s+(\pL+|\d{1,3})\b`)
	fitted = spelling.Pattern(`(?i)\b(with|on|for|mit|auf|für|avec|sur|pour|con|sobre|para|met|op|voor)\b`)
	// madeOf stands before a pair that a piece is made of, as in a bench of a pair of slabs.
	madeOf = spelling.Pattern(`(?i)(\b(of|from|aus|von|van|uit|de)\s+(a|an|the|one|einem|dem|une|la|un|el|een)\s+|\bd['’]une\s+)(\pL+\s+)?$`)
	// aFew stands before a small "paar", which with it is no pair.
	aFew = spelling.Pattern(`(?i)\b(ein|een|die|de)\s+$`)
	// counted is a title that begins with a number and ends with pieces, or goes on with what they are of.
	counted = spelling.Pattern(`(?i)^\W*(?:an?\s+|une\s+|una\s+|een\s+|ein\s+)?(\d{1,3}|\pL+)\s+((?:\pL{3,}\s+){0,2}?)(?:of\s+|de\s+)?(?:(?:boards|benches|stools|tables|desks|chairs|shelves|trays|consoles|coasters)|\pL*(?:bretter|brettchen|hocker|tische|bänke|regale|tabletts|stühle)|` +
		`planches|bancs|tabourets|bureaux|étagères|plateaux|chaises|tablas|mesas|bancos|taburetes|escritorios|estantes|bandejas|sillas|\pL*(?:planken|tafels|banken|krukken|dienbladen|stoelen))(?:$|\s*[,;:.(]|\s+(?:of|in|from|made|aus|in|en|de|van|uit|with|mit|avec|con|met)\b)`)
	// notOfPieces are words between a number and a piece that the number counts instead.
	notOfPieces = spelling.Pattern(`(?i)\b(tones?|toned|colou?r|colou?rs|colou?red|sided?|tiers?|legged|legs?|piece|plank|slab|inch|inches|foot|feet|litre|woods?|upon)\b`)
	// justOfOne is a note that says no more than that the price is of each.
	justOfOne = spelling.Pattern(`(?i)^\W*(each|apiece|per (piece|item|stool|chair|board|bench|table|one)|(je|pro) (stück|stk\.?|hocker|brett|bank)|(la|par) (pièce|unité)|chacune?|l['’]unité|cada un[oa]|por (unidad|pieza)|la unidad|per stuk)\W*$`)
)

// countWords are words for a number of pieces.
var countWords = map[string]int{"twin": 2, "dozen": 12, "dutzend": 12, "douzaine": 12, "docena": 12, "dozijn": 12}

// numberSaid is a number of pieces in figures or as a word; 0 for any other word.
func numberSaid(word string) int {
	if n := countWords[strings.ToLower(word)]; n > 0 {
		return n
	}
	return spelling.Number(word)
}

// TitleCount is how many pieces a title says it is of: 2 for a pair, the number of a set
// or of boards, stools and the like that it begins with; 0 where it says nothing of the kind.
func TitleCount(title string) int {
	before := func(at []int) bool {
		return at != nil && !fitted().MatchString(title[:at[0]]) && !madeOf().MatchString(title[:at[0]])
	}
	if m := setOf().FindStringSubmatchIndex(title); before(m) {
		return numberSaid(title[m[2]:m[3]])
	}
	if at := pairOf().FindStringIndex(title); before(at) && !(strings.HasPrefix(title[at[0]:], "paar") && aFew().MatchString(title[:at[0]])) {
		return 2
	}
	if m := counted().FindStringSubmatch(title); m != nil && !notOfPieces().MatchString(m[2]) {
		return numberSaid(m[1])
	}
	return 0
}

// SaysEach reports whether a price's note says only that the price is of each, which
// every paper says of a quantity anyway.
func SaysEach(note string) bool { return justOfOne().MatchString(note) }

// checkSets holds a title and a price that speak of several pieces against the quantity:
// size and weight are those of one.
func checkSets(d *decoder, p *Piece) {
	n := p.Quantity.V
	checkPriceOfSeveral(d, p)
	said := TitleCount(p.Title.V)
	switch {
	case said < 2 || said == n:
	case n == 1:
		d.doubt("quantity.title", p.Title.At, fmt.Sprintf("the title says %d, and quantity says 1: every size, weight and package is taken for that of all %d together", said, said),
			fmt.Sprintf("where you wrote the sizes of one, write quantity: %d; a price of all together stays as it is, with note: for the %s", said, map[bool]string{true: "pair", false: "set"}[said == 2]))
	case n > 1:
		d.doubt("quantity.title", p.Title.At, fmt.Sprintf("the title says %d, and quantity says %d: every size, weight and package is taken for that of one of %d", said, n, n),
			fmt.Sprintf("where there are %d in all, write quantity: %d; where there are %d sets of %d, say so in the title: %d sets of %d", said, said, n, said, n, said))
	}
}
