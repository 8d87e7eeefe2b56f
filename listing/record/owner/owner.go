// Package owner writes the spec that goes with a piece to whoever owns it: the
// maker's own, without what is the maker's alone.
package owner

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"slabfolio/listing/piece"
	"slabfolio/listing/piece/yamltext"
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
	var b strings.Builder
	writeKeys(&b, spec, "")
	return []byte(b.String()), nil
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
		path := join(group, k.Name)
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

func join(group, key string) string {
	if group == "" {
		return key
	}
	return group + "." + key
}

// adopt adds a key that the spec leaves to the workshop.
func adopt(w *piece.Written, key, value string) {
	if value != "" && w.Key(key) == nil {
		w.Keys = append(w.Keys, piece.WrittenKey{Name: key, Value: &piece.Written{Single: true, Text: value}})
	}
}

// writeKeys writes keys, one a line.
func writeKeys(b *strings.Builder, w *piece.Written, indent string) {
	for _, k := range w.Keys {
		b.WriteString(indent + quoted(k.Name) + ":")
		writeValue(b, k.Value, indent)
	}
}

// writeValue writes what stands behind a key.
func writeValue(b *strings.Builder, v *piece.Written, indent string) {
	switch {
	case v.Single && strings.Contains(v.Text, "\n") && fitsBlock(v.Text):
		b.WriteString(" |\n")
		for line := range strings.SplitSeq(v.Text, "\n") {
			b.WriteString(strings.TrimRight(indent+"  "+line, " ") + "\n")
		}
	case v.Single:
		b.WriteString(" " + quoted(v.Text) + "\n")
	case len(v.Keys) > 0 && flat(v):
		b.WriteString(" " + flow(v) + "\n")
	case len(v.Keys) > 0:
		b.WriteString("\n")
		writeKeys(b, v, indent+"  ")
	case len(v.Items) > 0 && !slices.ContainsFunc(v.Items, func(i *piece.Written) bool { return len(i.Keys) > 0 }):
		b.WriteString(" " + flow(v) + "\n")
	default:
		b.WriteString("\n")
		for _, item := range v.Items {
			writeItem(b, item, indent+"  ")
		}
	}
}

// writeItem writes an entry of a list of groups.
func writeItem(b *strings.Builder, item *piece.Written, indent string) {
	if item.Single || len(item.Keys) == 0 || flat(item) {
		b.WriteString(indent + "- " + flow(item) + "\n")
		return
	}
	var keys strings.Builder
	writeKeys(&keys, item, indent+"  ")
	b.WriteString(indent + "- " + strings.TrimPrefix(keys.String(), indent+"  "))
}

// flat reports whether keys have room on one line: single values, no long text.
func flat(w *piece.Written) bool {
	n := 0
	for _, k := range w.Keys {
		if !k.Value.Single || strings.Contains(k.Value.Text, "\n") {
			return false
		}
		n += len(k.Name) + len(k.Value.Text) + 4
	}
	return n < 100
}

// flow writes a value in brackets.
func flow(w *piece.Written) string {
	if w.Single {
		return quoted(w.Text)
	}
	var parts []string
	for _, k := range w.Keys {
		parts = append(parts, quoted(k.Name)+": "+flow(k.Value))
	}
	if len(w.Keys) > 0 {
		return "{" + strings.Join(parts, ", ") + "}"
	}
	for _, i := range w.Items {
		parts = append(parts, flow(i))
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

// fitsBlock reports whether a text of several lines survives behind a | as it
// is: no blanks where its indentation or its end is told from.
func fitsBlock(text string) bool {
	for line := range strings.SplitSeq(text, "\n") {
		if strings.TrimRight(line, " \t") != line || strings.ContainsRune(line, '\t') || strings.ContainsFunc(line, unicode.IsControl) {
			return false
		}
	}
	return text[0] != ' ' && text[0] != '\n' && text[len(text)-1] != '\n'
}

// quoted writes a text so that it reads back as it is: bare where that is plain
// to see, else between double quotes.
func quoted(text string) string {
	if plainText(text) {
		return text
	}
	return yamltext.DoubleQuoted(text)
}

// plainText reports whether a text may stand without quotes, also in brackets:
// letters and digits at its ends, and nothing inside that means something in YAML.
func plainText(text string) bool {
	if text == "" || strings.TrimSpace(text) != text || strings.Contains(text, "  ") || strings.HasSuffix(text, ":") {
		return false
	}
	for i, r := range text {
		ok := unicode.IsLetter(r) || unicode.IsDigit(r) || i > 0 && strings.ContainsRune(" -_./()%+'½¼¾⅛⅜⅝⅞", r) || r == '.' || r == '/'
		if !ok {
			return false
		}
	}
	switch strings.ToLower(text) {
	case "on", "off", "yes", "no", "true", "false", "null", "y", "n":
		return false
	}
	return true
}
