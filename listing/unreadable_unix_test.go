//go:build unix

package listing

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// A spec that may not be read, and a piece that goes away, cost themselves; the
// other piece is made.
func TestUnreadableSpec(t *testing.T) {
	dir, o := layBoard(t)
	root := filepath.Dir(dir)
	for _, serial := range []string{"OY-2", "OY-3"} {
		if err := os.Mkdir(filepath.Join(root, serial), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(root, serial, "piece.yaml"), []byte(strings.Replace(boardSpec, "OY-1", serial, 1)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Chmod(filepath.Join(root, "OY-2", "piece.yaml"), 0); err != nil {
		t.Fatal(err)
	}
	b, err := NewBatch(t.Context(), []string{root}, o)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(filepath.Join(root, "OY-3")); err != nil {
		t.Fatal(err)
	}
	if err := b.OpenOut(); err != nil {
		t.Fatal(err)
	}
	if err := b.Each(context.Background(), b.prepare); err != nil {
		t.Errorf("the run stopped: %v", err)
	}
	want := map[string]Outcome{"OY-1": Prepared, "OY-2": LeftOut, "OY-3": LeftOut}
	if os.Geteuid() == 0 {
		want["OY-2"] = Prepared // root may read all
	}
	for _, r := range b.results {
		name := filepath.Base(r.Dir)
		if r.Outcome != want[name] {
			t.Errorf("%s: %s, want %s; %v", name, r.Outcome, want[name], r.Findings)
		}
		if r.Outcome == LeftOut && (r.Count(piece.Fault) != 1 || strings.Contains(r.Findings[0].Message, root)) {
			t.Errorf("%s: %+v", name, r.Findings)
		}
	}
}
