package trace

import (
	"path"
	"slices"
	"strings"

	"slabfolio/listing/piece"
)

// What a Change may be.
const (
	Added   = "added"
	Removed = "removed"
	Altered = "changed"
)

// A Change is one difference between two revisions.
type Change struct {
	Kind   string `json:"kind"`
	Of     string `json:"of"`               // "spec" or "file"
	What   string `json:"what"`             // "finish.product", "parts: drawer", "process/clamp.jpg"
	Before string `json:"before,omitempty"` // as it was written
	After  string `json:"after,omitempty"`
}

// compareSpecs lists what is written differently. Lists are compared by what
// their entries are, not by their place: a drawer that was added before another
// part is one part more, and nothing else. The log stands for itself.
func compareSpecs(a, b *piece.Written) []Change {
	if a == nil || b == nil {
		return nil
	}
	var out []Change
	compareKeys(&out, "", a, b)
	return slices.DeleteFunc(out, func(c Change) bool {
		return c.What == "log" || strings.HasPrefix(c.What, "log:") || strings.HasPrefix(c.What, "log.")
	})
}

func compareKeys(out *[]Change, at string, a, b *piece.Written) {
	for _, k := range a.Keys {
		v := b.Key(k.Name)
		compare(out, piece.KeyPath(at, k.Name), k.Value, v)
	}
	for _, k := range b.Keys {
		if a.Key(k.Name) == nil {
			compare(out, piece.KeyPath(at, k.Name), nil, k.Value)
		}
	}
}

func compare(out *[]Change, at string, a, b *piece.Written) {
	switch {
	case nothing(a) && nothing(b):
	case nothing(a):
		added(out, Added, at, b)
	case nothing(b):
		added(out, Removed, at, a)
	case a.Single && b.Single:
		if a.Text != b.Text {
			*out = append(*out, Change{Altered, "spec", at, a.Text, b.Text})
		}
	case len(a.Keys) > 0 && len(b.Keys) > 0:
		compareKeys(out, at, a, b)
	case len(a.Items) > 0 || len(b.Items) > 0:
		compareLists(out, at, entries(a), entries(b))
	case a.String() != b.String():
		*out = append(*out, Change{Altered, "spec", at, a.String(), b.String()})
	}
}

// added tells of a value that only one of the two has; a list, entry by entry.
func added(out *[]Change, kind, at string, w *piece.Written) {
	if len(w.Items) > 0 {
		for _, item := range w.Items {
			one(out, kind, at, item)
		}
		return
	}
	c := Change{Kind: kind, Of: "spec", What: at}
	if kind == Added {
		c.After = w.String()
	} else {
		c.Before = w.String()
	}
	*out = append(*out, c)
}

// one tells of an entry of a list, by its name where it has one.
func one(out *[]Change, kind, at string, item *piece.Written) {
	c := Change{Kind: kind, Of: "spec", What: at}
	if name := entryName(item); name != "" && !item.Single {
		c.What += ": " + name
	}
	if kind == Added {
		c.After = item.String()
	} else {
		c.Before = item.String()
	}
	*out = append(*out, c)
}

// compareLists takes away what both have, pairs what goes by the same name, and
// tells of the rest. A list of bare numbers, such as widths, is one value.
func compareLists(out *[]Change, at string, a, b []*piece.Written) {
	if whole(at, a) && whole(at, b) {
		if x, y := listText(a), listText(b); x != y {
			*out = append(*out, Change{Altered, "spec", at, x, y})
		}
		return
	}
	left := slices.Clone(b)
	var gone []*piece.Written
	for _, x := range a {
		if i := slices.IndexFunc(left, func(y *piece.Written) bool { return x.String() == y.String() }); i >= 0 {
			left = slices.Delete(left, i, i+1)
		} else {
			gone = append(gone, x)
		}
	}
	for _, x := range gone {
		name := entryName(x)
		i := slices.IndexFunc(left, func(y *piece.Written) bool { return !x.Single && name != "" && entryName(y) == name })
		if i < 0 {
			one(out, Removed, at, x)
			continue
		}
		compare(out, at+": "+name, x, left[i])
		left = slices.Delete(left, i, i+1)
	}
	for _, y := range left {
		one(out, Added, at, y)
	}
}

// named are the lists of single values that are things, each for itself; the
// values of the others, such as widths, mean something only together.
var named = []string{"glue", "ships_to", "leave_out", "frames", "materials"}

// whole reports whether a list is told of as one value.
func whole(at string, items []*piece.Written) bool {
	for _, i := range items {
		if len(i.Keys) > 0 {
			return false
		}
	}
	return !slices.Contains(named, at[strings.LastIndexAny(at, ". ")+1:])
}

func listText(items []*piece.Written) string { return (&piece.Written{Items: items}).String() }

// entryName is what an entry of a list goes by.
func entryName(w *piece.Written) string {
	if w.Single {
		return w.Text
	}
	for _, keys := range [][]string{{"name"}, {"species"}, {"use", "product"}, {"product"}, {"use"}, {"for"}, {"material"}, {"section"}, {"plate"}, {"bar"}, {"colour"}} {
		var parts []string
		for _, k := range keys {
			if v := w.Key(k); v != nil && v.Single && v.Text != "" {
				parts = append(parts, v.Text)
			}
		}
		if len(parts) == len(keys) {
			return strings.Join(parts, ", ")
		}
	}
	return ""
}

func entries(w *piece.Written) []*piece.Written {
	if len(w.Items) > 0 {
		return w.Items
	}
	return []*piece.Written{w} // one value stands for a list of one
}

func nothing(w *piece.Written) bool {
	return w == nil || !w.Single && len(w.Keys) == 0 && len(w.Items) == 0
}

// compareFiles lists the maker's own files that came, went or changed. The spec
// is told of key by key; what was made from the files is no change of the piece.
func compareFiles(a, b map[string]string) []Change {
	var out []Change
	own := func(name string) (string, bool) {
		if name == piece.WorkshopName {
			return name, true
		}
		rel, ok := strings.CutPrefix(name, "piece/")
		return rel, ok && !piece.IsSpec(path.Clean(rel))
	}
	for name, sum := range a {
		rel, ok := own(name)
		switch now, there := b[name]; {
		case !ok:
		case !there:
			out = append(out, Change{Kind: Removed, Of: "file", What: rel})
		case now != sum:
			out = append(out, Change{Kind: Altered, Of: "file", What: rel})
		}
	}
	for name := range b {
		if rel, ok := own(name); ok && a[name] == "" {
			out = append(out, Change{Kind: Added, Of: "file", What: rel})
		}
	}
	slices.SortFunc(out, func(x, y Change) int { return strings.Compare(x.What, y.What) })
	return out
}
