// Package trace answers questions over a collection: which pieces hold this
// glue, this batch, this wood. It reads piece folders and sealed bags alike and
// keeps nothing.
package trace

import (
	"cmp"
	"slices"
	"strings"

	"slabfolio/listing/piece"
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
	Faults   int // of the spec: what could be read was searched
	Facts    []Fact
}

// A Hit is one fact that answers the question.
type Hit struct {
	Serial   string `json:"serial"`
	Title    string `json:"title"`
	Field    string `json:"field"`
	Value    string `json:"value"`
	Finished string `json:"finished"`
	Where    string `json:"where,omitempty"`
	Buyer    string `json:"buyer,omitempty"`
	Source   string `json:"source"`
	File     string `json:"file"`
	Line     int    `json:"line"`
}

// A Query is a question. Words are forgiving: case, accents and the plural make
// no difference, and each must be found somewhere in the piece. Filters are
// exact, but for case: whole words of a species, glue, resin, finish or
// supplier, and the whole of a batch.
type Query struct {
	Words                                         []string
	Glue, Species, Finish, Resin, Batch, Supplier string
	From, To                                      string // YYYY, YYYY-MM or YYYY-MM-DD, both included; against the day the piece was finished
}

// Empty reports whether the query asks for nothing.
func (q Query) Empty() bool {
	return len(q.Words) == 0 && q.Glue == "" && q.Species == "" && q.Finish == "" && q.Resin == "" && q.Batch == "" && q.Supplier == "" && q.From == "" && q.To == ""
}

// Ask returns the hits in the records, by serial. A fact that several sources of
// a piece tell alike is one hit: that of the piece folder, else of the latest
// bag.
func (q Query) Ask(records []Record) []Hit {
	ordered := slices.Clone(records)
	slices.SortStableFunc(ordered, func(a, b Record) int {
		return cmp.Or(strings.Compare(strings.ToLower(a.Serial), strings.ToLower(b.Serial)), boolOrder(a.Bag, b.Bag), -compareNatural(a.Source, b.Source))
	})
	hits := []Hit{}
	seen := map[string]bool{}
	for _, r := range ordered {
		for _, f := range q.match(r) {
			key := strings.ToLower(r.Serial) + "\x00" + f.Field + "\x00" + f.Value
			if seen[key] {
				continue
			}
			seen[key] = true
			hits = append(hits, Hit{r.Serial, r.Title, f.Field, f.Value, r.Finished, r.Where, r.Buyer, r.Source, f.At.File, f.At.Line})
		}
	}
	return hits
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

// match returns the facts of a record that answer the query; none when one part
// of the query is not answered.
func (q Query) match(r Record) []Fact {
	if !within(r.Finished, q.From, q.To) {
		return nil
	}
	var found []Fact
	for _, f := range []struct{ kind, want string }{
		{"species", q.Species}, {"glue", q.Glue}, {"finish", q.Finish}, {"resin", q.Resin}, {"batch", q.Batch}, {"supplier", q.Supplier},
	} {
		if f.want == "" {
			continue
		}
		hits := filter(r.Facts, f.kind, f.want)
		if len(hits) == 0 {
			return nil
		}
		found = append(found, hits...)
	}
	for _, word := range q.Words {
		hits := search(r.Facts, word)
		if len(hits) == 0 {
			return nil
		}
		found = append(found, hits...)
	}
	if len(found) == 0 && len(r.Facts) > 0 { // asked by date alone
		found = append(found, Fact{Field: "finished", Value: r.Finished, At: r.Facts[0].At})
	}
	return found
}

// within compares days as text: a day lies within "2025-01" if it begins so or
// comes after. A piece without a day lies nowhere.
func within(day, from, to string) bool {
	if from != "" && (day == "" || day < from) {
		return false
	}
	return to == "" || day != "" && (day <= to || strings.HasPrefix(day, to))
}

func filter(facts []Fact, kind, want string) []Fact {
	var out []Fact
	for _, f := range facts {
		if f.kind != kind {
			continue
		}
		for _, name := range append([]string{f.Value}, f.Also...) {
			if strings.EqualFold(strings.TrimSpace(name), strings.TrimSpace(want)) || kind != "batch" && holdsWords(name, want) {
				out = append(out, f)
				break
			}
		}
	}
	return out
}

func search(facts []Fact, word string) []Fact {
	want := forgive(word)
	if len(want) == 0 {
		return nil
	}
	var out []Fact
	for _, f := range facts {
		for _, text := range append([]string{f.Value}, f.Also...) {
			if contains(forgive(text), want) {
				out = append(out, f)
				break
			}
		}
	}
	return out
}

// holdsWords reports whether want stands in text as whole words, but for case.
func holdsWords(text, want string) bool {
	return contains(split(strings.ToLower(text)), split(strings.ToLower(want)))
}

// contains reports whether want stands in words, one after the other.
func contains(words, want []string) bool {
	if len(want) == 0 {
		return false
	}
	for i := 0; i+len(want) <= len(words); i++ {
		if slices.Equal(words[i:i+len(want)], want) {
			return true
		}
	}
	return false
}
