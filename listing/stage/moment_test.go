package stage

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"
)

// A lock that is held for a moment is waited for, five times and not more.
func TestALockHeldForAMoment(t *testing.T) {
	for after, want := range map[int]error{1: nil, 5: nil, 6: ErrBusy} {
		path := filepath.Join(t.TempDir(), "lock")
		held, err := TryLock(path)
		if err != nil {
			t.Fatal(err)
		}
		pauses := 0
		lock, err := tryLockAgain(path, func() {
			if pauses++; pauses == after {
				if err := held.Release(); err != nil {
					t.Error(err)
				}
			}
		})
		if !errors.Is(err, want) || pauses > 5 || err == nil && pauses != after {
			t.Errorf("freed at pause %d: %v after %d pauses, want %v", after, err, pauses, want)
		}
		if lock == nil {
			lock = held
		}
		if err := lock.Release(); err != nil {
			t.Error(err)
		}
	}
	path := filepath.Join(t.TempDir(), "none", "lock")
	if _, err := tryLockAgain(path, func() { t.Error("paused over a folder that is not there") }); err == nil || errors.Is(err, ErrBusy) {
		t.Errorf("no folder: %v", err)
	}
}

// Where files need a folder and something else stands, that goes aside and is told;
// folders, names without a folder and those not yet made are left as they are.
func TestWhatStandsWhereAFolderIsNeeded(t *testing.T) {
	dir := t.TempDir()
	elsewhere := t.TempDir()
	for name, data := range map[string]string{"file": "the maker's", "folder/inside": "kept"} {
		if err := os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name), []byte(data), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want := []SetAside{{Name: "file", Kept: "file.kept"}}
	if err := os.Symlink(elsewhere, filepath.Join(dir, "link")); err == nil {
		want = append(want, SetAside{Name: "link", Kept: "link.kept"})
	}
	aside, err := ReplaceAll(dir, "lists", map[string][]byte{
		"plain.txt": []byte("1"), "file/a": []byte("2"), "folder/b": []byte("3"), "link/c": []byte("4"), "new/d": []byte("5"),
	})
	if err != nil || fmt.Sprint(aside) != fmt.Sprint(want) {
		t.Errorf("set aside %v (%v), want %v", aside, err, want)
	}
	for name, data := range map[string]string{"plain.txt": "1", "file/a": "2", "folder/b": "3", "link/c": "4", "new/d": "5", "file.kept": "the maker's", "folder/inside": "kept"} {
		if got, err := os.ReadFile(filepath.Join(dir, name)); string(got) != data {
			t.Errorf("%s holds %q (%v), want %q", name, got, err, data)
		}
	}
	if left, _ := os.ReadDir(elsewhere); len(left) > 0 {
		t.Errorf("%s was written behind a link", left[0].Name())
	}
}
