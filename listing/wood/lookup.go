package wood

import (
	"fmt"
	"strings"

	"slabfolio/listing/spelling"
)

// An UnknownError says that no wood bears a name.
type UnknownError struct {
	Name        string
	Suggestions []string // ids of woods with a name like it, the nearest first
}

// Error names what was asked for, with the nearest names.
func (e *UnknownError) Error() string {
	if len(e.Suggestions) == 0 {
		return fmt.Sprintf("no wood called %q is in the table", e.Name)
	}
	return fmt.Sprintf("no wood called %q is in the table; did you mean %s?", e.Name, spelling.Or(e.Suggestions))
}

// An AmbiguousError says that several woods bear a name.
type AmbiguousError struct {
	Name  string
	Among []string // ids
}

// Error names the woods that may be meant.
func (e *AmbiguousError) Error() string {
	return fmt.Sprintf("%q may be %s; say which", e.Name, spelling.Or(e.Among))
}

// Lookup returns the wood with the given id, common name, botanical name or
// other name, however it is spaced, hyphened or capitalised. The error is an
// *AmbiguousError where several woods bear the name ("walnut"), else an
// *UnknownError with the nearest names.
func (t *Table) Lookup(name string) (Species, error) {
	key := spelling.Plain(name)
	if i, ok := t.byID[key]; ok {
		return t.species[i], nil
	}
	if at := t.names[key]; len(at) == 1 {
		return t.species[at[0]], nil
	} else if len(at) > 1 {
		return Species{}, &AmbiguousError{name, t.ids(at)}
	}
	if at := t.nouns[key]; len(at) > 0 {
		return Species{}, &AmbiguousError{name, t.ids(at)}
	}
	return Species{}, &UnknownError{name, t.suggest(key)}
}

func (t *Table) ids(at []int) []string {
	out := make([]string, len(at))
	for k, i := range at {
		out[k] = t.species[i].ID
	}
	return out
}

// index fills what Lookup and suggest go by.
func (t *Table) index() {
	t.byID, t.names, t.nouns, t.called = map[string]int{}, map[string][]int{}, map[string][]int{}, make([][]string, len(t.species))
	add := func(m map[string][]int, key string, i int) {
		if key == "" {
			return
		}
		if at := m[key]; len(at) == 0 || at[len(at)-1] != i {
			m[key] = append(at, i)
			t.called[i] = append(t.called[i], key)
		}
	}
	for i, s := range t.species {
		t.byID[spelling.Plain(s.ID)] = i
		for _, n := range append(namesOf(s), s.Aliases...) {
			add(t.names, spelling.Plain(n), i)
		}
		words := strings.Fields(spelling.Plain(s.ID) + " " + spelling.Plain(strings.Split(s.Name, "(")[0]))
		for _, w := range words {
			if !describes[w] {
				add(t.nouns, w, i)
			}
		}
	}
}

// describes holds the words of names that say which of its kind a wood is, so
// that they are no name for it.
var describes = map[string]bool{
	"black": true, "white": true, "red": true, "yellow": true, "hard": true, "soft": true, "silver": true, "green": true,
	"american": true, "european": true, "african": true, "australian": true, "brazilian": true, "indian": true, "oregon": true, "california": true,
	"eastern": true, "western": true, "northern": true, "southern": true, "norway": true, "scots": true, "pacific": true, "london": true, "spanish": true, "oriental": true, "sitka": true, "engelmann": true,
	"old": true, "young": true, "growth": true, "true": true, "common": true, "sweet": true, "wild": true, "slippery": true, "paper": true, "sugar": true, "port": true, "orford": true, "wych": true, "bur": true,
}

// namesOf returns every name that a wood's line itself gives: with the words
// in brackets, without them, and each of them alone.
func namesOf(s Species) []string {
	out := []string{s.ID, s.Name, s.Botanical}
	if open := strings.IndexByte(s.Name, '('); open >= 0 {
		if end := strings.IndexByte(s.Name, ')'); end > open {
			before, inside, after := s.Name[:open], s.Name[open+1:end], s.Name[end+1:]
			out = append(out, before+" "+after)
			for _, a := range strings.Split(inside, ",") {
				out = append(out, a)
				if strings.TrimSpace(after) != "" { // "European (wild) cherry"
					out = append(out, a+" "+after)
				} else { // "Hickory (shagbark)", "Redwood (old-growth)"
					out = append(out, a+" "+before)
				}
			}
		}
	}
	return append(out, botanicalNames(s.Botanical)...)
}

// botanicalNames splits "Quercus robur / Q. petraea" and takes the genus alone
// from "Khaya spp.".
func botanicalNames(b string) []string {
	var out []string
	genus := ""
	for _, n := range strings.Split(b, "/") {
		f := strings.Fields(n)
		if len(f) == 0 {
			continue
		}
		if genus == "" {
			genus = f[0]
		}
		out = append(out, strings.Join(f, " "))
		if strings.HasSuffix(f[0], ".") && strings.HasPrefix(genus, strings.TrimSuffix(f[0], ".")) {
			out = append(out, strings.Join(append([]string{genus}, f[1:]...), " "))
		}
		if len(f) == 2 && strings.HasPrefix(f[1], "spp") {
			out = append(out, f[0])
		}
	}
	return out
}

// suggest returns up to four ids whose names are near a key.
func (t *Table) suggest(key string) []string { return t.ids(spelling.Nearest(key, t.called, 4)) }
