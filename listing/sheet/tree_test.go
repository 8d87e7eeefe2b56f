package sheet

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// standardTypes are the standard structure types that we use (ISO 32000-1, 14.8.4).
var standardTypes = []string{"Document", "H1", "H2", "P", "Table", "TR", "TH", "TD", "L", "LI", "Lbl", "LBody", "Figure", "Link"}

// trees are the elements of the structure trees of PDFs with the words of each, as
// PDFBox 2 reads them: one start of Java, which compiles its reader in passing.
func trees(t *testing.T, names []string) [][]string {
	t.Helper()
	java := reference(t, "java")
	reference(t, "javac")
	var wrong bytes.Buffer
	cmd := exec.Command(java, append([]string{"-Dfile.encoding=UTF-8", "-cp", classPath(t), filepath.Join("testdata", "java", "Tree.java")}, names...)...)
	cmd.Stderr = &wrong
	out, err := cmd.Output()
	all := strings.Split(string(out), "\f")
	if err != nil || len(all) != len(names)+1 {
		t.Fatalf("%d trees of %d papers: %v\n%s", len(all)-1, len(names), err, wrong.Bytes())
	}
	lines := make([][]string, len(names))
	for i := range names {
		lines[i] = strings.Split(strings.TrimSpace(all[i]), "\n")
	}
	return lines
}

// PDFBox reads the tree of every document of a piece: the language, standard types
// alone, a name for each figure, the title before all other headings, tables whose
// rows have a head and two cells, list items of a label and its text, the words of care
// and cautions whole, each once and in the order of the report, and every link.
func TestPDFBoxReadsTheTree(t *testing.T) {
	r, dir := usual(), t.TempDir()
	var kinds, names []string
	for kind, make := range documents {
		data, err := make(r, options(t, drawn(t, 900, 600)))
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Join(dir, kind+".pdf")
		if err := os.WriteFile(name, data, 0o644); err != nil {
			t.Fatal(err)
		}
		kinds, names = append(kinds, kind), append(names, name)
	}
	for i, lines := range trees(t, names) {
		kind := kinds[i]
		if lines[0] != "marked true lang en" {
			t.Errorf("%s: %s", kind, lines[0])
		}
		checkTree(t, kind, lines)
		all := strings.ReplaceAll(strings.Join(lines, "\n"), "\u00a0", " ")
		if kind != "sheet" {
			continue
		}
		at := 0
		for _, p := range append(slices.Clone(r.Public.Care), r.Public.Cautions...) {
			i := strings.Index(all[at:], p.Text)
			if i < 0 || strings.Count(all, p.Text) != 1 {
				t.Errorf("the tree does not hold once and after what comes before it: %s", p.Text)
				continue
			}
			at += i
		}
		for _, want := range []string{"\nlinks 3\n", "\nbookmark Estuary console table\n", "\nbookmark Care\n", "H1: Estuary console table\n", "TH: Length\n", "TD: 54 in\n", "TD: 137.2 cm\n", "Link: bench@ostrelyard.example\n"} {
			if !strings.Contains(all, want) {
				t.Errorf("the tree has no %q:\n%s", want, all)
			}
		}
	}
}

// checkTree holds what is true of the tree of every document.
func checkTree(t *testing.T, kind string, lines []string) {
	t.Helper()
	cells := map[string]int{}
	first := ""
	for _, l := range lines[1:] {
		role, words, ok := strings.Cut(strings.TrimSpace(l), ":")
		role, alt, named := strings.Cut(role, " alt=")
		if strings.HasPrefix(l, "links ") || strings.HasPrefix(l, "bookmark ") || !ok && !named {
			continue
		}
		if !slices.Contains(standardTypes, role) {
			t.Errorf("%s: %q is no standard type: %s", kind, role, l)
		}
		if role == "Figure" && strings.TrimSpace(alt) == "" {
			t.Errorf("%s: a figure without a name: %s", kind, l)
		}
		if strings.Contains(words, "?") && strings.TrimSpace(words) == "?" {
			t.Errorf("%s: the tree names a mark that is not there: %s", kind, l)
		}
		if strings.HasPrefix(role, "H") && first == "" {
			first = role
		}
		switch role {
		case "TR":
			if n := cells["TH"]; cells["TR"] > 0 && n != 1 && kind != "pricelist" {
				t.Errorf("%s: a row with %d heads", kind, n)
			}
			cells = map[string]int{"TR": 1}
		case "TH", "TD":
			cells[role]++
			if strings.TrimSpace(words) == "" {
				t.Errorf("%s: an empty cell", kind)
			}
		case "P", "LBody", "Lbl", "H1", "H2":
			if strings.TrimSpace(words) == "" {
				t.Errorf("%s: an empty %s", kind, role)
			}
		}
	}
	if first != "" && first != "H1" && first != "H2" {
		t.Errorf("%s begins with %s", kind, first)
	}
}
