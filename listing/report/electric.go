package report

import (
	"fmt"

	"slabfolio/listing/piece"
)

// electricSaid are words for what has a current in it, in the languages of the papers
// (from memory).
var electricSaid = whole(`leds?|led[- ]\pL+|lamp ?holders?|light ?strips?|lights?trips?|mains|(?:plug|power|wall|light) sockets?|usb\pL*|wireless charg\pL+|transformers?|lampenfassung(?:en)?|netzteile?|steckdosen?|trafos?|lichtband|douilles?|prises? (?:de courant|électriques?)|transformateurs?|ruban led|bombillas?|enchufes?|transformador(?:es)?|tira led|stopcontact(?:en)?|ledstrips?|lampfitting`)

// electric asks about the current in a piece, of which the papers say nothing.
func (b *builder) electric() {
	for _, q := range b.p.Parts {
		if m := electricSaid().FindStringSubmatch(q.Name.V + " " + q.Material.V); m != nil {
			b.find(piece.Doubt, "electric.part", q.At, fmt.Sprintf("%q has a current in it, and no paper here says how it is connected and kept from heat and damp", m[1]),
				"put its own maker's sheet with the piece, and have somebody who may do so connect what is not bought ready with its plug; whoever sells it answers for it as for an electrical thing, by the rules of the country")
			return
		}
	}
}
