package piece

// A style says how a text was written.
type style int

const (
	plainText  style = iota // as it is
	quotedText              // in quotes
	blockText               // behind | or >
)

// A shape says what a node is.
type shape int

const (
	empty   shape = iota // a key with nothing behind it
	scalar               // one value
	mapping              // keys and values
	list                 // entries
)

// A node is a piece of a spec file, free of the YAML library: nothing is
// interpreted, so 0012 is still 0012.
type node struct {
	shape shape
	text  string // of a scalar
	style style
	at    Place
	pairs []pair
	items []*node
}

// A pair is a key with its value.
type pair struct {
	key   string
	at    Place // of the key
	value *node
	bare  bool // no colon: what follows a comma inside { }
}

// kindWord names the node for a message.
func (n *node) kindWord() string {
	switch n.shape {
	case mapping:
		return "keys of its own"
	case list:
		return "a list"
	case empty:
		return "nothing"
	}
	return "a single value"
}

// rejoin puts values with a comma in them together again. Inside { } a comma
// ends a value, so that assembly: eight bolts, 5 mm key makes a key of "5 mm
// key" without a colon; nobody means that. known tells the real keys.
func (s *source) rejoin(pairs []pair, known func(string) bool) []pair {
	var out []pair
	for _, p := range pairs {
		last := len(out) - 1
		if !p.bare || known(p.key) || last < 0 || out[last].value.shape != scalar || out[last].value.style != plainText {
			out = append(out, p)
			continue
		}
		v := *out[last].value
		text := v.text + ", " + p.key
		if line := []rune(s.line(v.at.Line)); v.at.Line == p.at.Line && v.at.Column <= p.at.Column {
			if end := p.at.Column - 1 + len([]rune(p.key)); end <= len(line) && string(line[p.at.Column-1:end]) == p.key {
				text = string(line[v.at.Column-1 : end])
			}
		}
		v.text = text
		if bare := uncurl(text); bare != text {
			v.text, v.style = bare, quotedText
		}
		out[last].value = &v
	}
	return out
}
