package piece

import (
	"cmp"
	"slices"
	"strings"
)

// usuallyNext are the keys that a maker who has answered the questions reaches for
// next: they stand in a short spec behind a #. Those of the base do where a base is
// known.
var usuallyNext = []string{"story", "mark", "weighed", "availability", "packing", "packing.how", "base.height", "base.weight", "finish", "finish.family", "price", "price.amount"}

// Short returns a piece.yaml that holds what is known of a piece, what is needed
// besides behind a #, and the handful of keys that usually come next.
func Short(known *Written, say Say) []byte { return filledIn(known, say, "new.short.head", true) }

// AllKeys returns a piece.yaml that holds what is known of a piece and every other
// key behind a #, each explained.
func AllKeys(known *Written, say Say) []byte {
	return filledIn(known, say, "new.starter.head", false)
}

func filledIn(known *Written, say Say, head string, short bool) []byte {
	kind := "console table"
	if k := known.Find("kind"); k != nil && k.Single {
		if read, _, err := ParseKind(k.Text); err == nil {
			kind = read
		}
	}
	w := starter{kind: kind, examples: starterExamples(kind), known: known, short: short, next: usuallyNext}
	w.remark(say(head, nil), "")
	w.keys(pieceKeys, "", "", false)
	return w.b.Bytes()
}

// FreshAnswers are what stands in for answers where nobody was asked: the examples
// of a kind of piece, which check doubts for as long as they stand.
func FreshAnswers(kind, serial string) *Written {
	if !slices.Contains(Kinds, kind) {
		kind = "console table"
	}
	examples := starterExamples(kind)
	w := &Written{}
	for _, v := range [][2]string{{"serial", SerialFrom(serial)}, {"title", starterTitle}, {"kind", kind}, {"finished", starterDate.String()}} {
		w.Put(v[0], Plain(v[1]))
	}
	for _, path := range []string{"top.outline.length", "top.outline.width", "top.thickness", "top.wood.species"} {
		w.Put(path, Plain(cmp.Or(examples[path], keyAt(path).Example)))
	}
	return w
}

// wanted reports whether a short spec shows a key that nothing is known for.
func (w *starter) wanted(k *Key, path string) bool {
	if path == "top.outline.length" || path == "top.outline.width" {
		return !w.outlined()
	}
	group := path[:max(0, strings.LastIndexByte(path, '.'))]
	needed := k.Required && (group == "" || w.known.Find(group) != nil || strings.HasPrefix(path, "top."))
	return needed || slices.Contains(w.next, path)
}

// outlined reports whether the outline is said in one of its ways.
func (w *starter) outlined() bool {
	o := w.known.Find("top.outline")
	return slices.ContainsFunc(outlineWays, func(way way) bool {
		return o != nil && !slices.ContainsFunc(way.Need, func(key string) bool { return o.Key(key) == nil })
	})
}

// given writes what is known for a key, as it was said.
func (w *starter) given(k *Key, v *Written, indent string) {
	var b strings.Builder
	one := &Written{Keys: []WrittenKey{{k.Name, v}}}
	(&lineWriter{&b, func(*Written) bool { return false }}).keys(one, indent)
	first, rest, _ := strings.Cut(b.String(), "\n")
	w.line(first, w.help(k), false)
	w.b.WriteString(rest)
}

// WorkshopShort returns a workshop.yaml that holds what the maker said of the
// workshop, with the few keys that usually come next behind a #.
func WorkshopShort(known *Written) []byte {
	w := starter{known: known, short: true, next: []string{"workshop.country", "workshop.phone", "workshop.web", "returns", "guarantee"}}
	w.remark("Who you are, for every piece in this folder and below. A line that begins with #\nis not read yet: write your own value into it and take the # and the one space\nbehind it away. slabfolio new --workshop FOLDER explains every line there is.\n", "")
	w.keys(workshopKeys, "", "", false)
	return w.b.Bytes()
}
