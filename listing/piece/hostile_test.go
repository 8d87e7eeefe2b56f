package piece

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Files that were made to hurt, or by mistake: each ends in a fault with a place,
// and soon.
func TestHostileFiles(t *testing.T) {
	deep := strings.Repeat("a: {", 5000)
	bomb := "a: &a [x, x, x, x, x, x, x, x, x]\n"
	for i := range 9 {
		c := string(rune('b' + i))
		p := string(rune('a' + i))
		bomb += c + ": &" + c + " [" + strings.Repeat("*"+p+", ", 9) + "*" + p + "]\n"
	}
	var steps strings.Builder
	for i := range 400 {
		steps.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	for name, text := range map[string]string{
		"nothing":                "",
		"nul":                    "serial: \x00\n",
		"not utf-8":              "title: \xff\xfe\xfd\n",
		"utf-16":                 "\xff\xfes\x00e\x00",
		"a picture":              "\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR",
		"too large":              strings.Repeat("# remark\n", 200000),
		"one long line":          "title: " + strings.Repeat("x", 600000) + "\n",
		"deep braces":            deep,
		"deep closed braces":     deep + strings.Repeat("}", 5000),
		"deep brackets":          "a: " + strings.Repeat("[", 100000),
		"deep hyphens":           strings.Repeat("- ", 100000),
		"deep question marks":    strings.Repeat("? ", 100000),
		"deep steps":             steps.String(),
		"alias bomb":             bomb,
		"alias to itself":        "title: &a [*a]\n",
		"merge":                  "<<: {a: b}\ntitle: x\n",
		"merge list":             "<<: [*a, *b]\n",
		"anchor":                 specBase + "story: &x y\n",
		"tag":                    specBase + "story: !!binary aGVsbG8=\n",
		"own tag":                specBase + "story: !thing x\n",
		"complex key":            specBase + "? [a, b]\n: c\n",
		"directive":              "%YAML 3.0\n---\n" + specBase,
		"unknown directive":      "%FOO bar\n" + specBase,
		"two documents":          specBase + "---\n" + specBase,
		"three documents":        "---\n---\n---\na: b\n",
		"number at the top":      "42\n",
		"list at the top":        "[1, 2]\n",
		"null at the top":        "~\n",
		"quote never closed":     "title: \"" + strings.Repeat("x\n", 1000),
		"control characters":     "title: a\x1b[31mred\n",
		"escaped control":        specBase + "mark: \"\\e[31mred\"\n",
		"escaped nul":            specBase + "mark: \"a\\0b\"\n",
		"many faults":            strings.Repeat("a b c\n", 3000),
		"many unknown keys":      manyKeys(3000),
		"more lines than keys":   specBase + strings.Repeat("x: y\n", 30000),
		"colon soup":             strings.Repeat(":", 2000) + "\n" + strings.Repeat(": ", 2000),
		"quote soup":             strings.Repeat("\"'", 2000),
		"tab soup":               strings.Repeat("\t:\t-\t", 2000),
		"only hyphens":           strings.Repeat("-\n", 2000),
		"huge number":            specBase + "quantity: " + strings.Repeat("9", 500) + "\n",
		"huge length":            specBase + "weighed: " + strings.Repeat("9", 70) + " kg\n",
		"right to left override": specBase + "stroy\u202e: x\n",
	} {
		t.Run(name, func(t *testing.T) {
			begin := time.Now()
			_, findings := ParsePiece("piece.yaml", []byte(text), Defaults{})
			faults := 0
			for _, f := range findings {
				wellSaid(t, f)
				if f.Rank == Fault {
					faults++
				}
				if strings.ContainsAny(f.Snippet, "\x1b\x00") {
					t.Errorf("the snippet %q would reach a terminal as it is", f.Snippet)
				}
			}
			if faults == 0 {
				t.Errorf("no fault; findings: %v", findings)
			}
			if took := time.Since(begin); took > 5*time.Second {
				t.Errorf("took %v", took)
			}
			ParseWorkshop("workshop.yaml", []byte(text))
		})
	}
}

func manyKeys(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat("k", 1+i%30) + strings.Repeat("z", i/30) + ": x\n")
	}
	return b.String()
}

// A file of the largest size that is read is read in good time.
func TestLargestFile(t *testing.T) {
	var b strings.Builder
	b.WriteString(strings.Replace(specBase, "  outline: {length: 54 in, width: 14 in}\n", "", 1))
	b.WriteString("  outline:\n    points: [")
	for i := range 19999 {
		if i > 0 {
			b.WriteString(", ")
		}
		if i%10 == 9 {
			b.WriteString("\n      ")
		}
		b.WriteString("[54.25, 13.5]")
	}
	b.WriteString("]\n")
	begin := time.Now()
	p, findings := ParsePiece("piece.yaml", []byte(b.String()), Defaults{})
	if len(findings) != 0 || len(p.Top.Outline.Points) != 19999 {
		t.Errorf("%d points, %d findings", len(p.Top.Outline.Points), len(findings))
	}
	if took := time.Since(begin); took > 10*time.Second {
		t.Errorf("%d KiB took %v", b.Len()>>10, took)
	} else {
		t.Logf("%d KiB in %v", b.Len()>>10, took)
	}
}

// A traced outline of as many points as are read, all on one line.
func TestLongestLine(t *testing.T) {
	spec := strings.Replace(specBase, "{length: 54 in, width: 14 in}", "{points: ["+strings.Repeat("[54.25, 13.5], ", 19998)+"[0, 0]]}", 1)
	begin := time.Now()
	p, findings := ParsePiece("piece.yaml", []byte(spec), Defaults{})
	if len(findings) != 0 || len(p.Top.Outline.Points) != 19999 {
		t.Errorf("%d points, findings %v", len(p.Top.Outline.Points), findings)
	}
	if took := time.Since(begin); took > 5*time.Second {
		t.Errorf("took %v", took)
	}
}

// FuzzParsePiece: no panic, every finding has its place and its words, and the
// same bytes give the same findings.
func FuzzParsePiece(f *testing.F) {
	f.Add([]byte(specBase))
	f.Add([]byte(example(pieceKeys, "", leftOfWays(0), "")))
	inputs, _ := filepath.Glob("testdata/messages/*.yaml")
	for _, input := range inputs {
		data, err := os.ReadFile(input)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 20000 {
			t.Skip("large files have a test of their own")
		}
		_, findings := ParsePiece("piece.yaml", data, Defaults{})
		for _, one := range findings {
			placed(t, one)
		}
		_, again := ParsePiece("piece.yaml", data, Defaults{})
		if say(again) != say(findings) {
			t.Errorf("the same bytes gave other findings")
		}
		_, findings = ParseWorkshop("workshop.yaml", data)
		for _, one := range findings {
			placed(t, one)
		}
	})
}

// placed checks that a finding has its place and its words. A remedy may end in
// the maker's own full stop, so the form is not looked at.
func placed(t *testing.T, f Finding) {
	t.Helper()
	if f.Line < 1 || f.Column < 1 || f.File == "" || f.Message == "" || f.Remedy == "" || f.Code == "" || f.Rank == "" {
		t.Errorf("%+v lacks its place, its words or its rank", f)
	}
}
