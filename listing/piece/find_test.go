package piece

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"slabfolio/listing/units"
)

// lay writes files below a folder; a name that ends in / is a folder.
func lay(t *testing.T, root string, names ...string) {
	t.Helper()
	for _, name := range names {
		path := filepath.Join(root, filepath.FromSlash(name))
		if name[len(name)-1] == '/' {
			if err := os.MkdirAll(path, 0o755); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(specBase), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// Which folders are pieces: contract, section 1.
func TestFind(t *testing.T) {
	root := t.TempDir()
	lay(t, root,
		"OY-0002/piece.yaml", "OY-0001/piece.yml", "oy-0003/piece.yaml", "group/OY-0010/piece.yaml", "group/inner/OY-0011/piece.yaml",
		"OY-0002/photos/a.jpg", "OY-0002/process/b.jpg", ".hidden/OY-0090/piece.yaml", "out/OY-0091/piece.yaml", "empty/",
		"bag/bagit.txt", "bag/data/piece.yaml", "bag2/bagit.txt", "bag2/manifest-sha512.txt", "bag2/piece.yaml", "notbag/bagit.txt", "notbag/piece.yaml", "folder/piece.yaml/")
	if runtime.GOOS != "windows" {
		if err := os.Symlink(filepath.Join(root, "OY-0002"), filepath.Join(root, "link")); err != nil {
			t.Fatal(err)
		}
		if err := os.Symlink(root, filepath.Join(root, "OY-0002", "up")); err != nil {
			t.Fatal(err)
		}
	}
	skip := func(path string) bool { return filepath.Base(path) == "out" }
	rel := func(paths []string) []string {
		var out []string
		for _, p := range paths {
			r, err := filepath.Rel(root, p)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, filepath.ToSlash(r))
		}
		return out
	}
	got, findings, err := Find([]string{root}, skip)
	if err != nil || len(findings) != 0 {
		t.Fatalf("%v, %v", findings, err)
	}
	want := []string{"OY-0001", "OY-0002", "group/OY-0010", "group/inner/OY-0011", "notbag", "oy-0003"}
	if diff := cmp.Diff(want, rel(got)); diff != "" {
		t.Errorf("found (-want +got):\n%s", diff)
	}
	// Named twice, by itself and above, or by its spec, a piece is found once.
	got, _, err = Find([]string{filepath.Join(root, "group"), filepath.Join(root, "group", "OY-0010"), filepath.Join(root, "group", "OY-0010", "piece.yaml")}, nil)
	if diff := cmp.Diff([]string{"group/OY-0010", "group/inner/OY-0011"}, rel(got)); diff != "" || err != nil {
		t.Errorf("%v (-want +got):\n%s", err, diff)
	}
	// A hidden folder that is named is meant.
	got, _, err = Find([]string{filepath.Join(root, ".hidden")}, nil)
	if len(got) != 1 || err != nil {
		t.Errorf("the hidden folder by name: %v, %v", got, err)
	}
	if _, _, err = Find([]string{filepath.Join(root, "absent")}, nil); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("an absent path: %v", err)
	}
	if _, _, err = Find([]string{filepath.Join(root, "OY-0002", "photos", "a.jpg")}, nil); err == nil {
		t.Error("a photo as a path: no error")
	}
}

// A folder without a spec, with both names, and with a workshop above.
func TestReadPieceAndWorkshop(t *testing.T) {
	root := t.TempDir()
	lay(t, root, "OY-0001/piece.yaml", "OY-0001/piece.yml", "none/", "deep/er/OY-0002/piece.yml")
	if _, _, err := ReadPiece(t.Context(), filepath.Join(root, "none"), Defaults{}); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("no spec: %v", err)
	}
	p, findings, err := ReadPiece(t.Context(), filepath.Join(root, "OY-0001"), Defaults{})
	if err != nil || p.Serial.V != "OY-0311" || len(findings) != 1 || findings[0].Code != "spec.two-files" {
		t.Errorf("both names: %+v, %v", findings, err)
	}
	if err := os.WriteFile(filepath.Join(root, WorkshopName), []byte("units: mm\nworkshop: {name: Ostrel Yard}\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	w, findings, err := ReadWorkshop(t.Context(), filepath.Join(root, "deep", "er", "OY-0002"))
	if err != nil || len(findings) != 0 || w.Name.V != "Ostrel Yard" || len(w.Text) == 0 {
		t.Errorf("workshop above: %+v, %v, %v", w, findings, err)
	}
	if p, _, err = ReadPiece(t.Context(), filepath.Join(root, "deep", "er", "OY-0002"), w.Defaults()); err != nil || p.Units.V != units.Millimetres || p.Quantity.V != 1 || p.Serial.At.File != "piece.yml" {
		t.Errorf("units %v, quantity %d, file %q, %v", p.Units.V, p.Quantity.V, p.Serial.At.File, err)
	}
	// The nearest one counts, as a whole.
	if err := os.WriteFile(filepath.Join(root, "deep", WorkshopName), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if w, findings, err = ReadWorkshop(t.Context(), filepath.Join(root, "deep", "er")); err != nil || len(findings) != 0 || w.Name.Set() || w.Dir != filepath.Join(root, "deep") {
		t.Errorf("nearest workshop: %+v, %v, %v", w, findings, err)
	}
}

// A spec is found and read under any spelling of its name, and the maker is told.
// A workshop.yaml under another name is not read, which is told as well.
func TestNamesOfSpecs(t *testing.T) {
	for name, is := range map[string]bool{"piece.yaml": true, "Piece.yaml": true, "PIECE.YML": true, "piece.yml": true, "piece.yaml.txt": true, "Piece.YAML.TXT": true,
		"piece.txt": false, "piece.yaml.bak": false, "piece.yaml~": false, "my piece.yaml": false, ".piece.yaml": false, "piece.yaml.txt.txt": false, "piece": false} {
		if IsSpec(name) != is {
			t.Errorf("IsSpec(%q) = %v", name, !is)
		}
	}
	if got := Specs([]string{"b.jpg", "piece.yaml.txt", "PIECE.yaml", "piece.yml", "Piece.yaml", "piece.yaml"}); !slices.Equal(got, []string{"piece.yaml", "piece.yml", "PIECE.yaml", "Piece.yaml", "piece.yaml.txt"}) {
		t.Errorf("in the order of preference: %v", got)
	}
	root := t.TempDir()
	lay(t, root, "a/Piece.YML.txt", "b/piece.yaml", "b/piece.yaml.txt", "workshop.yml")
	for dir, want := range map[string]string{"a": "spec.name", "b": "spec.two-files"} {
		_, findings, err := ReadPiece(t.Context(), filepath.Join(root, dir), Defaults{})
		if err != nil || len(findings) != 1 || findings[0].Code != want {
			t.Errorf("%s: %v, %+v", dir, err, findings)
		}
	}
	if _, findings, err := ReadWorkshop(t.Context(), filepath.Join(root, "a")); err != nil || len(findings) != 1 || findings[0].Code != "workshop.name" {
		t.Errorf("workshop.yml: %v, %+v", err, findings)
	}
	if found, _, err := Find([]string{root}, nil); err != nil || len(found) != 2 {
		t.Errorf("found %v, %v", found, err)
	}
}

// A context that has ended ends the reading of a folder.
func TestReadPieceObeysTheContext(t *testing.T) {
	root := t.TempDir()
	lay(t, root, "a/piece.yaml", "workshop.yaml")
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, _, err := ReadPiece(ctx, filepath.Join(root, "a"), Defaults{}); !errors.Is(err, context.Canceled) {
		t.Errorf("the piece: %v", err)
	}
	if _, _, err := ReadWorkshop(ctx, filepath.Join(root, "a")); !errors.Is(err, context.Canceled) {
		t.Errorf("the workshop: %v", err)
	}
}

// A plan is written in one step, keeps the file's rights, and is not written when
// somebody changed the file meanwhile, or put a link in its place. What lies behind a
// link is in no record of the piece, so it is not written to.
func TestPlanIsWrittenInOneStep(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("rights and links are not the same there")
	}
	root := t.TempDir()
	lay(t, root, "a/piece.yaml")
	spec, moved := filepath.Join(root, "a", "piece.yaml"), filepath.Join(root, "moved")
	if err := os.Chmod(spec, 0o640); err != nil {
		t.Fatal(err)
	}
	a, err := parseAssignment("mark=left")
	if err != nil {
		t.Fatal(err)
	}
	plan, err := PlanSet(t.Context(), filepath.Join(root, "a"), Date{}, []*Assignment{a})
	if err != nil {
		t.Fatal(err)
	}
	if data, _ := os.ReadFile(spec); string(data) != specBase {
		t.Error("planning wrote")
	}
	if err := plan.Write(); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(spec)
	if data, _ := os.ReadFile(spec); err != nil || string(data) != specBase+"mark: left\n" || info.Mode().Perm() != 0o640 {
		t.Errorf("%v, %v:\n%s", err, info.Mode(), data)
	}
	if err := plan.Write(); !errors.Is(err, errChanged) {
		t.Errorf("a file that is not what was read: %v", err)
	}
	if plan, err = PlanSet(t.Context(), filepath.Join(root, "a"), Date{}, []*Assignment{{Path: "mark", Value: "right", way: a.way}}); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(spec, 0o440); err != nil {
		t.Fatal(err)
	}
	if err := plan.Write(); err == nil || !strings.Contains(err.Error(), "write-protected") {
		t.Errorf("a file that nobody may write to: %v", err)
	}
	if err := errors.Join(os.Rename(spec, moved), os.Symlink(moved, spec)); err != nil {
		t.Fatal(err)
	}
	if err := plan.Write(); !errors.Is(err, errChanged) {
		t.Errorf("a link in the file's place: %v", err)
	}
	if names, _ := os.ReadDir(filepath.Join(root, "a")); len(names) != 1 {
		t.Errorf("left behind: %v", names)
	}
	if _, err := PlanSet(t.Context(), filepath.Join(root, "a"), Date{}, []*Assignment{a}); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a spec that is a link: %v", err)
	}
	if _, _, err := ReadPiece(t.Context(), filepath.Join(root, "a"), Defaults{}); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("read through a link: %v", err)
	}
	found, findings, err := Find([]string{root}, nil)
	if err != nil || len(found) != 0 || len(findings) != 1 || findings[0].Code != "folder.linked-spec" || findings[0].Rank != Fault {
		t.Errorf("found %v, %v, %v", found, findings, err)
	}
	lay(t, root, "a/piece.yml")
	if p, _, err := ReadPiece(t.Context(), filepath.Join(root, "a"), Defaults{}); err != nil || p.Serial.At.File != "piece.yml" {
		t.Errorf("a file beside a link: %v", err)
	}
}
