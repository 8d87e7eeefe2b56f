package yamltext

import "strings"

// flow reads what stands in brackets, from the cursor's bracket to behind the one
// that closes it.
func (r *reader) flow(parent int) (*Node, *mistake) {
	if m := r.enter(); m != nil {
		return nil, m
	}
	defer func() { r.depth-- }()
	n := &Node{Shape: List, At: r.place(r.here()), from: r.here(), flow: true}
	shut, read := byte(']'), r.flowEntry
	if r.rest()[0] == '{' {
		n.Shape, shut, read = Mapping, '}', r.flowPair
	}
	open := r.here()
	r.byte++
	for {
		if m := r.blank(parent, open); m != nil {
			return nil, m
		}
		switch c := r.rest()[0]; c {
		case shut:
			r.byte++
			n.to = r.here()
			return n, nil
		case ']', '}':
			return nil, &mistake{kind: closedTooOften, at: r.here(), open: open}
		case ',':
			return nil, &mistake{kind: strayComma, at: r.here()}
		}
		if m := read(n, parent); m != nil {
			return nil, m
		}
		if m := r.blank(parent, open); m != nil {
			return nil, m
		}
		switch r.rest()[0] {
		case ',':
			r.byte++
		case ']', '}':
		default:
			return nil, &mistake{kind: missingComma, at: r.here(), open: open}
		}
	}
}

// blank moves the cursor over spaces, line ends and remarks inside brackets. A
// line that does not belong to them means that they were not closed.
func (r *reader) blank(parent int, open spot) *mistake {
	for {
		rest := r.rest()
		body := strings.TrimLeft(rest, " \t")
		r.steps += len(rest) - len(body) + 1
		r.byte += len(rest) - len(body)
		if body != "" && !(body[0] == '#' && (r.byte == 0 || r.lines[r.line][r.byte-1] == ' ' || r.lines[r.line][r.byte-1] == '\t')) {
			return nil
		}
		line := r.line
		r.next(r.line + 1)
		switch {
		case r.ended():
			r.line, r.byte = line, len(r.lines[line])
			return &mistake{kind: openBracket, at: r.here(), open: open}
		case !r.continuesBrackets(parent, line, open):
			return &mistake{kind: openBracket, at: r.here(), open: open}
		}
	}
}

// continuesBrackets reports whether the cursor's line goes on with what an earlier line has
// in brackets. It is indented further than what the brackets belong to; makers
// also begin it in the first column, when the bracket that opens ends its line or
// commas show that the list goes on.
func (r *reader) continuesBrackets(parent, before int, open spot) bool {
	rest := r.rest()
	ends := func(line int, with string) bool {
		text, _ := bareLine(r.lines[line])
		r.steps += len(text)
		return text != "" && strings.ContainsAny(text[len(text)-1:], with)
	}
	switch {
	case r.byte > parent, strings.ContainsAny(rest[:1], "]},"), ends(open.line, "[{"):
		return true
	case isEntry(rest), r.keyEnd(rest) >= 0:
		return false
	}
	return ends(before, "[{,") || ends(r.line, "]},")
}

// flowEntry reads an entry of a list in brackets.
func (r *reader) flowEntry(n *Node, parent int) *mistake {
	at := r.here()
	if c := r.rest()[0]; c != '[' && c != '{' && c != '"' && c != '\'' && endInBrackets(r.rest(), false) < len(r.rest()) {
		end := endInBrackets(r.rest(), false)
		if r.rest()[end] == ':' { // one key with its value: [a: b]
			inner := &Node{Shape: Mapping, At: r.place(at), from: at, flow: true}
			if m := r.enter(); m != nil {
				return m
			}
			m := r.flowPair(inner, parent)
			r.depth--
			inner.to = r.here()
			n.Items = append(n.Items, inner)
			return m
		}
	}
	item, m := r.flowValue(parent, false)
	if m == nil {
		n.Items = append(n.Items, item)
	}
	return m
}

// flowPair reads a key inside { } with its value. Where there is no colon the
// value is empty: that happens to a comma inside a value.
func (r *reader) flowPair(n *Node, parent int) *mistake {
	if m := r.count(); m != nil {
		return m
	}
	p := Pair{At: r.place(r.here()), from: r.here()}
	rest := r.rest()
	end := 0
	switch c := rest[0]; {
	case c == '"' || c == '\'':
		key, m := r.quoted(parent)
		if m != nil {
			return m
		}
		p.Key, p.to = key.Text, r.here()
	case c == '[' || c == '{' || c == '?' && strings.HasPrefix(rest, "? "):
		return &mistake{kind: complexKey, at: r.here()}
	default:
		end = endInBrackets(rest, false)
		r.steps += end
		key := strings.TrimRight(rest[:end], " \t")
		if key == "" {
			return &mistake{kind: complexKey, at: r.here()}
		}
		if m := r.keySign(key); m != nil {
			return m
		}
		p.Key, p.to = withoutCurlyQuotes(key), spot{r.line, r.byte + len(key)}
		r.byte += end
	}
	body := strings.TrimLeft(r.rest(), " \t")
	if !strings.HasPrefix(body, ":") {
		p.Value, p.bare = &Node{Shape: Empty, At: p.At, from: p.to, to: p.to}, true
		n.Pairs = append(n.Pairs, p)
		return nil
	}
	r.byte += len(r.rest()) - len(body) + 1
	behind := r.here()
	if m := r.blank(parent, n.from); m != nil {
		return m
	}
	if c := r.rest()[0]; c == ',' || c == '}' || c == ']' {
		p.Value = &Node{Shape: Empty, At: p.At, from: behind, to: behind}
		n.Pairs = append(n.Pairs, p)
		return nil
	}
	v, m := r.flowValue(parent, true)
	if m != nil {
		return m
	}
	p.Value = v
	n.Pairs = append(n.Pairs, p)
	return nil
}

// flowValue reads a value inside brackets.
func (r *reader) flowValue(parent int, behindKey bool) (*Node, *mistake) {
	if m := r.count(); m != nil {
		return nil, m
	}
	switch c := r.rest()[0]; c {
	case '[', '{':
		return r.flow(parent)
	case '"', '\'':
		return r.quoted(parent)
	case '&', '*', '!':
		return nil, &mistake{kind: labelSign, at: r.here()}
	case '@', '`', '%', '|', '>':
		return nil, &mistake{kind: strangeSign, at: r.here()}
	}
	if strings.HasPrefix(r.rest(), "? ") {
		return nil, &mistake{kind: complexKey, at: r.here()}
	}
	return r.flowBare(parent, behindKey)
}

// flowBare reads a text without quotes inside brackets; it may go on over lines.
func (r *reader) flowBare(parent int, behindKey bool) (*Node, *mistake) {
	n := &Node{Shape: Scalar, At: r.place(r.here()), from: r.here()}
	var parts []string
	for {
		rest := r.rest()
		end := endInBrackets(rest, behindKey)
		r.steps += end + 1
		text := strings.TrimRight(rest[:end], " \t")
		parts = append(parts, text)
		n.to = spot{r.line, r.byte + len(text)}
		r.byte += end
		if end < len(rest) { // a comma, a bracket, a colon or a remark
			break
		}
		line := r.line
		r.next(r.line + 1)
		if r.ended() {
			r.line, r.byte = line, len(r.lines[line])
			break
		}
		next := r.rest()
		if strings.ContainsRune(",[]{}\"'", rune(next[0])) || r.byte <= parent || r.keyEnd(next) >= 0 || isEntry(next) {
			r.line, r.byte = line, len(r.lines[line])
			break
		}
	}
	n.Text = folded(parts)
	if text := withoutCurlyQuotes(n.Text); text != n.Text {
		n.Text, n.Style = text, Quoted
	}
	return n, nil
}

// endInBrackets returns where a bare text inside brackets ends: at a comma, a bracket, a
// remark or a colon. Behind a key a colon with a space behind it belongs to the
// text: it is a comma that was forgotten, and whoever knows the keys says so.
func endInBrackets(text string, behindKey bool) int {
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case ',', '[', ']', '{', '}':
			return i
		case '#':
			if i > 0 && (text[i-1] == ' ' || text[i-1] == '\t') {
				return i
			}
		case ':':
			if !behindKey && (i+1 == len(text) || strings.IndexByte(" \t,[]{}", text[i+1]) >= 0) {
				return i
			}
		}
	}
	return len(text)
}
