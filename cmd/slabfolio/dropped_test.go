package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Folders that are dropped on the program are prepared beside the first of them, and
// the window stays until Enter.
func TestDroppedFolders(t *testing.T) {
	yard := t.TempDir()
	a, b := filepath.Join(yard, "OY-1"), filepath.Join(yard, "two words")
	for _, d := range []string{a, b} {
		if err := os.Mkdir(d, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(t.TempDir())
	for _, c := range []struct {
		args, want []string
		dir        string
	}{
		{[]string{a}, []string{"prepare", "--open", "--", a}, yard},
		{[]string{a, b}, []string{"prepare", "--open", "--", a, b}, yard},
		{[]string{"check", a}, []string{"check", a}, ""},
		{[]string{a, filepath.Join(yard, "gone")}, []string{a, filepath.Join(yard, "gone")}, ""},
		{nil, nil, ""},
	} {
		if dir, got := dropped(c.args); dir != c.dir || !slices.Equal(got, c.want) {
			t.Errorf("%q: %q in %q, want %q in %q", c.args, got, dir, c.want, c.dir)
		}
	}
	var said bytes.Buffer
	in := strings.NewReader("\nmore")
	status := runDropped([]string{a}, &console{err: &said, in: in}, func(args []string) int {
		here, _ := os.Getwd()
		if real, _ := filepath.EvalSymlinks(yard); here != yard && here != real {
			t.Errorf("it runs in %s", here)
		}
		return exitFault
	})
	if status != exitFault || !strings.Contains(said.String(), "Press Enter") {
		t.Errorf("status %d, said %q", status, said.String())
	}
}

// Paths as Windows shells hand them over.
func TestWindowsPaths(t *testing.T) {
	for given, want := range map[string]string{`C:\yard"`: `C:\yard`, `C:\yard\OY-1`: `C:\yard\OY-1`, `buyer.name="A"`: `buyer.name="A"`, `top.thickness=2"`: `top.thickness=2"`} {
		if got := mendQuote([]string{given}, "windows")[0]; got != want {
			t.Errorf("%s: %s, want %s", given, got, want)
		}
		if got := mendQuote([]string{given}, "linux")[0]; got != given {
			t.Errorf("%s elsewhere: %s", given, got)
		}
	}
}
