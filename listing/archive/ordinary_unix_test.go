//go:build unix

package archive

import (
	"errors"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// What takes a file's place after the files were listed, a pipe that nobody writes
// into or a link to a device without an end, is a change: it is neither waited for nor
// read, and nothing stands on the shelf.
func TestWhatTakesTheFilesPlace(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	if err := syscall.Mkfifo(at("pipe"), 0o644); err != nil {
		t.Skipf("this file system holds no pipes: %v", err)
	}
	if err := errors.Join(os.Symlink("/dev/zero", at("device")), os.Mkdir(at("folder"), 0o755), os.Mkdir(at("shelf"), 0o755)); err != nil {
		t.Fatal(err)
	}
	stuck := time.AfterFunc(time.Minute, func() { panic("sealing waits for a pipe, or reads a device") })
	defer stuck.Stop()
	for _, name := range []string{"pipe", "device", "folder", "gone"} {
		f := File{Path: "piece/process/" + name, Source: at(name)}
		var changed *ChangedError
		if _, err := Seal(t.Context(), at("shelf"), &Bag{Name: "OY-1", Files: []File{f}}); !errors.As(err, &changed) || changed.Path != f.Path {
			t.Errorf("%s is sealed: %v", name, err)
		}
		if _, err := Sum(t.Context(), f); !errors.As(err, &changed) {
			t.Errorf("%s has a sum: %v", name, err)
		}
	}
	if left, err := os.ReadDir(at("shelf")); err != nil || len(left) > 0 {
		t.Errorf("left on the shelf: %v, %v", left, err)
	}
}

// A pipe in a bag, or where a bag should be, is not waited for.
func TestPipesInBagsAreNotWaitedFor(t *testing.T) {
	dir := t.TempDir()
	if _, err := Seal(t.Context(), dir, &Bag{Name: "OY-1", Files: []File{{Path: "piece/piece.yaml", Data: []byte("serial: OY-1\n")}}}); err != nil {
		t.Fatal(err)
	}
	spec := filepath.Join(dir, "OY-1", "data", "piece", "piece.yaml")
	if err := errors.Join(os.Remove(spec), syscall.Mkfifo(spec, 0o644), syscall.Mkfifo(filepath.Join(dir, "OY-2.zip"), 0o644)); err != nil {
		t.Skipf("this file system holds no pipes: %v", err)
	}
	stuck := time.AfterFunc(time.Minute, func() { panic("reading a bag waits for a pipe") })
	defer stuck.Stop()
	fsys, closer, err := Open(filepath.Join(dir, "OY-1"))
	if err != nil {
		t.Fatal(err)
	}
	defer closer()
	if data, err := ReadSmall(fsys, "data/piece/piece.yaml"); err == nil {
		t.Errorf("read: %q", data)
	}
	if v, err := Verify(t.Context(), filepath.Join(dir, "OY-1"), nil); err != nil || v.Valid() {
		t.Errorf("%+v, %v", v, err)
	}
	if _, _, err := Open(filepath.Join(dir, "OY-2.zip")); err == nil {
		t.Error("a pipe is a bag")
	}
}
