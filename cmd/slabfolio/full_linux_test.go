package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/sys/unix"
)

// diskFull: a disk that is really full, a file system in memory of 4 MiB, for which the
// test needs root.
func diskFull(t *testing.T, program string) {
	dir := yard(t, 8<<20)
	shelf := filepath.Join(dir, "shelf")
	if err := os.Mkdir(shelf, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := unix.Mount("tmpfs", shelf, "tmpfs", 0, "size=4m"); err != nil {
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
	for _, more := range []string{"--quiet", "--zip"} {
		code, out := status(t, exec.Command(program, "archive", filepath.Join(dir, "OY-0400"), "--to", shelf, more))
		if code != exitFailed || !strings.Contains(out, "the disk is full") {
			t.Errorf("%s: status %d, want %d and that the disk is full\n%s", more, code, exitFailed, out)
		}
		if bags, hidden := onShelf(t, shelf); len(bags)+len(hidden) > 0 {
			t.Errorf("%s: left on the shelf: %q, %q", more, bags, hidden)
		}
	}
}
