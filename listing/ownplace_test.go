package listing

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// codesOf lists the codes of a run's findings that begin so, sorted.
func codesOf(sum *Summary, prefix string) (codes []string) {
	for _, r := range sum.Results {
		for _, f := range r.Findings {
			if strings.HasPrefix(f.Code, prefix) {
				codes = append(codes, f.Code)
			}
		}
	}
	slices.Sort(codes)
	return codes
}

// A copy of a piece's outputs that lies beside them, as a backup by hand or a program
// that keeps two machines alike makes one, is no piece: once the piece has another price,
// or is sold, nothing that covers all pieces offers it as the copy does.
func TestACopyInOutIsNoPiece(t *testing.T) {
	dir, o := layPhotoBoard(t)
	write := func(price, availability string) {
		spec := boardSpec + "price: {amount: " + price + ", currency: GBP}\navailability: " + availability + "\n"
		if err := os.WriteFile(filepath.Join(dir, "piece.yaml"), []byte(spec), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("1890", "in stock")
	prepareAll(t, dir, o)
	copies := []string{"OY-1 (conflicted copy)", "backup of OY-1", "OY-1 2", "oy-1", "OY-2"}
	for _, name := range copies {
		if err := os.CopyFS(filepath.Join(o.Out, name), os.DirFS(filepath.Join(o.Out, "OY-1"))); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct{ price, availability string }{{"2400", "in stock"}, {"2400", "sold"}} {
		write(c.price, c.availability)
		o.Tidy = c.availability == "sold"
		sum := prepareAll(t, dir, o)
		if got := codesOf(sum, "out."); len(got) != len(copies) || got[0] != "out.copy" || got[len(got)-1] != "out.copy" {
			t.Errorf("%v: %q are told, want each copy", c, got)
		}
		if rows := strings.Count(content(t, filepath.Join(o.Out, "catalogue.csv")), "\n"); rows != 2 {
			t.Errorf("%v: the catalogue has %d lines, want its head and one", c, rows)
		}
		for _, name := range []string{"catalogue.csv", "catalogue.json", "catalogue/index.html", "index.html"} {
			text := content(t, filepath.Join(o.Out, filepath.FromSlash(name)))
			for _, old := range []string{"1890", "1,890", "conflicted", "backup"} {
				if strings.Contains(text, old) {
					t.Errorf("%v: %s holds %q", c, name, old)
				}
			}
		}
		for _, name := range []string{"pricelist.pdf", "labels.pdf"} {
			text, err := exec.Command("pdftotext", "-layout", filepath.Join(o.Out, name), "-").Output()
			if err != nil {
				t.Skip("pdftotext is not there: ", err)
			}
			if n := strings.Count(string(text), "OY-1"); strings.Contains(string(text), "1,890") || n > 1 {
				t.Errorf("%v: %s has the piece %d times:\n%s", c, name, n, text)
			}
		}
		for _, name := range copies {
			if _, err := os.Stat(filepath.Join(o.Out, name, "sheet.pdf")); err != nil {
				t.Errorf("the copy was not left alone: %v", err)
			}
		}
	}
}

// The place of a drive that is not plugged in is an empty folder: --tidy takes no piece
// for gone there, be it the path itself, one of two, or a folder below it, and what
// covers all pieces stays as it was.
func TestTidyTakesAnAbsentDriveForNoneGone(t *testing.T) {
	dir, o := layPhotoBoard(t)
	root := filepath.Dir(dir)
	one, two := filepath.Join(root, "one"), filepath.Join(root, "two")
	for serial, at := range map[string]string{"OY-2": filepath.Join(one, "drive", "OY-2"), "OY-3": filepath.Join(two, "OY-3"), "OY-4": filepath.Join(one, "OY-4")} {
		if err := os.MkdirAll(at, 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(at, "piece.yaml"), []byte(strings.Replace(boardSpec, "OY-1", serial, 1)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(one, piece.WorkshopName), []byte("base_url: https://ostrel-yard.example/\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	run := func(paths ...string) *Summary {
		t.Helper()
		sum, err := Prepare(t.Context(), paths, o)
		if err != nil {
			t.Fatal(err)
		}
		return sum
	}
	run(one, two)
	before := allText(t, o.Out)
	o.Tidy = true
	empty := func(path string, run func()) {
		t.Helper()
		if err := os.Rename(path, filepath.Join(root, "away")); err != nil {
			t.Fatal(err)
		}
		if err := os.Mkdir(path, 0o755); err != nil {
			t.Fatal(err)
		}
		run()
		if err := os.Remove(path); err != nil {
			t.Fatal(err)
		}
		if err := os.Rename(filepath.Join(root, "away"), path); err != nil {
			t.Fatal(err)
		}
	}
	held := func(sum *Summary, want int) {
		t.Helper()
		if got := codesOf(sum, "out."); len(got) != want || slices.Contains(got, "out.put-away") {
			t.Errorf("told %q, want %d that are held", got, want)
		}
		if _, err := os.Stat(filepath.Join(o.Out, noLongerThere)); err == nil {
			t.Error("something was put away")
		}
	}
	empty(two, func() {
		held(run(two), 1) // no piece at all
		for name, text := range allText(t, o.Out) {
			if before[name] != text {
				t.Errorf("%s was made anew by a run that found no piece", name)
			}
		}
	})
	empty(two, func() { held(run(one, two), 1) })
	empty(filepath.Join(one, "drive"), func() { held(run(one, two), 1) })
	o.Cache = filepath.Join(root, "another cache") // nobody knows where they came from
	empty(two, func() { held(run(one, two), 1) })
	if err := os.RemoveAll(filepath.Join(one, "OY-4")); err != nil {
		t.Fatal(err)
	}
	o.Cache = filepath.Join(root, "cache")
	if got := codesOf(run(one, two), "out."); !slices.Equal(got, []string{"out.put-away"}) {
		t.Errorf("a piece that is gone beside another: told %q", got)
	}
}

// Neither cache nor shelf may be where the pieces are.
func TestCacheIsNotWhereThePiecesAre(t *testing.T) {
	dir, o := layBoard(t)
	for _, cache := range []string{filepath.Dir(dir), filepath.Dir(filepath.Dir(dir)), dir, filepath.Join(dir, "x")} {
		o.Cache = cache
		if _, err := Prepare(t.Context(), []string{filepath.Dir(dir)}, o); err == nil || !strings.Contains(err.Error(), "--cache") {
			t.Errorf("a cache in %s: %v", cache, err)
		}
	}
	for _, name := range []string{"pieces", "outs"} {
		if _, err := os.Stat(filepath.Join(filepath.Dir(dir), name)); err == nil {
			t.Errorf("%s was made", name)
		}
	}
}
