package report

import (
	"maps"
	"slices"

	"slabfolio/listing/piece"
)

// theLog is of what the maker did later, to a finish that is mostly the maker's own.
const theLog = "the log"

// ownLater are the words of a log for a finish that the maker put on; paint, varnish and
// lead are named in another way.
var ownLater = whole(`finish(?:es)?|coats? of|coatings?|finitions?|acabados?`)

// oldCoats asks about a coat that is older than the maker's: it may hold lead, and
// whoever sands it should know. (US EPA, 40 CFR 745, asks for a test before work on
// paint of before 1978; other countries have rules of their own.) Where the spec says
// that it is still there the buyer is cautioned; where it says that it is gone, or that
// it was tested and holds no lead, there is nothing to say. Where a story, a caption or
// the log tells of one and not what became of it, the maker alone is asked.
func (b *builder) oldCoats() {
	kept, asked, askedOf := "", "", ""
	var at piece.Place
	look := func(v piece.Value[string], teller string) {
		told := teller == ""
		var sentences []string
		for _, sentence := range sentencesOf(v.V) {
			sentences = append(sentences, perCoat(sentence)...)
		}
		for i, sentence := range sentences {
			what := oldCoatIn(sentence)
			if what == "" || kept != "" || teller == theLog && ownLater().MatchString(what) {
				continue
			}
			next := ""
			if i+1 < len(sentences) {
				next = sentences[i+1]
			}
			switch fate := fateOfCoat(sentence, next); {
			case fate == coatKept || fate == coatUnsaid && told:
				kept, at = what, v.At
			case fate == coatUnsaid && asked == "":
				asked, askedOf, at = what, teller, v.At
			}
		}
	}
	look(b.p.Found, "") // what was found, and what the product is, is on the piece
	if b.p.Finish != nil {
		look(b.p.Finish.Product, "")
	}
	if b.p.Base != nil {
		look(b.p.Base.Coating, "")
	}
	look(b.p.Title, "the title")
	look(b.p.Story, "the story") // it tells much, and of times gone by
	for _, w := range b.p.Top.Wood {
		look(w.OriginNote, "the note on the wood")
	}
	for _, file := range slices.Sorted(maps.Keys(b.p.Photos.Captions)) {
		look(b.p.Photos.Captions[file], "the caption")
	}
	for _, l := range b.p.Log {
		look(l.Did, theLog)
	}
	const remedy = "have it tested before anybody works on it, and keep to the rules where you live; where it is gone, or holds no lead, say so in the same line: removed, lead-free"
	switch {
	case kept != "":
		b.oldCoat = true
		b.find(piece.Doubt, "finish.old-coat", at, kept+" can hold lead; sheet, card and page caution the buyer, since nothing says that all of it is gone, or that it was tested", remedy)
	case asked != "":
		b.find(piece.Doubt, "finish.old-coat", at, asked+" can hold lead; is any of it still on the piece? "+askedOf+" does not tell, and no paper cautions the buyer",
			"where some of it is left write found: with what and where; "+remedy)
	}
}
