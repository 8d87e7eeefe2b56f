package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// silent are the packages whose texts no maker reads on a terminal: what they write
// is for the buyer, or is no words.
var silent = []string{"listing/page", "listing/sheet", "listing/drawing", "templates", "testdata"}

// A message is one text of the program's code that a maker may read.
type message struct{ place, text string }

// messages gathers the texts of three words and more in the code that speaks to the
// maker, in the order of files and lines. What is put in comes out as …
func messages(t *testing.T) []message {
	t.Helper()
	var all []message
	for _, s := range sources(t) {
		if slices.Contains(silent, s.pkg) || testEquipment.MatchString("/"+s.pkg+"/") || strings.HasPrefix(s.pkg, "imaging") {
			continue
		}
		skip := map[ast.Node]bool{}
		ast.Inspect(s.file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.ImportSpec, *ast.Field: // paths and tags
				if f, ok := n.(*ast.Field); ok && f.Tag != nil {
					skip[f.Tag] = true
				}
			case *ast.CallExpr:
				if f, ok := n.Fun.(*ast.SelectorExpr); ok && (slices.Contains([]string{"MustCompile", "NewReplacer", "Pattern"}, f.Sel.Name)) {
					return false
				}
			case *ast.BinaryExpr, *ast.BasicLit:
				if text, ok := literal(n); ok && !skip[n] {
					ast.Inspect(n, func(m ast.Node) bool { skip[m] = true; return true })
					if words(text) >= 3 {
						all = append(all, message{fmt.Sprintf("%s:%d", s.name, s.fset.Position(n.Pos()).Line), text})
					}
				}
			}
			return true
		})
	}
	slices.SortStableFunc(all, func(a, b message) int {
		return strings.Compare(a.place[:strings.IndexByte(a.place, ':')], b.place[:strings.IndexByte(b.place, ':')])
	})
	return all
}

// literal is the text of a literal, or of a sum that has one in it.
func literal(n ast.Node) (string, bool) {
	switch n := n.(type) {
	case *ast.BasicLit:
		if n.Kind != token.STRING {
			return "", false
		}
		text, err := strconv.Unquote(n.Value)
		return text, err == nil
	case *ast.BinaryExpr:
		if n.Op != token.ADD {
			return "", false
		}
		x, okX := literal(n.X)
		y, okY := literal(n.Y)
		if !okX {
			x = "…"
		}
		if !okY {
			y = "…"
		}
		return x + y, okX || okY
	}
	return "", false
}

func words(text string) int {
	n := 0
	for _, w := range strings.Fields(text) {
		if strings.IndexFunc(w, unicode.IsLetter) >= 0 {
			n++
		}
	}
	return n
}

// offWords are words that no message needs: they scold, they beg, they belong to
// programs, or they say that something went wrong and not what.
var offWords = regexp.MustCompile(`(?i)\b(invalid|illegal|failed|failure|unable to|unexpected|please|sorry|oops|error occurred|null|parse error|exception|abort(ed)?|deprecated|simply)\b`)

// Every text that a maker may read is in plain words. With SLABFOLIO_MESSAGES=FILE
// all of them are written there, to be read aloud.
func TestMessagesArePlain(t *testing.T) {
	all := messages(t)
	if len(all) < 500 {
		t.Fatalf("only %d messages were found", len(all))
	}
	var list strings.Builder
	for _, m := range all {
		fmt.Fprintf(&list, "%s\t%s\n", m.place, strings.ReplaceAll(m.text, "\n", " / "))
		if off := offWords.FindString(m.text); off != "" {
			t.Errorf("%s: %q says %q; say what happened and what to do", m.place, m.text, off)
		}
		if strings.Contains(strings.TrimSpace(m.text), "  ") && !strings.Contains(m.text, "\n") {
			t.Errorf("%s: %q has two blanks in a row", m.place, m.text)
		}
	}
	if name := os.Getenv("SLABFOLIO_MESSAGES"); name != "" {
		if err := os.WriteFile(name, []byte(list.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%d messages", len(all))
}
