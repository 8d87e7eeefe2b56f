//go:build unix

package ordinary

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// A pipe, a link or a folder in the place of a photo is refused at once.
func TestOnlyFilesAreOpened(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	if err := os.WriteFile(at("file"), []byte("x"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("file", at("link")); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mkfifo(at("pipe"), 0o644); err != nil {
		t.Skipf("this file system holds no pipes: %v", err)
	}
	f, info, err := Open(at("file"))
	if err != nil || info.Size() != 1 {
		t.Fatalf("a file: %v, %v", info, err)
	}
	f.Close()
	stuck := time.AfterFunc(time.Minute, func() { panic("an opening waits for somebody to write into the pipe") })
	for _, name := range []string{"link", "pipe", ".", "gone"} {
		if f, _, err := Open(at(name)); err == nil {
			t.Errorf("%s is opened", name)
			f.Close()
		}
		if _, err := Read(at(name), 10); err == nil {
			t.Errorf("%s is read", name)
		}
		if f, err := OpenIn(os.DirFS(dir), name); err == nil {
			t.Errorf("%s is opened in its folder", name)
			f.Close()
		}
		if _, err := Hash(at(name)); err == nil {
			t.Errorf("%s has a sum", name)
		}
	}
	stuck.Stop()
	stop := make(chan struct{})
	gone := make(chan struct{})
	go func() { // a file and a pipe take turns under one name
		defer close(gone)
		for {
			select {
			case <-stop:
				return
			default:
			}
			_ = os.Remove(at("turn"))
			_ = syscall.Mkfifo(at("turn"), 0o644)
			_ = os.Remove(at("turn"))
			_ = os.WriteFile(at("turn"), []byte("x"), 0o644)
		}
	}()
	for range 2000 {
		if f, info, err := Open(at("turn")); err == nil {
			if !info.Mode().IsRegular() {
				t.Error("a pipe was taken for a file")
			}
			f.Close()
		}
	}
	close(stop)
	<-gone
}
