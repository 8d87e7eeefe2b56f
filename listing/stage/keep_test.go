package stage

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
)

// What of the maker's is carried over: under its name where that is free, not at
// all where the same stands there or beside it already, else aside.
func TestWhatIsCarriedOver(t *testing.T) {
	for name, c := range map[string]struct {
		from, to map[string]string
		want     map[string]string // of to, afterwards
		aside    string
	}{
		"the name is free":               {map[string]string{"a.txt": "mine"}, nil, map[string]string{"a.txt": "mine"}, "[]"},
		"the same stands there":          {map[string]string{"a.txt": "mine"}, map[string]string{"a.txt": "mine"}, map[string]string{"a.txt": "mine"}, "[]"},
		"another stands there":           {map[string]string{"a.txt": "mine"}, map[string]string{"a.txt": "new"}, map[string]string{"a.txt": "new", "a.kept.txt": "mine"}, "[{a.txt a.kept.txt false}]"},
		"it is kept beside itself":       {map[string]string{"a.txt": "mine", "a.kept.txt": "mine"}, map[string]string{"a.txt": "new"}, map[string]string{"a.txt": "new"}, "[]"},
		"it was kept there before":       {map[string]string{"a.txt": "mine"}, map[string]string{"a.txt": "new", "a.kept.txt": "mine"}, map[string]string{"a.txt": "new", "a.kept.txt": "mine"}, "[]"},
		"another is kept beside it":      {map[string]string{"a.txt": "mine", "a.kept.txt": "older"}, map[string]string{"a.txt": "new"}, map[string]string{"a.txt": "new", "a.kept-2.txt": "mine"}, "[{a.txt a.kept-2.txt false}]"},
		"another was kept there, hidden": {map[string]string{".a": "mine"}, map[string]string{".a": "new", ".a.kept": "older"}, map[string]string{".a": "new", ".a.kept": "older", ".a.kept-2": "mine"}, "[{.a .a.kept-2 false}]"},
	} {
		k := &carrier{from: t.TempDir(), to: t.TempDir(), fresh: true}
		for dir, files := range map[string]map[string]string{k.from: c.from, k.to: c.to} {
			for file, data := range files {
				if err := os.WriteFile(filepath.Join(dir, file), []byte(data), 0o644); err != nil {
					t.Fatal(err)
				}
			}
		}
		file := "a.txt"
		if _, ok := c.from[file]; !ok {
			file = ".a"
		}
		if err := k.keep(file, file); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		got := map[string]string{}
		entries, _ := os.ReadDir(k.to)
		for _, e := range entries {
			data, _ := os.ReadFile(filepath.Join(k.to, e.Name()))
			got[e.Name()] = string(data)
		}
		if fmt.Sprint(got) != fmt.Sprint(c.want) || fmt.Sprint(k.aside) != c.aside {
			t.Errorf("%s: %v and %v set aside, want %v and %s", name, got, k.aside, c.want, c.aside)
		}
	}
}
