package piece

import (
	"os"
	"path/filepath"
	"testing"
)

// A piece folder and a bag, whole or damaged, are guarded from within and from
// above; a folder that only looks a little like one is not.
func TestGuardedFolders(t *testing.T) {
	for _, c := range []struct {
		name    string
		files   []string
		guarded bool
	}{
		{"a piece", []string{"piece.yaml"}, true},
		{"a piece in capitals", []string{"Piece.yml"}, true},
		{"a bag", []string{"bagit.txt", "manifest-sha512.txt", "data/a"}, true},
		{"its declaration alone", []string{"bagit.txt"}, true},
		{"a bag without its declaration", []string{"manifest-sha512.txt", "data/a"}, true},
		{"a folder called data", []string{"data/a", "notes.txt"}, false},
		{"a list of cargo", []string{"manifest-july.txt"}, false},
		{"photos", []string{"a.jpg"}, false},
	} {
		dir := t.TempDir()
		for _, f := range c.files {
			at := filepath.Join(dir, "in", filepath.FromSlash(f))
			if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(at, nil, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		for _, path := range []string{"in", "in/new", "in/deep/er"} {
			g, err := Around(filepath.Join(dir, filepath.FromSlash(path)))
			if err != nil || (g != nil) != c.guarded {
				t.Errorf("%s, %s: %+v, %v", c.name, path, g, err)
			}
		}
		if g, err := Within(dir); err != nil || (g != nil) != c.guarded {
			t.Errorf("%s, from above: %+v, %v", c.name, g, err)
		}
	}
}
