package wood

import (
	"slices"
	"strings"

	"slabfolio/listing/spelling"
)

// A quality is a word that makers put beside the name of a wood: it tells how
// the wood is, not which wood it is.
type quality struct {
	forms []string // the word and its other forms
	cov   float64  // coefficient of variation of density, %; 0 where it says nothing of it
}

// withoutQualities returns a plain name without the words that only describe,
// and those words.
func (t *Table) withoutQualities(key string) (rest string, found []string) {
	rest = " " + key + " "
	for _, q := range t.qualities {
		for _, form := range q.forms {
			if strings.Contains(rest, " "+form+" ") {
				rest = strings.Replace(rest, " "+form+" ", " ", 1)
				found = append(found, form)
			}
		}
	}
	return strings.TrimSpace(rest), found
}

// described returns s with the words that a maker's name for it adds, and with
// the wider doubt of its density that some of them bring.
func (t *Table) described(s Species, key string) Species {
	own := spelling.Plain(s.ID + " " + s.Name + " " + s.Botanical)
	_, words := t.withoutQualities(key)
	for _, w := range words {
		if strings.Contains(" "+own+" ", " "+w+" ") {
			continue
		}
		s.Qualities = append(slices.Clip(s.Qualities), w)
		for _, q := range t.qualities {
			if slices.Contains(q.forms, w) {
				s.DensityCov = max(s.DensityCov, q.cov)
			}
		}
	}
	return s
}
