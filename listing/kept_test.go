package listing

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/stage"
)

// boardPhoto is a brown board on a pale ground.
func boardPhoto(t *testing.T, shade uint8) []byte {
	t.Helper()
	m := image.NewNRGBA(image.Rect(0, 0, 320, 240))
	for y := range 240 {
		for x := range 320 {
			c := color.NRGBA{205, 206, 205, 255}
			if x > 60 && x < 260 && y > 90 && y < 150 {
				c = color.NRGBA{shade, uint8(88 + y%9), 58, 255}
			}
			m.SetNRGBA(x, y, c)
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// A planted file is the maker's: where it was put and what is in it.
type planted struct {
	at      string // from OUT, forward slashes
	text    string
	changed bool // it takes the place of a file that a run wrote
}

// makersThings are forty things that makers put into an output folder, or change
// there.
func makersThings() []planted {
	strangers := []string{
		"notes.txt", ".hidden", "catalogue/banner.html", "catalogue/.htaccess", "OY-1/my-notes.txt", "OY-1/.draft", "OY-1/invoice.pdf", "OY-1/sheet copy.pdf",
		"OY-1/own/deep/er/a.txt", "OY-1/own/b.txt", "OY-1/listing/terms.txt", "OY-1/listing/.htaccess", "OY-1/listing/style.css", "OY-1/listing/de/index.html",
		"OY-1/listing/photos/extra.jpg", "OY-1/listing/photos/01-end-2400 (1).jpg", "OY-1/listing/photos/.DS_Store", "OY-1/listing/photos/raw/x.tif",
		"OY-1/listing/upload/cover.jpg", "OY-1/listing/upload/Thumbs.db", "OY-1/overview/sketch.png", "OY-1/overview/.cache/1", "OY-1/listing/grüße.txt",
		"OY-1/listing.txt", "OY-1/listing.kept.txt", "OY-1/listing/listing.kept.txt", "OY-1/sheet.kept.pdf", "OY-1/archive.tar.gz", "OY-1/noext", "OY-1/listing/a\nb",
	}
	changed := []string{
		"index.html", "catalogue.csv", "catalogue.json", "catalogue/index.html", "OY-1/listing/listing.txt", "OY-1/listing/index.html", "OY-1/listing/listing.json",
		"OY-1/sheet.pdf", "OY-1/care.pdf", "OY-1/label.pdf", "OY-1/report.json", "OY-1/listing/upload/alt.txt", "OY-1/listing/photos/01-a-2400.jpg", "OY-1/overview/01-a-after.jpg",
	}
	var all []planted
	for i, name := range strangers {
		all = append(all, planted{at: name, text: fmt.Sprintf("stranger %d: %s", i, name)})
	}
	for i, name := range changed {
		all = append(all, planted{at: name, text: fmt.Sprintf("changed %d: %s", i, name), changed: true})
	}
	return all
}

// allText is the content of every file below a folder, by name.
func allText(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil || !d.Type().IsRegular() {
			return err
		}
		data, err := os.ReadFile(p)
		rel, _ := filepath.Rel(dir, p)
		files[filepath.ToSlash(rel)] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// layPhotoBoard is layBoard with two photos.
func layPhotoBoard(t *testing.T) (dir string, o Options) {
	t.Helper()
	dir, o = layBoard(t)
	for name, shade := range map[string]uint8{"a.jpg": 132, "b.jpg": 90} {
		if err := os.WriteFile(filepath.Join(dir, name), boardPhoto(t, shade), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir, o
}

func prepareAll(t *testing.T, dir string, o Options) *Summary {
	t.Helper()
	sum, err := Prepare(t.Context(), []string{dir}, o)
	if err != nil {
		t.Fatal(err)
	}
	return sum
}

// Whatever the maker puts into the output folder or changes there is there after
// every kind of run, byte for byte; strangers under their own names; a file of
// ours that was changed beside the new one, once, and told as a doubt.
func TestNothingOfTheMakersIsLost(t *testing.T) {
	dir, o := layPhotoBoard(t)
	prepareAll(t, dir, o)
	things := makersThings()
	if len(things) < 40 {
		t.Fatalf("only %d things are planted", len(things))
	}
	for _, p := range things {
		if runtime.GOOS == "windows" && strings.ContainsAny(p.at, "\n") {
			continue
		}
		at := filepath.Join(o.Out, filepath.FromSlash(p.at))
		if _, err := os.Stat(at); p.changed != (err == nil) {
			t.Fatalf("%s: changed %v, but %v", p.at, p.changed, err)
		}
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			t.Fatal(err)
		}
		os.Remove(at) // outputs may share their bytes with others
		if err := os.WriteFile(at, []byte(p.text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	empty, link := filepath.Join(o.Out, "OY-1", "listing", "to do"), filepath.Join(o.Out, "OY-1", "listing", "elsewhere")
	if err := os.Mkdir(empty, 0o755); err != nil {
		t.Fatal(err)
	}
	linked := os.Symlink("../../notes.txt", link) == nil
	spec, err := os.ReadFile(filepath.Join(dir, "piece.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	kept := -1
	for i, step := range []struct {
		what string
		do   func(*Options)
	}{
		{"run again", func(*Options) {}},
		{"forced", func(o *Options) { o.Force = true }},
		{"another build", func(o *Options) { o.Build = "other" }},
		{"only documents", func(o *Options) { o.Only = OnlyDocuments }},
		{"only the listing", func(o *Options) { o.Only = OnlyListing }},
		{"a photo withdrawn", func(*Options) {
			text := string(spec) + "photos: {leave_out: [a.jpg]}\n"
			if err := os.WriteFile(filepath.Join(dir, "piece.yaml"), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}},
		{"forced again", func(o *Options) { o.Force = true }},
	} {
		opts := o
		step.do(&opts)
		sum := prepareAll(t, dir, opts)
		files := allText(t, o.Out)
		var texts []string
		marks := 0
		for name, text := range files {
			texts = append(texts, text)
			if strings.Contains(name, ".kept") {
				marks++
			}
		}
		for _, p := range things {
			if !p.changed && files[p.at] != p.text {
				t.Errorf("%s: the stranger %q holds %.40q", step.what, p.at, files[p.at])
			}
			if !slices.Contains(texts, p.text) {
				t.Errorf("%s: %q is lost", step.what, p.at)
			}
		}
		if _, err := os.Stat(empty); err != nil {
			t.Errorf("%s: the empty folder is gone", step.what)
		}
		if to, err := os.Readlink(link); linked && (err != nil || to != "../../notes.txt") {
			t.Errorf("%s: the link is %q, %v", step.what, to, err)
		}
		doubts := 0
		for _, r := range sum.Results {
			for _, f := range r.Findings {
				if f.Code == "out.kept" {
					doubts++
					if f.Rank != piece.Doubt || !strings.Contains(f.Message, ".kept") {
						t.Errorf("%s: %+v", step.what, f)
					}
				}
			}
		}
		if i == 0 {
			kept = marks
			if doubts != 14 {
				t.Errorf("%d doubts tell of 14 changed files", doubts)
			}
		}
		if marks != kept {
			t.Errorf("%s: %d kept files, there were %d", step.what, marks, kept)
		}
	}
}

// A folder in the place of a file of ours, and a file or a link in the place of a
// folder, are set aside whole.
func TestFoldersAndFilesChangePlaces(t *testing.T) {
	dir, o := layPhotoBoard(t)
	prepareAll(t, dir, o)
	at := func(name string) string { return filepath.Join(o.Out, "OY-1", filepath.FromSlash(name)) }
	for _, name := range []string{"sheet.pdf", "overview"} {
		if err := os.RemoveAll(at(name)); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.MkdirAll(at("sheet.pdf/old"), 0o755); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"sheet.pdf/old/1.txt": "one", "overview": "a file"} {
		if err := os.WriteFile(at(name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for range 2 {
		o.Force = true
		prepareAll(t, dir, o)
		if got := content(t, at("sheet.kept.pdf/old/1.txt")); got != "one" {
			t.Errorf("the folder holds %q", got)
		}
		if got := content(t, at("overview.kept")); got != "a file" {
			t.Errorf("the file holds %q", got)
		}
		if info, err := os.Stat(at("sheet.pdf")); err != nil || !info.Mode().IsRegular() {
			t.Errorf("the new sheet: %v", err)
		}
	}
}

// What a run was killed in the middle of loses nothing of the maker's either: the
// folder that was being replaced may hold what came into it last.
func TestKilledBetweenTheSteps(t *testing.T) {
	dir, o := layPhotoBoard(t)
	prepareAll(t, dir, o)
	final := filepath.Join(o.Out, "OY-1")
	for i, left := range []string{".OY-1.slabfolio-replaced", ".OY-1.slabfolio-being-made"} {
		old := filepath.Join(o.Out, left)
		if err := os.CopyFS(old, os.DirFS(final)); err != nil {
			t.Fatal(err)
		}
		late := fmt.Sprintf("came late %d", i)
		if err := os.WriteFile(filepath.Join(old, "listing", "late.txt"), []byte(late), 0o644); err != nil {
			t.Fatal(err)
		}
		prepareAll(t, dir, o)
		found := false
		for _, text := range allText(t, o.Out) {
			found = found || text == late
		}
		if !found {
			t.Errorf("%s: what came late is lost", left)
		}
		if _, err := os.Stat(old); err == nil {
			t.Errorf("%s is still there", left)
		}
	}
	if err := os.MkdirAll(filepath.Join(o.Out, ".OY-1.slabfolio-being-made", "listing"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(o.Out, ".OY-1"+stage.LockSuffix), nil, 0o644); err != nil { // as a killed run leaves it
		t.Fatal(err)
	}
	stage.Sweep(o.Out) // not finished, nobody's
	if _, err := os.Stat(filepath.Join(o.Out, ".OY-1.slabfolio-being-made")); err == nil {
		t.Error("what was not finished is still there")
	}
}

// A photo that is withdrawn is gone from every public output, whatever --only
// says; so is a value.
func TestWithdrawnIsGoneEverywhere(t *testing.T) {
	for _, only := range []string{OnlyPhotos, OnlyDocuments, OnlyListing} {
		dir, o := layPhotoBoard(t)
		spec := content(t, filepath.Join(dir, "piece.yaml"))
		save := func(text string) {
			t.Helper()
			if err := os.WriteFile(filepath.Join(dir, "piece.yaml"), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		save(spec + "found: an iron bell\nphotos: {views: {a.jpg: end, b.jpg: front}}\n")
		prepareAll(t, dir, o)
		save(spec + "photos: {views: {a.jpg: end, b.jpg: front}, leave_out: [a.jpg]}\n")
		o.Only = only
		sum := prepareAll(t, dir, o)
		files := allText(t, o.Out)
		for name, text := range files {
			if strings.HasPrefix(name, "OY-1/listing/") && (strings.Contains(name, "-end") || strings.Contains(text, "iron bell") || strings.Contains(text, "-end-")) {
				t.Errorf("--only %s: %s still shows what was withdrawn", only, name)
			}
		}
		if _, ok := files["OY-1/listing/photos/01-front-2400.jpg"]; !ok {
			t.Errorf("--only %s: the other photo is missing", only)
		}
		if !slices.ContainsFunc(sum.Results[0].Findings, func(f piece.Finding) bool { return f.Code == "run.withdrawn" }) {
			t.Errorf("--only %s: nothing is said of it: %+v", only, sum.Results[0].Findings)
		}
	}
}

// A swapped photo of the same size and time is told by its change time.
func TestSwappedPhotoOfEqualSizeAndTime(t *testing.T) {
	dir, o := layPhotoBoard(t)
	prepareAll(t, dir, o)
	at := filepath.Join(dir, "a.jpg")
	info, err := os.Stat(at)
	if err != nil {
		t.Fatal(err)
	}
	if changeTime(info).IsZero() {
		t.Skip("this system does not tell when a file was changed")
	}
	other := boardPhoto(t, 132)
	other[len(other)-3] ^= 1 // within the coded pixels
	if err := os.WriteFile(at, other, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Chtimes(at, info.ModTime(), info.ModTime()); err != nil {
		t.Fatal(err)
	}
	if got := prepareAll(t, dir, o).Results[0].Outcome; got != Prepared {
		t.Errorf("after the swap: %s", got)
	}
	if got := prepareAll(t, dir, o).Results[0].Outcome; got != UpToDate {
		t.Errorf("after that: %s", got)
	}
}

// Outputs of a piece that was deleted or renumbered are named, and put away when
// that is asked for; those of folders that the run does not look at are not.
func TestPiecesNoLongerThere(t *testing.T) {
	dir, o := layPhotoBoard(t)
	root := filepath.Dir(dir)
	for _, serial := range []string{"OY-2", "OY-3"} {
		if err := os.MkdirAll(filepath.Join(root, serial), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(root, serial, "piece.yaml"), []byte(strings.Replace(boardSpec, "OY-1", serial, 1)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	gone := func(path string, tidy bool) (serials []string) {
		t.Helper()
		o.Tidy = tidy
		sum := prepareAll(t, path, o)
		for _, r := range sum.Results {
			for _, f := range r.Findings {
				if f.Code == "out.no-longer-there" || f.Code == "out.put-away" {
					serials = append(serials, f.Message[:4])
				}
			}
		}
		return serials
	}
	if got := gone(root, false); got != nil {
		t.Errorf("all are there, and %q are said to be gone", got)
	}
	if err := os.RemoveAll(filepath.Join(root, "OY-2")); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(root, "OY-3", "piece.yaml"), []byte(strings.Replace(boardSpec, "OY-1", "OY-4", 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	if got := gone(dir, true); got != nil {
		t.Errorf("a run over one piece says that %q are gone", got)
	}
	if got := gone(root, false); !slices.Equal(got, []string{"OY-2", "OY-3"}) {
		t.Errorf("gone: %q, want OY-2 and OY-3", got)
	}
	if _, err := os.Stat(filepath.Join(o.Out, "OY-2", "sheet.pdf")); err != nil {
		t.Errorf("moved without being asked: %v", err)
	}
	if got := gone(root, true); !slices.Equal(got, []string{"OY-2", "OY-3"}) {
		t.Errorf("put away: %q", got)
	}
	for _, serial := range []string{"OY-2", "OY-3"} {
		if _, err := os.Stat(filepath.Join(o.Out, noLongerThere, serial, "sheet.pdf")); err != nil {
			t.Error(err)
		}
	}
	if csv := content(t, filepath.Join(o.Out, "catalogue.csv")); strings.Contains(csv, "OY-2") || !strings.Contains(csv, "OY-4") {
		t.Errorf("the catalogue:\n%s", csv)
	}
	if got := gone(root, true); got != nil {
		t.Errorf("tidied twice: %q", got)
	}
}
