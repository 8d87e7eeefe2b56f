package piece

import (
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/spelling"
)

// coatWords are what makers write in a log when a piece got a new coat, in the languages
// of the papers (from memory).
var coatWords = []string{
	"coat", "coated", "recoated", "oiled", "reoiled", "waxed", "rewaxed", "varnished", "revarnished", "lacquered", "relacquered", "refinished", "shellacked", "soaped",
	"geölt", "nachgeölt", "gewachst", "lackiert", "geseift", "huilé", "huilée", "ciré", "cirée", "verni", "vernie", "aceitado", "aceitada", "encerado", "encerada", "barnizado", "barnizada", "geolied", "gelakt",
}

// partWords say that a line of a log is of a part or a spot, and not of the whole surface.
var partWords = []string{"drawer", "drawers", "runner", "runners", "slide", "slides", "spot", "base", "frame", "frames", "legs", "feet", "underside", "powder", "steel"}

// recoated reports whether a line of the log says that the piece got a new coat.
func (l *LogEntry) recoated() bool {
	words := strings.Fields(spelling.Plain(strings.ReplaceAll(strings.ToLower(l.Did.V), "re-", "re")))
	is := func(list []string) bool {
		return slices.ContainsFunc(words, func(w string) bool {
			return slices.ContainsFunc(list, func(known string) bool { return spelling.Plain(known) == w })
		})
	}
	return is(coatWords) && !is(partWords)
}

// NewestCoat is the latest line of the log that tells of a new coat after the piece
// was finished; nil where there is none.
func (p *Piece) NewestCoat() (newest *LogEntry) {
	for i := range p.Log {
		l := &p.Log[i]
		if l.Date.Set() && p.Finished.V.Before(l.Date.V) && l.recoated() && (newest == nil || newest.Date.V.Before(l.Date.V)) {
			newest = l
		}
	}
	return newest
}

// checkCoats holds the day of the last coat against what the log tells of: care card
// and sheet count the curing from it. A coat in the log after a last_coat is no slip of
// the spec: the maker told both, and a log goes on after the piece has left. What it
// makes of the dates on paper is the report's to say.
func checkCoats(d *decoder, p *Piece) {
	if p.Finish == nil || p.Finish.Family.V == "bare" || !p.Finished.Set() {
		return
	}
	c := p.Finish.LastCoat
	if newest := p.NewestCoat(); newest != nil && !c.Set() {
		d.doubt("finish.newer-coat", newest.Date.At, fmt.Sprintf("the log tells of a new coat on %s, and curing is counted from finished, %s, since no last_coat is given", newest.Date.V, p.Finished.V),
			fmt.Sprintf("write last_coat: %s in finish if it was one of the whole piece, else the day of its last one", newest.Date.V))
	}
	if !c.Set() || !p.Finished.V.Before(c.V) {
		return
	}
	if !slices.ContainsFunc(p.Log, func(l LogEntry) bool { return l.Date.Set() && !l.Date.V.Before(c.V) }) {
		d.doubt("spec.date", c.At, fmt.Sprintf("finish.last_coat is %s, after finished, %s", c.V, p.Finished.V),
			fmt.Sprintf("correct one of the two; or, where it got a new coat later, say so: log: [{date: %s, did: oiled again}]", c.V))
	}
}
