package piece

import (
	"strings"

	"slabfolio/listing/piece/yamltext"
)

// What goes wrong inside { }: commas and spaces that are missing.

// swallowed returns the key that a value inside { } has swallowed because there
// is no comma before it.
func swallowed(n *yamltext.Node, keys []Key) string {
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

// tight returns the key of a text such as width:16 in, where the space behind
// the colon was forgotten.
func tight(keys []Key, text string) *Key {
	name, _, ok := strings.Cut(text, ":")
	if !ok {
		return nil
	}
	return find(keys, name)
}

// tightAnywhere reports whether a text begins with a key of the whole table and a
// colon without a space behind it.
func (d *decoder) tightAnywhere(text string) bool {
	name, _, ok := strings.Cut(text, ":")
	return ok && (find(d.root, name) != nil || len(d.elsewhere(name, "")) > 0)
}
