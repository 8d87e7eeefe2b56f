package decode

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/printer"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// purewasm.go reaches into functions that two modules do not export. Nothing but
// this test tells when a new version of one has changed or dropped them, since
// the linker checks a name and no signature. After an upgrade: look whether the
// module exports a way to its own portable decoder now; if not, hold the
// signatures here and in purewasm.go to its source, and set the version here.
func TestLinkedFunctionsAreAsTheyWere(t *testing.T) {
	mod, err := os.ReadFile(filepath.Join("..", "..", "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ module, version, signature string }{
		{"github.com/gen2brain/heic", "v0.4.5", "func(r io.Reader, configOnly bool) (image.Image, image.Config, error)"},
		{"github.com/gen2brain/avif", "v0.4.4", "func(r io.Reader, configOnly, decodeAll bool) (*AVIF, image.Config, error)"},
	} {
		if !strings.Contains(string(mod), c.module+" "+c.version+"\n") {
			t.Errorf("go.mod wants another %s than %s, whose unexported decode is linked to", c.module, c.version)
			continue
		}
		dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", c.module).Output()
		if err != nil {
			t.Fatalf("go list %s: %v", c.module, err)
		}
		if got := signature(t, strings.TrimSpace(string(dir)), "decode"); got != c.signature {
			t.Errorf("decode of %s is %q, want %q", c.module, got, c.signature)
		}
	}
}

// signature is the type of a function of the package in dir, as its source says.
func signature(t *testing.T, dir, name string) string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no source in %s: %v", dir, err)
	}
	for _, file := range files {
		set := token.NewFileSet()
		f, err := parser.ParseFile(set, file, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range f.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && fn.Name.Name == name && fn.Recv == nil {
				var b bytes.Buffer
				if err := printer.Fprint(&b, set, fn.Type); err != nil {
					t.Fatal(err)
				}
				return b.String()
			}
		}
	}
	return ""
}
