package stage

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
		s, err := New(out, "OY-1")
		if err != nil {
			t.Fatal(err)
		}
		if _, err := New(out, "OY-1"); !errors.Is(err, ErrBusy) {
			t.Errorf("a second run got in: %v", err)
		}
		if err := s.Write("listing/a.txt", []byte(version)); err != nil {
			t.Fatal(err)
		}
		if version == "two" {
			if got := content(t, filepath.Join(out, "OY-1", "listing", "a.txt")); got != "one" {
				t.Errorf("the earlier output is %q while the new one is being built", got)
			}
		}
		if _, err := s.Commit(); err != nil {
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
	s, _ := New(out, "OY-1")
	_ = s.Write("a", []byte("one"))
	if _, err := s.Commit(); err != nil {
		t.Fatal(err)
	}
	s, err := New(out, "OY-1")
	if err != nil {
		t.Fatal(err)
	}
	_ = s.Write("a", []byte("half"))
	s.Abandon()
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
	leaveLocks(t, out, "OY-1", "OY-2")
	for _, dir := range []string{".OY-1" + oldSuffix, ".OY-1" + BuildingSuffix, ".OY-2" + BuildingSuffix} {
		if err := os.MkdirAll(filepath.Join(out, dir), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(out, ".OY-1"+oldSuffix, "a"), []byte("one"), 0o644); err != nil {
		t.Fatal(err)
	}
	Sweep(out)
	if got := content(t, filepath.Join(out, "OY-1", "a")); got != "one" {
		t.Errorf("got %q", got)
	}
	if got := names(t, out); !slices.Equal(got, []string{"OY-1"}) {
		t.Errorf("left behind: %v", got)
	}
}

func TestKeepTakesOtherOutputsOver(t *testing.T) {
	out := t.TempDir()
	s, _ := New(out, "OY-1")
	_ = s.Write("sheet.pdf", []byte("old sheet"))
	_ = s.Write("listing/index.html", []byte("old page"))
	_ = s.Write("report.json", []byte("old report"))
	if _, err := s.Commit(); err != nil {
		t.Fatal(err)
	}
	s, _ = New(out, "OY-1")
	_ = s.Write("listing/index.html", []byte("new page"))
	if err := s.Keep(func(rel string) bool { return rel == "sheet.pdf" }); err != nil {
		t.Fatal(err)
	}
	_ = s.Write("report.json", []byte("new report"))
	if _, err := s.Commit(); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{"sheet.pdf": "old sheet", "listing/index.html": "new page", "report.json": "new report"} {
		if got := content(t, filepath.Join(out, "OY-1", filepath.FromSlash(name))); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
}

// What a killed run had built so far is thrown away, not carried over as the
// maker's: only a folder with the list of what was written is a finished one.
func TestRecoverCarriesNothingHalfBuilt(t *testing.T) {
	out := t.TempDir()
	final, half := filepath.Join(out, "OY-1"), filepath.Join(out, ".OY-1"+BuildingSuffix)
	for _, dir := range []string{final, half} {
		if err := os.MkdirAll(dir, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	leaveLocks(t, out, "OY-1")
	for name, text := range map[string]string{filepath.Join(final, "a"): "one", filepath.Join(half, "b"): "half"} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	Sweep(out)
	if got := names(t, final); !slices.Equal(got, []string{"a"}) {
		t.Errorf("in the folder: %v", got)
	}
	if got := names(t, out); !slices.Equal(got, []string{"OY-1"}) {
		t.Errorf("left behind: %v", got)
	}
}

// A lock on a file that somebody has removed meanwhile, or put another in place of,
// is no lock: the next one would lock the new file beside it.
func TestALockOnAFileThatIsGoneIsNone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "lock")
	l, err := TryLock(path)
	if err != nil {
		t.Fatal(err)
	}
	defer l.file.Close()
	if !l.stands() {
		t.Fatal("a lock just taken does not stand")
	}
	if err := os.Remove(path); err != nil {
		t.Skip("this system removes no open file: ", err)
	}
	if l.stands() {
		t.Error("the file is gone and the lock stands")
	}
	if err := os.WriteFile(path, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if l.stands() {
		t.Error("another file is in its place and the lock stands")
	}
}

// leaveLocks leaves lock files in OUT as killed runs do.
func leaveLocks(t *testing.T, out string, pieces ...string) {
	t.Helper()
	for _, p := range pieces {
		if err := os.WriteFile(filepath.Join(out, "."+p+LockSuffix), nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// What only ends as our own unfinished things do is somebody's: neither a sweep nor a
// run that builds a folder of that name, nor one that replaces files beside it, takes
// it away.
func TestWhatOnlyEndsAsOursStays(t *testing.T) {
	out := t.TempDir()
	strangers := []string{
		tempSuffix, ".x" + tempSuffix, ".index.html-mine" + tempSuffix, "index.html-0" + tempSuffix, "catalogue/.notes-0" + tempSuffix,
		".x" + BuildingSuffix + "/a.txt", ".x" + oldSuffix + "/b.txt", ".y" + BuildingSuffix, ".z" + LockSuffix, BuildingSuffix + "/c.txt",
	}
	for _, name := range strangers {
		at := filepath.Join(out, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(at, []byte("of "+name), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	ours := filepath.Join(out, "catalogue", ".index.html-0"+tempSuffix)
	if err := os.WriteFile(ours, []byte("half"), 0o644); err != nil {
		t.Fatal(err)
	}
	Sweep(out)
	if _, err := ReplaceAll(out, "catalogue", map[string][]byte{"index.html": []byte("new"), "catalogue/index.html": []byte("new")}); err != nil {
		t.Fatal(err)
	}
	if exists(ours) {
		t.Error("what a killed run left half written is still there")
	}
	for _, name := range strangers {
		if got := content(t, filepath.Join(out, filepath.FromSlash(name))); got != "of "+name {
			t.Errorf("%s holds %q", name, got)
		}
	}
	for _, name := range []string{"x", "y"} {
		s, err := New(out, name)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Write("new", []byte("new")); err != nil {
			t.Fatal(err)
		}
		aside, err := s.Commit()
		if want := map[string]int{"x": 2, "y": 1}[name]; err != nil || len(aside) != want {
			t.Errorf("%s: set aside %v, %v", name, aside, err)
		}
		for _, a := range aside {
			if !exists(filepath.Join(out, a.Kept)) {
				t.Errorf("%s is not there", a.Kept)
			}
		}
	}
	for _, name := range []string{".x.kept" + BuildingSuffix + "/a.txt", ".x.kept" + oldSuffix + "/b.txt", ".y.kept" + BuildingSuffix} {
		content(t, filepath.Join(out, filepath.FromSlash(name)))
	}
	Sweep(out)
	for _, name := range []string{".x.kept" + BuildingSuffix + "/a.txt", ".z" + LockSuffix} {
		content(t, filepath.Join(out, filepath.FromSlash(name)))
	}
}
