package yamltext

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
)

// shapes are files that were made to cost a reader of YAML much: each grows with
// n, which is about its size in bytes.
var shapes = map[string]func(n int) string{
	"brackets never closed":             func(n int) string { return strings.Repeat("[", n) },
	"brackets on lines":                 func(n int) string { return "a:\n" + strings.Repeat("  [\n", n/4) },
	"braces in braces":                  func(n int) string { return strings.Repeat("{a: ", n/4) },
	"hyphens in hyphens":                func(n int) string { return strings.Repeat("- ", n/2) },
	"question marks":                    func(n int) string { return strings.Repeat("? ", n/2) },
	"steps down":                        stairs,
	"commas":                            func(n int) string { return "a: [" + strings.Repeat(",", n) + "]\n" },
	"entries on one line":               func(n int) string { return "a: [" + strings.Repeat("x, ", n/3) + "x]\n" },
	"quoted entries on one line":        func(n int) string { return "a: [" + strings.Repeat("\"x\", ", n/5) + "'x']\n" },
	"letters of two bytes":              func(n int) string { return "a: [" + strings.Repeat("ü, ", n/4) + "x]\n" },
	"entries on lines":                  func(n int) string { return "a:\n" + strings.Repeat("  - x\n", n/6) },
	"groups on lines":                   func(n int) string { return "a:\n" + strings.Repeat("  - b: c\n    d: e\n", n/18) },
	"keys":                              func(n int) string { return numbered(n/12, "key%06d: x\n") },
	"keys in braces":                    func(n int) string { return "a: {" + numbered(n/12, "key%06d: x,") + "}\n" },
	"commas inside a value":             func(n int) string { return "a: {b: " + strings.Repeat("c, ", n/3) + "}\n" },
	"a long key":                        func(n int) string { return strings.Repeat("k", n) + ": v\n" },
	"a long value":                      func(n int) string { return "a: " + strings.Repeat("v ", n/2) + "\n" },
	"a long quoted value":               func(n int) string { return "a: \"" + strings.Repeat("\\n", n/2) + "\"\n" },
	"quotation marks":                   func(n int) string { return "a: '" + strings.Repeat("''", n/2) + "'\n" },
	"a quotation mark never closed":     func(n int) string { return "a: \"" + strings.Repeat("x\n", n/2) },
	"many quotation marks opened":       func(n int) string { return numbered(n/14, "key%06d: \"x\n") },
	"many brackets opened":              func(n int) string { return numbered(n/14, "key%06d: [x\n") },
	"lines of a bare text":              func(n int) string { return "a: b\n" + strings.Repeat("  x\n", n/4) },
	"lines of a quoted text":            func(n int) string { return "a: \"b\n" + strings.Repeat("  x\n", n/4) + "\"\n" },
	"lines of a block":                  func(n int) string { return "a: |\n" + strings.Repeat("  x\n", n/4) },
	"lines of a folded block":           func(n int) string { return "a: >\n" + strings.Repeat("  x\n", n/4) },
	"many blocks":                       func(n int) string { return numbered(n/18, "k%06d: |\n  x\n") },
	"empty lines":                       func(n int) string { return "a: b\n" + strings.Repeat("\n", n) + "c: d\n" },
	"empty lines in a text":             func(n int) string { return "a: b\n" + strings.Repeat("\n", n) + "  d\n" },
	"remarks":                           func(n int) string { return strings.Repeat("# x\n", n/4) },
	"remarks on one line":               func(n int) string { return "a: b " + strings.Repeat("# x", n/3) + "\n" },
	"tabs":                              func(n int) string { return strings.Repeat("\ta: b\n", n/6) },
	"labels":                            func(n int) string { return numbered(n/14, "k%06d: &a b\n") },
	"labels that point to labels":       func(n int) string { return "a: &a [x]\n" + numbered(n/22, "b%06d: [*a, *a, *a]\n") },
	"no keys":                           func(n int) string { return strings.Repeat("a b c\n", n/6) },
	"no spaces behind colons":           func(n int) string { return strings.Repeat("a:b\n", n/4) },
	"equals signs":                      func(n int) string { return strings.Repeat("a = b\n", n/6) },
	"odd columns":                       func(n int) string { return strings.Repeat(" a: b\n", n/16) + strings.Repeat("a: b\n", n/8) },
	"every line in a column of its own": func(n int) string { return "a:\n" + strings.Repeat("   b: c\n  d: e\n", n/15) },
	"colons":                            func(n int) string { return strings.Repeat(": ", n/2) },
	"colons in a text":                  func(n int) string { return "a: " + strings.Repeat("b: ", n/3) + "\n" },
	"documents":                         func(n int) string { return strings.Repeat("---\na: b\n", n/9) },
	"curly quotes":                      func(n int) string { return "a: [" + strings.Repeat("“x: y”, ", n/12) + "]\n" },
	"curly quotes never closed":         func(n int) string { return "a: " + strings.Repeat("“", n/3) + "\n" },
	"windows line ends":                 func(n int) string { return strings.Repeat("a: b\r\n", n/6) },
	"old line ends":                     func(n int) string { return strings.Repeat("a: b\r", n/5) },
	"byte order marks":                  func(n int) string { return strings.Repeat("\ufeffa: b\n", n/8) },
	"invisible characters":              func(n int) string { return "a: b\n" + strings.Repeat("\x00", n) },
	"not utf-8":                         func(n int) string { return strings.Repeat("a: \xff\n", n/5) },
	"backslashes at line ends":          func(n int) string { return "a: \"" + strings.Repeat("x\\\n  ", n/5) + "\"\n" },
	"anything but text":                 noise,
}

func numbered(n int, format string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, format, i)
	}
	return b.String()
}

func stairs(n int) string {
	var b strings.Builder
	for i := 0; b.Len() < n; i++ {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

// noise is every sign of YAML in an order of no sense, the same each time.
func noise(n int) string {
	const signs = "ab:-#[]{}\"'|>&*!%@`?, \n\t\\ü"
	letters := []rune(signs)
	var b strings.Builder
	for x := uint32(1); b.Len() < n; {
		x = x*1664525 + 1013904223 // Numerical Recipes' generator
		b.WriteRune(letters[int(x>>16)%len(letters)])
	}
	return b.String()
}

// Work grows with the size of a file and no faster. Twice the file is twice the
// work, in bytes looked at and in bytes of memory taken, whatever is in it; a
// little more where what is small costs the same each time.
func TestWorkGrowsWithTheSize(t *testing.T) {
	const size = 60000
	for name, shape := range shapes {
		steps, memory := work(t, shape(size))
		steps2, memory2 := work(t, shape(2*size))
		if float64(steps2) > 2.2*float64(steps)+20000 {
			t.Errorf("%s: %d steps, and %d for twice the size", name, steps, steps2)
		}
		if float64(memory2) > 2.5*float64(memory)+1<<20 {
			t.Errorf("%s: %d bytes of memory, and %d for twice the size", name, memory, memory2)
		}
		if steps2 > 60*(2*size) {
			t.Errorf("%s: %d bytes are looked at to read %d", name, steps2, 2*size)
		}
	}
}

// work returns how many bytes were looked at to read a file and how many were
// taken for it.
func work(t *testing.T, text string) (steps int, memory uint64) {
	t.Helper()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	read, err := Read(t.Context(), "piece.yaml", []byte(text))
	runtime.ReadMemStats(&after)
	if err != nil {
		t.Fatal(err)
	}
	return read.steps, after.TotalAlloc - before.TotalAlloc
}

// The largest file of any shape takes less than 200 MB, all that is given back in
// between counted as well, and ends in a slip or in a tree.
func TestTheLargestFiles(t *testing.T) {
	for name, shape := range shapes {
		text := shape(MaxFile)
		text = text[:min(len(text), MaxFile)]
		if i := strings.IndexByte(text, '\n'); i > maxLine || i < 0 && len(text) > maxLine {
			text = shape(maxLine - 100)
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		read, err := Read(t.Context(), "piece.yaml", []byte(text))
		runtime.ReadMemStats(&after)
		if err != nil || read.Root == nil && len(read.Slips) == 0 {
			t.Errorf("%s: neither slip nor tree, %v", name, err)
		}
		if taken := after.TotalAlloc - before.TotalAlloc; taken > 200e6 {
			t.Errorf("%s: %d MB", name, taken/1e6)
		}
	}
}
