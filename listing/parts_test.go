package listing

import (
	"os"
	"path/filepath"
	"testing"
)

func TestPartsMakeTheWhole(t *testing.T) {
	dir := t.TempDir()
	for i := range 40 {
		name := filepath.Join(dir, string(rune('A'+i%26))+string(rune('0'+i/26)))
		if err := os.MkdirAll(name, 0o755); err != nil {
			t.Fatal(err)
		}
		spec := "serial: S-" + filepath.Base(name) + "\ntitle: x\nkind: bench\nfinished: 2026-01-01\n"
		if err := os.WriteFile(filepath.Join(name, "piece.yaml"), []byte(spec), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	seen := map[string]int{}
	for i := 1; i <= 3; i++ {
		b, err := NewBatch(t.Context(), []string{dir}, Options{Part: Part{i, 3}})
		if err != nil {
			t.Fatal(err)
		}
		taken := 0
		for _, j := range b.jobs {
			if !j.skip {
				seen[j.Dir]++
				taken++
			}
		}
		if taken < 4 {
			t.Errorf("part %d has only %d of 40 pieces", i, taken)
		}
	}
	if len(seen) != 40 {
		t.Errorf("%d pieces in all parts, want 40", len(seen))
	}
	for d, n := range seen {
		if n != 1 {
			t.Errorf("%s is in %d parts", d, n)
		}
	}
}
