package wood

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/spelling"
)

// An UnknownError says that no wood bears a name.
type UnknownError struct {
	Name  string
	Slips []string // ids of woods whose name it may be, with a slip of the pen
	Parts []string // the woods that it is several of, as they are named
	Kin   []string // ids of other woods of its genus, or with its last word; they are not it
}

// Error names what was asked for and what is near it.
func (e *UnknownError) Error() string {
	says := fmt.Sprintf("no wood called %q is in the table", e.Name)
	switch {
	case len(e.Parts) > 0:
		return fmt.Sprintf("%q is no wood, but %s of them", e.Name, map[bool]string{true: "two", false: "several"}[len(e.Parts) == 2])
	case len(e.Slips) > 0:
		return says + "; did you mean " + spelling.Or(e.Slips) + "?"
	case len(e.Kin) > 0:
		return says + "; nearest to it there: " + spelling.And(e.Kin) + ", which are other woods"
	}
	return says
}

// Suggestions are the names that may have been meant.
func (e *UnknownError) Suggestions() []string { return e.Slips }

// An AmbiguousError says that several woods bear a name.
type AmbiguousError struct {
	Name   string
	Among  []string // ids
	Beyond string   // what it may be besides, which the table does not hold; "" for nothing
}

// Error names the woods that may be meant, the first few of many.
func (e *AmbiguousError) Error() string {
	among := e.first()
	if more := len(e.Among) - len(among); more > 0 {
		among = append(among, fmt.Sprintf("one of %d more", more))
	}
	if e.Beyond != "" {
		among = append(among, e.Beyond)
	}
	return fmt.Sprintf("%q may be %s; say which", e.Name, spelling.Or(among))
}

// first are the woods that are named of those that may be meant: six of many, and all
// where there is one more.
func (e *AmbiguousError) first() []string {
	const most = 6
	if len(e.Among) > most+1 {
		return e.Among[:most:most]
	}
	return e.Among[:len(e.Among):len(e.Among)]
}

// Lookup returns the wood with the given id, common name, botanical name or
// other name, however it is spaced, hyphened or capitalised. Words beside the
// name that only describe the wood (burl, spalted) are kept as its Qualities.
// A trade name of another language of the papers is known too ("Buche").
// The error is an *AmbiguousError where several woods bear the name
// ("walnut"), or where it is another tree's in the workshop's country, else an
// *UnknownError.
func (t *Table) Lookup(name string) (Species, error) {
	s, err := t.lookup(name, slices.Contains(europe, t.home))
	if err == nil {
		err = t.elsewhere(name, s, t.home)
	}
	if err != nil {
		return Species{}, err
	}
	return s, nil
}

// lookup is Lookup; of two trees that bear a name it takes the European one where
// that is meant.
func (t *Table) lookup(name string, european bool) (Species, error) {
	s, err := t.lookupOne(name, european)
	if m := inBrackets().FindStringSubmatch(name); err != nil && m != nil {
		return t.lookupBoth(name, m[1], m[2], european, err)
	}
	if first, last, one := strings.Cut(name, ","); err != nil && one {
		if s, err := t.lookupOne(strings.TrimSpace(last)+" "+strings.TrimSpace(first), european); err == nil {
			return s, nil // as timber lists have it: walnut, American
		}
	}
	return s, err
}

// inBrackets is a name with another one behind it, as the papers print it: Black walnut
// (Juglans nigra).
var inBrackets = spelling.Pattern(`^([^()]+)\(([^()]+)\)$`)

// lookupBoth is lookup for a name with another in brackets: the one wood that both name,
// or may name. err is what becomes of other pairs.
func (t *Table) lookupBoth(name, first, second string, european bool, err error) (Species, error) {
	a, errA := t.lookupOne(first, european)
	b, errB := t.lookupOne(second, european)
	among := func(err error, id string) bool {
		var e *AmbiguousError
		return errors.As(err, &e) && slices.Contains(e.Among, id)
	}
	switch {
	case errA == nil && errB == nil && a.ID == b.ID, errA == nil && among(errB, a.ID):
		return a, nil
	case errB == nil && among(errA, b.ID):
		return b, nil
	case errA == nil && errB == nil:
		return Species{}, &AmbiguousError{Name: name, Among: []string{a.ID, b.ID}}
	case ambiguous(errA) && ambiguous(errB):
		return Species{}, errB
	}
	return Species{}, err
}

// lookupOne is lookup for one name.
func (t *Table) lookupOne(name string, european bool) (Species, error) {
	key := spelling.Plain(name)
	at, sure, rest := t.woodsNamed(key)
	other, known := t.byID[spelling.Plain(t.namesake(key))]
	switch {
	case known && european:
		return t.described(t.species[other], key), nil
	case len(at) == 0:
		return t.lookupForeign(name, key, rest)
	case sure:
		return t.described(t.species[at[0]], key), nil
	}
	return Species{}, &AmbiguousError{Name: name, Among: t.ids(t.homeFirst(at))}
}

// lookupForeign is lookup for a name that no wood has in English.
func (t *Table) lookupForeign(name, key, rest string) (Species, error) {
	if other := otherForeign(key); other != "" {
		key, rest = other, other
	}
	switch at, sure := t.inForeign(key); {
	case sure:
		s := t.species[at[0]]
		s.ReadFrom = name
		return s, nil
	case len(at) > 1:
		return Species{}, &AmbiguousError{Name: name, Among: t.ids(t.homeFirst(at))}
	case len(at) == 1:
		return Species{}, &UnknownError{Name: name, Slips: t.ids(at)}
	}
	if parts := t.severalIn(name); parts != nil {
		return Species{}, &UnknownError{Name: name, Parts: parts}
	}
	return Species{}, &UnknownError{Name: name, Slips: t.misspelt(rest), Kin: t.sameGenus(rest)}
}

// betweenWoods parts woods that are named in one breath.
var betweenWoods = spelling.Pattern(`(?i)\s*(?:[,;+&/]|\b(?:and|with|und|mit|et|avec|con|en|met)\b|\sy\s)\s*`)

// severalIn are the woods that a text names in one breath, two or more of which each may
// be one of the table; nil for any other text.
func (t *Table) severalIn(text string) []string {
	parts := betweenWoods().Split(text, -1)
	if len(parts) < 2 || len(parts) > 4 {
		return nil
	}
	for i, p := range parts {
		parts[i] = strings.TrimSpace(p)
		at, _, _ := t.woodsNamed(spelling.Plain(p))
		foreign, _ := t.inForeign(cmp.Or(otherForeign(spelling.Plain(p)), spelling.Plain(p)))
		if len(at)+len(foreign) == 0 {
			return nil
		}
	}
	return parts
}

// woodsNamed returns the woods that bear a plain name, or bear it without the words
// that only describe; it is sure where that can be one wood alone. rest is the
// name that counted.
func (t *Table) woodsNamed(key string) (at []int, sure bool, rest string) {
	if at, sure = t.named(key); len(at) > 0 {
		return at, sure, key
	}
	rest, words := t.withoutQualities(key)
	if len(words) == 0 || rest == "" {
		return nil, false, key
	}
	at, sure = t.named(rest)
	if more, longer := t.withQuality(key, words); len(more) > 0 {
		return more, true, longer
	}
	return at, sure, rest
}

// withQuality returns the wood whose own name has one of the describing words in
// it: of "claro walnut burl" claro walnut, though claro is such a word.
func (t *Table) withQuality(key string, words []string) (at []int, name string) {
	for _, keep := range words {
		rest := " " + key + " "
		for _, w := range words {
			if w != keep {
				rest = strings.Replace(rest, " "+w+" ", " ", 1)
			}
		}
		rest = strings.TrimSpace(rest)
		if at, sure := t.named(rest); sure {
			return at, rest
		}
	}
	return nil, ""
}

// named returns the woods that bear a plain name: by its id, else by its names,
// else by the noun that they have in common, which never is the name of one.
func (t *Table) named(key string) (at []int, sure bool) {
	if i, ok := t.byID[key]; ok {
		return []int{i}, true
	}
	if at := t.names[key]; len(at) > 0 {
		return at, len(at) == 1
	}
	if at := t.squeezed[strings.ReplaceAll(key, " ", "")]; len(at) == 1 && !t.others[key] {
		return at, true
	}
	return t.nouns[key], false
}

func (t *Table) ids(at []int) []string {
	out := make([]string, len(at))
	for k, i := range at {
		out[k] = t.species[i].ID
	}
	return out
}

// index fills what Lookup goes by.
func (t *Table) index() {
	t.byID, t.names, t.nouns, t.called = map[string]int{}, map[string][]int{}, map[string][]int{}, make([][]string, len(t.species))
	t.words, t.squeezed = map[string]bool{}, map[string][]int{}
	add := func(m map[string][]int, key string, i int) {
		if key == "" {
			return
		}
		if at := m[key]; len(at) == 0 || at[len(at)-1] != i {
			m[key] = append(at, i)
			t.called[i] = append(t.called[i], key)
			for _, w := range strings.Fields(key) {
				t.words[w] = true
			}
		}
	}
	for i, s := range t.species {
		t.byID[spelling.Plain(s.ID)] = i
		for _, n := range append(namesOf(s), s.Aliases...) {
			add(t.names, spelling.Plain(n), i)
			t.squeeze(spelling.Plain(n), i)
		}
		words := strings.Fields(spelling.Plain(s.ID) + " " + spelling.Plain(strings.Split(s.Name, "(")[0]))
		for _, w := range words {
			if !describes[w] {
				add(t.nouns, w, i)
			}
		}
	}
}

// squeeze notes a name as it is without its spaces, however people part it: honey
// locust and honeylocust.
func (t *Table) squeeze(name string, i int) {
	key := strings.ReplaceAll(name, " ", "")
	if at := t.squeezed[key]; key != "" && (len(at) == 0 || at[len(at)-1] != i) {
		t.squeezed[key] = append(at, i)
	}
}

// describes holds the words of names that say which of its kind a wood is, so
// that they are no name for it.
var describes = map[string]bool{
	"black": true, "white": true, "red": true, "yellow": true, "hard": true, "soft": true, "silver": true, "green": true,
	"american": true, "european": true, "african": true, "australian": true, "brazilian": true, "indian": true, "oregon": true, "california": true,
	"eastern": true, "western": true, "northern": true, "southern": true, "norway": true, "scots": true, "pacific": true, "london": true, "spanish": true, "oriental": true, "sitka": true, "engelmann": true,
	"old": true, "young": true, "growth": true, "true": true, "common": true, "sweet": true, "wild": true, "slippery": true, "paper": true, "sugar": true, "port": true, "orford": true, "wych": true, "bur": true, "rock": true, "winged": true, "swamp": true, "live": true, "pin": true, "post": true, "water": true, "overcup": true, "scarlet": true, "blue": true, "pumpkin": true,
	"flowering": true, "atlantic": true, "mountain": true, "virginia": true, "senegal": true, "earleaf": true, "lebanon": true, "of": true, "santa": true, "english": true, "grand": true, "noble": true, "jack": true, "claro": true, "horse": true,
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

// misspelt returns up to three ids of woods whose name differs from a key by slips
// of the pen alone: as many words, each spelled nearly so and no word of any
// wood's name itself. "Red ash" is no slip for red oak: it is another tree.
func (t *Table) misspelt(key string) []string {
	best, found := 4, []int(nil)
	if len(key) > 60 || t.others[key] {
		return nil
	}
	for i, called := range t.called {
		least := best + 1
		for _, name := range called {
			least = min(least, t.slipsBetween(key, name))
		}
		switch {
		case least < best:
			best, found = least, []int{i}
		case least == best && best < 4:
			found = append(found, i)
		}
	}
	return t.ids(found[:min(3, len(found))])
}

// slipsBetween counts the slips that make one name of another, many where it
// is no slip.
func (t *Table) slipsBetween(key, name string) int {
	const many = 99
	if strings.ReplaceAll(key, " ", "") == strings.ReplaceAll(name, " ", "") {
		return 1
	}
	a, b := strings.Fields(key), strings.Fields(name)
	if len(a) != len(b) {
		return many
	}
	sum := 0
	for i := range a {
		if a[i] == b[i] {
			continue
		}
		most := 1
		if len(a[i]) >= 8 {
			most = 2
		}
		if of, same := strings.CutSuffix(a[i], "wood"); same && strings.HasSuffix(b[i], "wood") && len(of) < 8 {
			most = 1 // what they share tells nothing: bloodwood is no slip for rosewood
		}
		d := spelling.Distance(a[i], b[i], most+1)
		if d > most || len(a[i]) < 4 || t.words[a[i]] {
			return many
		}
		sum += d
	}
	return sum
}

// sameGenus returns up to four ids of woods of the genus that a key begins with, or
// with its last word.
func (t *Table) sameGenus(key string) []string {
	f := strings.Fields(key)
	if len(f) == 0 {
		return nil
	}
	var found []int
	for i, s := range t.species {
		if g := strings.Fields(spelling.Plain(s.Botanical)); len(g) > 0 && len(f) > 1 && g[0] == f[0] {
			found = append(found, i)
		}
	}
	if len(found) == 0 {
		found = t.nouns[f[len(f)-1]]
	}
	return t.ids(found[:min(4, len(found))])
}
