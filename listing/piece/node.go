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
