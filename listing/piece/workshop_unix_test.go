//go:build unix

package piece

import (
	"context"
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// A workshop.yaml that cannot be read is a fault: without it centimetres may be read as
// inches. One that is a link to a file is read.
func TestWorkshopThatIsNoFile(t *testing.T) {
	for _, c := range []struct {
		name string
		put  func(path string) error
		read bool
	}{
		{"a file", func(p string) error { return os.WriteFile(p, []byte("units: cm\n"), 0o644) }, true},
		{"a link to a file", func(p string) error {
			if err := os.WriteFile(p+".mine", []byte("units: cm\n"), 0o644); err != nil {
				return err
			}
			return os.Symlink(p+".mine", p)
		}, true},
		{"a link to nothing", func(p string) error { return os.Symlink(p+".gone", p) }, false},
		{"a link to a device", func(p string) error { return os.Symlink(os.DevNull, p) }, false},
		{"a folder", func(p string) error { return os.Mkdir(p, 0o755) }, false},
		{"a pipe", func(p string) error { return syscall.Mkfifo(p, 0o644) }, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			if err := c.put(filepath.Join(dir, WorkshopName)); err != nil {
				t.Fatal(err)
			}
			w, findings, err := ReadWorkshop(context.Background(), dir)
			if err != nil {
				t.Fatal(err)
			}
			if c.read {
				if len(findings) > 0 || string(w.Units.V) != "cm" {
					t.Errorf("units %q, findings %v", w.Units.V, findings)
				}
				return
			}
			if len(findings) != 1 || findings[0].Rank != Fault || findings[0].File != WorkshopName {
				t.Errorf("findings %v", findings)
			}
		})
	}
}
