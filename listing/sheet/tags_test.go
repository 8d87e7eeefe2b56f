package sheet

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var (
	markedContent = regexp.MustCompile(`/(\w+) <</MCID (\d+)>> BDC`)
	markReference = regexp.MustCompile(`<</MCID (\d+)/Pg (\d+) 0 R/Type/MCR>>`)
	structElement = regexp.MustCompile(`/S/(\w+)/Type/StructElem>>$`)
)

// Every mark of every page is named once by the tree, by an element of the mark's
// own role, as ISO 32000-1, 14.7.4 has it; figures say what they show; and all text
// of a page is marked, as content or as an artifact (readBack sees to that).
func TestEveryMarkIsInTheTree(t *testing.T) {
	for name, data := range everyDocument(t) {
		readBack(t, data)
		named := map[string]string{}
		for _, source := range objects(data) {
			role := structElement.FindSubmatch(source)
			if role == nil {
				continue
			}
			if string(role[1]) == "Figure" && !strings.Contains(string(source), "/Alt<") {
				t.Errorf("%s: a figure says nothing: %s", name, source)
			}
			for _, m := range markReference.FindAllSubmatch(source, -1) {
				key := string(m[2]) + "/" + string(m[1])
				if named[key] != "" {
					t.Errorf("%s: mark %s is named twice", name, key)
				}
				named[key] = string(role[1])
			}
		}
		marks := 0
		numbers := pageNumbers(t, data)
		for i, stream := range pageStreams(t, data) {
			for _, m := range markedContent.FindAllSubmatch(stream, -1) {
				marks++
				key := strconv.Itoa(numbers[i]) + "/" + string(m[2])
				if named[key] != string(m[1]) {
					t.Errorf("%s: mark %s is of %s, in the tree of %q", name, key, m[1], named[key])
				}
			}
		}
		if marks == 0 || marks != len(named) {
			t.Errorf("%s: %d marks, %d in the tree", name, marks, len(named))
		}
	}
}

// pageNumbers are the numbers of the pages' objects, in order.
func pageNumbers(t *testing.T, data []byte) []int {
	t.Helper()
	var out []int
	for _, m := range regexp.MustCompile(`(\d+) 0 R`).FindAllSubmatch(kids.FindSubmatch(objects(data)[1])[1], -1) {
		n, err := strconv.Atoi(string(m[1]))
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, n)
	}
	return out
}

// The maker's addresses and the listing's are links, printed as nothing; headings
// are bookmarks.
func TestLinksAndBookmarks(t *testing.T) {
	data, err := Sheet(usual(), options(t, drawn(t, 900, 600)))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"/URI(mailto:bench@ostrelyard.example)", "/URI(https://ostrelyard.example)", "/URI(https://ostrelyard.example/pieces/OY-0142/)"} {
		if n := strings.Count(string(data), want); n != 1 {
			t.Errorf("%s stands there %d times", want, n)
		}
	}
	for _, source := range objects(data) {
		if s := string(source); strings.Contains(s, "/Subtype/Link") && (!strings.Contains(s, "/F 4") || !strings.Contains(s, "/StructParent ")) {
			t.Errorf("a link without its flags: %s", s)
		}
	}
	for _, want := range []string{"Estuary console table", "Care", "Cautions"} {
		if !strings.Contains(string(data), "/Title"+textString(want)) {
			t.Errorf("no bookmark %q", want)
		}
	}
}

// An address is written in the letters that a PDF string may hold as they are.
func TestAddressesAreEscaped(t *testing.T) {
	if got, want := asciiString(`https://x.example/a (b)\ü`), `(https://x.example/a%20%28b%29%5C%C3%BC)`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// Poppler reads the tree: the title, a table with heads, the paragraphs in order.
func TestPopplerReadsTheTree(t *testing.T) {
	pdfinfo := reference(t, "pdfinfo")
	data, err := Sheet(usual(), options(t, drawn(t, 900, 600)))
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(name, data, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(pdfinfo, "-struct-text", name).Output()
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(string(out)), " ")
	at := 0
	for _, want := range []string{
		`H1 (block) "Estuary console table"`, `Table (block) TR TH: /Scope /Row "Length" TD "54 in" TD "137.2 cm"`, `Lbl (block) "Finish" LBody (block) "Hardwax oil,`,
		`H2 (block) "Care"`, `"The first weeks`, `H2 (block) "Cautions"`, `"Lifting`,
	} {
		i := strings.Index(text[at:], want)
		if i < 0 {
			t.Fatalf("after %d letters of the tree there is no %s:\n%s", at, want, out)
		}
		at += i
	}
	info, err := exec.Command(pdfinfo, name).Output()
	if err != nil || !strings.Contains(string(info), "Tagged:          yes") {
		t.Errorf("not tagged: %v\n%s", err, info)
	}
}
