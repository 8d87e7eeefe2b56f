package report

import (
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// shelfMark is what makers write behind a product so that they find it on their shelf: a
// vessel with its number or letter, as in "hardwax oil, clear, tin 3". In the languages
// of the papers; common practice, no source.
const shelfMark = `(?:tin|can|jar|drum|tub|bottle|bucket|pot|box|shelf|dose|glas|fass|eimer|flasche|kanister|boîte|bidon|bocal|lata|bote|frasco|blik|fles|emmer|vat)\s+(?:no\.?\s*|nr\.?\s*|#)?(?:\d{1,4}|[a-z]\d{0,3})`

var (
	shelfBehind = spelling.Pattern(`(?i)\s*[,;(]\s*` + shelfMark + `\)?\s*$`)
	shelfAlone  = spelling.Pattern(`(?i)^\s*` + shelfMark + `\s*$`)
)

// forBuyer is a product as somebody can buy it: without the maker's own mark of the shelf,
// and nothing where there is no more than that. The record keeps it as it was written.
func forBuyer(product string) string {
	if shelfAlone().MatchString(product) {
		return ""
	}
	return strings.TrimSpace(shelfBehind().ReplaceAllString(product, ""))
}

// shelfMarks tells the maker what of a finish's name the buyer does not read.
func (b *builder) shelfMarks(f *piece.Finish) {
	switch said := f.Product.V; {
	case said == "" || forBuyer(said) == said:
	case forBuyer(said) == "":
		b.find(piece.Note, "finish.shelf-mark", f.Product.At, said+" tells where it stands on your shelf, and nobody can buy it: the buyer does not read it", "write the name on the tin before it, such as product: \"hardwax oil, clear, "+said+"\"")
	default:
		b.find(piece.Note, "finish.shelf-mark", f.Product.At, "the buyer reads "+forBuyer(said)+"; what tells where it stands on your shelf stays in the record", "nothing is to be done; where it belongs to the product's name, leave out the comma before it")
	}
}
