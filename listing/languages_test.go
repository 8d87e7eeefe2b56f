package listing

import (
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// A piece in two languages has its papers and its page in both, with the maker's own
// translation where there is one, and each page leads to the other.
func TestTwoLanguages(t *testing.T) {
	dir, o := layBoard(t)
	write := func(more string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(dir, "piece.yaml"), []byte(boardSpec+more), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	run := func() []piece.Finding {
		t.Helper()
		sum, err := Prepare(t.Context(), []string{dir}, o)
		if err != nil {
			t.Fatal(err)
		}
		if got := sum.Results[0].Outcome; got != Prepared {
			t.Fatalf("%s: %v", got, sum.Results[0].Findings)
		}
		return sum.Results[0].Findings
	}
	file := func(name string) string {
		t.Helper()
		data, err := os.ReadFile(filepath.Join(o.Out, "OY-1", name))
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}

	write("story: It grew by the mill.\nlang: [en-GB, de, xx]\ntranslations: {de: {title: Brettchen}}\n")
	findings := run()
	told := false
	for _, f := range findings {
		told = told || f.Code == "lang.unknown" && f.Line > 0
	}
	if !told {
		t.Errorf("a language that there is not is not told: %v", findings)
	}
	for _, name := range []string{"sheet.pdf", "sheet.de.pdf", "care.de.pdf", "label.de.pdf", "certificate.de.pdf", "shipping.pdf"} {
		file(name)
	}
	if _, err := os.Stat(filepath.Join(o.Out, "OY-1", "shipping.de.pdf")); !errors.Is(err, fs.ErrNotExist) {
		t.Error("the carrier's sheet is in two languages")
	}
	for name, want := range map[string][]string{
		"listing/index.html":     {`<html lang="en-GB">`, `hreflang="de" href="de/index.html"`, "<p>It grew by the mill.</p>"},
		"listing/de/index.html":  {`<html lang="de">`, `hreflang="en-GB" href="../index.html"`, "Brettchen", `<p lang="en-GB">It grew by the mill.</p>`},
		"listing/de/listing.txt": {"Brettchen", "Servierbrett"},
	} {
		for _, w := range want {
			if !strings.Contains(file(name), w) {
				t.Errorf("%s lacks %s:\n%s", name, w, file(name))
			}
		}
	}

	shop := filepath.Join(filepath.Dir(dir), "workshop.yaml")
	if err := os.WriteFile(shop, []byte("workshop:\n  name: Ostrel Yard\nbase_url: https://ostrel.example/pieces/\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	run()
	for name, want := range map[string]string{"sheet.pdf": "pieces/OY-1/", "sheet.de.pdf": "pieces/OY-1/de/"} {
		if got := printedAddress(t, filepath.Join(o.Out, "OY-1", name)); !strings.HasSuffix(got, want) {
			t.Errorf("%s leads to %q, want …%s", name, got, want)
		}
	}

	write("lang: en\n")
	run()
	for _, name := range []string{"sheet.de.pdf", "listing/de/index.html"} {
		if _, err := os.Stat(filepath.Join(o.Out, "OY-1", name)); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("%s stays after its language was taken out", name)
		}
	}

	o.Langs = []string{"de"}
	run()
	if !strings.Contains(file("listing/index.html"), `<html lang="de">`) {
		t.Error("the language of the command line does not go before the piece's")
	}
}

// printedAddress is the address that a document prints, which its code says too.
func printedAddress(t *testing.T, name string) string {
	t.Helper()
	pdftotext, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Skip("pdftotext is missing")
	}
	out, err := exec.Command(pdftotext, "-raw", name, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(strings.Join(strings.Fields(string(out)), ""), "https://")
	return regexp.MustCompile(`^[a-z./]*OY-1/(de/)?`).FindString(rest)
}

// What a buyer gets goes with the piece, in every language; what a carrier reads and
// what nobody knows does not.
func TestPublic(t *testing.T) {
	for rel, want := range map[string]bool{
		"sheet.pdf": true, "sheet.de.pdf": true, "care.en-US.pdf": true, "certificate.pdf": true, "label.nl.pdf": true, "listing/de/index.html": true,
		"shipping.pdf": false, "shipping.de.pdf": false, "report.json": false, "overview/a.jpg": false, "sheet.txt": false, "private/sheet.pdf": false, "sheets.pdf": false,
	} {
		if got := Public(rel); got != want {
			t.Errorf("%s: public %v, want %v", rel, got, want)
		}
	}
}
