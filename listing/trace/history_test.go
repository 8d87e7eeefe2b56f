package trace

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/archive"
)

// info is what archive writes of a revision.
func info(serial string, n int, day, before, sum string) []archive.Info {
	i := []archive.Info{{Label: "Bagging-Date", Value: day}, {Label: "External-Identifier", Value: serial}, {Label: "Internal-Sender-Identifier", Value: archive.RevisionName(serial, n)},
		{Label: "Revision", Value: fmt.Sprint(n)}, {Label: "Bag-Software-Agent", Value: "slabfolio 1"}}
	if before != "" {
		i = append(i, archive.Info{Label: "Predecessor", Value: before}, archive.Info{Label: "Predecessor-Manifest-SHA512", Value: sum})
	}
	return i
}

// threeRevisions seals a piece as it was made, refinished, and with a drawer
// more; the clock was wrong at the last one.
func threeRevisions(t *testing.T) (shelf string) {
	t.Helper()
	shelf = t.TempDir()
	first := spec("OY-1", "log: [{date: 2026-06-01, did: oiled again}]\n")
	second := strings.NewReplacer("log: [", "log: [{date: 2026-09-01, did: refinished, materials: [tin 6, wax]}, ", "tin 5", "tin 6", "coats: 2", "coats: 3").Replace(first)
	third := strings.Replace(second, "parts: [", "parts: [{name: tray, material: oak, count: 2}, ", 1)
	a := sealSpec(t, shelf, "OY-1", first, info("OY-1", 1, "2026-06-02", "", "")...)
	b := sealSpec(t, shelf, "OY-1.rev2", second, info("OY-1", 2, "2026-09-03", "OY-1", a)...)
	sealSpec(t, shelf, "OY-1.rev3", third, info("OY-1", 3, "2020-01-01", "OY-1.rev2", b)...)
	sealSpec(t, shelf, "OY-1.owner", first, archive.Info{Label: "External-Identifier", Value: "OY-1"}, archive.Info{Label: "Internal-Sender-Identifier", Value: "OY-1.owner"})
	sealSpec(t, shelf, "OY-2", spec("OY-2", ""), info("OY-2", 1, "2026-06-02", "", "")...)
	return shelf
}

func history(t *testing.T, shelf string) []Chapter {
	t.Helper()
	story, skipped, err := History(t.Context(), []string{shelf}, "oy-1", 2)
	if err != nil || len(skipped) > 0 {
		t.Fatal(err, skipped)
	}
	return story
}

func TestHistory(t *testing.T) {
	story := history(t, threeRevisions(t))
	if len(story) != 3 {
		t.Fatalf("%d revisions, want 3: %+v", len(story), story)
	}
	for i, want := range []struct {
		link    string
		log     []string
		changes []Change
		doubts  int
	}{
		{LinkFirst, []string{"oiled again"}, nil, 0},
		{LinkRight, []string{"refinished"}, []Change{
			{Altered, "spec", "finish.product", "tin 5", "tin 6"}, {Altered, "spec", "finish.coats", "2", "3"},
		}, 0},
		{LinkRight, nil, []Change{{Added, "spec", "parts: tray", "", "name: tray, material: oak, count: 2"}}, 1},
	} {
		got := story[i]
		var log []string
		for _, l := range got.Log {
			log = append(log, l.Did)
		}
		if got.Revision != i+1 || got.Link != want.link || !slices.Equal(log, want.log) || !slices.Equal(got.Changes, want.changes) || len(got.Doubts) != want.doubts {
			t.Errorf("revision %d: %+v\nwant %+v", i+1, got, want)
		}
	}
	if d := story[2].Doubts; len(d) == 1 && !strings.Contains(d[0], "clock") {
		t.Errorf("the doubt of revision 3 is %q, want one about the clock", d)
	}
}

// A bag that was replaced by another is told of, as is one that is gone.
func TestChainOfManifests(t *testing.T) {
	shelf := threeRevisions(t)
	if err := os.RemoveAll(filepath.Join(shelf, "OY-1.rev2")); err != nil {
		t.Fatal(err)
	}
	story := history(t, shelf)
	if len(story) != 2 || story[1].Revision != 3 || story[1].Link != LinkMissing {
		t.Errorf("without revision 2: %+v, want the link of revision 3 to be missing", story)
	}
	sealSpec(t, shelf, "OY-1.rev2", spec("OY-1", ""), info("OY-1", 2, "2026-09-03", "OY-1", strings.Repeat("0", 128))...)
	story = history(t, shelf)
	if len(story) != 3 || story[1].Link != LinkWrong || story[2].Link != LinkWrong {
		t.Errorf("with another revision 2: %+v, want wrong links", story)
	}
}

// The same bag twice is one revision; two that only claim the same number are two.
func TestCopiesOfABag(t *testing.T) {
	shelf := threeRevisions(t)
	if err := os.CopyFS(filepath.Join(shelf, "copy", "OY-1"), os.DirFS(filepath.Join(shelf, "OY-1"))); err != nil {
		t.Fatal(err)
	}
	sealSpec(t, filepath.Join(shelf, "copy"), "OY-1.rev2", spec("OY-1", "weighed: 20 kg\n"), info("OY-1", 2, "2026-09-03", "OY-1", "0")...)
	story := history(t, shelf)
	if len(story) != 4 || len(story[0].Also) != 1 {
		t.Fatalf("%d chapters, %q; want 4 and one copy of the first", len(story), story[0].Also)
	}
	if story[1].Revision != 2 || story[2].Revision != 2 || len(story[1].Doubts)+len(story[2].Doubts) != 1 {
		t.Errorf("two bags call themselves revision 2: %+v, %+v, want one doubt", story[1], story[2])
	}
}

func TestOnlyOwnersCopies(t *testing.T) {
	shelf := t.TempDir()
	sealSpec(t, shelf, "OY-1.owner", spec("OY-1", ""), archive.Info{Label: "External-Identifier", Value: "OY-1"}, archive.Info{Label: "Internal-Sender-Identifier", Value: "OY-1.owner"})
	if story := history(t, shelf); len(story) != 1 || story[0].Bag != "OY-1.owner" {
		t.Errorf("%+v, want the owner's copy", story)
	}
}

// A spec that cannot be compared is said to be so.
func TestUnreadableSpecInABag(t *testing.T) {
	shelf := t.TempDir()
	sealSpec(t, shelf, "OY-1", "serial: OY-1\nglue: [pva-d3\nthis is none\n")
	sealSpec(t, shelf, "OY-1.rev2", spec("OY-1", ""))
	story := history(t, shelf)
	if len(story) != 2 || story[0].Unread == "" || story[1].Link != LinkNone {
		t.Errorf("%+v, want a first one that cannot be read", story)
	}
}

// Differences go by content: order, quotes and layout are none.
func TestChangesGoByContent(t *testing.T) {
	base := spec("OY-1", "parts2: x\n")
	base = strings.Replace(base, "parts2: x\n", "", 1)
	for _, c := range []struct {
		name     string
		old, new string
		want     string
	}{
		{"nothing", "", "", ""},
		{"layout", "base: {style: two frames, material: steel, coating: black powder}", "base:\n  coating: black powder\n  material: 'steel' # as bought\n  style: two frames", ""},
		{"order of keys", "glue: [blue lid]\n", "", "removed glue"},
		{"one value for a list of one", "glue: [blue lid]", "glue: blue lid", ""},
		{"one glue more", "glue: [blue lid]", "glue: [epoxy, blue lid]", "added glue"},
		{"a value", "coats: 2", "coats: 3", "changed finish.coats"},
		{"a value in a list", "batch: 0012", "batch: 12", "changed materials: casting resin, drum B.batch"},
		{"a part that goes", "parts: [{name: drawer, material: black-walnut}]", "", "removed parts: drawer"},
		{"a part that comes first", "parts: [", "parts: [{name: tray}, ", "added parts: tray"},
		{"a part that becomes another", "name: drawer", "name: box", "removed parts: drawer; added parts: box"},
		{"a wood's moisture", "species: wych-elm,", "species: wych-elm, moisture: 9 %,", "added top.wood: wych-elm.moisture"},
		{"a group", "finish: {family: hardwax-oil-2k, product: tin 5, coats: 2}", "", "removed finish"},
	} {
		t.Run(c.name, func(t *testing.T) {
			shelf := t.TempDir()
			now := strings.Replace(base, c.old, c.new, 1)
			if c.old != "" && now == base {
				t.Fatalf("%q is not in the spec", c.old)
			}
			sealSpec(t, shelf, "OY-1", base)
			sealSpec(t, shelf, "OY-1.rev2", now)
			story := history(t, shelf)
			var got []string
			for _, ch := range story[len(story)-1].Changes {
				if ch.Of == "spec" {
					got = append(got, ch.Kind+" "+ch.What)
				}
			}
			if text := strings.Join(got, "; "); text != c.want {
				t.Errorf("got %q, want %q", text, c.want)
			}
		})
	}
}

func TestFilesThatComeAndGo(t *testing.T) {
	a := map[string]string{"piece/piece.yaml": "1", "piece/a.jpg": "1", "piece/gone.jpg": "1", "prepared/sheet.pdf": "1", "workshop.yaml": "1", "README.txt": "1"}
	b := map[string]string{"piece/piece.yaml": "2", "piece/a.jpg": "2", "piece/process/new.jpg": "1", "prepared/sheet.pdf": "2", "workshop.yaml": "2", "README.txt": "2"}
	want := []Change{{Altered, "file", "a.jpg", "", ""}, {Removed, "file", "gone.jpg", "", ""}, {Added, "file", "process/new.jpg", "", ""}, {Altered, "file", "workshop.yaml", "", ""}}
	if got := compareFiles(a, b); !slices.Equal(got, want) {
		t.Errorf("got %+v, want %+v", got, want)
	}
}
