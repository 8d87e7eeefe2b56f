package trace

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/archive"
)

const workshopText = `workshop: {name: Ostrel Yard}
currency: GBP
glues: [{product: blue lid, class: pva-d3}]
finishes: [{product: tin 5, family: hardwax-oil-2k}]
resins: [{product: drum B, chemistry: epoxy}]
`

// spec is a piece with everything that can be asked for.
func spec(serial, more string) string {
	return `serial: ` + serial + `
title: Estuary console table
kind: console table
finished: 2026-05-27
story: Two boards from a storm-felled tree, with knots.
top:
  outline: {length: 54 in, width: 16 in}
  thickness: 1 5/8 in
  wood: [{species: wych-elm, origin: {country: GB, note: the mill leat}}]
  resin: {material: drum B, area: 17 %, colour: smoke grey}
base: {style: two frames, material: steel, coating: black powder}
parts: [{name: drawer, material: black-walnut}]
finish: {family: hardwax-oil-2k, product: tin 5, coats: 2}
glue: [blue lid]
materials: [{use: casting resin, product: drum B, batch: 0012, supplier: "Müller & Søn", hardener: slow}]
` + more
}

func write(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// collection writes three pieces: one sold, one without glue, one in progress.
func collection(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	write(t, filepath.Join(dir, "workshop.yaml"), workshopText)
	write(t, filepath.Join(dir, "OY-1", "piece.yaml"), spec("OY-1", "availability: sold\nbuyer: {name: A. Buyer}\nlog: [{date: 2026-09-01, did: refinished the top, materials: [beeswax]}]\n"))
	write(t, filepath.Join(dir, "old", "OY-2", "piece.yaml"), strings.NewReplacer("blue lid", "hide-glue", "2026-05-27", "2025-01-31", "hardwax-oil-2k", "hardwax-oil", "tin 5", "tin 3").Replace(spec("OY-2", "")))
	write(t, filepath.Join(dir, "OY-10", "piece.yaml"), strings.NewReplacer("wych-elm", "european-ash", "0012", "12", "black-walnut", "oak").Replace(spec("OY-10", "availability: in stock\n")))
	return dir
}

func ask(t *testing.T, dir string, q Query) []Hit {
	t.Helper()
	records, skipped, err := Collect(t.Context(), []string{dir}, 2)
	if err != nil || len(skipped) > 0 {
		t.Fatal(err, skipped)
	}
	return q.Ask(records)
}

func serials(hits []Hit) (found []string) {
	for _, h := range hits {
		if !slices.Contains(found, h.Serial) {
			found = append(found, h.Serial)
		}
	}
	return found
}

func TestQuestions(t *testing.T) {
	dir := collection(t)
	for _, c := range []struct {
		name string
		q    Query
		want string
	}{
		{"a glue by the class that the workshop gives it", Query{Glue: "pva-d3"}, "OY-1 OY-10"},
		{"a glue by its product", Query{Glue: "blue lid"}, "OY-1 OY-10"},
		{"a class is taken whole", Query{Glue: "pva"}, ""},
		{"filters regard no case", Query{Glue: "PVA-D3"}, "OY-1 OY-10"},
		{"a wood by a word of its name", Query{Species: "elm"}, "OY-1 OY-2"},
		{"a wood by its botanical name", Query{Species: "Ulmus glabra"}, "OY-1 OY-2"},
		{"a wood of a part", Query{Species: "black walnut"}, "OY-1 OY-2"},
		{"steel is no wood", Query{Species: "steel"}, ""},
		{"filters do not forgive a plural", Query{Species: "elms"}, ""},
		{"a family is not its sister", Query{Finish: "hardwax-oil"}, "OY-2"},
		{"a finish by its product", Query{Finish: "tin 5"}, "OY-1 OY-10"},
		{"a resin by its chemistry in workshop.yaml", Query{Resin: "epoxy"}, "OY-1 OY-2 OY-10"},
		{"a batch as written", Query{Batch: "0012"}, "OY-1 OY-2"},
		{"a batch that looks like the same number", Query{Batch: "12"}, "OY-10"},
		{"a supplier", Query{Supplier: "müller"}, "OY-1 OY-2 OY-10"},
		{"filters regard accents", Query{Supplier: "muller"}, ""},
		{"from a month", Query{From: "2025-02"}, "OY-1 OY-10"},
		{"to a month, its last day included", Query{To: "2025-01"}, "OY-2"},
		{"to a year", Query{To: "2025"}, "OY-2"},
		{"both ends", Query{From: "2026-05-27", To: "2026-05-27"}, "OY-1 OY-10"},
		{"filters together", Query{Glue: "pva-d3", Species: "elm", From: "2025-01", To: "2026-06"}, "OY-1"},
		{"words forgive case", Query{Words: []string{"WALNUT"}}, "OY-1 OY-2"},
		{"words forgive the plural", Query{Words: []string{"elms"}}, "OY-1 OY-2"},
		{"and the singular", Query{Words: []string{"knot"}}, "OY-1 OY-2 OY-10"},
		{"words forgive accents", Query{Words: []string{"muller"}}, "OY-1 OY-2 OY-10"},
		{"and letters with a stroke", Query{Words: []string{"son"}}, "OY-1 OY-2 OY-10"},
		{"every word must be answered", Query{Words: []string{"elm", "walnut"}}, "OY-1 OY-2"},
		{"one is not", Query{Words: []string{"elm", "oak"}}, ""},
		{"words in a row", Query{Words: []string{"mill leat"}}, "OY-1 OY-2 OY-10"},
		{"not in a row", Query{Words: []string{"leat mill"}}, ""},
		{"words of the log", Query{Words: []string{"refinished"}}, "OY-1"},
		{"a part", Query{Words: []string{"drawers"}}, "OY-1 OY-2 OY-10"},
		{"no part of a word", Query{Words: []string{"wal"}}, ""},
		{"a word that is written as two", Query{Words: []string{"storm felled"}}, "OY-1 OY-2 OY-10"},
		{"a word with its hyphen left out", Query{Words: []string{"stormfelled"}}, "OY-1 OY-2 OY-10"},
		{"two words, one after the other, that are one there", Query{Words: []string{"drum", "b"}}, "OY-1 OY-2 OY-10"},
		{"one word that is two there", Query{Words: []string{"drumb"}}, "OY-1 OY-2 OY-10"},
		{"no part of two words", Query{Words: []string{"rumb"}}, ""},
		{"the word of a part that names it nowhere", Query{Words: []string{"resin"}}, "OY-1 OY-2 OY-10"},
		{"a filter without its hyphen", Query{Glue: "PVA D3"}, "OY-1 OY-10"},
		{"a batch keeps its hyphens", Query{Batch: "00-12"}, ""},
		{"a word and a filter", Query{Words: []string{"walnut"}, Finish: "hardwax-oil-2k"}, "OY-1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := strings.Join(serials(ask(t, dir, c.q)), " "); got != c.want {
				t.Errorf("%+v finds %q, want %q", c.q, got, c.want)
			}
		})
	}
}

func TestHitSaysWhereItStands(t *testing.T) {
	hits := ask(t, collection(t), Query{Batch: "0012", Species: "elm", From: "2026"})
	want := []Hit{
		{Field: "top.wood.species", Value: "wych-elm", Line: 9},
		{Field: "materials.batch", Value: "0012", Line: 15},
	}
	if len(hits) != len(want) {
		t.Fatalf("%d hits, want %d: %+v", len(hits), len(want), hits)
	}
	for i, h := range hits {
		w := want[i]
		if h.Field != w.Field || h.Value != w.Value || h.Line != w.Line || h.File != "piece.yaml" || h.Serial != "OY-1" ||
			h.Title != "Estuary console table" || h.Finished != "2026-05-27" || h.Where != "sold" || h.Buyer != "A. Buyer" || !strings.HasSuffix(h.Source, "/OY-1") {
			t.Errorf("hit %+v, want %+v of OY-1", h, w)
		}
	}
}

// sealSpec puts a spec into a bag as archive does.
func sealSpec(t *testing.T, shelf, name, text string, info ...archive.Info) string {
	t.Helper()
	b := &archive.Bag{Name: name, Info: info, Files: []archive.File{{Path: "piece/piece.yaml", Data: []byte(text)}, {Path: "workshop.yaml", Data: []byte(workshopText)}}}
	sum, err := archive.Seal(t.Context(), shelf, b)
	if err != nil {
		t.Fatal(err)
	}
	return sum
}

// What only an earlier bag says is found and told apart; where the piece is comes
// from its newest source.
func TestBagsAreSearchedToo(t *testing.T) {
	dir := collection(t)
	shelf := filepath.Join(dir, "shelf")
	if err := os.Mkdir(shelf, 0o755); err != nil {
		t.Fatal(err)
	}
	sealSpec(t, shelf, "OY-1", strings.Replace(spec("OY-1", "availability: in stock\n"), "blue lid", "hide-glue", 1))
	sealSpec(t, shelf, "OY-7", spec("OY-7", ""))
	sealSpec(t, shelf, "OY-7.rev2", strings.Replace(spec("OY-7", "availability: sold\n"), "tin 5", "tin 6", 1))
	sealSpec(t, shelf, "OY-7.owner", spec("OY-7", ""))
	hits := ask(t, dir, Query{Glue: "hide-glue", From: "2026"})
	if len(hits) != 1 || !hits[0].Earlier || !hits[0].InBag || hits[0].Where != "sold" || hits[0].Buyer != "A. Buyer" {
		t.Errorf("hide-glue: %+v, want one hit of an earlier bag, of a piece that is sold now", hits)
	}
	hits = ask(t, dir, Query{Glue: "pva-d3"})
	if got := serials(hits); !slices.Equal(got, []string{"OY-1", "OY-7", "OY-10"}) {
		t.Errorf("pva-d3: %q", got)
	}
	for _, h := range hits {
		if h.Serial == "OY-7" && (!strings.HasSuffix(h.Source, "OY-7.rev2") || h.Earlier || h.Where != "sold") {
			t.Errorf("pva-d3: %+v, want the hit of the latest bag", h)
		}
	}
	for _, h := range ask(t, dir, Query{Finish: "tin 5"}) {
		if h.Serial == "OY-7" && !h.Earlier {
			t.Errorf("tin 5: %+v, want an earlier revision", h)
		}
	}
}

func TestWhatCannotBeSearchedIsTold(t *testing.T) {
	dir := collection(t)
	write(t, filepath.Join(dir, "bad", "piece.yaml"), "serial: OY-5\nglue: [pva-d3]\nthis is no spec\n")
	write(t, filepath.Join(dir, "foreign", "bagit.txt"), "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n")
	write(t, filepath.Join(dir, "prepared", "OY-1", "report.json"), "{}")
	write(t, filepath.Join(dir, ".hidden", "piece.yaml"), spec("OY-6", ""))
	records, skipped, err := Collect(t.Context(), []string{dir, filepath.Join(dir, "OY-1")}, 2)
	if err != nil {
		t.Fatal(err)
	}
	faulty := 0
	for _, r := range records {
		if r.Faults > 0 {
			faulty++
		}
		if r.Serial == "OY-6" {
			t.Error("a hidden folder was searched")
		}
	}
	if len(records) != 4 || faulty != 1 {
		t.Errorf("%d records, %d with faults; want 4 and 1", len(records), faulty)
	}
	if len(skipped) != 1 || !strings.HasSuffix(skipped[0].Path, "/foreign") {
		t.Errorf("skipped %v, want the foreign bag", skipped)
	}
	if hits := (Query{Glue: "pva-d3"}).Ask(records); !slices.Contains(serials(hits), "OY-5") {
		t.Error("what could be read of a faulty spec was not searched")
	}
	if _, _, err := Collect(t.Context(), []string{filepath.Join(dir, "nowhere")}, 1); err == nil {
		t.Error("a path that is not there makes no error")
	}
}

func TestPlurals(t *testing.T) {
	for _, c := range [][2]string{
		{"shelf", "shelves"}, {"knife", "knives"}, {"sleeve", "sleeves"}, {"foot", "feet"}, {"batch", "batches"}, {"box", "boxes"}, {"brush", "brushes"},
		{"varnish", "varnishes"}, {"body", "bodies"}, {"tie", "ties"}, {"glue", "glues"}, {"glass", "glasses"}, {"resin", "Resins"}, {"ash", "ASHES"}, {"café", "CAFES"}, {"ladder", "Ladders"},
	} {
		if a, b := plainWords(c[0]), plainWords(c[1]); !slices.Equal(a, b) {
			t.Errorf("%q is %q and %q is %q", c[0], a, c[1], b)
		}
	}
	for _, c := range [][2]string{{"glas", "glass"}, {"batch 0012", "batch 12"}, {"pva-d2", "pva-d3"}, {"oak", "soak"}} {
		if a, b := plainWords(c[0]), plainWords(c[1]); slices.Equal(a, b) {
			t.Errorf("%q and %q are both %q", c[0], c[1], a)
		}
	}
}

// Every word of a text finds the text, however it is written.
func FuzzWords(f *testing.F) {
	f.Add("Two boards of wych-elm, knots and all")
	f.Add("ÉTABLI ß ø İ ı ŉ ﬁ")
	f.Add("0012/a b_c 木目 e\u0301")
	f.Fuzz(func(t *testing.T, text string) {
		text = strings.ToValidUTF8(text, " ") // as every spec is
		words := plainWords(text)
		for _, w := range words {
			if w == "" {
				t.Fatalf("%q has an empty word: %q", text, words)
			}
		}
		r := Record{Serial: "A", Facts: []Fact{{Field: "story", Value: text}}}
		for _, w := range split(text) {
			if !HasWords(w) {
				continue // marks alone
			}
			if len((Query{Words: []string{w}}).Ask([]Record{r})) != 1 {
				t.Errorf("%q does not find %q: %q, %q", w, text, plainWords(w), words)
			}
		}
	})
}

// Two specs without a serial are two pieces; two folders of one serial are both
// told of, and neither is an earlier one.
func TestPiecesHeldApart(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"a", "b"} {
		write(t, filepath.Join(dir, name, "piece.yaml"), "title: "+name+"\nglue: [epoxy]\n")
		write(t, filepath.Join(dir, name+"2", "piece.yaml"), "serial: OY-9\ntitle: twin\nglue: [hide-glue, "+name+"]\n")
	}
	hits := ask(t, dir, Query{Glue: "epoxy"})
	if len(hits) != 2 || hits[0].Title != "a" || hits[1].Title != "b" {
		t.Errorf("epoxy: %+v, want a and b", hits)
	}
	hits = append(ask(t, dir, Query{Glue: "a"}), ask(t, dir, Query{Glue: "b"})...)
	if len(hits) != 2 || hits[0].Earlier || hits[1].Earlier || !strings.HasSuffix(hits[1].Source, "/b2") {
		t.Errorf("twins: %+v, want both, neither earlier", hits)
	}
}

// A damaged zip is told of; one that is no bag only when it was asked for.
func TestZipsThatHoldNoBag(t *testing.T) {
	dir := collection(t)
	write(t, filepath.Join(dir, "shelf", "broken.zip"), "PK and no more")
	const emptyZip = "PK\x05\x06\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00\x00"
	write(t, filepath.Join(dir, "shelf", "other.zip"), emptyZip)
	_, skipped, err := Collect(t.Context(), []string{dir}, 1)
	if err != nil || len(skipped) != 1 || !strings.HasSuffix(skipped[0].Path, "broken.zip") {
		t.Errorf("skipped %v, %v, want broken.zip", skipped, err)
	}
	_, skipped, err = Collect(t.Context(), []string{filepath.Join(dir, "shelf", "other.zip")}, 1)
	if err != nil || len(skipped) != 1 {
		t.Errorf("skipped %v, %v, want other.zip", skipped, err)
	}
}

// The word of a part finds every piece that has the part, whatever is said of it, and
// no other; a name is found however it is parted (as people write brands: from memory).
func TestTheWordOfAPart(t *testing.T) {
	dir := t.TempDir()
	for serial, more := range map[string]string{
		"A-1": "top: {resin: {area: 10 %}}\n",
		"A-2": "top: {resin: {colour: smoke, area: 10 %}}\nmaterials: [{product: DeepRiver casting}]\n",
		"A-3": "base: {height: 16 in}\nmaterials: [{product: deepriver}]\n",
		"A-4": "finish: {family: shellac}\nmaterials: [{product: Deep-River}]\n",
		"A-5": "glue: [pva-d3]\nstory: A deep bend of the river.\n",
	} {
		write(t, filepath.Join(dir, serial, "piece.yaml"), "serial: "+serial+"\ntitle: Table\nkind: bench\n"+more)
	}
	for words, want := range map[string]string{
		"resin": "A-1 A-2", "base": "A-3", "finish": "A-4", "glue": "A-5", "RESINS": "A-1 A-2",
		"deep river": "A-2 A-3 A-4", "deepriver": "A-2 A-3 A-4", "Deep-River": "A-2 A-3 A-4", "DeepRiver": "A-2 A-3 A-4", "deep rivers": "A-2 A-3 A-4",
	} {
		if got := strings.Join(serials(ask(t, dir, Query{Words: []string{words}})), " "); got != want {
			t.Errorf("%s: %q, want %q", words, got, want)
		}
	}
	// Each word for itself is found first, and only then both as one.
	if got := strings.Join(serials(ask(t, dir, Query{Words: []string{"deep", "river"}})), " "); got != "A-2 A-3 A-4 A-5" {
		t.Errorf("two words: %q", got)
	}
}

// A wood is found by any of its names, in the languages of the papers, however the spec
// gives it. The names are from memory.
func TestAWoodByAnyOfItsNames(t *testing.T) {
	dir := t.TempDir()
	for serial, species := range map[string]string{"B-1": "Eiche", "B-2": "european-oak", "B-3": "chêne", "B-4": "Quercus robur", "B-5": "walnut", "B-6": "Nussbaum", "B-7": "white-oak"} {
		write(t, filepath.Join(dir, serial, "piece.yaml"), "serial: "+serial+"\ntitle: Board\nkind: serving board\nfinished: 2026-09-18\ntop: {outline: {length: 40 cm, width: 20 cm}, thickness: 2 cm, wood: [{species: "+species+"}]}\n")
	}
	for name, want := range map[string]string{
		"Eiche": "B-1 B-2 B-3 B-4", "chêne": "B-1 B-2 B-3 B-4", "roble": "B-1 B-2 B-3 B-4", "European oak": "B-1 B-2 B-3 B-4", "english oak": "B-1 B-2 B-3 B-4", "Quercus alba": "B-7", "noyer": "B-6", "walnut": "B-5 B-6", "Buche": "",
	} {
		for _, q := range []Query{{Species: name}, {Words: []string{name}}} {
			if got := strings.Join(serials(ask(t, dir, q)), " "); got != want {
				t.Errorf("%+v finds %q, want %q", q, got, want)
			}
		}
	}
}
