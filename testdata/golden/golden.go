// Package golden holds, for tests alone, a whole output against a file that was
// read by eye when it was written; go test -update writes it anew.
package golden

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files anew; read the diff before committing")

// Updating reports whether the golden files are to be written anew.
func Updating() bool { return *update }

// Check fails the test where got is not what stands in the file at path, forward
// slashes, from the folder of the test.
func Check(t testing.TB, path, got string) {
	t.Helper()
	if d := cmp.Diff(Want(t, path, got), got); d != "" {
		t.Errorf("%s (-want +got):\n%s", path, d)
	}
}

// Want returns what stands in the file at path; with -update got is written there
// first. A checkout may end lines its own way: they end as those of got do.
func Want(t testing.TB, path, got string) string {
	t.Helper()
	path = filepath.FromSlash(path)
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v (go test -update writes it)", err)
	}
	if strings.Contains(got, "\r\n") {
		return string(want)
	}
	return strings.ReplaceAll(string(want), "\r\n", "\n")
}
