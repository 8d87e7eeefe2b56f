package report

import (
	"fmt"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// shelfMark is what makers write behind a product so that they find it on their shelf: a
// vessel with its number or letter, as in "hardwax oil, clear, tin 3". In the languages
// of the papers; common practice, no source.
const shelfMark = `(?:tin|can|jar|drum|tub|bottle|bucket|pot|box|shelf|dose|glas|fass|eimer|flasche|kanister|boîte|bidon|bocal|lata|bote|frasco|blik|fles|emmer|vat)\s+(?:no\.?\s*|nr\.?\s*|#)?(?:\d{1,4}|[a-z]\d{0,3})`

// howFull is what they add to it: how much is left, and since when.
const howFull = `(?:[,;]?\s+(?:a |an )?(?:half|quarter|third|nearly|almost|still|opened|open|full|empty|new|old|last|halb|voll|leer|offen|neu|alt)\b[^,;()]*)?`

// batchMark is the number of a batch, which is the record's; common practice, no source.
const batchMark = `(?:batch|lot|charge|chargen?-?nr\.?|lote|partida|partij)\s*(?:no\.?\s*|nr\.?\s*|#\s*|:\s*)?[a-z]{0,4}[-./]?\d[\w./-]*`

var (
	shelfBehind = spelling.Pattern(`(?i)(?:\s*[,;(]\s*|\s+[-–—]\s+)` + shelfMark + howFull + `\)?\s*$`)
	batchBehind = spelling.Pattern(`(?i)[\s,;(–—-]+` + batchMark + `\)?\s*$`)
	shelfAlone  = spelling.Pattern(`(?i)^\s*(?:` + shelfMark + howFull + `|` + batchMark + `)\s*$`)
	shelfLoose  = spelling.Pattern(`(?i)\s` + shelfMark + howFull + `\s*$`)
)

// forBuyer is a product as somebody can buy it: without the maker's own mark of the shelf,
// and nothing where there is no more than that. The record keeps it as it was written.
func forBuyer(product string) string {
	for range 3 { // tin and batch, in whatever order
		if shelfAlone().MatchString(product) {
			return ""
		}
		product = batchBehind().ReplaceAllString(shelfBehind().ReplaceAllString(product, ""), "")
	}
	return strings.TrimSpace(product)
}

// shelfMarks tells the maker what of a finish's name the buyer does not read.
func (b *builder) shelfMarks(f *piece.Finish) {
	switch said := f.Product.V; {
	case said == "":
	case shelfLoose().MatchString(forBuyer(said)):
		b.find(piece.Doubt, "finish.shelf-mark", f.Product.At, fmt.Sprintf("the buyer reads %q, all of it", forBuyer(said)), "where its end tells where it stands on your shelf, write a comma before that, and it stays in the record")
	case forBuyer(said) == said:
	case forBuyer(said) == "":
		b.find(piece.Note, "finish.shelf-mark", f.Product.At, said+" tells where it stands on your shelf, and nobody can buy it: the buyer does not read it", "write the name on the tin before it, such as product: \"hardwax oil, clear, "+said+"\"")
	default:
		what := "what tells where it stands on your shelf"
		if batchBehind().MatchString(said) {
			what = "its batch"
		}
		b.find(piece.Note, "finish.shelf-mark", f.Product.At, "the buyer reads "+forBuyer(said)+"; "+what+" stays in the record", "nothing is to be done; where it belongs to the product's name, leave out the comma before it")
	}
}
