package piece

import (
	"bytes"
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode/utf8"
)

// starterTitle stands in a fresh piece.yaml until the maker gives the piece its
// name; the parser faults a piece that is still called so.
const starterTitle = "Name of the piece"

// starterDate stands in a fresh piece.yaml until the maker writes the day: no
// piece of this tool's was finished before it existed.
var starterDate = Date{2000, 1, 1}

// Say returns a phrase of a language with data put in, as Words.Say of package
// templates does. This package knows the words of the spec and no language.
type Say func(id string, data map[string]any) string

// byKind are the examples that differ from the key table's for a kind of piece.
var byKind = map[string]map[string]string{
	"desk":          {"top.outline.length": "60 in", "top.outline.width": "30 in", "base.footprint": "{length: 48 in, width: 26 in}", "base.height": "28 1/4 in"},
	"dining table":  {"top.outline.length": "84 in", "top.outline.width": "38 in", "base.footprint": "{length: 64 in, width: 30 in}", "base.height": "28 1/4 in", "top.overhang": "10 in"},
	"coffee table":  {"top.outline.length": "44 in", "top.outline.width": "24 in", "base.footprint": "{length: 34 in, width: 20 in}", "base.height": "15 1/2 in"},
	"console table": {},
	"side table":    {"top.outline.length": "20 in", "top.outline.width": "18 in", "base.footprint": "{length: 16 in, width: 15 in}", "base.height": "20 1/2 in", "top.overhang": "2 in"},
	"bench":         {"top.outline.length": "56 in", "top.outline.width": "13 1/2 in", "base.footprint": "{length: 40 in, width: 13 in}", "base.height": "16 1/4 in", "top.overhang": "7 in"},
	"stool":         {"top.outline.length": "15 in", "top.outline.width": "13 in", "base.footprint": "{length: 15 in, width: 14 in}", "base.height": "16 3/4 in", "top.overhang": "0 in"},
	"shelf":         {"top.outline.length": "36 in", "top.outline.width": "9 in"},
	"serving board": {"top.outline.length": "18 in", "top.outline.width": "9 in", "top.thickness": "7/8 in", "finish.family": "board-oil", "quantity": "6", "weighed": "1.4 kg", "packing.how": "carton", "packing.clearance": "1 in", "delivery.assembly": "none", "mark": "Burnt into the back"},
	"wall panel":    {"top.outline.length": "40 in", "top.outline.width": "24 in", "top.thickness": "1 1/8 in", "mark": "Burnt into the back"},
}

// leftOut are the keys that make no sense for a kind of piece; they are not in
// its starter file, though the parser takes them.
var leftOut = map[string][]string{
	"bench":         {"parts.below_top", "parts.walls"},
	"stool":         {"parts.below_top", "parts.walls"},
	"shelf":         {"base", "top.overhang", "packing.legs", "parts.below_top", "parts.walls"},
	"serving board": {"base", "parts", "top.overhang", "top.channels", "packing.legs", "packing.crate"},
	"wall panel":    {"base", "parts", "top.overhang", "packing.legs"},
}

// partOf is the part that a starter file shows.
var partOf = map[string]map[string]string{
	"bench": {"parts.name": "stretcher", "parts.size": "[40 in, 3 in, 1 1/4 in]"},
	"stool": {"parts.name": "stretcher", "parts.size": "[11 in, 1 1/2 in, 1 1/4 in]", "parts.count": "3"},
	"shelf": {"parts.name": "bracket", "parts.size": "[8 in, 6 in, 1/4 in]", "parts.count": "2", "parts.material": "steel"},
}

// Starter returns a commented piece.yaml for a kind of piece, with every key
// explained; the required ones are filled in as far as they can be. kind may be
// empty: a console table then stands for all. A serial that cannot be one gets
// hyphens in place of what is wrong with it, or gives way to an example.
func Starter(kind, serial string, say Say) []byte {
	if !slices.Contains(Kinds, kind) {
		kind = "console table"
	}
	w := starter{kind: kind, examples: starterExamples(kind)}
	w.examples["serial"], w.examples["title"], w.examples["finished"] = SerialFrom(serial), starterTitle, starterDate.String()
	w.remark(say("new.starter.head", nil), "")
	w.keys(pieceKeys, "", "", false)
	return w.b.Bytes()
}

// SerialFrom makes a serial of the name of a folder: with hyphens in place of what
// cannot stand in one; an example where nothing is left.
func SerialFrom(name string) string {
	if name == "" || serialProblem(name) != "" {
		name = mendSerial(name)
	}
	return cmp.Or(name, "OY-0201")
}

// starterExamples are the examples of a kind of piece, by path, that differ from
// the key table's.
func starterExamples(kind string) map[string]string {
	examples := map[string]string{"kind": kind}
	maps.Copy(examples, byKind[kind])
	maps.Copy(examples, partOf[kind])
	return examples
}

// A starter writes the keys of the table with their help.
type starter struct {
	b        bytes.Buffer
	kind     string
	examples map[string]string // by path
	known    *Written          // what is known of the piece, which stands without a #; nil when nobody was asked
	short    bool              // only what is known, what is needed, and what usually comes next
	next     []string          // paths of what usually comes next
}

// helpColumn is where the explanation behind a value begins.
const helpColumn = 44

// keys writes the keys of a group. Keys under a commented one are commented.
func (w *starter) keys(keys []Key, path, indent string, commented bool) {
	for i := range keys {
		k := &keys[i]
		where := KeyPath(path, k.Name)
		if w.known.Find(where) == nil && (slices.Contains(leftOut[w.kind], where) || w.short && !w.wanted(k, where)) {
			continue
		}
		if path == "" && (i == 0 || k.Type == typeGroup || keys[i-1].Type == typeGroup) {
			w.b.WriteByte('\n')
		}
		active := !commented && (k.Required || slices.Contains([]string{"top.outline.length", "top.outline.width"}, where))
		if w.known != nil {
			active = w.known.Find(where) != nil
		}
		w.key(k, where, indent, !active)
	}
}

// key writes one key, and what is below it.
func (w *starter) key(k *Key, path, indent string, commented bool) {
	value, fixed := w.examples[path]
	known := w.known.Find(path)
	switch {
	case known != nil && (len(known.Keys) == 0 || k.Many == byFileName || k.Many == byLanguage):
		w.given(k, known, indent)
	case known != nil:
		w.line(indent+k.Name+":", w.help(k), false)
		w.keys(k.Keys, path, indent+"  ", false)
	case k.Type == typeGroup && !fixed:
		w.line(indent+k.Name+":", w.help(k), commented)
		deeper := indent + "  "
		if k.Many == oneOrList {
			w.item(k, path, deeper, commented)
			return
		}
		if k.Many == byLanguage {
			w.line(deeper+"de:", "the language", commented)
			deeper += "  "
		}
		w.keys(k.Keys, path, deeper, commented)
	default:
		if !fixed {
			value = k.Example
		}
		if k.Type == typeWord && len(k.Words) > 3 && !w.short {
			w.wrapped("one of: "+strings.Join(k.Words, ", "), indent, commented)
		}
		first, more, _ := strings.Cut(value, "\n")
		w.line(indent+k.Name+": "+first, w.help(k), commented)
		for _, line := range splitLines(more) {
			w.line(indent+line, "", commented)
		}
	}
}

// item writes a list with one entry: the hyphen stands before its first key.
func (w *starter) item(k *Key, path, indent string, commented bool) {
	inner := starter{kind: w.kind, examples: w.examples, known: w.known, short: w.short, next: w.next}
	inner.keys(k.Keys, path, indent+"  ", commented)
	text := inner.b.String()
	mark := indent + "  "
	if commented {
		mark = "# " + mark
	}
	for line := range strings.Lines(text) {
		if rest, ok := strings.CutPrefix(line, mark); ok && !strings.HasPrefix(rest, " ") && !strings.HasPrefix(rest, "#") && mark != "" {
			w.b.WriteString(strings.TrimSuffix(mark, "  ") + "- " + rest)
			mark = ""
			continue
		}
		w.b.WriteString(line)
	}
}

// help is what stands behind a key.
func (w *starter) help(k *Key) string {
	help := k.Help
	if w.short {
		help = strings.TrimSuffix(help, "; or") // the other ways do not stand there
	}
	if k.Type == typeWord && len(k.Words) <= 3 {
		help += " (" + strings.Join(k.Words, ", ") + ")"
	}
	if k.Required {
		help = "needed: " + help
	}
	return help + k.privacy()
}

// line writes a line with its explanation in a column of its own.
func (w *starter) line(text, help string, commented bool) {
	if w.short && !commented {
		help = "" // whoever answered knows what it is
	}
	if commented {
		text = "# " + text
	}
	w.b.WriteString(text)
	if help != "" {
		w.b.WriteString(strings.Repeat(" ", max(2, helpColumn-utf8.RuneCountInString(text))) + "# " + help)
	}
	w.b.WriteByte('\n')
}

// wrapped writes a remark of at most 96 columns to a line. Above a commented key
// it keeps its # when the key's is taken away.
func (w *starter) wrapped(text, indent string, commented bool) {
	head := indent + "##"
	if commented {
		head = "# " + head
	}
	line := head
	for _, word := range strings.Fields(text) {
		if utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > 96 {
			w.b.WriteString(line + "\n")
			line = head + "  "
		}
		line += " " + word
	}
	w.b.WriteString(line + "\n")
}

func (w *starter) remark(text, indent string) {
	for line := range strings.Lines(text) {
		w.b.WriteString(strings.TrimRight("## "+indent+line, " \n") + "\n")
	}
}

func splitLines(text string) []string {
	if text == "" {
		return nil
	}
	return strings.Split(text, "\n")
}

// String writes the date as a spec has it: 2026-09-18.
func (d Date) String() string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }

// WorkshopStarter returns a workshop.yaml with every key explained. All of them are
// commented, so that it says nothing until the maker does.
func WorkshopStarter() []byte {
	var w starter
	w.remark("This file tells who you are, and what holds for every piece in this folder and\nbelow. Lines that begin with # are not read yet: take the # and the one space\nbehind it away from those you want to use, and write your own values.\n", "")
	w.keys(workshopKeys, "", "", true)
	return w.b.Bytes()
}
