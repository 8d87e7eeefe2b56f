package weight

import (
	"fmt"
	"sort"
	"strings"
	"unicode"

	"slabfolio/listing/wood"
)

// An UnknownError says that no material and no wood bears a name.
type UnknownError struct {
	Name        string
	Suggestions []string // ids with a name like it, the nearest first
}

func (e *UnknownError) Error() string {
	if len(e.Suggestions) == 0 {
		return fmt.Sprintf("no material called %q is in the table", e.Name)
	}
	return fmt.Sprintf("no material called %q is in the table; did you mean %s?", e.Name, orList(e.Suggestions))
}

// Lookup returns the material with the given id, name or everyday name
// ("steel", "aluminum"), however it is spaced, hyphened or capitalised.
func (m *Materials) Lookup(name string) (Material, error) {
	key := plain(name)
	if key != "" {
		for pass := range 2 { // ids and names before other names
			for _, x := range m.all {
				if pass == 0 && (plain(x.ID) == key || plain(x.Name) == key || plain(withoutBrackets(x.Name)) == key) {
					return x, nil
				}
				for _, a := range x.Aliases {
					if pass == 1 && plain(a) == key {
						return x, nil
					}
				}
			}
		}
	}
	return Material{}, &UnknownError{name, m.suggest(key)}
}

func withoutBrackets(name string) string {
	if i := strings.IndexByte(name, '('); i > 0 {
		return name[:i]
	}
	return name
}

// suggest returns up to three ids whose names are near a key.
func (m *Materials) suggest(key string) []string {
	if key == "" || len(key) > 100 {
		return nil
	}
	type near struct{ distance, at int }
	var all []near
	for i, x := range m.all {
		best := 1 + len(key)/4 + 1
		for _, n := range append([]string{x.ID, x.Name}, x.Aliases...) {
			n = plain(n)
			d := wood.Distance(key, n)
			if len(n) > 3 && strings.Contains(" "+key+" ", " "+n+" ") || strings.Contains(" "+n+" ", " "+key+" ") {
				d = min(d, 1)
			}
			best = min(best, d)
		}
		if best <= 1+len(key)/4 {
			all = append(all, near{best, i})
		}
	}
	sort.Slice(all, func(i, j int) bool {
		if all[i].distance != all[j].distance {
			return all[i].distance < all[j].distance
		}
		return all[i].at < all[j].at
	})
	var out []string
	for _, n := range all[:min(3, len(all))] {
		out = append(out, m.all[n.at].ID)
	}
	return out
}

// plain returns a name in small letters with single spaces between its words.
func plain(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	}), " ")
}

func orList(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}
