package listing

import (
	"fmt"
	"slices"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
)

// privateKeys are the keys of piece.yaml that the owner's copy does not hold, at
// the top and in lists below it.
var privateKeys = map[string][]string{
	"":          {"costs", "buyer"},
	"materials": {"supplier", "bought"},
}

// redactSpec returns a spec without costs, buyer and suppliers. Comments go too:
// nobody can tell what a maker noted there. Everything else stays as written.
func redactSpec(data []byte) ([]byte, error) {
	file, err := parser.ParseBytes(data, 0)
	if err != nil {
		return nil, fmt.Errorf("read the spec: %w", err)
	}
	if len(file.Docs) == 0 {
		return nil, fmt.Errorf("the spec is empty")
	}
	top, ok := file.Docs[0].Body.(*ast.MappingNode)
	if !ok {
		return nil, fmt.Errorf("the spec is no list of keys")
	}
	drop(top, privateKeys[""])
	for _, v := range top.Values {
		if keys := privateKeys[v.Key.String()]; keys != nil {
			dropBelow(v.Value, keys)
		}
	}
	return []byte(file.String()), nil
}

func dropBelow(n ast.Node, keys []string) {
	switch n := n.(type) {
	case *ast.SequenceNode:
		for _, v := range n.Values {
			dropBelow(v, keys)
		}
	case *ast.MappingNode:
		drop(n, keys)
	}
}

func drop(m *ast.MappingNode, keys []string) {
	m.Values = slices.DeleteFunc(m.Values, func(v *ast.MappingValueNode) bool {
		return slices.Contains(keys, v.Key.String())
	})
}
