package listing

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// What covers all pieces is made once: while nothing that it is made of changed, and
// nobody touched it, it stands; after each change of either it does not, and a further
// run brings it to where nothing is to be done again.
func TestCollectionStands(t *testing.T) {
	dir, o := layBoard(t)
	shop := filepath.Join(filepath.Dir(dir), piece.WorkshopName)
	write := func(path, text string) {
		t.Helper()
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(shop, "workshop: {name: Ostrel Yard}\nunits: cm\n")
	stands := func(o Options) bool {
		t.Helper()
		b, err := NewBatch(t.Context(), []string{dir}, o)
		if err != nil {
			t.Fatal(err)
		}
		if err := b.Each(t.Context(), b.prepare); err != nil {
			t.Fatal(err)
		}
		from, err := b.collectionFrom()
		if err != nil {
			t.Fatal(err)
		}
		return b.collectionStands(from)
	}
	settle := func(when string) {
		t.Helper()
		for range 2 { // where something of the maker's was set aside, that is said in one run and not in the next
			if _, err := Prepare(t.Context(), []string{dir}, o); err != nil {
				t.Fatal(err)
			}
		}
		if !stands(o) {
			t.Fatalf("%s: two runs later it does not stand", when)
		}
	}
	settle("at first")
	out := func(name string) string { return filepath.Join(o.Out, filepath.FromSlash(name)) }
	for _, c := range []struct {
		what   string
		change func()
	}{
		{"the overview was changed by hand", func() { write(out("index.html"), "mine") }},
		{"a catalogue is gone", func() { _ = os.Remove(out("catalogue.csv")) }},
		{"a report was written anew", func() {
			data, err := os.ReadFile(out("OY-1/report.json"))
			if err != nil {
				t.Fatal(err)
			}
			write(out("OY-1/report.json"), string(data))
		}},
		{"another machine's piece came in", func() {
			if err := os.CopyFS(out("OY-2"), os.DirFS(out("OY-1"))); err != nil {
				t.Fatal(err)
			}
			write(out("OY-2/report.json"), strings.Replace(content(t, out("OY-1/report.json")), `"serial": "OY-1"`, `"serial": "OY-2"`, 1))
		}},
		{"that piece is gone again", func() { _ = os.RemoveAll(out("OY-2")) }},
		{"the workshop has a web address", func() { write(shop, "workshop: {name: Ostrel Yard}\nunits: cm\nbase_url: https://example.org/\n") }},
		{"the spec has a fault", func() { write(filepath.Join(dir, "piece.yaml"), boardSpec+"price: many\n") }},
		{"the spec is as it was", func() { write(filepath.Join(dir, "piece.yaml"), boardSpec) }},
		{"it is another program", func() { o.Build = "another" }},
	} {
		c.change()
		if stands(o) {
			t.Errorf("%s, and it is taken to stand", c.what)
		}
		settle(c.what)
	}
	if o.Today = (piece.Date{Year: 2026, Month: 11, Day: 30}); !stands(o) {
		t.Error("it is another day, and it is taken to be made anew")
	}
	o.Force = true
	if stands(o) {
		t.Error("it is to be made anew in any case, and is taken to stand")
	}
}
