package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// floors are the packages from the top of the house down. A package may import
// what stands on floors below its own, and nothing of its own floor or above.
// A package that is not here fails the test: whoever adds one says where it
// stands.
var floors = [][]string{
	{"cmd/slabfolio"},
	{"listing/record"},
	{"listing"},
	{"listing/page", "listing/sheet", "listing/intake"},
	{"listing/photos"},
	{"listing/report", "listing/trace"},
	{"listing/weight", "listing/assembly", "listing/care", "listing/cost", "listing/shipping", "listing/wood", "listing/record/owner"},
	{"listing/piece", "listing/geometry"},
	{"listing/archive", "listing/stage", "listing/drawing", "listing/table", "listing/figure", "listing/units", "listing/spelling", "listing/piece/yamltext", "templates", "testdata"},
	{"listing/ordinary"},
	{"imaging"},
	{"imaging/blend", "imaging/chart", "imaging/decode", "imaging/frame", "imaging/inspect", "imaging/measure", "imaging/rendition", "imaging/subject", "imaging/tone"},
	{"imaging/linear", "imaging/native", "imaging/pixel"},
	{"imaging/colour", "imaging/equations", "imaging/note", "imaging/spare"},
}

// ceilings are what a package may import of its own program, where that is less
// than all of the floors below.
var ceilings = map[string][]string{
	"listing/geometry":       {"listing/figure", "listing/table", "listing/units"}, // shapes, not specs
	"listing/piece/yamltext": {},
	"listing/piece":          {"listing/piece/yamltext", "listing/ordinary", "listing/units", "listing/spelling"},
	"listing/intake":         {"listing/assembly", "listing/ordinary", "listing/piece", "listing/piece/yamltext", "listing/spelling", "listing/units", "listing/wood"},
	"listing/archive":        {"listing/ordinary"},
	"listing/drawing":        {},
	"listing/stage":          {"listing/ordinary"},
	"listing/page":           {"listing/report", "listing/drawing", "listing/assembly", "listing/piece", "listing/spelling", "listing/units", "templates"},
	"listing/sheet":          {"listing/report", "listing/drawing", "listing/assembly", "listing/spelling", "listing/units", "templates"},
	"listing/trace":          {"listing/archive", "listing/ordinary", "listing/piece", "listing/piece/yamltext", "listing/wood"},
	"templates":              {},
}

// testEquipment is imported by tests, and by programs that draw for tests.
var testEquipment = regexp.MustCompile(`/internal/(scene|phototest|subjecttrain)(/|$)|/testdata/(beside|golden)(/|$)`)

// guards name the one place that touches a library: a file, or a folder where
// the library has several doors.
var guards = map[string][]string{
	"github.com/jung-kurt/gofpdf":          {"listing/sheet"},
	"github.com/pdfcpu/pdfcpu":             {"listing/sheet"},
	"rsc.io/qr":                            {"listing/sheet"},
	"github.com/gofrs/flock":               {"listing/stage/lock.go"},
	"github.com/rwcarlsen/goexif":          {"imaging/decode/exif.go"},
	"github.com/gen2brain/avif":            {"imaging/decode"},
	"github.com/gen2brain/heic":            {"imaging/decode"},
	"github.com/gen2brain/webp":            {"imaging/rendition/webp.go"},
	"github.com/kovidgoyal/imaging/prism":  {"imaging/linear/profile.go"},
	"github.com/kovidgoyal/imaging/jpeg":   {"imaging/decode/jpeg.go"},
	"github.com/disintegration/imaging":    {"imaging/inspect"},
	"github.com/corona10/goimagehash":      {"imaging/inspect/hash.go"},
	"github.com/ebitengine/purego":         {"imaging/native"},
	"github.com/vbauerster/mpb/v8":         {"cmd/slabfolio"},
	"github.com/urfave/cli/v2":             {"cmd/slabfolio"},
	"github.com/fsnotify/fsnotify":         {"cmd/slabfolio/watch.go"},
	"golang.org/x/term":                    {"cmd/slabfolio"},
	"golang.org/x/text/encoding/ianaindex": {"listing/archive/tagfile.go"},
}

// filesOpened are the files of imaging that may touch the file system: pixels
// come in as bytes and go out as bytes, but for a big set that waits on the disk.
var filesOpened = []string{"imaging/master.go"}

// outsideWorld are what nothing below cmd may read: the clock, the environment,
// chance.
var outsideWorld = map[string][]string{
	"time": {"Now", "Since", "Until"}, "os": {"Getenv", "LookupEnv", "Environ", "Hostname", "Getwd", "UserHomeDir", "UserCacheDir"},
}

// A source is one Go file of the program, tests left out.
type source struct {
	name    string // from the repository's root, forward slashes
	pkg     string
	imports []string
	file    *ast.File
	fset    *token.FileSet
}

// sources parses every Go file of the program.
func sources(t *testing.T) []source {
	t.Helper()
	root := filepath.Join("..", "..")
	var all []source
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() && strings.HasPrefix(d.Name(), ".") && name != "." {
			if err == nil {
				err = fs.SkipDir
			}
			return err
		}
		if d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		fset := token.NewFileSet()
		f, err := parser.ParseFile(fset, filepath.Join(root, filepath.FromSlash(name)), nil, parser.ParseComments)
		if err != nil {
			return err
		}
		s := source{name: name, pkg: path.Dir(name), file: f, fset: fset}
		for _, i := range f.Imports {
			p, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return err
			}
			s.imports = append(s.imports, p)
		}
		all = append(all, s)
		return nil
	})
	if err != nil || len(all) < 100 {
		t.Fatalf("%d files read: %v", len(all), err)
	}
	return all
}

func floorOf(pkg string) int {
	return slices.IndexFunc(floors, func(f []string) bool { return slices.Contains(f, pkg) })
}

// Arrows point down the house and never back, and a package with a ceiling keeps
// below it.
func TestImportsPointDown(t *testing.T) {
	for _, s := range sources(t) {
		if testEquipment.MatchString("/" + s.pkg + "/") {
			continue
		}
		from := floorOf(s.pkg)
		if from < 0 {
			t.Errorf("%s: the package stands on no floor of this test", s.name)
			continue
		}
		for _, i := range s.imports {
			to, own := strings.CutPrefix(i, "slabfolio/")
			switch {
			case !own:
			case testEquipment.MatchString("/" + to + "/"):
				t.Errorf("%s imports the test equipment %s", s.name, to)
			case floorOf(to) <= from:
				t.Errorf("%s imports %s, which does not stand below it", s.name, to)
			}
			if ceiling, ok := ceilings[s.pkg]; ok && own && !slices.Contains(ceiling, to) {
				t.Errorf("%s imports %s; %s may import only %q", s.name, to, s.pkg, ceiling)
			}
		}
		if strings.HasPrefix(s.pkg, "imaging") && slices.ContainsFunc(s.imports, func(i string) bool {
			return strings.HasPrefix(i, "slabfolio/") && !strings.HasPrefix(i, "slabfolio/imaging")
		}) {
			t.Errorf("%s: imaging knows nothing of the rest of the house", s.name)
		}
	}
}

// longestChain is how many packages the longest chain of imports may have, from
// the command to a leaf: what a stranger has to know to follow one call to its end.
const longestChain = 8

// The chain of imports stays short.
func TestImportChain(t *testing.T) {
	imports := map[string][]string{}
	for _, s := range sources(t) {
		if testEquipment.MatchString("/" + s.pkg + "/") {
			continue
		}
		for _, i := range s.imports {
			if to, own := strings.CutPrefix(i, "slabfolio/"); own {
				imports[s.pkg] = append(imports[s.pkg], to)
			}
		}
	}
	var chain func(pkg string) []string
	longest := map[string][]string{}
	chain = func(pkg string) []string {
		if c, ok := longest[pkg]; ok {
			return c
		}
		longest[pkg] = []string{pkg} // ends a circle, which TestImportsPointDown tells
		var below []string
		for _, to := range imports[pkg] {
			if c := chain(to); len(c) > len(below) {
				below = c
			}
		}
		longest[pkg] = append([]string{pkg}, below...)
		return longest[pkg]
	}
	if c := chain("cmd/slabfolio"); len(c) > longestChain {
		t.Errorf("%d packages in a chain, more than %d: %s", len(c), longestChain, strings.Join(c, " imports "))
	} else if len(c) < longestChain {
		t.Errorf("the longest chain has %d packages now: let longestChain and DEVELOPERS.md say so", len(c))
	}
}

// A library with known faults is touched in one place.
func TestLibrariesAreGuarded(t *testing.T) {
	used := map[string]bool{}
	for _, s := range sources(t) {
		for _, i := range s.imports {
			for lib, places := range guards {
				if i != lib && !strings.HasPrefix(i, lib+"/") {
					continue
				}
				used[lib] = true
				if !slices.Contains(places, s.name) && !slices.Contains(places, s.pkg) {
					t.Errorf("%s imports %s, which only %q may", s.name, i, places)
				}
			}
		}
	}
	for lib := range guards {
		if !used[lib] {
			t.Errorf("%s is guarded and not used", lib)
		}
	}
}

// Nothing below cmd reads the clock, the environment or a random number, and
// imaging opens no file but one.
func TestNothingReadsTheWorld(t *testing.T) {
	for _, s := range sources(t) {
		if s.pkg == "cmd/slabfolio" || testEquipment.MatchString("/"+s.pkg+"/") {
			continue
		}
		for _, i := range s.imports {
			if i == "math/rand" || i == "math/rand/v2" || i == "crypto/rand" {
				t.Errorf("%s imports %s", s.name, i)
			}
			if i == "os" && strings.HasPrefix(s.pkg, "imaging") && !slices.Contains(filesOpened, s.name) && usesOther(s.file, "os", "ErrNotExist") {
				t.Errorf("%s touches the file system, which in imaging only %q may", s.name, filesOpened)
			}
		}
		for _, use := range worldReads(s.file) {
			t.Errorf("%s reads the world by %s", s.name, use)
		}
	}
}

// worldReads are the functions that a file calls which read the outside world.
func worldReads(f *ast.File) (found []string) {
	ast.Inspect(f, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if x, ok := sel.X.(*ast.Ident); ok && x.Obj == nil && slices.Contains(outsideWorld[x.Name], sel.Sel.Name) {
				found = append(found, sel.Sel.Name)
			}
		}
		return true
	})
	return found
}

// usesOther reports whether a file uses a package for more than the named thing.
func usesOther(f *ast.File, pkg, but string) (other bool) {
	ast.Inspect(f, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if x, ok := sel.X.(*ast.Ident); ok && x.Obj == nil && x.Name == pkg && sel.Sel.Name != but {
				other = true
			}
		}
		return true
	})
	return other
}

// Every package says what it is for, and every exported name has a comment that
// begins with it.
func TestEverythingIsDocumented(t *testing.T) {
	described := map[string]bool{}
	for _, s := range sources(t) {
		if s.file.Doc != nil {
			described[s.pkg] = true
		}
		for _, d := range s.file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Name.IsExported() && f.Recv == nil && f.Name.Name != "TestMain" {
				if f.Doc == nil || !strings.HasPrefix(f.Doc.Text(), f.Name.Name) {
					t.Errorf("%s: %s has no comment of its own", s.name, f.Name.Name)
				}
			}
		}
	}
	for _, s := range sources(t) {
		if s.file.Name.Name != "main" && !described[s.pkg] {
			t.Errorf("%s: the package says nowhere what it is for", s.pkg)
			described[s.pkg] = true
		}
	}
}

// Every module that go.mod requires has its row in DEVELOPERS.md, and the map of
// the house names every package.
func TestMapIsTrue(t *testing.T) {
	mod, err := os.ReadFile(filepath.Join("..", "..", "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join("..", "..", "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`(?m)^(?:\t|require )(\S+) v\S+$`).FindAllStringSubmatch(string(mod), -1) {
		if !named(string(text), m[1]) {
			t.Errorf("%s has no row in DEVELOPERS.md", m[1])
		}
	}
	for _, f := range floors {
		for _, pkg := range f {
			if _, err := os.Stat(filepath.Join("..", "..", filepath.FromSlash(pkg))); err == nil && !strings.Contains(string(text), path.Base(pkg)+"/") {
				t.Errorf("%s is not on DEVELOPERS.md's map", pkg)
			}
		}
	}
}

// named reports whether a text names a module, whole or in braces: x/{sync,text}.
func named(text, module string) bool {
	short := strings.TrimPrefix(strings.TrimPrefix(module, "github.com/"), "golang.org/")
	short = strings.TrimSuffix(short, regexp.MustCompile(`/v\d+$`).FindString(short))
	if strings.Contains(text, short) {
		return true
	}
	owner, name, _ := strings.Cut(short, "/")
	for _, m := range regexp.MustCompile(regexp.QuoteMeta(owner)+`/\{([^}]*)\}`).FindAllStringSubmatch(text, -1) {
		if slices.Contains(strings.FieldsFunc(m[1], func(r rune) bool { return r == ',' || r == ' ' }), name) {
			return true
		}
	}
	return false
}
