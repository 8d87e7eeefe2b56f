package phototest

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"slabfolio/testdata/golden"
)

// Updating reports whether the golden files are to be written anew.
func Updating() bool { return golden.Updating() }

// Golden compares lines with testdata/<name>: words must be equal, numbers may
// differ by 0.02 or 2 %, the rounding of other processors. With -update it
// writes the file.
func Golden(t testing.TB, name string, lines []string) {
	t.Helper()
	want := strings.Split(strings.TrimRight(golden.Want(t, "testdata/"+name, strings.Join(lines, "\n")+"\n"), "\n"), "\n")
	if len(want) != len(lines) {
		t.Errorf("%s: %d lines, want %d", name, len(lines), len(want))
	}
	for i := range min(len(want), len(lines)) {
		if !alike(lines[i], want[i]) {
			t.Errorf("%s:%d\n got %s\nwant %s", name, i+1, lines[i], want[i])
		}
	}
}

func alike(got, want string) bool {
	g, w := strings.Fields(got), strings.Fields(want)
	if len(g) != len(w) {
		return false
	}
	for i := range g {
		if g[i] == w[i] {
			continue
		}
		a, err1 := strconv.ParseFloat(strings.Trim(g[i], "[]{},"), 64)
		b, err2 := strconv.ParseFloat(strings.Trim(w[i], "[]{},"), 64)
		if err1 != nil || err2 != nil || math.Abs(a-b) > math.Max(0.02, 0.02*math.Abs(b)) {
			return false
		}
	}
	return true
}
