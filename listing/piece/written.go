package piece

import (
	"context"
	"errors"
	"strings"

	"slabfolio/listing/piece/yamltext"
)

// ErrNotReadable means that a spec has faults of syntax, so that its parts cannot
// be told.
var ErrNotReadable = errors.New("the spec cannot be read as keys and values")

// A Written is a part of a spec as it is written: one value, keys with values, or a list.
type Written struct {
	Text   string       // of one value: as written, without its quotes; of a block, without the line ends after it
	Single bool         // one value
	Keys   []WrittenKey // in the order of the file
	Items  []*Written
	At     Place
}

// A WrittenKey is a key of a spec with what stands behind it.
type WrittenKey struct {
	Name  string
	Value *Written // nothing in it when nothing stands behind the key
}

// ParseWritten reads a piece.yaml into its parts, for those who compare or copy
// specs and have no use for what the values mean. It returns an error that
// matches ErrNotReadable for a file with faults of syntax.
func ParseWritten(file string, data []byte) (*Written, error) {
	text, err := yamltext.Read(context.Background(), file, data)
	if err != nil || text.Root == nil || text.Root.Shape != yamltext.Mapping || len(text.Slips) > 0 {
		return nil, ErrNotReadable
	}
	return written(text, text.Root, pieceKeys), nil
}

// written copies a node; keys are those that may stand in it, nil when any may.
func written(t *yamltext.Text, n *yamltext.Node, keys []Key) *Written {
	w := &Written{At: n.At}
	switch n.Shape {
	case yamltext.Scalar:
		w.Single, w.Text = true, n.Text
		if n.Style == yamltext.Block {
			w.Text = strings.TrimRight(n.Text, "\n")
		}
	case yamltext.List:
		for _, item := range n.Items {
			w.Items = append(w.Items, written(t, item, keys))
		}
	case yamltext.Mapping:
		known := func(name string) bool { return find(keys, name) != nil }
		for _, p := range t.Rejoin(n.Pairs, known) {
			var below []Key
			if k := find(keys, p.Key); k != nil {
				below = k.Keys
			}
			w.Keys = append(w.Keys, WrittenKey{p.Key, written(t, p.Value, below)})
		}
	}
	return w
}

// Key returns what stands behind a key; nil when the key is not there.
func (w *Written) Key(name string) *Written {
	for _, k := range w.Keys {
		if k.Name == name {
			return k.Value
		}
	}
	return nil
}

// String returns the part on one line, for reading, such as "name: drawer,
// count: 1".
func (w *Written) String() string {
	switch {
	case w == nil:
		return ""
	case w.Single:
		return strings.Join(strings.Fields(w.Text), " ")
	}
	var parts []string
	for _, k := range w.Keys {
		text := k.Value.String()
		if len(k.Value.Keys) > 0 {
			text = "{" + text + "}"
		}
		parts = append(parts, k.Name+": "+text)
	}
	for _, i := range w.Items {
		text := i.String()
		if len(i.Keys) > 0 {
			text = "{" + text + "}"
		}
		parts = append(parts, text)
	}
	text := strings.Join(parts, ", ")
	if len(w.Items) > 0 {
		return "[" + text + "]"
	}
	return text
}
