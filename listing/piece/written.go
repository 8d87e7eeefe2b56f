package piece

import (
	"context"
	"errors"
	"slices"
	"strings"

	"slabfolio/listing/piece/yamltext"
	"slabfolio/listing/spelling"
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
	switch {
	case n.Nothing():
	case n.Shape == yamltext.Scalar:
		w.Single, w.Text = true, n.Text
		if n.Style == yamltext.Block {
			w.Text = strings.TrimRight(n.Text, "\n")
		}
	case n.Shape == yamltext.List:
		for _, item := range n.Items {
			w.Items = append(w.Items, written(t, item, keys))
		}
	case n.Shape == yamltext.Mapping:
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
	if w == nil {
		return nil
	}
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
		return spelling.OneLine(w.Text)
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

// Find returns what stands at the end of a path of keys, such as "top.thickness"; nil
// when nothing does, or a list stands on the way.
func (w *Written) Find(path string) *Written {
	for name := range strings.SplitSeq(path, ".") {
		if w == nil {
			return nil
		}
		w = w.Key(name)
	}
	return w
}

// Plain returns one value as it is to stand in a spec.
func Plain(text string) *Written { return &Written{Single: true, Text: text} }

// Put sets what stands at the end of a path of keys, and makes the groups on the
// way that are not there. A nil value takes the key away.
func (w *Written) Put(path string, v *Written) {
	name, rest, deeper := strings.Cut(path, ".")
	i := slices.IndexFunc(w.Keys, func(k WrittenKey) bool { return k.Name == name })
	if i < 0 {
		if v == nil {
			return
		}
		i = len(w.Keys)
		w.Keys = append(w.Keys, WrittenKey{name, &Written{}})
	}
	switch {
	case deeper:
		if below := w.Keys[i].Value; below.Single || len(below.Items) > 0 {
			w.Keys[i].Value = &Written{}
		}
		w.Keys[i].Value.Put(rest, v)
		if below := w.Keys[i].Value; v == nil && len(below.Keys) == 0 && !below.Single && len(below.Items) == 0 {
			w.Keys = slices.Delete(w.Keys, i, i+1)
		}
	case v == nil:
		w.Keys = slices.Delete(w.Keys, i, i+1)
	default:
		w.Keys[i].Value = v
	}
}

// Merge puts what another part holds over this one, key by key. Lists and single
// values take the place of what was there.
func (w *Written) Merge(over *Written) {
	for _, k := range over.Keys {
		there := w.Key(k.Name)
		if there != nil && len(there.Keys) > 0 && len(k.Value.Keys) > 0 {
			there.Merge(k.Value)
			continue
		}
		w.Put(k.Name, k.Value)
	}
}

// Copy returns a part that shares nothing with this one.
func (w *Written) Copy() *Written {
	c := *w
	c.Keys, c.Items = nil, nil
	for _, k := range w.Keys {
		c.Keys = append(c.Keys, WrittenKey{k.Name, k.Value.Copy()})
	}
	for _, i := range w.Items {
		c.Items = append(c.Items, i.Copy())
	}
	return &c
}
