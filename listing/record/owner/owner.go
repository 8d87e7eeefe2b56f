// Package owner writes the spec that goes with a piece to whoever owns it: the
// maker's own, without what is the maker's alone.
package owner

import (
	"fmt"
	"slices"

	"slabfolio/listing/piece"
)

// Spec returns a spec without private matters. It is written anew from what
// stands in the spec, so remarks (#) go too: nobody can tell what a maker noted
// there. Every other value stays as it was written. Names of photos that the copy
// does not hold go as well. What the workshop gives for lengths without a unit
// and for the currency is written in, since the copy has no workshop.yaml.
func Spec(name string, data []byte, w *piece.Workshop, holds func(photo string) bool) ([]byte, error) {
	spec, err := piece.ParseWritten(name, data)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	redact(spec, "", holds)
	if w != nil {
		adopt(spec, "units", string(w.Units.V))
		if price := spec.Key("price"); price != nil && len(price.Keys) > 0 {
			adopt(price, "currency", w.Currency.V)
		}
	}
	return []byte(spec.Lines("")), nil
}

// redact drops what the maker alone may read, as the key table says, from one
// group and from those below it, and the photos that the copy does not hold. A
// group that has nothing left goes as well.
func redact(w *piece.Written, group string, holds func(string) bool) {
	for _, item := range w.Items {
		redact(item, group, holds)
	}
	w.Items = slices.DeleteFunc(w.Items, func(i *piece.Written) bool { // a blend without all of its frames is none
		frames := i.Key("frames")
		return group == "photos.blends" && frames != nil && slices.ContainsFunc(frames.Items, func(f *piece.Written) bool { return !holds(f.Text) })
	})
	w.Keys = slices.DeleteFunc(w.Keys, func(k piece.WrittenKey) bool {
		path := piece.KeyPath(group, k.Name)
		if piece.ReaderOf(path) == piece.Maker {
			return true
		}
		if piece.NamesPhotos(path) {
			return onlyHeld(k.Value, holds)
		}
		before := len(k.Value.Keys) + len(k.Value.Items)
		redact(k.Value, path, holds)
		return before > 0 && len(k.Value.Keys)+len(k.Value.Items) == 0
	})
}

// onlyHeld drops the photos that the copy does not hold and reports whether
// nothing is left.
func onlyHeld(w *piece.Written, holds func(string) bool) bool {
	if w.Single {
		return !holds(w.Text)
	}
	w.Keys = slices.DeleteFunc(w.Keys, func(k piece.WrittenKey) bool { return !holds(k.Name) })
	w.Items = slices.DeleteFunc(w.Items, func(i *piece.Written) bool { return i.Single && !holds(i.Text) })
	return len(w.Keys)+len(w.Items) == 0
}

// adopt adds a key that the spec leaves to the workshop.
func adopt(w *piece.Written, key, value string) {
	if value != "" && w.Key(key) == nil {
		w.Keys = append(w.Keys, piece.WrittenKey{Name: key, Value: &piece.Written{Single: true, Text: value}})
	}
}
