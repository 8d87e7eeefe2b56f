package wood

import (
	"strings"

	"slabfolio/listing/spelling"
)

// ListedTextID is the phrase of templates/ that a listed wood calls for: it
// says that trade in the wood is regulated and to check the current list.
const ListedTextID = "caution.cites"

type listing struct {
	genus, species, appendix, scope, source string
	names                                   []string // in the trade
}

// botanical returns the botanical name of a listing.
func (l listing) botanical() string {
	if l.species == "" {
		return l.genus + " spp."
	}
	return l.genus + " " + l.species
}

// A Listing says that a wood's genus or species stands in an appendix of CITES
// as far as the table knows. The list changes: whoever prints it adds "check
// the current list".
type Listing struct {
	Appendix string // I or II
	Scope    string // which populations or species
	Source   string
}

// Listed returns the listing of a wood by its botanical name, if it has one. A
// line for the species beats the line for the genus.
func (t *Table) Listed(botanical string) (Listing, bool) {
	f := strings.Fields(spelling.Plain(botanical))
	if len(f) == 0 {
		return Listing{}, false
	}
	var found *listing
	for i, l := range t.listed {
		if spelling.Plain(l.genus) != f[0] {
			continue
		}
		if l.species == "" && found == nil {
			found = &t.listed[i]
		}
		if l.species != "" && len(f) > 1 && spelling.Plain(l.species) == f[1] {
			found = &t.listed[i]
		}
	}
	if found == nil {
		return Listing{}, false
	}
	return Listing{found.appendix, found.scope, found.source}, true
}

// listedName returns the botanical name of a wood that is not in the table but
// whose name, botanical or of the trade, is that of a listed one; else "".
func (t *Table) listedName(name string) string {
	key := spelling.Plain(name)
	for _, l := range t.listed {
		for _, n := range l.names {
			if key != "" && spelling.Plain(n) == key {
				return l.botanical()
			}
		}
	}
	if _, ok := t.Listed(name); ok {
		return strings.TrimSpace(name)
	}
	return ""
}
