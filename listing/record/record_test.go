package record

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing"
	"slabfolio/listing/archive"
	"slabfolio/listing/stage"
	"slabfolio/testdata/beside"
)

// smallPhoto is a brown board on a pale ground.
func smallPhoto(t *testing.T) []byte {
	t.Helper()
	m := image.NewNRGBA(image.Rect(0, 0, 320, 240))
	for y := range 240 {
		for x := range 320 {
			c := color.NRGBA{205, 206, 205, 255}
			if x > 60 && x < 260 && y > 90 && y < 150 {
				c = color.NRGBA{132, uint8(88 + y%9), 58, 255}
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

const sealedSpec = `serial: OY-0300
title: Weir side table
kind: side table
finished: 2026-05-27
story: Two boards.
top:
  outline: {length: 600 mm, width: 400 mm}
  thickness: 40 mm
  wood: [{species: wych-elm}]
finish: {family: hardwax-oil, product: tin 3}
# secretremark: paid in cash
materials: [{use: finish, product: tin 3, batch: H2231, supplier: Brambleworks}]
availability: sold
buyer: {name: Q. Quillfeather, delivered: 2026-06-09}
costs: {hours: 4711, rate: 31, items: [{for: xyzzyslab, amount: 987}]}
photos: {leave_out: [z-receipt.jpg]}
`

const sealedWorkshop = "workshop: {name: Ostrel Yard, address: \"4 Kiln Lane, Ostrel\", email: bench@ostrel-yard.example, phone: 01632 960417}\nunits: mm\ncurrency: GBP\n"

// workshopFolder writes a collection of one piece and returns its folder.
func workshopFolder(t *testing.T) (dir string) {
	t.Helper()
	dir = t.TempDir()
	files := map[string]string{
		"workshop.yaml": sealedWorkshop, "OY-0300/piece.yaml": sealedSpec, "OY-0300/a.jpg": string(smallPhoto(t)), "OY-0300/a.dng": "a raw file",
		"OY-0300/packed.jpg": string(smallPhoto(t)) + "packedmark", "OY-0300/z-receipt.jpg": string(smallPhoto(t)) + "receiptmark", "OY-0300/invoice.txt": "invoicemark",
		"OY-0300/process/glueing.txt": "processmark", "OY-0300/papers/receipt.txt": "papersmark", "OY-0300/.hidden": "x", "OY-0300/process/.DS_Store": "x",
	}
	for name, text := range files {
		put(t, filepath.Join(dir, name), text)
	}
	if err := os.Symlink("/etc/hosts", filepath.Join(dir, "OY-0300", "link.txt")); err != nil {
		t.Log("no links here: ", err)
	}
	return dir
}

func put(t *testing.T, path, text string) {
	t.Helper()
	if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, []byte(text), 0o644)); err != nil {
		t.Fatal(err)
	}
}

// sealAll archives and wants no error.
func sealAll(t *testing.T, dir string, change func(*Options)) (*listing.Summary, string) {
	t.Helper()
	o := Options{To: filepath.Join(dir, "shelf"), Today: "2026-10-01", Software: "slabfolio test"}
	if change != nil {
		change(&o)
	}
	sum, err := Archive(t.Context(), []string{dir}, o)
	if err != nil {
		t.Fatal(err)
	}
	return sum, o.To
}

// wantWhole verifies a bag.
func wantWhole(t *testing.T, path string) {
	t.Helper()
	v, err := archive.Verify(t.Context(), path, nil)
	if err != nil || !v.Valid() {
		t.Fatalf("%s: %+v, %v", path, v, err)
	}
}

func codes(s *listing.Summary) (found []string) {
	for _, r := range s.Results {
		for _, f := range r.Findings {
			if strings.HasPrefix(f.Code, "archive.") {
				found = append(found, f.Code)
			}
		}
	}
	return found
}

// bagFiles reads all files of a bag.
func bagFiles(t *testing.T, path string) map[string]string {
	t.Helper()
	fsys, closer, err := archive.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer closer()
	files := map[string]string{}
	err = fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(fsys, name)
		files[name] = string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func nameList(files map[string]string) string {
	var out []string
	for _, n := range slices.Sorted(maps.Keys(files)) {
		out = append(out, strings.TrimPrefix(n, "data/"))
	}
	return strings.Join(out, "\n")
}

func TestBagHoldsTheRecord(t *testing.T) {
	dir := workshopFolder(t)
	sum, shelf := sealAll(t, dir, nil)
	if r := sum.Results[0]; r.Outcome != listing.Sealed || r.Bag != "OY-0300" {
		t.Fatalf("%+v", r)
	}
	bag := filepath.Join(shelf, "OY-0300")
	wantWhole(t, bag)
	files := bagFiles(t, bag)
	for _, name := range []string{"piece.yaml", "a.jpg", "a.dng", "packed.jpg", "z-receipt.jpg", "invoice.txt", "process/glueing.txt", "papers/receipt.txt"} {
		want, err := os.ReadFile(filepath.Join(dir, "OY-0300", name))
		if err != nil || files["data/piece/"+name] != string(want) {
			t.Errorf("%s is not byte for byte in the bag (%v)", name, err)
		}
	}
	if files["data/workshop.yaml"] != sealedWorkshop {
		t.Error("workshop.yaml is not byte for byte in the bag")
	}
	for _, name := range []string{"sheet.pdf", "care.pdf", "label.pdf", "shipping.pdf", "report.json", "listing/index.html", "listing/listing.json", "listing/listing.txt"} {
		if files["data/prepared/"+name] == "" {
			t.Errorf("no prepared/%s in the bag", name)
		}
	}
	for name := range files {
		if strings.Contains(name, "/.") || strings.Contains(name, "link.txt") || strings.Contains(name, "listing.zip") {
			t.Errorf("%s is in the bag", name)
		}
	}
	for _, line := range []string{"Source-Organization: Ostrel Yard", "Organization-Address: 4 Kiln Lane, Ostrel", "Contact-Phone: 01632 960417", "Contact-Email: bench@ostrel-yard.example",
		"Bagging-Date: 2026-10-01", "External-Identifier: OY-0300", "Bag-Group-Identifier: Ostrel Yard", "Bag-Software-Agent: slabfolio test", "Payload-Oxum: ", "Bag-Size: ", "External-Description: ", "Internal-Sender-Identifier: OY-0300"} {
		if !strings.Contains(files["bag-info.txt"], line) {
			t.Errorf("bag-info.txt has no %q:\n%s", line, files["bag-info.txt"])
		}
	}
	for _, word := range []string{"Weir side table", "RFC 8493", "sha512sum -c", "process/", "papers/"} {
		if !strings.Contains(files["data/README.txt"], word) {
			t.Errorf("README.txt does not say %q", word)
		}
	}
	if got := codes(sum); !slices.Equal(got, []string{"archive.link"}) {
		t.Errorf("findings %q, want a note of the link", got)
	}
	entries, _ := os.ReadDir(shelf)
	if len(entries) != 1 {
		t.Errorf("%d things on the shelf, want the bag alone", len(entries))
	}
}

func TestOnlyAChangedPieceMakesARevision(t *testing.T) {
	for _, zip := range []bool{false, true} {
		t.Run(fmt.Sprintf("zip=%v", zip), func(t *testing.T) {
			dir := workshopFolder(t)
			zipped := func(o *Options) { o.Zip = zip }
			_, shelf := sealAll(t, dir, zipped)
			sum, _ := sealAll(t, dir, func(o *Options) {
				o.Zip, o.Today, o.Software, o.Units = zip, "2027-01-01", "slabfolio newer", "in"
			})
			if r := sum.Results[0]; r.Outcome != listing.AlreadySealed || r.Bag != "" {
				t.Errorf("nothing changed: %+v", r)
			}
			first := filepath.Join(shelf, "OY-0300")
			second := filepath.Join(shelf, "OY-0300.rev2")
			if zip {
				first, second = first+".zip", second+".zip"
			}
			before := bagFiles(t, first)
			put(t, filepath.Join(dir, "OY-0300", "process", "new.txt"), "refinished")
			sum, _ = sealAll(t, dir, zipped)
			if r := sum.Results[0]; r.Outcome != listing.Sealed || r.Bag != "OY-0300.rev2" {
				t.Fatalf("a file more: %+v", r)
			}
			wantWhole(t, first)
			wantWhole(t, second)
			fsys, closer, err := archive.Open(first)
			if err != nil {
				t.Fatal(err)
			}
			defer closer()
			_, manifest, err := archive.Payload(fsys)
			if err != nil {
				t.Fatal(err)
			}
			after := bagFiles(t, second)
			if info := after["bag-info.txt"]; !strings.Contains(info, "Predecessor: OY-0300\n") || !strings.Contains(info, manifest) || !strings.Contains(info, "Revision: 2\n") {
				t.Errorf("the second does not name the first and %s:\n%s", manifest, info)
			}
			for name, data := range bagFiles(t, first) {
				if before[name] != data {
					t.Errorf("the first bag was changed: %s", name)
				}
			}
			for _, change := range []func(){
				func() { put(t, filepath.Join(dir, "workshop.yaml"), sealedWorkshop+"paper: a4\n") },
				func() { os.Remove(filepath.Join(dir, "OY-0300", "papers", "receipt.txt")) },
				func() { put(t, filepath.Join(dir, "OY-0300", "piece.yaml"), sealedSpec+"weighed: 9 kg\n") },
			} {
				change()
				if sum, _ := sealAll(t, dir, zipped); sum.Results[0].Outcome != listing.Sealed {
					t.Errorf("a change made no revision: %+v", sum.Results[0])
				}
			}
		})
	}
}

// pdfText is what a PDF says, with pdftotext (poppler).
func pdfText(t *testing.T, data string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "a.pdf")
	put(t, path, data)
	out, err := exec.Command("pdftotext", path, "-").Output()
	if err != nil {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
			t.Fatal("pdftotext: ", err)
		}
		t.Log("no pdftotext: the text of PDFs is not searched")
	}
	return string(out)
}

// checksum is a SHA-256 or SHA-512 in hexadecimal digits.
var checksum = regexp.MustCompile(`\b(?:[0-9a-f]{64}|[0-9a-f]{128})\b`)

// Nothing private may stand anywhere in the owner's copy: every byte of every
// file and the text of every PDF is searched.
func TestOwnersCopyHoldsNothingPrivate(t *testing.T) {
	dir := workshopFolder(t)
	sum, shelf := sealAll(t, dir, func(o *Options) { o.Owner = true })
	bag := filepath.Join(shelf, "OY-0300.owner")
	wantWhole(t, bag)
	files := bagFiles(t, bag)
	for name, data := range files {
		if strings.HasSuffix(name, ".pdf") {
			data += pdfText(t, data)
		}
		data = checksum.ReplaceAllString(data, "") // which may hold any four digits
		for _, secret := range []string{"Quillfeather", "2026-06-09", "Brambleworks", "4711", "xyzzyslab", "987.", "costs:", "secretremark", "packedmark", "receiptmark", "invoicemark", "processmark", "papersmark", "z-receipt", "packed.jpg"} {
			if strings.Contains(name+"\n"+data, secret) {
				t.Errorf("%s holds %q", name, secret)
			}
		}
	}
	for _, name := range []string{"data/piece/a.jpg", "data/piece/a.dng", "data/prepared/sheet.pdf", "data/prepared/listing/index.html", "data/README.txt"} {
		if files[name] == "" {
			t.Errorf("no %s in the owner's copy:\n%s", name, nameList(files))
		}
	}
	if !strings.Contains(files["data/piece/piece.yaml"], "H2231") {
		t.Error("the batch is not in the owner's copy: who has the piece may have to know")
	}
	if got := codes(sum); slices.Contains(got, "archive.private") {
		t.Errorf("findings %q, want no doubt about private matters", got)
	}
	// A private change alone makes no revision of the owner's copy.
	put(t, filepath.Join(dir, "OY-0300", "piece.yaml"), strings.Replace(sealedSpec, "4711", "4712", 1))
	if sum, _ := sealAll(t, dir, func(o *Options) { o.Owner = true }); sum.Results[0].Outcome != listing.AlreadySealed {
		t.Errorf("%+v, want that nothing changed", sum.Results[0])
	}
}

// A name that a maker wrote where others read is told of.
func TestNamesInTheOwnersCopyAreDoubted(t *testing.T) {
	for name, change := range map[string]func(dir string){
		"log": func(dir string) {
			put(t, dir+"/piece.yaml", sealedSpec+"log: [{date: 2027-01-01, did: oiled at q. quillfeather's}]\n")
		},
		"story": func(dir string) {
			put(t, dir+"/piece.yaml", strings.Replace(sealedSpec, "Two boards.", "Wood from Brambleworks.", 1))
		},
		"file":              func(dir string) { put(t, dir+"/for Q. Quillfeather.jpg", string(smallPhoto(t))) },
		"surname in a file": func(dir string) { put(t, dir+"/quillfeather_2.jpg", string(smallPhoto(t))) },
		"surname in the log": func(dir string) {
			put(t, dir+"/piece.yaml", sealedSpec+"log: [{date: 2027-01-01, did: oiled for Mrs Quillfeather}]\n")
		},
		"in Exif": func(dir string) { put(t, dir+"/a.jpg", string(smallPhoto(t))+"caption: Q. Quillfeather") },
	} {
		t.Run(name, func(t *testing.T) {
			dir := workshopFolder(t)
			change(filepath.Join(dir, "OY-0300"))
			sum, _ := sealAll(t, dir, func(o *Options) { o.Owner = true })
			if got := codes(sum); !slices.Contains(got, "archive.private") || sum.Results[0].Outcome != listing.Sealed {
				t.Errorf("findings %q of %+v, want a doubt", got, sum.Results[0])
			}
		})
	}
}

func TestEarlierBagThatIsNotWhole(t *testing.T) {
	dir := workshopFolder(t)
	_, shelf := sealAll(t, dir, nil)
	if err := os.Remove(filepath.Join(shelf, "OY-0300", "data", "piece", "a.jpg")); err != nil {
		t.Fatal(err)
	}
	sum, _ := sealAll(t, dir, nil)
	if r := sum.Results[0]; r.Outcome != listing.Sealed || r.Bag != "OY-0300.rev2" || !slices.Contains(codes(sum), "archive.earlier") {
		t.Errorf("%+v, want a second revision and a doubt", r)
	}
	wantWhole(t, filepath.Join(shelf, "OY-0300.rev2"))
	if sum, _ := sealAll(t, dir, nil); sum.Results[0].Outcome != listing.AlreadySealed {
		t.Errorf("%+v, want that nothing changed", sum.Results[0])
	}
}

func TestClockSetBack(t *testing.T) {
	dir := workshopFolder(t)
	sealAll(t, dir, nil)
	put(t, filepath.Join(dir, "OY-0300", "process", "new.txt"), "x")
	sum, shelf := sealAll(t, dir, func(o *Options) { o.Today = "2020-01-01" })
	if got := codes(sum); !slices.Contains(got, "archive.clock") {
		t.Errorf("findings %q, want a doubt about the clock", got)
	}
	put(t, filepath.Join(dir, "OY-0300", "process", "newer.txt"), "x")
	sum, _ = sealAll(t, dir, nil)
	if r := sum.Results[0]; r.Bag != "OY-0300.rev3" || slices.Contains(codes(sum), "archive.clock") {
		t.Errorf("%+v, want a third revision without a doubt", r)
	}
	wantWhole(t, filepath.Join(shelf, "OY-0300.rev3"))
}

func TestTwoRunsOnOneShelf(t *testing.T) {
	dir := workshopFolder(t)
	o := Options{To: filepath.Join(dir, "shelf"), Today: "2026-10-01"}
	second := errors.New("not tried")
	o.Report = func(e listing.Event) {
		if e.Kind == listing.FoundPieces {
			_, second = Archive(t.Context(), []string{dir}, Options{To: o.To, Today: "2026-10-01"})
		}
	}
	if _, err := Archive(t.Context(), []string{dir}, o); err != nil {
		t.Fatal(err)
	}
	if !errors.Is(second, stage.ErrBusy) {
		t.Errorf("the second run: %v, want that another is working", second)
	}
	wantWhole(t, filepath.Join(o.To, "OY-0300"))
}

// What ends as our own unfinished bags do, on a shelf where no run was killed, is
// somebody's and stays.
func TestWhatOnlyEndsAsOursStaysOnTheShelf(t *testing.T) {
	dir := workshopFolder(t)
	shelf := filepath.Join(dir, "shelf")
	strangers := []string{filepath.Join(shelf, ".slabfolio-being-sealed", "a.txt"), filepath.Join(shelf, ".OY-0300.slabfolio-being-sealed", "b.txt"), filepath.Join(shelf, preparedHere)}
	for _, at := range strangers {
		if err := os.MkdirAll(filepath.Dir(at), 0o755); err != nil {
			t.Fatal(err)
		}
		put(t, at, "mine")
	}
	for _, at := range []string{preparedHere, ".OY-0300.slabfolio-being-sealed"} {
		if _, err := Archive(t.Context(), []string{dir}, Options{To: shelf, Today: "2026-10-01"}); err == nil || !strings.Contains(err.Error(), at) {
			t.Errorf("with %s in the way: %v", at, err)
		}
		if err := os.Rename(filepath.Join(shelf, at), filepath.Join(dir, "kept"+at)); err != nil {
			t.Error(err)
		}
	}
	sealAll(t, dir, nil)
	wantWhole(t, filepath.Join(shelf, "OY-0300"))
	if _, err := os.Stat(strangers[0]); err != nil {
		t.Error(err)
	}
}

func TestShelvesThatAreRefused(t *testing.T) {
	dir := workshopFolder(t)
	_, shelf := sealAll(t, dir, nil)
	before := nameList(bagFiles(t, filepath.Join(shelf, "OY-0300")))
	for _, to := range []string{dir, filepath.Join(dir, "OY-0300"), filepath.Join(dir, "OY-0300", "process", "shelf"), filepath.Join(shelf, "OY-0300")} {
		_, err := Archive(t.Context(), []string{dir}, Options{To: to})
		var path *listing.PathError
		if !errors.As(err, &path) {
			t.Errorf("--to %s: error %v, want a listing.PathError", to, err)
		}
	}
	if _, err := os.Stat(filepath.Join(dir, "OY-0300", "process", "shelf")); err == nil {
		t.Error("a folder was made in the piece folder")
	}
	if after := nameList(bagFiles(t, filepath.Join(shelf, "OY-0300"))); after != before {
		t.Errorf("something was written into the bag:\n%s", after)
	}
}

func TestPlaceOfABagIsTaken(t *testing.T) {
	dir := workshopFolder(t)
	put(t, filepath.Join(dir, "shelf", "OY-0300", "notes.txt"), "not ours")
	sum, shelf := sealAll(t, dir, nil)
	if got := codes(sum); !slices.Contains(got, "archive.taken") || sum.Results[0].Outcome != listing.LeftOut {
		t.Errorf("findings %q of %+v, want a fault", got, sum.Results[0])
	}
	if data, err := os.ReadFile(filepath.Join(shelf, "OY-0300", "notes.txt")); err != nil || string(data) != "not ours" {
		t.Errorf("the stranger's file: %q, %v", data, err)
	}
}

func TestAwkwardNames(t *testing.T) {
	dir := workshopFolder(t)
	inner := filepath.Join(dir, "OY-0300", "process")
	for _, name := range []string{strings.Repeat("n", 251) + ".txt", "caf\u00e9.txt", "cafe\u0301.txt", "100 %.txt", "two\nlines.txt", "empty"} {
		put(t, filepath.Join(inner, name), "")
	}
	sum, shelf := sealAll(t, dir, nil)
	wantWhole(t, filepath.Join(shelf, "OY-0300"))
	if got := codes(sum); !slices.Contains(got, "archive.twins") || !slices.Contains(got, "archive.name") {
		t.Errorf("findings %q, want a doubt about the twins and notes about the names", got)
	}
	if readme := bagFiles(t, filepath.Join(shelf, "OY-0300"))["data/README.txt"]; !strings.Contains(readme, "%25") {
		t.Error("README.txt does not explain the names that are written another way")
	}
	put(t, filepath.Join(inner, "bad\xffname"), "x")
	sum, _ = sealAll(t, dir, nil)
	if sum.Results[0].Outcome != listing.LeftOut || !sum.Faults() {
		t.Errorf("%+v, want a fault for a name that is no text", sum.Results[0])
	}
}

// Files that change after they were looked at: the spec that the outputs were
// made from, and a photo.
func TestChangedWhileItIsArchived(t *testing.T) {
	for _, name := range []string{"piece.yaml", "a.jpg"} {
		t.Run(name, func(t *testing.T) {
			dir := workshopFolder(t)
			path := filepath.Join(dir, "OY-0300", name)
			sum, shelf := sealAll(t, dir, func(o *Options) {
				o.Report = func(e listing.Event) {
					if e.Kind == listing.StepDone { // a photo was opened; the specs were read before
						data, _ := os.ReadFile(path)
						put(t, path, string(data)+"\n")
					}
				}
			})
			if got := codes(sum); !slices.Contains(got, "archive.changed") || sum.Results[0].Outcome != listing.LeftOut {
				t.Errorf("findings %q of %+v, want a fault", got, sum.Results[0])
			}
			if entries, _ := os.ReadDir(shelf); len(entries) > 0 {
				t.Errorf("left on the shelf: %v", entries)
			}
		})
	}
}

func TestInterruptedArchiveLeavesNothing(t *testing.T) {
	dir := workshopFolder(t)
	ctx, cancel := context.WithCancel(t.Context())
	o := Options{To: filepath.Join(dir, "shelf"), Today: "2026-10-01"}
	o.Report = func(e listing.Event) {
		if e.Kind == listing.StepDone {
			cancel()
		}
	}
	if _, err := Archive(ctx, []string{dir}, o); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v, want context.Canceled", err)
	}
	if entries, _ := os.ReadDir(o.To); len(entries) > 0 {
		t.Errorf("left on the shelf: %v", entries)
	}
}

// A photo in a format that may be hard to open one day gets a plain copy beside
// it, wherever it is; a name of 255 bytes is cut. The photo is one of the public
// samples in ../shared/photos.
func TestReadableCopies(t *testing.T) {
	found, _ := filepath.Glob(filepath.Join(beside.Shared(t, "photos", "formats"), "*.heic"))
	if len(found) == 0 {
		beside.Missing(t, "a HEIC photo among the references")
	}
	data, err := os.ReadFile(found[0])
	if err != nil {
		t.Fatal(err)
	}
	dir := workshopFolder(t)
	long := strings.Repeat("n", 250) + ".heic"
	put(t, filepath.Join(dir, "OY-0300", "process", "clamp.heic"), string(data))
	put(t, filepath.Join(dir, "OY-0300", "papers", long), string(data))
	_, shelf := sealAll(t, dir, nil)
	wantWhole(t, filepath.Join(shelf, "OY-0300"))
	n := 0
	for name, data := range bagFiles(t, filepath.Join(shelf, "OY-0300")) {
		if !strings.HasPrefix(name, "data/readable/") {
			continue
		}
		n++
		if c, err := png.DecodeConfig(strings.NewReader(data)); err != nil || c.Width < 16 || c.Height < 16 {
			t.Errorf("%s: %+v, %v", name, c, err)
		}
	}
	if n != 2 {
		t.Errorf("%d readable copies, want 2", n)
	}
	_, shelf = sealAll(t, dir, func(o *Options) { o.Owner = true })
	if files := bagFiles(t, filepath.Join(shelf, "OY-0300.owner")); strings.Contains(nameList(files), "readable/") {
		t.Errorf("the owner's copy holds copies of private photos:\n%s", nameList(files))
	}
}

func TestReadableNames(t *testing.T) {
	for _, c := range [][2]string{{"a.heic", "a.heic.png"}, {"process/a b.dng", "process/a b.dng.png"}} {
		if got := readableName(c[0]); got != c[1] {
			t.Errorf("%q: %q, want %q", c[0], got, c[1])
		}
	}
	seen := map[string]bool{}
	for _, name := range []string{strings.Repeat("n", 251) + ".dng", strings.Repeat("n", 250) + "m.dng", strings.Repeat("木", 84) + ".dn"} {
		got := readableName("process/" + name)
		if base := filepath.Base(got); len(base) > 255 || seen[got] || !strings.HasSuffix(got, ".png") || strings.ToValidUTF8(got, "") != got {
			t.Errorf("%d bytes, seen %v: %q", len(base), seen[got], got)
		}
		seen[got] = true
	}
}

func TestNamesThatWindowsHasNot(t *testing.T) {
	for name, want := range map[string]bool{
		"process/a b-1_2.jpg": false, "com10.jpg": false, "console.jpg": false, "caf\u00e9.jpg": false,
		"what?.jpg": true, "process/12:30.jpg": true, "two\nlines": true, "dot./a.jpg": true, "blank .jpg": false, "blank ": true, "aux.jpg": true, "process/Com1": true,
	} {
		if got := notOnWindows(name); got != want {
			t.Errorf("%q: %v, want %v", name, got, want)
		}
	}
}
