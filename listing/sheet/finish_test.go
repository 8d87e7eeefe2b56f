package sheet

import (
	"bytes"
	"crypto/sha256"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"slabfolio/listing/report"
	"slabfolio/listing/units"
)

// pages counts the page objects of a file of ours.
func pages(data []byte) int { return len(regexp.MustCompile(`/Type/Page\b`).FindAll(data, -1)) }

// writeAll writes every document of every sample into a folder and returns
// the files' names.
func writeAll(t *testing.T) (dir string, names []string) {
	t.Helper()
	dir = t.TempDir()
	for name, data := range everyDocument(t) {
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, data, 0o644); err != nil {
			t.Fatal(err)
		}
		names = append(names, file)
	}
	return dir, names
}

// everyDocument is every document of every sample, made once for all tests.
func everyDocument(t *testing.T) map[string][]byte {
	t.Helper()
	if madeBefore != nil {
		return madeBefore
	}
	hero, two, three := drawn(t, 900, 600), drawn(t, 601, 400), drawn(t, 402, 600)
	all := map[string][]byte{}
	for name, r := range samples() {
		for kind, f := range documents {
			o := options(t, hero, two, three)
			o.Accent = [3]uint8{110, 70, 30}
			data, err := f(r, o)
			if err != nil {
				t.Fatal(err)
			}
			all[name+"-"+kind+".pdf"] = data
		}
	}
	madeBefore = all
	return all
}

var madeBefore map[string][]byte

// jars are those of PDFBox 2 and its preflight, which knows PDF/A-1b.
var jars = []string{"preflight", "pdfbox2", "xmpbox", "fontbox2", "pdfbox2-tools", "commons-logging", "commons-io", "javax.activation", "jaxb-api"}

// classPath is where Java finds them.
func classPath(t *testing.T) string {
	t.Helper()
	var class []string
	for _, j := range jars {
		jar := filepath.Join("/usr/share/java", j+".jar")
		if _, err := os.Stat(jar); err != nil {
			missing(t, jar)
		}
		class = append(class, jar)
	}
	return strings.Join(class, ":")
}

// ISO 19005-1, level B, by an independent validator.
func TestPreflightFindsPDFA1b(t *testing.T) {
	java := reference(t, "java")
	dir, names := writeAll(t)
	out, err := exec.Command(java, "-cp", classPath(t), "org.apache.pdfbox.preflight.Validator_A1b", "batch", dir).CombinedOutput()
	if err != nil {
		t.Errorf("preflight: %v", err)
	}
	for _, n := range names {
		if !bytes.Contains(out, []byte("The file "+filepath.Base(n)+" is a valid PDF/A-1b file")) {
			t.Errorf("%s is not valid PDF/A-1b", filepath.Base(n))
		}
	}
	if t.Failed() {
		t.Logf("%s", out)
	}
}

func TestQPDFFindsNoFault(t *testing.T) {
	qpdf := reference(t, "qpdf")
	_, names := writeAll(t)
	for _, n := range names {
		if out, err := exec.Command(qpdf, "--check", n).CombinedOutput(); err != nil || bytes.Contains(out, []byte("WARNING")) {
			t.Errorf("%s: %v\n%s", filepath.Base(n), err, out)
		}
	}
}

func TestEveryFontIsEmbedded(t *testing.T) {
	pdffonts := reference(t, "pdffonts")
	_, names := writeAll(t)
	for _, n := range names {
		out, err := exec.Command(pdffonts, n).Output()
		if err != nil {
			t.Fatal(err)
		}
		rows := strings.Split(strings.TrimSpace(string(out)), "\n")[2:]
		if len(rows) == 0 {
			t.Errorf("%s has no fonts", filepath.Base(n))
		}
		for _, row := range rows {
			// name, type, encoding, embedded, subset, with a map to Unicode
			f := strings.Fields(row)
			if !strings.Contains(row, "CID TrueType") || f[4] != "yes" || f[6] != "yes" {
				t.Errorf("%s: %s", filepath.Base(n), row)
			}
		}
	}
}

func TestFileSaysWhatItIs(t *testing.T) {
	pdfinfo := reference(t, "pdfinfo")
	data, err := Sheet(usual(), options(t))
	if err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(name, data, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(pdfinfo, "-isodates", name).Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Estuary console table, OY-0142", "Ostrel Yard", "slabfolio 0.1-test", "2026-09-18T00:00:00"} {
		if !strings.Contains(string(out), want) {
			t.Errorf("pdfinfo does not say %q:\n%s", want, out)
		}
	}
	if !bytes.Contains(data, []byte("/Lang(en)")) {
		t.Error("the catalog has no language")
	}
}

// Fifty runs, alone and side by side, give one file; and pdfcpu leaves no
// configuration behind.
func TestSameReportSameBytes(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	t.Setenv("XDG_CONFIG_HOME", filepath.Join(home, "config"))
	o := options(t, drawn(t, 600, 400), drawn(t, 301, 200), drawn(t, 202, 300), drawn(t, 303, 200))
	o.Pictures[1].Caption = "The iron staple"
	r := shortest() // its page has room for the further photos
	first, err := Sheet(r, o)
	if err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(first, []byte("/Subtype/Image")); n != 4 {
		t.Fatalf("the file has %d pictures, want 4", n)
	}
	want := sha256.Sum256(first)
	var wait sync.WaitGroup
	for range 5 {
		wait.Go(func() {
			for range 10 {
				data, err := Sheet(r, o)
				if err != nil || sha256.Sum256(data) != want {
					t.Errorf("another run gave other bytes (error: %v)", err)
				}
			}
		})
	}
	wait.Wait()
	for kind, f := range documents {
		one, err1 := f(fullest(), o)
		two, err2 := f(fullest(), o)
		if err1 != nil || err2 != nil || !bytes.Equal(one, two) {
			t.Errorf("%s differs from run to run (%v, %v)", kind, err1, err2)
		}
	}
	if left, _ := os.ReadDir(home); len(left) > 0 {
		t.Errorf("something was written into the home folder: %v", left)
	}
}

func TestTwoPicturesOfOneWidthAreRefused(t *testing.T) {
	_, err := Sheet(shortest(), options(t, drawn(t, 600, 400), drawn(t, 300, 200), drawn(t, 300, 210)))
	if err == nil || !strings.Contains(err.Error(), "300 pixels wide") {
		t.Errorf("got %v", err)
	}
}

func TestBadOptionsAreRefused(t *testing.T) {
	o := options(t)
	o.Paper = "foolscap"
	if _, err := Sheet(usual(), o); err == nil || !strings.Contains(err.Error(), "foolscap") {
		t.Errorf("paper: got %v", err)
	}
	if _, err := Care(nil, options(t)); err == nil {
		t.Error("no report: no error")
	}
	if _, err := Sheet(usual(), options(t, Picture{JPEG: []byte("no picture"), Width: 3, Height: 2})); err == nil {
		t.Error("a picture that is none: no error")
	}
}

// The usual piece takes two pages, whatever the paper and the units; nothing
// that a maker can write takes more than it needs.
func TestPageCounts(t *testing.T) {
	hero := drawn(t, 900, 600)
	tall := drawn(t, 600, 900)
	for _, c := range []struct {
		name     string
		r        *report.Report
		pictures []Picture
		most     int
	}{
		{"shortest", shortest(), []Picture{hero}, 1},
		{"shortest without a photo", shortest(), nil, 1},
		{"usual", usual(), []Picture{hero}, 2},
		{"usual, photo upright", usual(), []Picture{tall}, 2},
		{"usual without a photo", usual(), nil, 2},
		{"round", round(), []Picture{hero}, 2},
		{"desk with much to mind", desk(), []Picture{hero}, 2},
		{"long", long(), []Picture{hero}, 2},
		{"fullest", fullest(), []Picture{hero}, 4},
	} {
		for _, paper := range []string{"a4", "letter"} {
			for _, prefer := range []units.System{units.Inches, units.Centimetres, units.Millimetres} {
				o := options(t, c.pictures...)
				o.Paper, o.Prefer = paper, prefer
				data, err := Sheet(c.r, o)
				if err != nil {
					t.Fatal(err)
				}
				if n := pages(data); n > c.most {
					t.Errorf("%s on %s in %s takes %d pages, want at most %d", c.name, paper, prefer, n, c.most)
				}
			}
		}
	}
}
