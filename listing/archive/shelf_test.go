package archive

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
)

// Revisions go by their number, not by dates or by how names sort; strangers and
// other pieces are none.
func TestRevisionsInOrder(t *testing.T) {
	shelf := t.TempDir()
	for _, b := range []Bag{
		{Name: "OY-0142.rev10"}, {Name: "OY-0142"}, {Name: "OY-0142.rev2", Zip: true}, {Name: "OY-0142.rev9"},
		{Name: "OY-0142.owner"}, {Name: "OY-01420"}, {Name: "oy-0142.rev3"},
	} {
		b.Files = payload()[:1]
		if _, err := Seal(t.Context(), shelf, &b); err != nil {
			t.Fatal(err)
		}
	}
	write(t, filepath.Join(shelf, "OY-0142.rev11", "a.txt"), "no bag")
	write(t, filepath.Join(shelf, "OY-0142.rev12"), "no bag either")
	write(t, filepath.Join(shelf, "OY-0142.rev1", "bagit.txt"), "there is no such revision")
	revs, err := Revisions(shelf, "OY-0142")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, r := range revs {
		got = append(got, r.Name)
	}
	if want := []string{"OY-0142", "OY-0142.rev2", "oy-0142.rev3", "OY-0142.rev9", "OY-0142.rev10"}; !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if n := revs[len(revs)-1].Number; n != 10 {
		t.Errorf("the last is number %d, want 10", n)
	}
	owner, err := Revisions(shelf, "OY-0142.owner")
	if err != nil || len(owner) != 1 {
		t.Errorf("owner's copies: %v, %v, want one", owner, err)
	}
}

// The payload list that a later run compares with must hold every name as it is.
func TestPayloadNamesReadBack(t *testing.T) {
	for _, zip := range []bool{false, true} {
		_, path := seal(t, zip)
		fsys, closer, err := Open(path)
		if err != nil {
			t.Fatal(err)
		}
		sums, sum, err := Payload(fsys)
		if err != nil || len(sum) != 128 {
			t.Errorf("%v, %d hex digits, want 128", err, len(sum))
		}
		for _, f := range payload() {
			want, err := Sum(t.Context(), f)
			if err != nil || sums[f.Path] != want {
				t.Errorf("%q: %.8s, %v, want %.8s", f.Path, sums[f.Path], err, want)
			}
		}
		if len(sums) != len(awkward) {
			t.Errorf("%d names, want %d", len(sums), len(awkward))
		}
		info, err := ReadInfo(fsys)
		if err != nil || !slices.Contains(info, Info{"Source-Organization", "Ostrel Yard"}) {
			t.Errorf("%v, %v", info, err)
		}
		if err := closer(); err != nil {
			t.Error(err)
		}
	}
}

// Complete sees what is missing and not what is changed.
func TestCompleteReadsNoPayload(t *testing.T) {
	_, bag := seal(t, false)
	write(t, filepath.Join(bag, "data", "piece", "piece.yaml"), "CONTENT 0 of piece/piece.yaml")
	if v, err := Complete(t.Context(), bag); err != nil || !v.Valid() {
		t.Errorf("a changed file: %+v, %v", v, err)
	}
	if err := os.Remove(filepath.Join(bag, "data", "piece", "piece.yaml")); err != nil {
		t.Fatal(err)
	}
	if v, err := Complete(t.Context(), bag); err != nil || v.Valid() {
		t.Errorf("a missing file: %+v, %v", v, err)
	}
}
