package page

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"slabfolio/imaging/rendition"
	"slabfolio/listing/report"
)

// A seen page is what the browser measured of one, in one window.
type seen struct {
	Page          string
	Width, Height int
	Density       float64
	Text          int // percent
	Late          int // ms until a photo arrives
	Shift         float64
	Shifted, Out  []string
	Cut           []string       // words of names that are wider than their column
	Wide          int            // pixels that the page reaches out of the window
	Sheets        map[string]int // pages of each paper when printed
	Images        []seenImage
}

type seenImage struct {
	Src                  string
	Width, Height, Ratio float64
	Types                []string // the srcset of each source, and of the img last
}

// browse opens pages in Chromium and measures them; it skips without one.
func browse(t *testing.T, pages map[string][]byte, windows []map[string]any) []seen {
	t.Helper()
	node, err1 := exec.LookPath("node")
	chromium, err2 := exec.LookPath("chromium")
	modules := os.Getenv("SLABFOLIO_NODE_MODULES")
	_, err3 := os.Stat(filepath.Join(modules, "playwright-core", "package.json"))
	if err1 != nil || err2 != nil || err3 != nil || modules == "" {
		if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
			t.Fatal("node, chromium or playwright-core is missing")
		}
		t.Skip("node, chromium or playwright-core is missing")
	}
	dir := t.TempDir()
	for name, data := range pages {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	cases, err := json.Marshal(windows)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(node, filepath.Join("testdata", "layout.cjs"), modules, chromium, dir, string(cases))
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v\n%s", err, &stderr)
	}
	var results []seen
	if err := json.Unmarshal(out, &results); err != nil || len(results) != len(windows) {
		t.Fatalf("%d results of %d: %v", len(results), len(windows), err)
	}
	return results
}

// shot is a photo of so many pixels with the files that the usual sizes make of it;
// each is named after its pixels, which is what the browser test draws.
func shot(n, w, h int) report.Photo {
	p := report.Photo{Alt: fmt.Sprintf("Photo %d", n), Upload: fmt.Sprintf("upload/%02d.jpg", n)}
	have := map[string]bool{}
	for _, s := range rendition.DefaultSizes() {
		fw, fh := s.Fit(w, h)
		r := report.Rendition{Name: s.Name, Width: fw, Height: fh, Format: s.Format}
		r.File = fmt.Sprintf("photos/%02d-%dx%d.%s", n, fw, fh, map[string]string{"jpeg": "jpg", "webp": "webp"}[s.Format])
		if s.RatioW == 0 && have[r.File] {
			continue
		}
		have[r.File] = true
		p.Renditions = append(p.Renditions, r)
		if p.File == "" {
			p.File, p.Width, p.Height = r.File, fw, fh
		}
	}
	return p
}

// caution is a paragraph as long as those of the texts.
func caution(i int) report.Paragraph {
	return report.Paragraph{ID: fmt.Sprint("caution.", i), Head: fmt.Sprint("Caution ", i), Group: []string{"first-weeks", "daily", "clean", "avoid", "renew", "climate", "other"}[i%7],
		Text: "No hot pans or dishes straight on the wood: use a trivet. Heat marks the finish and can scorch what is below it. Keep candles away from the edge and never leave one alone."}
}

// many is a piece with eleven photos of every shape and size, forty products and
// long texts.
func many() *report.Report {
	r := fullest()
	r.Public.Photos = nil
	for i, s := range [][2]int{{6000, 4000}, {4000, 6000}, {3000, 2000}, {300, 225}, {1008, 756}, {5760, 1200}, {2000, 3000}, {1200, 1200}, {700, 1100}, {3024, 4032}, {4032, 3024}} {
		p := shot(i+1, s[0], s[1])
		if i%3 == 1 {
			p.Caption = "The seam, with the left knot below it and the place where two flattened lead shot were found"
		}
		r.Public.Photos = append(r.Public.Photos, p)
	}
	for i := range 10 {
		r.Public.Care, r.Public.Cautions = append(r.Public.Care, caution(i)), append(r.Public.Cautions, caution(i))
	}
	for i := range 40 {
		r.Public.Shown = append(r.Public.Shown, report.ShownMaterial{Use: "casting resin", Product: fmt.Sprintf("slow resin for deep castings, drum %d", i+1)})
	}
	return r
}

// tall is a piece whose main photo is upright, with long words everywhere.
func tall() *report.Report {
	r := fullest()
	word := strings.Repeat("Wohnzimmertischplattenverleimung", 3)
	r.Public.Title, r.Public.Story, r.Public.Returns, r.Public.Found = word, "First "+word, word, word
	r.Public.Maker.Name, r.Public.Maker.Address, r.Public.Maker.Email = word, word, word+"@ostrel.example"
	r.Public.Photos = []report.Photo{shot(1, 2400, 4000), shot(2, 2400, 4000)}
	r.Public.Photos[0].Caption = word
	return r
}

func layoutPages(t *testing.T) map[string][]byte {
	t.Helper()
	out := map[string][]byte{"control.html": []byte(`<!DOCTYPE html><title>x</title><main><img src="photos/1-600x400.jpg" alt=""><p>` + strings.Repeat("What stands below a photo without a size jumps. ", 40))}
	for name, r := range map[string]*report.Report{"many.html": many(), "tall.html": tall(), "none.html": shortest()} {
		data, err := Listing(r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		out[name] = data
	}
	return out
}

var (
	layoutWidths = []int{320, 360, 390, 768, 900, 1024, 1280, 1440, 1920}
	fileWidths   = []int{320, 390, 768, 900, 1280, 1920}
	layoutNames  = []string{"many.html", "tall.html", "none.html"}
)

// layoutSeen is what the tests of the layout look at, by one browser for all of them.
func layoutSeen(t *testing.T) []seen {
	t.Helper()
	if seenBefore != nil {
		return seenBefore
	}
	var windows []map[string]any
	for _, p := range layoutNames {
		for _, w := range layoutWidths {
			window := map[string]any{"page": p, "width": w, "late": 250, "density": 1}
			if w == 900 {
				window["papers"] = []string{"A4", "Letter"}
			}
			windows = append(windows, window)
		}
		windows = append(windows, map[string]any{"page": p, "width": 360, "text": 200}, map[string]any{"page": p, "width": 720, "height": 500, "late": 200})
	}
	windows = append(windows, map[string]any{"page": "control.html", "width": 900, "late": 250})
	for _, d := range []float64{2, 3} {
		for _, w := range fileWidths {
			windows = append(windows, map[string]any{"page": "many.html", "width": w, "density": d}, map[string]any{"page": "tall.html", "width": w, "density": d})
		}
	}
	seenBefore = browse(t, layoutPages(t), windows)
	return seenBefore
}

var seenBefore []seen

// The layout does not shift by more than 0.01 (the measure is the Layout Instability
// draft of the W3C, as Chromium reports it) when photos arrive late, nothing reaches
// out of the window, not with text of 200 % (WCAG 2.2, 1.4.4 and 1.4.10), and no photo
// is higher than the window or out of its shape.
func TestTheLayoutStandsStill(t *testing.T) {
	worst := map[int]float64{}
	for _, s := range layoutSeen(t) {
		at := fmt.Sprintf("%s at %d pixels, density %v, text %d %%", s.Page, s.Width, s.Density, s.Text)
		if s.Page == "control.html" {
			if s.Shift < 0.05 {
				t.Errorf("a page that jumps is measured to shift by %.3f", s.Shift)
			}
			continue
		}
		if s.Text == 0 { // growing text is a shift that was asked for
			worst[s.Width] = math.Max(worst[s.Width], s.Shift)
			if s.Shift > 0.01 {
				t.Errorf("%s: shifts by %.3f: %v", at, s.Shift, s.Shifted)
			}
		}
		if s.Wide > 0 || len(s.Out) > 0 {
			t.Errorf("%s: reaches out by %d pixels: %v", at, s.Wide, s.Out)
		}
		high := float64(max(s.Height, 500))
		if s.Height == 0 {
			high = 800
		}
		for _, i := range s.Images {
			if i.Height > high+1 || i.Width < 20 {
				t.Errorf("%s: %s is %.0f × %.0f in a window %.0f high", at, i.Src, i.Width, i.Height, high)
			}
			if is := i.Width / i.Height; math.Abs(is/i.Ratio-1) > 0.02 {
				t.Errorf("%s: %s has the ratio %.3f, shown as %.3f", at, i.Src, i.Ratio, is)
			}
		}
	}
	for _, w := range layoutWidths {
		t.Logf("%d pixels: layout shift %.4f at worst", w, worst[w])
	}
}

// Printed, the page is a sheet: two pages of A4 or letter at most.
func TestPrintsOnTwoPages(t *testing.T) {
	printed := 0
	for _, s := range layoutSeen(t) {
		for paper, n := range s.Sheets {
			if printed++; n < 1 || n > 2 {
				t.Errorf("%s is %d pages of %s", s.Page, n, paper)
			}
		}
	}
	if printed != 2*len(layoutNames) {
		t.Errorf("%d were printed", printed)
	}
}

var fileWidth = regexp.MustCompile(`-(\d+)x\d+\.(jpg|webp)`)

// The browser takes files of the pixels that it needs: at least 0.9 of them at a
// density of 1 and 0.7 at 2 and 3, and at most twice as many, unless there is no other.
func TestFilesFitTheirPlace(t *testing.T) {
	low, high := map[float64]string{}, map[float64]string{}
	lowest, highest := map[float64]float64{1: 9, 2: 9, 3: 9}, map[float64]float64{}
	for _, s := range layoutSeen(t) {
		if s.Density == 0 || s.Page == "none.html" || !slices.Contains(fileWidths, s.Width) {
			continue
		}
		for _, i := range s.Images {
			m := fileWidth.FindStringSubmatch(i.Src)
			if m == nil {
				t.Errorf("%s: no file was chosen: %q", s.Page, i.Src)
				continue
			}
			got, _ := strconv.ParseFloat(m[1], 64)
			var have []float64
			for _, set := range i.Types {
				for _, f := range fileWidth.FindAllStringSubmatch(set, -1) {
					w, _ := strconv.ParseFloat(f[1], 64)
					have = append(have, w)
				}
			}
			share := got / (i.Width * s.Density)
			at := fmt.Sprintf("%s at %d pixels, density %v: %s for %.0f pixels, a share of %.2f", s.Page, s.Width, s.Density, i.Src, i.Width*s.Density, share)
			least := map[float64]float64{1: 0.9, 2: 0.7, 3: 0.7}[s.Density]
			if got < slices.Max(have) && share < lowest[s.Density] {
				lowest[s.Density], low[s.Density] = share, at
			}
			if got > slices.Min(have) && share > highest[s.Density] {
				highest[s.Density], high[s.Density] = share, at
			}
			if share < least && got < slices.Max(have) || share > 2 && got > slices.Min(have) {
				t.Error(at)
			}
		}
	}
	for _, d := range []float64{1, 2, 3} {
		t.Logf("fewest pixels: %s", low[d])
		t.Logf("most pixels: %s", high[d])
	}
}
