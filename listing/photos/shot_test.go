package photos

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A photo that goes away between being found and being read costs itself.
func TestPhotoGoesAway(t *testing.T) {
	dir := t.TempDir()
	for name, want := range map[string]string{"gone.jpg": "went away", ".": "no ordinary file"} {
		if _, err := read(filepath.Join(dir, name)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", name, err, want)
		}
	}
	big := filepath.Join(dir, "big.jpg")
	f, err := os.Create(big)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := f.Truncate(MaxFile + 1); err != nil {
		t.Skipf("this file system holds no file with holes: %v", err)
	}
	if _, err := read(big); err == nil || !strings.Contains(err.Error(), "more than a photo can have") {
		t.Errorf("a file of more than 1 GiB: %v", err)
	}
}
