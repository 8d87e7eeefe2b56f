// Package beside finds, for tests alone, what lies outside of the package under
// test: the repository's root, and in ../shared beside it the reference files,
// which are published tables, worked examples and photos.
package beside

import (
	"os"
	"path/filepath"
	"testing"
)

// Root is the repository's root: the folder of go.mod above the running test.
func Root(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for ; ; dir = filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		if dir == filepath.Dir(dir) {
			t.Fatal("no go.mod above the test")
		}
	}
}

// Shared is the path of a file or folder of ../shared, given by its names. A
// test whose reference is not there is skipped, as by Missing.
func Shared(t testing.TB, name ...string) string {
	t.Helper()
	path := filepath.Join(append([]string{Root(t), "..", "shared"}, name...)...)
	if _, err := os.Stat(path); err != nil {
		Missing(t, "the reference "+filepath.Join(name...))
	}
	return path
}

// Read returns a file of ../shared, such as "reference/wood.csv", on the same
// terms.
func Read(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(Shared(t, filepath.FromSlash(name)))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Missing skips a test for want of something, and fails it where
// SLABFOLIO_REFERENCE is set to required.
func Missing(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
		t.Fatalf("%s is required and missing", what)
	}
	t.Skipf("%s is not here", what)
}
