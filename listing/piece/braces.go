package piece

import (
	"strings"

	"slabfolio/listing/piece/yamltext"
)

// What goes wrong inside { }: commas and spaces that are missing.

// swallowedKey returns the key that a value inside { } has swallowed because there
// is no comma before it.
func swallowedKey(n *yamltext.Node, keys []Key) string {
	if n.Shape != yamltext.Scalar || n.Style != yamltext.Bare || !strings.Contains(n.Text, ": ") {
		return ""
	}
	words := strings.Fields(n.Text)
	for _, w := range words[min(1, len(words)):] {
		if name, ok := strings.CutSuffix(w, ":"); ok && find(keys, name) != nil {
			return name
		}
	}
	return ""
}

// unspacedKey returns the key of a text such as width:16 in, where the space behind
// the colon was forgotten.
func unspacedKey(keys []Key, text string) *Key {
	name, _, ok := strings.Cut(text, ":")
	if !ok {
		return nil
	}
	return find(keys, name)
}

// keyWithoutSpace reports whether a text begins with a key of the whole table and a
// colon without a space behind it.
func (d *decoder) keyWithoutSpace(text string) bool {
	name, _, ok := strings.Cut(text, ":")
	return ok && (find(d.root, name) != nil || len(d.elsewhere(name, "")) > 0)
}

// keyWithoutColon returns the key that a text inside { } begins with where only its colon
// is missing, as in width 20 in; nil when the text is rather a part of the value
// before it: what follows is no figure, or the key is there already.
func (d *decoder) keyWithoutColon(have map[string]bool, keys []Key, text string) *Key {
	name, rest, ok := strings.Cut(text, " ")
	k := find(keys, name)
	if !ok || k == nil || strings.Trim(rest[:1], "0123456789.½¼¾") != "" || have[name] {
		return nil
	}
	switch k.Type {
	case typeLength, typeMass, typeVolume, typeAmount, typeDensity, typePercent, typeTemp, typeDays, typeWhole, typeNumber, typeDate, typeSizes:
		return k
	}
	return nil
}
