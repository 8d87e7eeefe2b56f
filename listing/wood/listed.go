package wood

import (
	"slices"
	"strings"

	"slabfolio/listing/spelling"
)

// listing is one line of listed.csv. One without an appendix says that the
// woods of its names are not listed, though their names sound like it.
type listing struct {
	genus, species, appendix, scope, annotation, source string
	finished                                            bool // finished pieces are covered, not timber alone
	exemptKg                                            float64
	names                                               []string // in the trade
}

// ListedSince says for the maker what the list does not hold yet. The twentieth
// meeting of the parties closed on 5 December 2025, and by article XV of the
// convention its changes are in force 90 days later.
const ListedSince = "the meeting of December 2025 changed it again, in force since March 2026, and of that we know little"

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
	Botanical  string
	Appendix   string  // I or II
	Scope      string  // which populations or species; may be empty
	Annotation string  // which parts are covered: "#15"; empty for all of them
	Finished   bool    // finished pieces are covered, not timber alone
	ExemptKg   float64 // a shipment of finished pieces with no more of the wood is exempt; 0 where nothing is
	Source     string
	Maybe      bool // the name is that of several woods, and this is one of them
}

// listedAs returns the listing of a wood by its botanical name, if it has one. A
// line for the species beats the line for the genus.
func (t *Table) listedAs(botanical string) (Listing, bool) {
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
	if found == nil || found.appendix == "" {
		return Listing{}, false
	}
	return found.as(botanical), true
}

func (l listing) as(botanical string) Listing {
	return Listing{Botanical: botanical, Appendix: l.appendix, Scope: l.scope, Annotation: l.annotation, Finished: l.finished, ExemptKg: l.exemptKg, Source: l.source}
}

// Protected returns the listings of the woods that a text names, whether it is
// the name of a wood or has such a name in it ("drawer pulls of cocobolo"), with
// a known density or without. Where a name is that of several woods ("mahogany"),
// each that is listed is returned, marked as a maybe.
func (t *Table) Protected(text string) []Listing {
	key := spelling.Plain(text)
	if l, known := t.protectedName(key); known {
		return l
	}
	words := strings.Fields(key)
	var found []Listing
	for i := 0; i < len(words) && len(words) < 200; i++ {
		for n := min(5, len(words)-i); n > 0; n-- {
			l, known := t.protectedName(strings.Join(words[i:i+n], " "))
			if !known {
				continue
			}
			i += n - 1
			if i+1 < len(words) && slices.Contains(notTheWood, words[i+1]) {
				break // "mahogany stain"
			}
			for _, x := range l {
				if !slices.ContainsFunc(found, func(y Listing) bool { return y.Botanical == x.Botanical }) {
					found = append(found, x)
				}
			}
			break
		}
	}
	return found
}

// notTheWood are the words that make of a wood's name the name of a colour.
// Common practice, no source.
var notTheWood = []string{"stain", "dye", "oil", "wax", "colour", "color", "coloured", "colored", "tone", "tinted", "effect", "look", "finish", "varnish", "bark", "leaf", "leaves"}

// protectedName returns the listings of the wood that bears a plain name; known
// tells whether any wood does, listed or not.
func (t *Table) protectedName(key string) (found []Listing, known bool) {
	if key == "" {
		return nil, false
	}
	if at, sure, _ := t.woodsNamed(key); len(at) > 0 {
		for _, i := range at {
			if l, ok := t.listedAs(t.species[i].Botanical); ok {
				l.Maybe = !sure
				found = append(found, l)
			}
		}
		if len(found) == 0 {
			found = t.sharedName(key)
		}
		return found, true
	}
	for _, l := range t.listed {
		for _, n := range l.names {
			if spelling.Plain(n) == key {
				if l.appendix == "" {
					return nil, true
				}
				return []Listing{l.as(l.botanical())}, true
			}
		}
	}
	if l, ok := t.listedAs(key); ok && strings.Contains(key, " ") {
		l.Botanical = strings.ToUpper(key[:1]) + key[1:]
		return []Listing{l}, true
	}
	return nil, false
}

// sharedName returns the listed wood that the trade calls by the name of another,
// which is not listed: tulipwood is yellow-poplar, and a Dalbergia of Brazil.
func (t *Table) sharedName(key string) []Listing {
	for _, l := range t.listed {
		if l.appendix != "" && slices.ContainsFunc(l.names, func(n string) bool { return spelling.Plain(n) == key }) {
			also := l.as(l.botanical())
			also.Maybe = true
			return []Listing{also}
		}
	}
	return nil
}

// listedName returns the botanical name of a wood that is not in the table but
// whose name, botanical or of the trade, is that of a listed one; else "".
func (t *Table) listedName(name string) string {
	key := spelling.Plain(name)
	for _, l := range t.listed {
		if l.appendix != "" && slices.ContainsFunc(l.names, func(n string) bool { return spelling.Plain(n) == key }) {
			return l.botanical()
		}
	}
	if l, _ := t.protectedName(key); len(l) > 0 {
		return l[0].Botanical
	}
	return ""
}
