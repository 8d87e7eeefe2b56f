package piece

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
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
			var findings []Finding
			taken := memory(func() { _, findings = ParsePiece("piece.yaml", []byte(text), Defaults{}) })
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
			if taken > 200e6 {
				t.Errorf("%d MB of memory", taken/1e6)
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

// memory returns how many bytes of memory a call takes, all that is given back in
// between counted as well: a measure of its work that does not hang on how busy
// the machine is.
func memory(do func()) uint64 {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	do()
	runtime.ReadMemStats(&after)
	return after.TotalAlloc - before.TotalAlloc
}

// The work of a spec grows with its size and no faster: twice as many entries,
// wrong or right, take twice the memory, up to the number of findings that are
// said.
func TestWorkGrowsWithTheSize(t *testing.T) {
	numbered := func(n int, format string) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, format, i)
		}
		return b.String()
	}
	for name, shape := range map[string]func(n int) string{
		"unknown keys":             func(n int) string { return numbered(n, "kex%d: x\n") },
		"keys that are nearly one": func(n int) string { return numbered(n, "finishe%d: x\n") },
		"unknown keys in braces":   func(n int) string { return "top: {" + numbered(n, "kex%d: x, ") + "}\n" },
		"keys without values":      func(n int) string { return "top: {" + numbered(n, "kex%d, ") + "}\n" },
		"a key again and again":    func(n int) string { return strings.Repeat("serial: A\n", n) },
		"entries":                  func(n int) string { return "glue:\n" + strings.Repeat("  - x\n", n) },
		"entries on one line":      func(n int) string { return "glue: [" + strings.Repeat("x, ", n) + "x]\n" },
		"lengths that are none": func(n int) string {
			return "top: {outline: {length: 5 in, points: [" + strings.Repeat("[a, 2], ", n) + "]}}\n"
		},
		"corners":                func(n int) string { return "top: {outline: {points: [" + strings.Repeat("[1, 2], ", n) + "]}}\n" },
		"photos in order":        func(n int) string { return "photos: {order: [" + numbered(n, "p%d.jpg, ") + "]}\n" },
		"one photo in order":     func(n int) string { return "photos: {order: [" + strings.Repeat("p.jpg, ", n) + "]}\n" },
		"views that are none":    func(n int) string { return "photos:\n  views:\n" + numbered(n, "    p%d.jpg: frnt\n") },
		"captions":               func(n int) string { return "photos:\n  captions:\n" + numbered(n, "    p%d.jpg: x\n") },
		"parts":                  func(n int) string { return "parts:\n" + strings.Repeat("  - {name: x, size: [1, 2]}\n", n/10) },
		"woods":                  func(n int) string { return "top:\n  wood:\n" + strings.Repeat("    - {species: elm}\n", n/100) },
		"materials":              func(n int) string { return "materials:\n" + strings.Repeat("  - {use: a, bought: 2026-13-01}\n", n/10) },
		"remarks behind values":  func(n int) string { return "parts:\n" + strings.Repeat("  - name: x #3\n", n/10) },
		"keys without colons":    func(n int) string { return "top: {outline: {" + numbered(n, "width %d, ") + "}}\n" },
		"commas inside a value":  func(n int) string { return "delivery: {assembly: " + strings.Repeat("a, ", n) + "}\n" },
		"languages":              func(n int) string { return "translations:\n" + strings.Repeat("  de: {title: x}\n", n) },
		"words in a word":        func(n int) string { return "kind: " + strings.Repeat("table ", n) + "\n" },
		"words in a length":      func(n int) string { return "weighed: " + strings.Repeat("1 kg ", n) + "\n" },
		"words in a price":       func(n int) string { return "price: {amount: " + strings.Repeat("1 ", n) + "}\n" },
		"a date of many words":   func(n int) string { return "finished: " + strings.Repeat("1 ", n) + "\n" },
		"a serial of many words": func(n int) string { return "serial: " + strings.Repeat("a ", n) + "\n" },
		"a key of many words":    func(n int) string { return strings.Repeat("kex ", n) + ": x\n" },
		"crosses":                func(n int) string { return "base: {sections: {section: " + strings.Repeat("1x", n) + "}}\n" },
	} {
		const n = 4000
		read := func(n int) uint64 {
			text := []byte(shape(n))
			return memory(func() { ParsePiece("piece.yaml", text, Defaults{}) })
		}
		read(n) // what is made once is made
		if once, twice := read(n), read(2*n); float64(twice) > 2.6*float64(once)+2e6 || twice > 200e6 {
			t.Errorf("%s: %d bytes of memory, and %d for twice as many", name, once, twice)
		}
	}
}

// A file of the largest size that is read is read with little memory.
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
	var p *Piece
	var findings []Finding
	taken := memory(func() { p, findings = ParsePiece("piece.yaml", []byte(b.String()), Defaults{}) })
	if len(findings) != 0 || len(p.Top.Outline.Points) != 19999 {
		t.Errorf("%d points, %d findings", len(p.Top.Outline.Points), len(findings))
	}
	if taken > 200e6 {
		t.Errorf("%d KiB take %d MB of memory", b.Len()>>10, taken/1e6)
	}
}

// A traced outline of as many points as are read, all on one line.
func TestLongestLine(t *testing.T) {
	spec := strings.Replace(specBase, "{length: 54 in, width: 14 in}", "{points: ["+strings.Repeat("[54.25, 13.5], ", 19998)+"[0, 0]]}", 1)
	var p *Piece
	var findings []Finding
	taken := memory(func() { p, findings = ParsePiece("piece.yaml", []byte(spec), Defaults{}) })
	if len(findings) != 0 || len(p.Top.Outline.Points) != 19999 {
		t.Errorf("%d points, findings %v", len(p.Top.Outline.Points), findings)
	}
	if taken > 200e6 {
		t.Errorf("%d MB of memory", taken/1e6)
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
	if !code.MatchString(f.Code) || f.Line < 1 || f.Column < 1 || f.File == "" || f.Message == "" || f.Remedy == "" || f.Code == "" || f.Rank == "" {
		t.Errorf("%+v lacks its place, its words or its rank", f)
	}
}
