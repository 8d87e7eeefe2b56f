//go:build unix

package stage

import (
	"fmt"
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// hostileLists are lists of what was written that no run wrote, laid into a folder.
// Each names the file that must not be touched, two folders up, with its right sum.
var hostileLists = map[string]func(list, victim string) error{
	"names that go up": func(list, victim string) error {
		text := ""
		for _, name := range []string{"../../precious.txt", "a/../../../precious.txt", "./../../precious.txt", "x/./../../precious.txt"} {
			text += fmt.Sprintf("%s  %s\n%064d  %s\n", sumOf([]byte("precious")), name, 0, name)
		}
		return os.WriteFile(list, []byte(text), 0o644)
	},
	"an absolute name": func(list, victim string) error {
		return os.WriteFile(list, []byte(sumOf([]byte("precious"))+"  "+victim+"\n"), 0o644)
	},
	"a way through a link": func(list, victim string) error {
		if err := os.Symlink(filepath.Dir(victim), filepath.Join(filepath.Dir(list), "way")); err != nil {
			return err
		}
		text := fmt.Sprintf("%s  way/precious.txt\n%s  sub/way/precious.txt\n", sumOf([]byte("precious")), sumOf([]byte("precious")))
		return os.WriteFile(list, []byte(text), 0o644)
	},
	"a pipe":   func(list, _ string) error { return syscall.Mkfifo(list, 0o644) },
	"a folder": func(list, _ string) error { return os.Mkdir(list, 0o755) },
	"a hole of 40 GB": func(list, _ string) error {
		f, err := os.Create(list)
		if err != nil {
			return err
		}
		defer f.Close()
		return f.Truncate(40 << 30)
	},
	"no text": func(list, _ string) error { return os.WriteFile(list, make([]byte, 100_000), 0o644) },
}

// TestListsThatNoRunWroteTouchNothing replaces, builds and keeps over folders with
// such lists: the file outside is there afterwards, and what is asked for as well.
func TestListsThatNoRunWroteTouchNothing(t *testing.T) {
	for name, lay := range hostileLists {
		t.Run(name, func(t *testing.T) {
			root := t.TempDir()
			out, victim := filepath.Join(root, "out"), filepath.Join(root, "precious.txt")
			for _, dir := range []string{"sub", "OY-1"} {
				if err := os.MkdirAll(filepath.Join(out, dir), 0o755); err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(victim, []byte("precious"), 0o644); err != nil {
					t.Fatal(err)
				}
				if err := lay(filepath.Join(out, dir, WrittenName), victim); err != nil {
					t.Skip("not to be had here: ", err)
				}
			}
			if _, err := ReplaceAll(out, "sub", map[string][]byte{"index.html": []byte("new")}); err != nil {
				t.Errorf("replacing: %v", err)
			}
			f, err := New(out, "OY-1")
			if err != nil {
				t.Fatal(err)
			}
			if err := f.Write("report.json", []byte("{}")); err != nil {
				t.Fatal(err)
			}
			if err := f.Keep(func(string) bool { return true }); err != nil {
				t.Errorf("keeping: %v", err)
			}
			if _, err := f.Commit(); err != nil {
				t.Errorf("committing: %v", err)
			}
			if data, err := os.ReadFile(victim); string(data) != "precious" {
				t.Errorf("the file outside: %q, %v", data, err)
			}
			entries, _ := os.ReadDir(root)
			if len(entries) != 2 {
				t.Errorf("beside the output folder stand %v", entries)
			}
			if data, err := os.ReadFile(filepath.Join(out, "OY-1", "report.json")); string(data) != "{}" {
				t.Errorf("the output: %q, %v", data, err)
			}
		})
	}
}
