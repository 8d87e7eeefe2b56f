package main

import (
	"fmt"
	"go/ast"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// What our packages do before main is paid by every start, the shortest too. It is
// counted in what they allocate, by the runtime's own trace (GODEBUG=inittrace=1),
// not in seconds: a table or an expression that is made ready when the program
// starts, and not when it is first needed, is what this tells.
func TestStartIsLight(t *testing.T) {
	const most, mostOfOne = 1500, 400 // reached 2026: 1,140 and 360, of 11,000 before
	c := exec.Command(os.Args[0], "-test.run=^$")
	c.Env = append(os.Environ(), "GODEBUG=inittrace=1")
	out, err := c.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	sum, packages := 0, 0
	for line := range strings.Lines(string(out)) {
		rest, ok := strings.CutPrefix(line, "init slabfolio/")
		if !ok || strings.HasPrefix(rest, "cmd/") { // the tests' own stand there too
			continue
		}
		name, rest, _ := strings.Cut(rest, " @")
		var at, clock float64
		var bytes, allocs int
		if _, err := fmt.Sscanf(rest, "%f ms, %f ms clock, %d bytes, %d allocs", &at, &clock, &bytes, &allocs); err != nil {
			t.Fatalf("%q: %v", line, err)
		}
		packages++
		if sum += allocs; allocs > mostOfOne {
			t.Errorf("%s allocates %d times before main, more than %d: make it ready when it is first needed", name, allocs, mostOfOne)
		}
	}
	if packages < 5 || sum > most {
		t.Errorf("%d packages allocate %d times before main, more than %d", packages, sum, most)
	}
}

// An expression that is compiled late would fail late: each that stands as it is in
// the code is compiled here.
func TestPatternsCompile(t *testing.T) {
	compiled := 0
	for _, s := range sources(t) {
		ast.Inspect(s.file, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) != 1 {
				return true
			}
			name, ok := call.Fun.(*ast.SelectorExpr)
			lit, isLit := call.Args[0].(*ast.BasicLit)
			if !ok || !isLit || name.Sel.Name != "Pattern" && name.Sel.Name != "MustCompile" {
				return true
			}
			expr, err := strconv.Unquote(lit.Value)
			if err == nil {
				_, err = regexp.Compile(expr)
			}
			if err != nil {
				t.Errorf("%s: %v", s.fset.Position(call.Pos()), err)
			}
			compiled++
			return true
		})
	}
	if compiled < 60 {
		t.Errorf("only %d expressions found", compiled)
	}
}
