package piece

import (
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
)

// oneLevelUp finds the parts of a group that stand one level too far up, where they are
// all that makes it whole: length and width of a top without its outline. They are one
// fault, with the line that was meant in the maker's own figures, and are not looked
// at again.
func (d *decoder) oneLevelUp(n *yamltext.Node, keys []Key, path string) *yamltext.Node {
	var group *Key
	var strays []yamltext.Pair
	for i := range keys {
		k := &keys[i]
		if k.Type != typeGroup || k.Many != one || slices.ContainsFunc(n.Pairs, func(p yamltext.Pair) bool { return p.Key == k.Name }) {
			continue
		}
		if own := strayParts(n, keys, k); len(own) > len(strays) {
			group, strays = k, own
		}
	}
	if group == nil {
		return n
	}
	var names, parts []string
	for _, p := range strays {
		names, parts = append(names, p.Key), append(parts, p.Key+": "+asInBraces(p.Value))
	}
	verb := "stand"
	if len(names) == 1 {
		verb = "stands"
	}
	d.fault("spec.ways", strays[0].At, fmt.Sprintf("%s %s in %s, and %s in its %s", spelling.And(names), verb, name(path), belong(len(names)), group.Name),
		"write "+group.Name+": {"+strings.Join(parts, ", ")+"}")
	d.blanked = append(d.blanked, group.Name)
	rest := *n
	rest.Pairs = slices.DeleteFunc(slices.Clone(n.Pairs), func(p yamltext.Pair) bool { return slices.Contains(names, p.Key) })
	return &rest
}

func belong(n int) string {
	if n == 1 {
		return "belongs"
	}
	return "belong"
}

// strayParts are the keys of a mapping that are known in a group of it and not in the
// mapping itself, where they say one of the ways of that group, and nothing is left of
// them to say; nil otherwise.
func strayParts(n *yamltext.Node, keys []Key, group *Key) []yamltext.Pair {
	var strays []yamltext.Pair
	var names []string
	for _, p := range n.Pairs {
		if find(keys, p.Key) == nil && find(group.Keys, p.Key) != nil && asInBraces(p.Value) != "" && !slices.Contains(names, p.Key) {
			strays, names = append(strays, p), append(names, p.Key)
		}
	}
	within := func(some, all []string) bool {
		return !slices.ContainsFunc(some, func(s string) bool { return !slices.Contains(all, s) })
	}
	ways := group.Ways
	if ways == nil {
		ways = []way{{Need: keyNames(group.Keys)}}
	}
	for _, w := range ways {
		if len(w.Need) > 0 && within(w.Need, names) && within(names, slices.Concat(w.Need, w.May)) {
			return strays
		}
	}
	return nil
}

// asInBraces is a value as it may stand in braces; "" for what is neither one value nor a
// list of such.
func asInBraces(n *yamltext.Node) string {
	switch n.Shape {
	case yamltext.Scalar:
		return yamltext.Quote(n.Text, true, "")
	case yamltext.List:
		var items []string
		for _, item := range n.Items {
			text := asInBraces(item)
			if text == "" {
				return ""
			}
			items = append(items, text)
		}
		return "[" + strings.Join(items, ", ") + "]"
	}
	return ""
}
