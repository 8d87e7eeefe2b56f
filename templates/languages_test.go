package templates

import (
	"regexp"
	"slices"
	"strings"
	"testing"
)

var (
	action = regexp.MustCompile(`\{\{.*?\}\}`)
	field  = regexp.MustCompile(`\.[A-Z][A-Za-z]*`) // what is put in: .To of {{.To}} and {{if .To}}
)

// fieldsOf lists what is put into a phrase, each once, sorted.
func fieldsOf(phrase string) []string {
	var all []string
	for _, a := range action.FindAllString(phrase, -1) {
		all = append(all, field.FindAllString(a, -1)...)
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// ownNames are the groups of names that English takes from the maker or the tables,
// and that other languages have phrases for, and what only a language with cases has.
var ownNames = []string{"name.wood.", "name.material.", "name.word.", "name.quality.", "name.oil.", "name.sheen.", "name.panel.", "general.money.", "name.behind", "name.foreign"}

// forMakers reports whether none but the maker reads a phrase: it is English in every
// language.
func forMakers(id string) bool {
	return slices.ContainsFunc([]string{"overview.", "new.", "archive."}, func(group string) bool { return strings.HasPrefix(id, group) })
}

// Every language has every phrase, with the same things put into it: a caution that
// loses its weight or its day says less than it did.
func TestLanguagesSayTheSame(t *testing.T) {
	en, err := Open("en")
	if err != nil {
		t.Fatal(err)
	}
	for _, lang := range Langs() {
		w, err := Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		if w.base != "en" { // what it has of its own, without the English that stands in for the rest
			w = &Words{parsed: map[string]string{}}
			if err := w.read(lang); err != nil {
				t.Fatal(err)
			}
		}
		for _, id := range en.IDs() {
			switch {
			case strings.HasPrefix(id, "country."): // the others have theirs from CLDR
			case !w.Has(id) && forMakers(id):
			case !w.Has(id):
				t.Errorf("%s: no phrase %s: %q", lang, id, en.parsed[id])
			case !slices.Equal(fieldsOf(w.parsed[id]), fieldsOf(en.parsed[id])):
				t.Errorf("%s: %s takes %v, English takes %v", lang, id, fieldsOf(w.parsed[id]), fieldsOf(en.parsed[id]))
			case (w.parsed[id] == "") != (en.parsed[id] == ""):
				t.Errorf("%s: %s is %q, English has %q", lang, id, w.parsed[id], en.parsed[id])
			}
		}
		for _, id := range w.IDs() {
			if !en.Has(id) && !slices.ContainsFunc(ownNames, func(group string) bool { return strings.HasPrefix(id, group) }) {
				t.Errorf("%s: %s is a phrase that English has not", lang, id)
			}
		}
	}
}
