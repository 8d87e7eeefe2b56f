// Package trace answers questions over a collection: which pieces hold this
// glue, this batch, this wood; and what became of one piece. It reads piece
// folders and sealed bags alike and keeps nothing.
package trace

import (
	"cmp"
	"slices"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/wood"
)

// A Fact is one thing that a spec says of what went into a piece.
type Fact struct {
	Field string   // "glue", "materials.batch", "top.wood.species" …
	Value string   // as written
	Also  []string // other names of the same: a species' common and botanical name, a glue's class
	At    piece.Place
	kind  string // of the filters: species, resin, glue, finish, batch, supplier; "" for none
}

// A Record is one piece as one source tells it.
type Record struct {
	Serial   string
	Title    string
	Finished string // YYYY-MM-DD
	Buyer    string
	Where    string // availability: in stock, sold …
	Source   string // the piece folder or the bag
	Bag      bool
	Revision int  // of a bag; 1 for the first
	Owner    bool // an owner's copy, which leaves private matters out
	Faults   int  // of the spec: what could be read was searched
	Facts    []Fact
	At       piece.Place // of the day it was finished
}

// A Hit is one fact that answers the question.
type Hit struct {
	Serial   string `json:"serial"`
	Title    string `json:"title"`
	Field    string `json:"field"`
	Value    string `json:"value"`
	Finished string `json:"finished"`
	Where    string `json:"where,omitempty"` // as the newest source has it
	Buyer    string `json:"buyer,omitempty"` // likewise
	Source   string `json:"source"`
	File     string `json:"file"` // in a piece folder beside its photos, in a bag below data/piece/
	Line     int    `json:"line"`
	InBag    bool   `json:"in_bag"`  // the source is a sealed bag
	Earlier  bool   `json:"earlier"` // only an earlier revision says so
}

// A Query is a question. Words are forgiving: case, accents, the plural, hyphens and
// spaces make no difference, and each must be found somewhere in the piece. Filters are
// exact, but for case and what parts words: the whole of a finish family, a known glue or a batch, and
// whole words of a species, resin, supplier or product. A wood is found by any name that
// a spec may give it.
type Query struct {
	Words                                         []string
	Glue, Species, Finish, Resin, Batch, Supplier string
	From, To                                      string // YYYY, YYYY-MM or YYYY-MM-DD, both included; against the day the piece was finished

	wood  string   // the id of the wood that Species means
	woods []string // those that Words mean, one for each; "" for none
}

// Empty reports whether the query asks for nothing.
func (q Query) Empty() bool {
	return len(q.Words) == 0 && q.Glue == "" && q.Species == "" && q.Finish == "" && q.Resin == "" && q.Batch == "" && q.Supplier == "" && q.From == "" && q.To == ""
}

// Ask returns the hits in the records, by serial. A fact that several sources of
// a piece tell alike is one hit: that of the piece folder, else of the latest
// bag. Where the piece is and who bought it is what its newest source says.
func (q Query) Ask(records []Record) []Hit {
	q.wood = woodMeant(q.Species)
	q.woods = make([]string, len(q.Words))
	for i, word := range q.Words {
		q.woods[i] = woodMeant(word)
	}
	ordered := slices.Clone(records)
	slices.SortStableFunc(ordered, newestFirst)
	hits := []Hit{}
	seen := map[string]bool{}
	newest := 0 // index of the newest record of the piece
	for i, r := range ordered {
		if i == 0 || r.key() != ordered[newest].key() {
			newest = i
		}
		now := ordered[newest]
		for _, f := range q.match(r) {
			key := r.key() + "\x00" + f.Field + "\x00" + f.Value
			if seen[key] {
				continue
			}
			seen[key] = true
			earlier := r.Bag && (!now.Bag || r.Revision < now.Revision)
			hits = append(hits, Hit{now.Serial, now.Title, f.Field, f.Value, now.Finished, now.Where, cmp.Or(now.Buyer, r.Buyer), r.Source, f.At.File, f.At.Line, r.Bag, earlier})
		}
	}
	return hits
}

// newestFirst orders records by serial; of one piece, its folder comes first,
// then its bags, the latest revision first, then owner's copies.
func newestFirst(a, b Record) int {
	return cmp.Or(
		compareNatural(a.key(), b.key()),
		boolOrder(a.Bag, b.Bag),
		boolOrder(a.Owner, b.Owner),
		cmp.Compare(b.Revision, a.Revision),
		strings.Compare(a.Source, b.Source),
	)
}

// key is what holds the sources of one piece together: its serial. A spec without
// one is a piece for itself.
func (r Record) key() string {
	if r.Serial == "" {
		return "\x00" + r.Source
	}
	return strings.ToLower(r.Serial)
}

func boolOrder(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

// match returns the facts of a record that answer the query, each once, in the
// order of the file; none when one part of the query is not answered.
func (q Query) match(r Record) []Fact {
	if !within(r.Finished, q.From, q.To) {
		return nil
	}
	taken := make([]bool, len(r.Facts))
	asked := false
	for _, f := range []struct{ kind, want string }{
		{"species", q.Species}, {"glue", q.Glue}, {"finish", q.Finish}, {"resin", q.Resin}, {"batch", q.Batch}, {"supplier", q.Supplier},
	} {
		if f.want == "" {
			continue
		}
		asked = true
		if !markFitting(r.Facts, taken, func(fact Fact) bool { return fact.kind == f.kind && (fitsFilter(fact, f.want) || ofWood(fact, q.wood)) }) {
			return nil
		}
	}
	asked = asked || len(q.Words) > 0
	if !q.markWords(r.Facts, taken) {
		return nil
	}
	if !asked { // by date alone
		if r.Finished == "" {
			return nil
		}
		return []Fact{{Field: "finished", Value: r.Finished, At: r.At}}
	}
	var found []Fact
	for i, f := range r.Facts {
		if taken[i] {
			found = append(found, f)
		}
	}
	return found
}

// markWords marks the facts that hold one of the words, or all of them as one, and
// reports whether every word is held.
func (q Query) markWords(facts []Fact, taken []bool) bool {
	own := slices.Clone(taken)
	for i, word := range q.Words {
		want := plainWords(word)
		if !markFitting(facts, own, func(fact Fact) bool { return holds(fact, want) || ofWood(fact, q.woods[i]) }) {
			all := plainWords(strings.Join(q.Words, " "))
			return len(q.Words) > 1 && markFitting(facts, taken, func(fact Fact) bool { return holds(fact, all) })
		}
	}
	copy(taken, own)
	return true
}

// markFitting marks the facts that fit and reports whether any does.
func markFitting(facts []Fact, taken []bool, fits func(Fact) bool) bool {
	any := false
	for i, f := range facts {
		if fits(f) {
			taken[i], any = true, true
		}
	}
	return any
}

// within compares days as text: a day lies within "2025-01" if it begins so. A
// piece without a day lies nowhere.
func within(day, from, to string) bool {
	if from != "" && (day == "" || day < from) {
		return false
	}
	return to == "" || day != "" && (day <= to || strings.HasPrefix(day, to))
}

// ofWood reports whether a fact is of the wood that a name is one of, as specs are read:
// by its id, its trade name in a language of the papers, its botanical name.
func ofWood(f Fact, id string) bool {
	return id != "" && f.kind == "species" && slices.Contains(f.Also, id)
}

// woodMeant is the id of the wood that a name means; "" where it means none or several.
func woodMeant(name string) string {
	if strings.TrimSpace(name) == "" {
		return ""
	}
	woods, err := wood.Load()
	if err != nil {
		return ""
	}
	s, err := woods.Lookup(name)
	if err != nil {
		return ""
	}
	return s.ID
}

// fitsFilter compares a fact with the value of a filter. A batch, a finish family
// and a known glue fit whole: pva-d3 is not pva-d, and hardwax-oil is not
// hardwax-oil-2k. Elsewhere whole words do: elm finds wych-elm.
func fitsFilter(f Fact, want string) bool {
	want = strings.TrimSpace(want)
	for _, name := range append([]string{f.Value}, f.Also...) {
		if strings.EqualFold(strings.TrimSpace(name), want) {
			return true
		}
		if f.kind != "batch" && squeezed(split(name)) == squeezed(split(want)) && want != "" {
			return true
		}
		if f.kind != "batch" && !isWord(name) && contains(split(strings.ToLower(name)), split(strings.ToLower(want))) {
			return true
		}
	}
	return false
}

// isWord reports whether a text is one of the spec's own words for a finish or a
// glue, which are taken whole.
func isWord(text string) bool {
	fold := func(w string) bool { return strings.EqualFold(w, text) }
	return slices.ContainsFunc(piece.FinishFamilies, fold) || slices.ContainsFunc(piece.GlueClasses, fold)
}

// holds reports whether the words of want stand in a fact, in their order. The word of
// a part of the piece stands in whatever is said of that part.
func holds(f Fact, want []string) bool {
	for _, name := range append([]string{f.Value, partOf(f.Field)}, f.Also...) {
		if contains(plainWords(name), want) || contains(plainWords(parted(name)), want) {
			return true
		}
	}
	return false
}

// partOf is the word of the part that a field tells of; "" for what is of the whole.
func partOf(field string) string {
	for _, part := range []string{"top.resin", "base", "glue", "finish"} {
		if field == part || strings.HasPrefix(field, part+".") {
			return part[strings.LastIndexByte(part, '.')+1:]
		}
	}
	return ""
}

// contains reports whether want stands in words, one after the other, however they are
// parted: deep river in deepriver, and the other way round.
func contains(words, want []string) bool {
	whole := squeezed(want)
	for i := range words {
		run := ""
		for _, w := range words[i:] {
			if run += strings.ToLower(w); len(run) >= len(whole) {
				break
			}
		}
		if whole != "" && run == whole {
			return true
		}
	}
	return false
}

// squeezed is words written as one, in small letters.
func squeezed(words []string) string { return strings.ToLower(strings.Join(words, "")) }
