package archive

import (
	"archive/tar"
	"compress/gzip"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/testdata/beside"
)

// suite unpacks the public BagIt conformance suite and returns its folder.
func suite(t *testing.T) string {
	t.Helper()
	f, err := os.Open(beside.Shared(t, "bags", "bagit-conformance.tar.gz"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	for r := tar.NewReader(z); ; {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return dir
		}
		if err != nil {
			t.Fatal(err)
		}
		if h.Typeflag != tar.TypeReg {
			if h.Typeflag == tar.TypeDir {
				_ = os.MkdirAll(filepath.Join(dir, filepath.FromSlash(h.Name)), 0o755)
			}
			continue
		}
		path := filepath.Join(dir, filepath.FromSlash(h.Name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		w, err := os.Create(path)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.Copy(w, r); err != nil {
			t.Fatal(err)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

// Every verdict of the suite (LibraryOfCongress/bagit-conformance-suite, public
// domain): valid and warning bags are valid, warning bags carry a warning, the
// others are invalid. What it calls invalid on one system is invalid on all.
func TestConformanceSuite(t *testing.T) {
	dir := suite(t)
	count := map[string]int{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		rel, _ := filepath.Rel(dir, path)
		parts := strings.Split(filepath.ToSlash(rel), "/")
		if len(parts) != 3 {
			return nil
		}
		count[parts[1]]++
		t.Run(filepath.ToSlash(rel), func(t *testing.T) {
			v, err := Verify(t.Context(), path, &Options{Jobs: 2})
			if err != nil {
				t.Fatal(err)
			}
			warnings := 0
			for _, p := range v.Problems {
				t.Log(p.Kind, p.Warning, p.Message)
				if p.Warning {
					warnings++
				}
			}
			switch parts[1] {
			case "valid":
				if !v.Valid() {
					t.Error("called invalid, is valid")
				}
			case "warning":
				if !v.Valid() || warnings == 0 {
					t.Errorf("valid %v with %d warnings; want valid with at least one", v.Valid(), warnings)
				}
			default:
				if v.Valid() {
					t.Error("called valid, is invalid")
				}
			}
		})
		return fs.SkipDir
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, kind := range []string{"valid", "invalid", "warning", "linux-only", "windows-only"} {
		if count[kind] == 0 {
			t.Errorf("no %s bag in the suite: %v", kind, count)
		}
	}
}
