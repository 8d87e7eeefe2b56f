// Package reference finds, for tests alone, the reference files that lie beside
// the repository in ../shared: published tables and worked examples that the
// code is held against.
package reference

import (
	"os"
	"path/filepath"
	"testing"
)

// Read returns a file of ../shared, such as "reference/wood.csv". A test whose
// file is not there is skipped, and fails where SLABFOLIO_REFERENCE is set to
// required.
func Read(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(root(t), "..", "shared", filepath.FromSlash(name)))
	switch {
	case err == nil:
		return data
	case os.Getenv("SLABFOLIO_REFERENCE") == "required":
		t.Fatalf("the reference is required: %v", err)
	default:
		t.Skipf("the reference file %s is not beside the repository", name)
	}
	return nil
}

// root is the repository's root: the folder of go.mod above the running test.
func root(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the test")
		}
		dir = up
	}
}
