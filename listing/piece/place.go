package piece

import "fmt"

// A Place is where a value stands in a maker's file.
type Place struct {
	File   string // as the maker knows it: "piece.yaml", "workshop.yaml"
	Line   int    // 1-based; 0 means that the value is not in any file
	Column int    // 1-based
}

// String returns file:line:column, or the file alone where there is no line.
func (p Place) String() string {
	if p.Line == 0 {
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// A Value is one value of the spec with its place. The zero Value is absent.
type Value[T any] struct {
	V  T
	At Place
}

// Set reports whether the maker gave the value.
func (v Value[T]) Set() bool { return v.At.Line > 0 }

// Of returns a Value as if it stood on line 1 of a file; for tests and the demo.
func Of[T any](v T) Value[T] { return Value[T]{v, Place{File: "piece.yaml", Line: 1, Column: 1}} }
