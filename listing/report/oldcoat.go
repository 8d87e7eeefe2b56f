package report

import (
	"slices"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// oldCoatSaid are words for a coat that was on the wood before the maker had it, in the
// languages of the papers (common practice, no source).
var oldCoatSaid = spelling.Pattern(`(?i)\b(?:old|original|unknown|ancient|earlier|alte[rn]?|unbekannte[rn]?|ancien(?:ne)?|vieille|vieux|antigu[oa]|viej[oa]|oude?|onbekende)\s+(?:\pL+\s+){0,2}(?:paint|varnish|lacquer|finish|coats? of|coating|primer|farbe|anstrich|lack|lasur|peinture|vernis|laque|pintura|barniz|laca|verf|vernis|lak)\b`)

// What says that such a coat is gone, that it is there all the same, and that somebody
// looked for lead in it and found none, in the languages of the papers (from memory).
var (
	coatGone  = spelling.Pattern(`(?i)\b(?:removed|stripped|sanded off|scraped off|taken off|planed off|cleaned off|gone|entfernt|abgeschliffen|abgebeizt|abgenommen|abgehobelt|enlevée?s?|décapée?s?|retirée?s?|poncée?s?|eliminad[oa]s?|quitad[oa]s?|lijad[oa]s?|retirad[oa]s?|verwijderd|afgeschuurd|afgebeten)\b`)
	coatStays = spelling.Pattern(`(?i)\b(?:traces?|remains?|remnants?|left|rests?|still|underside|partly|mostly|spuren|reste|noch|teils|unterseite|traces|restes?|encore|dessous|restos|todavía|resten|nog|onderkant|deels)\b`)
	noLead    = spelling.Pattern(`(?i)\b(?:lead[- ]free|no lead|free of lead|without lead|bleifrei|kein blei|ohne blei|sans plomb|sin plomo|loodvrij|geen lood)\b`)
)

// oldCoats asks about a coat that is older than the maker's: it may hold lead, and
// whoever sands it should know. (US EPA, 40 CFR 745, asks for a test before work on
// paint of before 1978; other countries have rules of their own.) Where the spec says
// that it is still there the buyer is cautioned; where it says that it is gone, or that
// it was tested and holds no lead, there is nothing to say.
func (b *builder) oldCoats() {
	said := []piece.Value[string]{b.p.Found}
	for _, sentence := range sentencesOf(b.p.Story.V) { // a story tells much; what is still there is there
		if coatStays().MatchString(sentence) {
			said = append(said, piece.Value[string]{V: sentence, At: b.p.Story.At})
		}
	}
	if b.p.Finish != nil {
		said = append(said, b.p.Finish.Product)
	}
	tested := slices.ContainsFunc(append(said, b.p.Story), func(v piece.Value[string]) bool { return noLead().MatchString(v.V) })
	for _, v := range said {
		what := oldCoatSaid().FindString(v.V)
		if what == "" || tested || coatGone().MatchString(v.V) && !coatStays().MatchString(v.V) {
			continue
		}
		b.oldCoat = true
		b.find(piece.Doubt, "finish.old-coat", v.At, what+" can hold lead; sheet, card and page caution the buyer, since nothing says that it is gone or was tested",
			"have it tested before anybody works on it, and keep to the rules where you live; where it is gone, or holds no lead, say so in the same line: removed, lead-free")
		return
	}
}
