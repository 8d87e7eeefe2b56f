package listing

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"
)

func names(t *testing.T, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func content(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestStageReplacesWhole(t *testing.T) {
	out := t.TempDir()
	for _, version := range []string{"one", "two"} {
		s, err := newStage(out, "OY-1")
		if err != nil {
			t.Fatal(err)
		}
		if _, err := newStage(out, "OY-1"); !errors.Is(err, errBusy) {
			t.Errorf("a second run got in: %v", err)
		}
		if err := s.write("listing/a.txt", []byte(version)); err != nil {
			t.Fatal(err)
		}
		if version == "two" {
			if got := content(t, filepath.Join(out, "OY-1", "listing", "a.txt")); got != "one" {
				t.Errorf("the earlier output is %q while the new one is being built", got)
			}
		}
		if err := s.commit(); err != nil {
			t.Fatal(err)
		}
	}
	if got := content(t, filepath.Join(out, "OY-1", "listing", "a.txt")); got != "two" {
		t.Errorf("got %q", got)
	}
	if got := names(t, out); !slices.Equal(got, []string{"OY-1"}) {
		t.Errorf("left behind: %v", got)
	}
}

func TestStageAbandonedLeavesTheEarlierOutput(t *testing.T) {
	out := t.TempDir()
	s, _ := newStage(out, "OY-1")
	_ = s.write("a", []byte("one"))
	if err := s.commit(); err != nil {
		t.Fatal(err)
	}
	s, err := newStage(out, "OY-1")
	if err != nil {
		t.Fatal(err)
	}
	_ = s.write("a", []byte("half"))
	s.abandon()
	if got := content(t, filepath.Join(out, "OY-1", "a")); got != "one" {
		t.Errorf("got %q", got)
	}
	if got := names(t, out); !slices.Equal(got, []string{"OY-1"}) {
		t.Errorf("left behind: %v", got)
	}
}

// A run that was killed between the two renames leaves only the old output under
// its other name.
func TestRecoverPutsTheEarlierOutputBack(t *testing.T) {
	out := t.TempDir()
	for _, dir := range []string{".OY-1" + oldSuffix, ".OY-1" + stageSuffix, ".OY-2" + stageSuffix} {
		if err := os.MkdirAll(filepath.Join(out, dir), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(out, ".OY-1"+oldSuffix, "a"), []byte("one"), 0o644); err != nil {
		t.Fatal(err)
	}
	sweep(out)
	if got := content(t, filepath.Join(out, "OY-1", "a")); got != "one" {
		t.Errorf("got %q", got)
	}
	if got := names(t, out); !slices.Equal(got, []string{"OY-1"}) {
		t.Errorf("left behind: %v", got)
	}
}

func TestKeepTakesOtherOutputsOver(t *testing.T) {
	out := t.TempDir()
	s, _ := newStage(out, "OY-1")
	_ = s.write("sheet.pdf", []byte("old sheet"))
	_ = s.write("listing/index.html", []byte("old page"))
	_ = s.write("report.json", []byte("old report"))
	if err := s.commit(); err != nil {
		t.Fatal(err)
	}
	s, _ = newStage(out, "OY-1")
	_ = s.write("listing/index.html", []byte("new page"))
	if err := s.keep(func(rel string) bool { return groupOf(rel) != "" && groupOf(rel) != OnlyListing }); err != nil {
		t.Fatal(err)
	}
	_ = s.write("report.json", []byte("new report"))
	if err := s.commit(); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{"sheet.pdf": "old sheet", "listing/index.html": "new page", "report.json": "new report"} {
		if got := content(t, filepath.Join(out, "OY-1", filepath.FromSlash(name))); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}

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
		b, err := newBatch([]string{dir}, Options{Part: Part{i, 3}})
		if err != nil {
			t.Fatal(err)
		}
		taken := 0
		for _, j := range b.jobs {
			if !j.skip {
				seen[j.dir]++
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
