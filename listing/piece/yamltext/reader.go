package yamltext

import (
	"context"
	"strings"
	"unicode/utf8"
)

// A mistake is what the reader could not read, and where.
type mistake struct {
	kind kind
	at   spot
	open spot // of a bracket or quotation mark that is not closed: where it was opened
}

// A kind is a kind of mistake. Each has its words in slips.go.
type kind int

const (
	noKey          kind = iota // a line without a key, where keys are
	listAmongKeys              // a hyphen, where keys are
	badIndent                  // a line that begins in a column of its own
	tooFarIn                   // a line under a value that is whole already
	colonInText                // a colon with a space behind it inside a bare text
	listOnKeyLine              // a hyphen behind a key
	openQuote                  // a quotation mark that is not closed
	textBehind                 // text behind a closing quotation mark or bracket
	badEscape                  // a backslash that means nothing
	strangeSign                // a bare text that begins with @ ` or %
	labelSign                  // a value or key that begins with & * or !
	mergeKey                   // <<
	complexKey                 // ? or a bracket where a key belongs
	blockHeader                // text behind | or >
	openBracket                // a bracket that is not closed
	closedTooOften             // a closing bracket that was never opened
	missingComma               // two values in brackets without a comma between them
	strayComma                 // a comma with no value before it
	tooDeep                    // more levels or entries than a file may have
	stopped                    // the context ended
)

// A reader reads the lines of a text, from a cursor onwards and never back.
type reader struct {
	t     *Text
	ctx   context.Context
	lines []string
	line  int // the cursor: 0-based, in bytes
	byte  int
	depth int
	nodes int
	steps int // bytes looked at
	mark  struct{ line, byte, letters int }
}

// file reads the whole file.
func (r *reader) file() (*Node, *mistake) {
	r.next(0)
	if r.ended() {
		return &Node{Shape: Empty, At: Place{r.t.file, 1, 1}}, nil
	}
	root, m := r.node(-1)
	if m != nil {
		return nil, m
	}
	if !r.ended() {
		if root.Shape != Mapping {
			return nil, &mistake{kind: noKey, at: r.here()}
		}
		return nil, &mistake{kind: badIndent, at: r.here()}
	}
	return root, nil
}

func (r *reader) ended() bool { return r.line >= len(r.lines) }

func (r *reader) here() spot { return spot{r.line, r.byte} }

// rest is what stands on the line from the cursor on.
func (r *reader) rest() string { return r.lines[r.line][r.byte:] }

// next moves the cursor to the first line from i on that is neither empty nor a
// remark, behind its indentation.
func (r *reader) next(i int) {
	for ; i < len(r.lines); i++ {
		line := r.lines[i]
		r.steps += len(line) + 1
		body := strings.TrimLeft(line, " \t")
		if body != "" && body[0] != '#' {
			r.line, r.byte = i, len(line)-len(body)
			return
		}
	}
	r.line, r.byte = i, 0
}

// enter counts a level and a node.
func (r *reader) enter() *mistake {
	r.depth++
	return r.count()
}

// count counts a node, and looks at the context now and then.
func (r *reader) count() *mistake {
	r.nodes++
	switch {
	case r.depth > maxDepth || r.nodes > maxNodes:
		return &mistake{kind: tooDeep, at: r.here()}
	case r.nodes%1024 == 0 && r.ctx.Err() != nil:
		return &mistake{kind: stopped}
	}
	return nil
}

// place is the Place of a spot in the maker's file.
func (r *reader) place(s spot) Place {
	line := r.lines[s.line]
	if r.mark.line != s.line {
		r.mark.line, r.mark.byte, r.mark.letters = s.line, 0, 0
	}
	if s.byte >= r.mark.byte { // counted from where it was counted last, so that a long line is counted once
		r.mark.letters += utf8.RuneCountInString(line[r.mark.byte:s.byte])
	} else {
		r.mark.letters -= utf8.RuneCountInString(line[s.byte:r.mark.byte])
	}
	r.mark.byte = s.byte
	return Place{r.t.file, s.line + 1, max(r.mark.letters+1-r.t.shift[s.line+1], 1)}
}

// place is the Place of a spot, for the few that are asked for one by one.
func (t *Text) place(s spot) Place {
	if s.line >= len(t.reading) {
		return Place{t.file, max(len(t.lines), 1), 1}
	}
	return Place{t.file, s.line + 1, max(utf8.RuneCountInString(t.reading[s.line][:s.byte])+1-t.shift[s.line+1], 1)}
}

// node reads what begins at the cursor: a list, keys or one value. parent is the
// column of the group that it belongs to, -1 at the top.
func (r *reader) node(parent int) (*Node, *mistake) {
	if m := r.enter(); m != nil {
		return nil, m
	}
	defer func() { r.depth-- }()
	rest := r.rest()
	switch {
	case isEntry(rest):
		return r.list()
	case rest == "?" || strings.HasPrefix(rest, "? "):
		return nil, &mistake{kind: complexKey, at: r.here()}
	case r.keyEnd(rest) >= 0:
		return r.mapping()
	}
	return r.value(parent)
}

// isEntry reports whether a text begins an entry of a list.
func isEntry(text string) bool {
	return text == "-" || strings.HasPrefix(text, "- ") || strings.HasPrefix(text, "-\t")
}

// keyEnd returns where the key ends with which a line begins, before its colon;
// -1 when it begins with none.
func (r *reader) keyEnd(text string) int {
	end := 0
	switch text[0] {
	case '"', '\'':
		n := closing(text, 1, text[0])
		if n < 0 {
			r.steps += len(text)
			return -1
		}
		end = n + 1
		after := strings.TrimLeft(text[end:], " \t")
		r.steps += end
		if after == ":" || strings.HasPrefix(after, ": ") || strings.HasPrefix(after, ":\t") {
			return end
		}
		return -1
	case '[', '{':
		return -1
	}
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case ':':
			if i+1 == len(text) || text[i+1] == ' ' || text[i+1] == '\t' {
				r.steps += i
				if i == 0 {
					return -1
				}
				return len(strings.TrimRight(text[:i], " \t"))
			}
		case '#':
			if i > 0 && (text[i-1] == ' ' || text[i-1] == '\t') {
				r.steps += i
				return -1
			}
		}
	}
	r.steps += len(text)
	return -1
}

// closing returns where, from a byte of a text on, the quotation mark is that
// closes a text in quotes; -1 when there is none.
func closing(text string, from int, quote byte) int {
	for i := from; i < len(text); i++ {
		switch {
		case text[i] == '\\' && quote == '"':
			i++
		case text[i] == quote && quote == '\'' && i+1 < len(text) && text[i+1] == '\'':
			i++
		case text[i] == quote:
			return i
		}
	}
	return -1
}

// mapping reads keys with their values, all in the cursor's column.
func (r *reader) mapping() (*Node, *mistake) {
	column := r.byte
	n := &Node{Shape: Mapping, At: r.place(r.here()), from: r.here()}
	for {
		rest := r.rest()
		if isEntry(rest) {
			return nil, &mistake{kind: listAmongKeys, at: r.here()}
		}
		if strings.HasPrefix(rest, "? ") {
			return nil, &mistake{kind: complexKey, at: r.here()}
		}
		end := r.keyEnd(rest)
		if end < 0 {
			return nil, &mistake{kind: noKey, at: r.here()}
		}
		p, m := r.pair(rest, end, column)
		if m != nil {
			return nil, m
		}
		n.Pairs = append(n.Pairs, p)
		n.to = p.Value.to
		switch {
		case r.ended() || r.byte < column:
			return n, nil
		case r.byte > column:
			return nil, &mistake{kind: badIndent, at: r.here()}
		}
	}
}

// pair reads a key, whose end is known, and what stands behind it.
func (r *reader) pair(rest string, end, column int) (Pair, *mistake) {
	if m := r.count(); m != nil {
		return Pair{}, m
	}
	key := rest[:end]
	p := Pair{At: r.place(r.here()), from: r.here(), to: spot{r.line, r.byte + end}}
	if m := r.keySign(key); m != nil {
		return p, m
	}
	text, m := r.keyText(key)
	if m != nil {
		return p, m
	}
	p.Key = text
	colon := r.byte + end + strings.IndexByte(rest[end:], ':')
	r.byte = colon + 1
	p.Value, m = r.valueAfterKey(column)
	if m == nil && p.Value.Shape == Empty {
		p.Value.At, p.Value.from, p.Value.to = p.At, spot{p.to.line, colon + 1}, spot{p.to.line, colon + 1}
	}
	return p, m
}

// keySign refuses keys that mean something else in YAML.
func (r *reader) keySign(key string) *mistake {
	switch {
	case key == "<<":
		return &mistake{kind: mergeKey, at: r.here()}
	case strings.ContainsRune("&*!", rune(key[0])):
		return &mistake{kind: labelSign, at: r.here()}
	case strings.ContainsRune("@`%|>", rune(key[0])):
		return &mistake{kind: strangeSign, at: r.here()}
	case key[0] == ']' || key[0] == '}':
		return &mistake{kind: closedTooOften, at: r.here()}
	case key[0] == ',':
		return &mistake{kind: strayComma, at: r.here()}
	}
	return nil
}

// keyText takes the quotes off a key.
func (r *reader) keyText(key string) (string, *mistake) {
	switch key[0] {
	case '\'':
		return strings.ReplaceAll(key[1:len(key)-1], "''", "'"), nil
	case '"':
		text, bad := unescape(key[1 : len(key)-1])
		if bad >= 0 {
			return "", &mistake{kind: badEscape, at: spot{r.line, r.byte + 1 + bad}}
		}
		return text, nil
	}
	return withoutCurlyQuotes(key), nil
}

// valueAfterKey reads what stands behind a key's colon, on its line or below it.
func (r *reader) valueAfterKey(column int) (*Node, *mistake) {
	rest := r.rest()
	body := strings.TrimLeft(rest, " \t")
	if body != "" && !(body[0] == '#' && body != rest) {
		r.byte += len(rest) - len(body)
		if isEntry(body) {
			return nil, &mistake{kind: listOnKeyLine, at: r.here()}
		}
		return r.value(column)
	}
	r.next(r.line + 1)
	switch {
	case r.ended() || r.byte < column:
	case r.byte > column:
		return r.node(column)
	case isEntry(r.rest()):
		if m := r.enter(); m != nil {
			return nil, m
		}
		defer func() { r.depth-- }()
		return r.list()
	}
	return &Node{Shape: Empty}, nil
}

// list reads entries, all with their hyphen in the cursor's column.
func (r *reader) list() (*Node, *mistake) {
	column := r.byte
	n := &Node{Shape: List, At: r.place(r.here()), from: r.here()}
	for {
		item, m := r.entry(column)
		if m != nil {
			return nil, m
		}
		if item.At.Line == 0 {
			item.At = n.At
		}
		n.Items = append(n.Items, item)
		n.to = item.to
		switch {
		case r.ended() || r.byte < column || r.byte == column && !isEntry(r.rest()):
			return n, nil
		case r.byte > column:
			return nil, &mistake{kind: badIndent, at: r.here()}
		}
	}
}

// entry reads one entry of a list, the cursor on its hyphen.
func (r *reader) entry(column int) (*Node, *mistake) {
	at := r.here()
	rest := r.rest()[1:]
	body := strings.TrimLeft(rest, " \t")
	if body != "" && body[0] != '#' {
		r.byte += 1 + len(rest) - len(body)
		return r.node(column)
	}
	r.next(r.line + 1)
	if !r.ended() && r.byte > column {
		return r.node(column)
	}
	m := r.count()
	return &Node{Shape: Empty, from: spot{at.line, at.byte + 1}, to: spot{at.line, at.byte + 1}}, m
}
