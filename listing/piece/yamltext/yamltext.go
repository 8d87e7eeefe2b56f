// Package yamltext reads the YAML that people write by hand. It gives every value
// as it was written, with its place, and says what is wrong with a file in words
// for someone who never learnt YAML: a slip is named, mended where it is plain
// what was meant, and the rest of the file is read on.
//
// It reads the part of YAML 1.2 that a file of settings needs: keys with values,
// lists, both also in brackets, texts bare, in quotes or in blocks, and remarks.
// Labels, tags, keys that are no words and several documents are slips. Nothing
// is interpreted: 0012, yes and 1e3 are texts. It knows no key and no meaning.
//
// Time and memory grow with the size of the file and no faster, whatever is in
// it: every pass goes over the text once, and the number of passes is bounded.
package yamltext

import (
	"context"
	"fmt"
)

// A Place is where something stands in a maker's file.
type Place struct {
	File   string // as the maker knows it: "piece.yaml", "workshop.yaml"
	Line   int    // 1-based; 0 means that the value is not in any file
	Column int    // 1-based, in letters
}

// String returns file:line:column, or the file alone where there is no line.
func (p Place) String() string {
	if p.Line == 0 {
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// A Style says how a text was written.
type Style int

// The styles.
const (
	Bare   Style = iota // as it is
	Quoted              // in quotes, straight or curly
	Block               // behind | or >
)

// A Shape says what a node is.
type Shape int

// The shapes.
const (
	Empty   Shape = iota // a key with nothing behind it
	Scalar               // one value
	Mapping              // keys and values
	List                 // entries
)

// A Node is a part of a file. Nothing is interpreted, so 0012 is still 0012.
type Node struct {
	Shape Shape
	Text  string // of a scalar
	Style Style
	At    Place
	Pairs []Pair
	Items []*Node
	from  spot // where it begins
	to    spot // where it ends: behind its last letter
	flow  bool // in brackets
}

// Nothing reports whether a key has nothing behind it, or what YAML 1.2 (10.3.2) has
// for that: a bare null or ~.
func (n *Node) Nothing() bool {
	if n.Shape == Scalar && n.Style == Bare {
		switch n.Text {
		case "null", "Null", "NULL", "~":
			return true
		}
	}
	return n.Shape == Empty
}

// A Pair is a key with its value.
type Pair struct {
	Key   string
	At    Place // of the key
	Value *Node // never nil; it has the key's place where nothing stands behind it
	bare  bool  // no colon: what follows a comma inside { }
	from  spot  // where the key begins
	to    spot  // behind the key, before its colon
}

// A spot is a place in the lines that were read: 0-based, in bytes.
type spot struct{ line, byte int }

// A Slip is one thing that is wrong with the form of a file.
type Slip struct {
	Code    string // "spec.syntax", "spec.encoding", "spec.too-large", "spec.too-deep" or "spec.alias"
	At      Place
	Message string // what is wrong, lower case, no full stop
	Remedy  string // what would be right
}

// Limits of a file. A long story is ten kilobytes; a traced outline of 20,000
// corners is under half a megabyte.
const (
	MaxFile  = 1 << 20
	maxLine  = 1 << 19
	maxLines = 20000
	maxDepth = 20 // keys within keys
	maxNodes = 150000
)

// A Text is a file as it was read.
type Text struct {
	Root  *Node    // nil when nothing could be read
	Slips []Slip   // in the order in which they were found
	Lost  []string // the lines that could not be read and were passed over

	// BreaksOff says that the file ends inside a bracket that its last line opens,
	// so that what is missing in it may only not have been written yet.
	BreaksOff bool

	file    string
	lines   []string     // as read, without line ends
	reading []string     // the same, mended
	faulty  map[int]bool // lines that already have a slip; 1-based, like those below
	mended  map[int]bool // lines that were mended for the reader
	guessed map[int]bool // mended lines whose value may not be what was meant
	opened  map[int]int  // lines with a bracket that was closed for the maker, and its column
	shift   map[int]int  // letters that a mended line is longer by
	steps   int          // how much work it was, for tests
}

// Read reads a file. Whatever is wrong with it is among the slips; the error is
// the context's alone.
func Read(ctx context.Context, file string, data []byte) (*Text, error) {
	t := &Text{file: file, faulty: map[int]bool{}, mended: map[int]bool{}, guessed: map[int]bool{}, opened: map[int]int{}, shift: map[int]int{}}
	if !t.split(data) {
		return t, ctx.Err()
	}
	t.prepare()
	return t, t.read(ctx)
}

// The passes over a file: after each slip it is read again, often where it is
// short and seldom where it is long.
const (
	leastPasses = 12
	mostPasses  = 100
	passBytes   = 4 << 20 // to be looked at in all; a line counts as lineBytes more
	lineBytes   = 200
)

// read goes over the file until it is free of slips, mending or passing over one
// line each time.
func (t *Text) read(ctx context.Context) error {
	size := 1
	for _, line := range t.reading {
		size += len(line) + lineBytes
	}
	passes := min(mostPasses, max(leastPasses, passBytes/size))
	for pass := range passes {
		if err := ctx.Err(); err != nil {
			return err
		}
		root, m := t.readOnce(ctx, t.reading)
		switch {
		case m == nil:
			t.Root = root
			return nil
		case m.kind == stopped:
			return ctx.Err()
		case m.kind == tooDeep:
			t.slip("spec.too-deep", t.place(m.at), "the file has more levels or entries than a spec can have", "keep to the keys that `slabfolio new` writes into a fresh piece.yaml")
			return nil
		case pass == 0 && t.afterHash(ctx, m):
		case !t.mend(m):
			return nil
		}
	}
	return nil
}

// readOnce reads lines once.
func (t *Text) readOnce(ctx context.Context, lines []string) (*Node, *mistake) {
	r := reader{t: t, ctx: ctx, lines: lines}
	root, m := r.file()
	t.steps += r.steps
	return root, m
}

// Line returns a line of the file as the maker wrote it, 1-based; empty where
// there is none.
func (t *Text) Line(n int) string {
	if n < 1 || n > len(t.lines) {
		return ""
	}
	return t.lines[n-1]
}

// Guessed reports whether a line (1-based) was mended in a way that may not be
// what its maker meant, so that its value is not worth a finding.
func (t *Text) Guessed(line int) bool { return t.guessed[line] }

// Behind returns what stands behind a value on the line where it ends.
func (t *Text) Behind(n *Node) string {
	if n.to.line >= len(t.reading) || n.to.byte > len(t.reading[n.to.line]) || n.At.Line == 0 {
		return ""
	}
	return t.reading[n.to.line][n.to.byte:]
}
