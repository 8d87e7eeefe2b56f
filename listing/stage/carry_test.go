package stage

import (
	"os"
	"path/filepath"
	"testing"
)

// Files are alike by what they hold, links by where they lead; a file is never
// like a link, a folder or nothing.
func TestAlike(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	for name, text := range map[string]string{"one": "oak", "same": "oak", "other": "elm", "longer": "oaks"} {
		if err := os.WriteFile(at(name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(at("folder"), 0o755); err != nil {
		t.Fatal(err)
	}
	for name, to := range map[string]string{"link": "one", "link-too": "one", "link-off": "other"} {
		if err := os.Symlink(to, at(name)); err != nil {
			t.Skipf("no links here: %v", err)
		}
	}
	for _, c := range []struct {
		a, b string
		want bool
	}{
		{"one", "one", true},
		{"one", "same", true},
		{"one", "other", false},
		{"one", "longer", false},
		{"one", "link", false},
		{"link", "link-too", true},
		{"link", "link-off", false},
		{"folder", "folder", true},
		{"folder", "one", false},
		{"one", "gone", false},
		{"gone", "gone", false},
	} {
		for _, p := range [][2]string{{c.a, c.b}, {c.b, c.a}} {
			if got := alike(at(p[0]), at(p[1])); got != c.want {
				t.Errorf("%s and %s: %v, want %v", p[0], p[1], got, c.want)
			}
		}
	}
}
