package yamltext

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"unicode/utf8"
)

// A Step is one part of the way to a value: a key, or an entry of a list.
type Step struct {
	Key   string
	Entry int // 1-based; 0 for none: the only one of a list, or a value that stands for a list
}

// Errors of an edit: why a value cannot be put in without touching something else.
var (
	ErrSlips    = errors.New("the file has slips that have to be mended first")
	ErrRemarks  = errors.New("there are remarks among the lines of the value")
	ErrNoGroup  = errors.New("it holds one value and no keys")
	ErrWhich    = errors.New("there are several entries, and none is named")
	ErrNoEntry  = errors.New("there is no such entry")
	ErrNotSound = errors.New("the file would not read as before")
)

// A Change is a value that was put into a file.
type Change struct {
	Data          []byte // the file with the value in it
	Line          int    // 1-based, of the new file
	Before, After string // the lines that differ, without line ends; Before is empty where lines were added
}

// Set puts a value behind a key of the file that data holds. Everything outside
// the value stays as it is, byte for byte: remarks, order, line ends, quotes. A key
// that is not there is added below the last one of its group, with the groups that
// it needs. raw says that the value is to stand as it is, such as brackets; else it
// is a text, put in quotes where it needs them. known tells the keys that may stand
// in brackets without a value. The error is one of those above, or the context's.
func Set(ctx context.Context, data []byte, way []Step, value string, raw bool, known func(key string) bool) (*Change, error) {
	t, err := Read(ctx, "", data)
	if err != nil {
		return nil, err
	}
	if len(t.Slips) > 0 || t.Root == nil || t.Root.Shape != Mapping && t.Root.Shape != Empty {
		return nil, ErrSlips
	}
	e := &edit{t: t, data: data, value: value, raw: raw, known: known}
	e.split()
	if err := e.put(t.Root, nil, way); err != nil {
		return nil, err
	}
	c := e.change()
	after, err := Read(ctx, "", c.Data)
	if err != nil {
		return nil, err
	}
	if len(after.Slips) > 0 || after.Root == nil || !e.sameExcept(after, t.Root, after.Root, way) {
		return nil, ErrNotSound
	}
	return c, nil
}

// An edit is one value on its way into a file.
type edit struct {
	t     *Text
	data  []byte
	value string
	raw   bool
	known func(key string) bool
	lines []span // of the file, without line ends

	from, to int    // what is taken out, in bytes of the file
	text     string // what comes in its place
}

// A span is a stretch of a file, in bytes.
type span struct{ from, to int }

// split finds the lines of the file as it lies on the disk.
func (e *edit) split() {
	at := 0
	if bytes.HasPrefix(e.data, []byte("\ufeff")) {
		at = 3
	}
	for i := at; i < len(e.data); i++ {
		switch e.data[i] {
		case '\n':
			e.lines = append(e.lines, span{at, i})
			at = i + 1
		case '\r':
			e.lines = append(e.lines, span{at, i})
			if i+1 < len(e.data) && e.data[i+1] == '\n' {
				i++
			}
			at = i + 1
		}
	}
	e.lines = append(e.lines, span{at, len(e.data)})
}

// offset is where a spot of the text lies in the file. What the reader straightened
// has as many letters as before.
func (e *edit) offset(s spot) int {
	letters := utf8.RuneCountInString(e.t.reading[s.line][:s.byte])
	line := e.t.lines[s.line]
	at := 0
	for range letters {
		_, size := utf8.DecodeRuneInString(line[at:])
		at += size
	}
	return e.lines[s.line].from + at
}

// lineEnd is how lines end where a line is added behind line n (0-based).
func (e *edit) lineEnd(n int) string {
	for ; n >= 0; n-- {
		if n+1 < len(e.lines) {
			return string(e.data[e.lines[n].to:e.lines[n+1].from])
		}
	}
	return "\n"
}

// put goes the way from a node on. key is the pair that the node stands behind;
// nil at the top.
func (e *edit) put(n *Node, key *Pair, way []Step) error {
	if len(way) == 0 {
		return e.replace(n, key)
	}
	step := way[0]
	switch n.Shape {
	case Scalar:
		return ErrNoGroup
	case List: // an entry of a list that was not counted
		if len(n.Items) != 1 {
			return ErrWhich
		}
		return e.put(n.Items[0], key, way)
	case Empty:
		return e.fill(n, key, way)
	}
	pairs := e.t.Rejoin(n.Pairs, e.known)
	for i := range pairs {
		p := &pairs[i]
		if p.Key != step.Key || p.bare {
			continue
		}
		v := p.Value
		if step.Entry > 0 && (v.Shape == List || step.Entry > 1) {
			if v.Shape != List || step.Entry > len(v.Items) {
				return ErrNoEntry
			}
			v, p = v.Items[step.Entry-1], nil
		}
		return e.put(v, p, way[1:])
	}
	if step.Entry > 1 {
		return ErrNoEntry
	}
	return e.add(n, way)
}

// replace puts the value where another one stands.
func (e *edit) replace(n *Node, key *Pair) error {
	below := n.Shape != Empty && key != nil && n.from.line != key.to.line
	if n.Shape == Empty || !below || n.Shape == Scalar || n.flow {
		e.from, e.to = e.offset(n.from), e.offset(n.to)
		if n.Shape == Empty && key == nil {
			return ErrNoGroup // an empty entry of a list
		}
		e.text = e.written(n.flow || e.inBrackets(n), e.old(n))
		if n.Shape == Empty {
			e.text = " " + e.text
		}
		if n.from.line != n.to.line && n.Style != Block && e.remarked(n.from.line, n.to) {
			return ErrRemarks
		}
		return nil
	}
	// A group or a list on lines of its own gives way to one value on the key's line.
	if e.remarked(key.to.line+1, n.to) || strings.TrimSpace(e.t.reading[n.to.line][n.to.byte:]) != "" {
		return ErrRemarks
	}
	colon := e.offset(spot{key.to.line, key.to.byte + strings.IndexByte(e.t.reading[key.to.line][key.to.byte:], ':') + 1})
	rest := string(e.data[colon:e.lines[key.to.line].to])
	e.from, e.to = colon, e.offset(n.to)
	e.text = " " + e.written(false, "") + rest
	return nil
}

// old is how a value is written now.
func (e *edit) old(n *Node) string {
	if n.Shape != Scalar {
		return ""
	}
	return string(e.data[e.offset(n.from):e.offset(n.to)])
}

// inBrackets reports whether a node stands in brackets.
func (e *edit) inBrackets(n *Node) bool { return within(e.t.Root, n.from) }

// within reports whether a spot lies between the brackets of a node or of one
// below it.
func within(n *Node, s spot) bool {
	after := func(a, b spot) bool { return a.line > b.line || a.line == b.line && a.byte > b.byte }
	if after(n.from, s) || after(s, n.to) {
		return false
	}
	if n.flow && after(s, n.from) {
		return true
	}
	for _, p := range n.Pairs {
		if within(p.Value, s) {
			return true
		}
	}
	for _, i := range n.Items {
		if within(i, s) {
			return true
		}
	}
	return false
}

// remarked reports whether a remark stands on the lines from one to that of a
// spot, before the spot.
func (e *edit) remarked(from int, to spot) bool {
	for i := from; i <= to.line; i++ {
		line := e.t.reading[i]
		if i == to.line {
			line = line[:to.byte]
		}
		if body := strings.TrimSpace(line); strings.HasPrefix(body, "#") || strings.Contains(line, " #") {
			return true
		}
	}
	return false
}

// fill puts keys below a key with nothing behind it.
func (e *edit) fill(n *Node, key *Pair, way []Step) error {
	if key == nil { // an empty file
		e.from, e.to = len(e.data), len(e.data)
		last := len(e.lines) - 1
		if e.lines[last].from < e.lines[last].to {
			e.text = e.lineEnd(last)
		}
		e.text += strings.Join(e.block(way, ""), e.lineEnd(last)) + e.lineEnd(last)
		return nil
	}
	if e.inBrackets(n) {
		e.from, e.to = e.offset(n.from), e.offset(n.to)
		e.text = " {" + e.restInBrackets(way) + "}"
		return nil
	}
	indent := e.t.reading[key.from.line][:key.from.byte]
	e.below(key.to.line, e.block(way, blank(indent)+"  "))
	return nil
}

// written is the value as it is to stand, in the quotes that the old one had.
func (e *edit) written(flow bool, old string) string {
	if e.raw {
		return e.value
	}
	return Quote(e.value, flow, old)
}

// change makes the edit and tells the lines that differ.
func (e *edit) change() *Change {
	c := &Change{Data: append(append(append([]byte{}, e.data[:e.from]...), e.text...), e.data[e.to:]...)}
	first, last := len(e.lines)-1, 0
	for i, l := range e.lines {
		if l.to >= e.from && i < first {
			first = i
		}
		if l.from <= e.to {
			last = i
		}
	}
	before := string(e.data[e.lines[first].from:e.lines[last].to])
	after := string(c.Data[e.lines[first].from : e.lines[last].to+len(c.Data)-len(e.data)])
	c.Line, c.Before, c.After = first+1, plainEnds(before), plainEnds(after)
	if rest, ok := strings.CutPrefix(c.After, c.Before+"\n"); ok { // lines were added
		c.Line, c.Before, c.After = first+2+strings.Count(c.Before, "\n"), "", rest
	}
	return c
}
