package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// How long a function and a file may become before the second idea that hides in it has
// to come out, and how deep control flow may lie. The house style asks for less; these
// are where it fails.
const (
	longestFunction = 80
	longestFile     = 500
	deepestNest     = 6
)

// Functions and files stay short, those of the test equipment too.
func TestNothingGrowsTooLong(t *testing.T) {
	for _, s := range sources(t) {
		if n := s.fset.Position(s.file.FileEnd).Line; n > longestFile {
			t.Errorf("%s has %d lines, more than %d", s.name, n, longestFile)
		}
		for _, d := range s.file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok || f.Body == nil {
				continue
			}
			if n := s.fset.Position(f.End()).Line - s.fset.Position(f.Pos()).Line + 1; n > longestFunction {
				t.Errorf("%s: %s has %d lines, more than %d", s.name, f.Name.Name, n, longestFunction)
			}
			if n := nesting(f.Body); n > deepestNest {
				t.Errorf("%s: %s has control flow %d deep, more than %d", s.name, f.Name.Name, n, deepestNest)
			}
		}
	}
}

// nesting is how deep control flow lies within a node; an else if lies no deeper than
// its if.
func nesting(n ast.Node) (deepest int) {
	ast.Inspect(n, func(c ast.Node) bool {
		if c == nil || c == n {
			return true
		}
		switch c.(type) {
		case *ast.IfStmt, *ast.ForStmt, *ast.RangeStmt, *ast.SwitchStmt, *ast.TypeSwitchStmt, *ast.SelectStmt, *ast.FuncLit:
			below := 1
			if outer, ok := n.(*ast.IfStmt); ok && outer.Else == c {
				below = 0
			}
			deepest = max(deepest, below+nesting(c))
			return false
		}
		return true
	})
	return deepest
}

// What a package exports another one uses, or a test of another one: functions,
// variables and constants that stand alone. Methods and fields may satisfy an interface
// or a template, and a constant of a group goes with the others.
func TestExportedIsUsedElsewhere(t *testing.T) {
	used := usedElsewhere(t)
	for _, s := range sources(t) {
		if testEquipment.MatchString("/" + s.pkg + "/") {
			continue
		}
		for _, name := range exportedAlone(s.file) {
			if !used[s.pkg+"."+name] {
				t.Errorf("%s: %s is exported, and no other package uses it", s.name, name)
			}
		}
	}
}

// exportedAlone are the exported functions, variables and constants of a file, without
// constants of a group.
func exportedAlone(f *ast.File) (names []string) {
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv == nil && d.Name.IsExported() {
				names = append(names, d.Name.Name)
			}
		case *ast.GenDecl:
			if d.Tok != token.VAR && (d.Tok != token.CONST || d.Lparen.IsValid()) {
				continue
			}
			for _, spec := range d.Specs {
				for _, n := range spec.(*ast.ValueSpec).Names {
					if n.IsExported() {
						names = append(names, n.Name)
					}
				}
			}
		}
	}
	return names
}

// usedElsewhere are the names that any file of the program or its tests takes from an
// imported package of the program, such as listing/piece.Find.
func usedElsewhere(t *testing.T) map[string]bool {
	used := map[string]bool{}
	root := filepath.Join("..", "..")
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), filepath.Join(root, filepath.FromSlash(name)), nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		called := map[string]string{} // what the file calls a package -> its path in the program
		for _, i := range f.Imports {
			p, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return err
			}
			own, ok := strings.CutPrefix(p, "slabfolio/")
			if !ok {
				continue
			}
			if i.Name != nil {
				called[i.Name.Name] = own
			} else {
				called[path.Base(own)] = own
			}
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if sel, ok := n.(*ast.SelectorExpr); ok {
				if x, ok := sel.X.(*ast.Ident); ok && called[x.Name] != "" {
					used[called[x.Name]+"."+sel.Sel.Name] = true
				}
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return used
}
