//go:build linux

package archive

import (
	"errors"
	"os"
	"testing"

	"golang.org/x/sys/unix"
)

// A disk that is really full: a file system in memory of 2 MiB. Mounting one
// takes root.
func TestDiskFull(t *testing.T) {
	shelf := t.TempDir()
	if err := unix.Mount("tmpfs", shelf, "tmpfs", 0, "size=2m"); err != nil {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" && os.Geteuid() == 0 {
			t.Fatal(err)
		}
		t.Skip("no file system can be mounted here: ", err)
	}
	defer func() {
		if err := unix.Unmount(shelf, 0); err != nil {
			t.Error(err)
		}
	}()
	for _, zip := range []bool{false, true} {
		b := &Bag{Name: "b", Zip: zip, Files: []File{{Path: "a.txt", Data: []byte("small")}, {Path: "large.raw", Source: large(t, 8<<20)}}}
		_, err := Seal(t.Context(), shelf, b)
		if !errors.Is(err, unix.ENOSPC) {
			t.Errorf("zip=%v: error %v, want that the disk is full", zip, err)
		}
		empty(t, shelf)
		b.Files = b.Files[:1]
		if _, err := Seal(t.Context(), shelf, b); err != nil {
			t.Errorf("zip=%v: with room again: %v", zip, err)
		}
		valid(t, shelf+"/"+b.fileName())
		if err := os.RemoveAll(shelf + "/" + b.fileName()); err != nil {
			t.Fatal(err)
		}
	}
}
