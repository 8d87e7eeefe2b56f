//go:build unix

package stage

import (
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// build makes OUT/OY-1 anew with one file of ours.
func build(t *testing.T, out, text string) []SetAside {
	t.Helper()
	s, err := New(out, "OY-1")
	if err != nil {
		t.Fatal(err)
	}
	defer s.Abandon()
	if err := s.Write("listing/a.txt", []byte(text)); err != nil {
		t.Fatal(err)
	}
	aside, err := s.Commit()
	if err != nil {
		t.Fatal(err)
	}
	return aside
}

// A folder of the maker's that is private or may not be written into stays so, and
// stops no run. POSIX: rmdir and unlink need the right to write into the folder
// around, whoever owns what lies in it; root has it always.
func TestFoldersKeepTheirModes(t *testing.T) {
	out := t.TempDir()
	build(t, out, "one")
	final := filepath.Join(out, "OY-1")
	modes := map[string]fs.FileMode{"own": 0o500, "own/deep": 0o555, "private": 0o700, "listing/mine": 0o750, "listing": 0o711, "empty": 0o510, ".": 0o701}
	for _, dir := range []string{"own/deep", "private", "listing/mine", "empty"} {
		if err := os.MkdirAll(filepath.Join(final, dir), 0o755); err != nil {
			t.Fatal(err)
		}
		if dir == "empty" {
			continue
		}
		if err := os.WriteFile(filepath.Join(final, dir, "b.txt"), []byte(dir), 0o400); err != nil {
			t.Fatal(err)
		}
	}
	for _, dir := range []string{"own/deep", "own", "private", "listing/mine", "listing", "empty", "."} {
		if err := os.Chmod(filepath.Join(final, dir), modes[dir]); err != nil {
			t.Fatal(err)
		}
	}
	t.Cleanup(func() { _ = removeAll(final) })
	for _, text := range []string{"two", "three"} {
		build(t, out, text)
		if got := names(t, out); len(got) != 1 {
			t.Fatalf("left behind: %v", got)
		}
		for dir, want := range modes {
			info, err := os.Stat(filepath.Join(final, dir))
			if err != nil || info.Mode().Perm() != want {
				t.Errorf("%s: %v, %v, want %v", dir, info.Mode().Perm(), err, want)
			}
		}
		if got := content(t, filepath.Join(final, "own", "deep", "b.txt")); got != "own/deep" {
			t.Errorf("own/deep/b.txt: %q", got)
		}
	}
}

// The same again where it counts: as somebody who is not root.
func TestFoldersKeepTheirModesWithoutRights(t *testing.T) {
	if os.Getuid() != 0 {
		t.Skip("not root: the test above is this one")
	}
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	dir, err := os.MkdirTemp("", "slabfolio-rights-")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = os.RemoveAll(dir) })
	data, err := os.ReadFile(exe)
	if err != nil {
		t.Fatal(err)
	}
	program := filepath.Join(dir, "stage.test")
	if err := os.WriteFile(program, data, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	p, err := os.StartProcess(program, []string{program, "-test.run", "^TestFoldersKeepTheirModes$"}, &os.ProcAttr{
		Dir: dir, Env: []string{"TMPDIR=" + dir, "HOME=" + dir}, Files: []*os.File{nil, os.Stdout, os.Stderr},
		Sys: &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}},
	})
	if err != nil {
		t.Fatal(err)
	}
	if state, err := p.Wait(); err != nil || !state.Success() {
		t.Errorf("as another user: %v, %v", state, err)
	}
}

// What was set aside before keeps its name when the file is changed again.
func TestKeptFilesKeepTheirNames(t *testing.T) {
	out := t.TempDir()
	build(t, out, "one")
	at := func(name string) string { return filepath.Join(out, "OY-1", "listing", name) }
	for i, change := range []string{"first change", "second change", "second change"} {
		if err := os.WriteFile(at("a.txt"), []byte(change), 0o644); err != nil {
			t.Fatal(err)
		}
		build(t, out, "again")
		if got := content(t, at("a.kept.txt")); got != "first change" {
			t.Errorf("change %d: a.kept.txt is %q", i+1, got)
		}
	}
	if got := content(t, at("a.kept-2.txt")); got != "second change" {
		t.Errorf("a.kept-2.txt is %q", got)
	}
	if got := names(t, filepath.Join(out, "OY-1", "listing")); len(got) != 3 {
		t.Errorf("piled up: %v", got)
	}
}

// A pipe where a file of ours was is the maker's; nobody waits for what may never
// be written to it. (POSIX: opening a FIFO for reading waits for a writer.)
func TestPipesAreNotWaitedFor(t *testing.T) {
	out := t.TempDir()
	build(t, out, "one")
	for _, name := range []string{"OY-1/listing/a.txt", "index.html"} {
		at := filepath.Join(out, name)
		_ = os.Remove(at)
		if err := syscall.Mkfifo(at, 0o600); err != nil {
			t.Skip(err)
		}
	}
	done := make(chan struct{})
	go func() {
		defer close(done)
		build(t, out, "two")
		if _, err := ReplaceAll(out, "pages", map[string][]byte{"index.html": []byte("x")}); err != nil {
			t.Error(err)
		}
	}()
	select {
	case <-done:
	case <-time.After(10 * time.Second):
		t.Fatal("it waits for a pipe")
	}
	for name, kept := range map[string]string{"index.html": "index.kept.html", "OY-1/listing/a.txt": "OY-1/listing/a.kept.txt"} {
		if got := content(t, filepath.Join(out, name)); got != "x" && got != "two" {
			t.Errorf("%s: %q", name, got)
		}
		if info, err := os.Lstat(filepath.Join(out, kept)); err != nil || info.Mode()&fs.ModeNamedPipe == 0 {
			t.Errorf("%s: %v", kept, err)
		}
	}
}
