package report

import (
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// oldCoatSaid are words for a coat that was on the wood before the maker had it, in the
// languages of the papers (common practice, no source).
var oldCoatSaid = spelling.Pattern(`(?i)\b(?:old|original|unknown|ancient|earlier|alte[rn]?|unbekannte[rn]?|ancien(?:ne)?|vieille|vieux|antigu[oa]|viej[oa]|oude?|onbekende)\s+(?:\pL+\s+){0,2}(?:paint|varnish|lacquer|finish|coat|primer|farbe|anstrich|lack|lasur|peinture|vernis|laque|pintura|barniz|laca|verf|vernis|lak)\b`)

// oldCoats asks about a coat that is older than the maker's: it may hold lead, and
// whoever sands it should know. (US EPA, 40 CFR 745, asks for a test before work on
// paint of before 1978; other countries have rules of their own.)
func (b *builder) oldCoats() {
	said := []piece.Value[string]{b.p.Found}
	if b.p.Finish != nil {
		said = append(said, b.p.Finish.Product)
	}
	for _, v := range said {
		if what := oldCoatSaid().FindString(v.V); what != "" {
			b.find(piece.Doubt, "finish.old-coat", v.At, what+" can hold lead, and no paper says so: whoever sands, scrapes or heats it would breathe the dust",
				"have it tested before anybody works on it, keep to the rules where you live, and tell the buyer in story what is on the wood and what was found; where it is gone, say that")
			return
		}
	}
}
