package piece

import (
	"errors"
	"fmt"
	"strings"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// This file alone touches the YAML library. Values are taken from the tokens of
// the source, never decoded: the library would turn a batch of 0012 into ten.

// parse calls the library and keeps a panic of it inside.
func parse(text string) (file *ast.File, err error) {
	defer func() {
		if r := recover(); r != nil {
			file, err = nil, fmt.Errorf("the YAML reader gave up: %v", r)
		}
	}()
	return parser.ParseBytes([]byte(text), 0, parser.AllowDuplicateMapKey())
}

// syntaxPlace takes a library error apart.
func syntaxPlace(err error) (line, column int, message string) {
	var syntax *yaml.SyntaxError
	if errors.As(err, &syntax) && syntax.Token != nil && syntax.Token.Position != nil {
		return syntax.Token.Position.Line, syntax.Token.Position.Column, syntax.Message
	}
	return 1, 1, err.Error()
}

// body turns the library's tree into nodes.
func (s *source) body(file *ast.File) *node {
	var docs []*ast.DocumentNode
	for _, d := range file.Docs {
		if d != nil && d.Body != nil && d.Body.Type() != ast.CommentType && d.Body.Type() != ast.DirectiveType {
			docs = append(docs, d)
		}
	}
	if len(docs) == 0 {
		return &node{shape: empty, at: Place{s.file, 1, 1}}
	}
	if len(docs) > 1 {
		at := s.place(docs[1].Body.GetToken())
		s.add(Fault, "spec.syntax", at, "a second document begins here", "one file is one piece: take the line --- out, and put another piece into a folder of its own")
	}
	c := converter{s: s}
	return c.node(docs[0].Body, 0)
}

// A converter copies the library's tree, refusing what a spec has no use for.
type converter struct {
	s     *source
	count int
	full  bool
}

func (c *converter) node(n ast.Node, depth int) *node {
	c.count++
	if n == nil {
		return &node{shape: empty}
	}
	at := c.s.place(n.GetToken())
	if depth > maxDepth || c.count > maxNodes {
		if !c.full {
			c.full = true
			c.s.add(Fault, "spec.too-deep", at, "the file has more levels or entries than a spec can have", "keep to the keys that `slabfolio new` writes into a fresh piece.yaml")
		}
		return &node{shape: empty, at: at}
	}
	switch n := n.(type) {
	case *ast.MappingNode:
		out := &node{shape: mapping, at: at}
		if len(n.Values) > 0 && !n.IsFlowStyle {
			out.at = c.s.place(n.Values[0].Key.GetToken())
		}
		for _, v := range n.Values {
			out.pairs = c.pair(out.pairs, v, depth)
		}
		return out
	case *ast.MappingValueNode:
		return &node{shape: mapping, at: c.s.place(n.Key.GetToken()), pairs: c.pair(nil, n, depth)}
	case *ast.SequenceNode:
		out := &node{shape: list, at: at}
		for _, v := range n.Values {
			item := c.node(v, depth+1)
			if item.at.Line == 0 {
				item.at = at
			}
			out.items = append(out.items, item)
		}
		return out
	case *ast.LiteralNode:
		text := ""
		if n.Value != nil {
			text = n.Value.Value
		}
		return &node{shape: scalar, text: text, style: blockText, at: at}
	case *ast.TagNode:
		c.s.add(Fault, "spec.syntax", at, fmt.Sprintf("%q: a value that begins with ! means something else in YAML", n.GetToken().Value), "put the value in quotes: \"! …\"")
		return c.node(n.Value, depth+1)
	case *ast.AnchorNode:
		c.s.add(Fault, "spec.alias", at, "a value that begins with & is a label in YAML, and labels are not used here", "put the value in quotes: \"& …\"")
		return c.node(n.Value, depth+1)
	case *ast.AliasNode:
		c.s.add(Fault, "spec.alias", at, "a value that begins with * points to a label in YAML, and labels are not used here", "put the value in quotes: \"* …\", or write it out again")
		return &node{shape: empty, at: at}
	}
	return c.scalar(n.GetToken(), at)
}

func (c *converter) pair(pairs []pair, v *ast.MappingValueNode, depth int) []pair {
	tk := v.Key.GetToken()
	at := c.s.place(tk)
	if v.Key.IsMergeKey() {
		c.s.add(Fault, "spec.alias", at, "<< takes keys over from somewhere else, which is not done here", "write the keys out")
		return pairs
	}
	key := tk.Value
	switch k := v.Key.(type) {
	case *ast.AnchorNode, *ast.TagNode, *ast.AliasNode:
		c.s.add(Fault, "spec.alias", at, "a key that begins with a sign means something else in YAML", "put the key in quotes")
		return pairs
	case *ast.MappingKeyNode:
		if inner, ok := k.Value.(ast.ScalarNode); ok {
			key = inner.GetToken().Value
		} else {
			c.s.add(Fault, "spec.syntax", at, "a key that begins with ? means something else in YAML", "write the key, a colon, a space and the value")
			return pairs
		}
	}
	value := c.node(v.Value, depth+1)
	if value.at.Line == 0 || value.shape == empty {
		value.at = at
	}
	bare := value.shape == empty && (v.Start == nil || v.Start.Type != token.MappingValueType)
	return append(pairs, pair{key: uncurl(key), at: at, value: value, bare: bare})
}

// scalar takes the text from the token: as written, not as YAML would have it.
func (c *converter) scalar(tk *token.Token, at Place) *node {
	switch tk.Type {
	case token.ImplicitNullType:
		return &node{shape: empty, at: at}
	case token.SingleQuoteType, token.DoubleQuoteType:
		return &node{shape: scalar, text: tk.Value, style: quotedText, at: at}
	}
	text := strings.TrimSpace(tk.Value)
	at = c.s.settle(at, text)
	if tk.Type == token.NullType || tk.Type == token.BoolType {
		text = strings.TrimSpace(tk.Origin)
	}
	if bare := uncurl(text); bare != text {
		return &node{shape: scalar, text: bare, style: quotedText, at: at}
	}
	return &node{shape: scalar, text: text, at: at}
}

// place turns a token's position into a Place that lies inside the file.
func (s *source) place(tk *token.Token) Place {
	if tk == nil || tk.Position == nil {
		return Place{File: s.file}
	}
	line := min(max(tk.Position.Line, 1), len(s.lines))
	return Place{s.file, line, min(max(tk.Position.Column-s.shift[line], 1), s.lineLetters(line)+1)}
}
