package weight

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"slabfolio/listing/spelling"
	"slabfolio/templates"
)

// An UnknownError says that no material and no wood bears a name.
type UnknownError struct {
	Name        string
	Suggestions []string // ids with a name like it, the nearest first
}

// Error names what was asked for, with the nearest names.
func (e *UnknownError) Error() string {
	if len(e.Suggestions) == 0 {
		return fmt.Sprintf("no material called %q is in the table", e.Name)
	}
	return fmt.Sprintf("no material called %q is in the table; did you mean %s?", e.Name, spelling.Or(e.Suggestions))
}

// Lookup returns the material with the given id, name or everyday name
// ("steel", "aluminum"), however it is spaced, hyphened or capitalised, or with its
// name in another language of the papers ("Stahl").
func (m *Materials) Lookup(name string) (Material, error) {
	key := spelling.Plain(name)
	if key != "" {
		for pass := range 2 { // ids and names before other names
			for _, x := range m.all {
				if pass == 0 && (spelling.Plain(x.ID) == key || spelling.Plain(x.Name) == key || spelling.Plain(withoutBrackets(x.Name)) == key) {
					return x, nil
				}
				for _, a := range x.Aliases {
					if pass == 1 && spelling.Plain(a) == key {
						return x, nil
					}
				}
			}
		}
	}
	if ids := foreign()[key]; len(ids) > 0 {
		for _, x := range m.all {
			if x.ID == ids[0] && len(ids) == 1 {
				x.ReadFrom = name
				return x, nil
			}
		}
		return Material{}, &UnknownError{name, ids}
	}
	return Material{}, &UnknownError{name, m.suggest(key)}
}

// foreign are the names of materials in the languages of the papers but English, in
// plain letters, with the ids of the materials that they are names of.
var foreign = sync.OnceValue(func() map[string][]string {
	names := map[string][]string{}
	for _, n := range templates.NamesOf("material") {
		if key := spelling.Plain(n.Text); !slices.Contains(names[key], n.ID) {
			names[key] = append(names[key], n.ID)
		}
	}
	return names
})

func withoutBrackets(name string) string {
	if i := strings.IndexByte(name, '('); i > 0 {
		return name[:i]
	}
	return name
}

// suggest returns up to three ids whose names are near a key.
func (m *Materials) suggest(key string) []string {
	called := make([][]string, len(m.all))
	for i, x := range m.all {
		for _, n := range append([]string{x.ID, x.Name}, x.Aliases...) {
			called[i] = append(called[i], spelling.Plain(n))
		}
	}
	var out []string
	for _, at := range spelling.Nearest(key, called, 3) {
		out = append(out, m.all[at].ID)
	}
	return out
}
