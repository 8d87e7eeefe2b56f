package sheet

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/report"
	"slabfolio/listing/units"
)

// longTexts are care and cautions as long as those of the demo's pieces, of which
// the sheets of the samples have a half.
func longTexts(rng *rand.Rand, r *report.Report) {
	p := &r.Public
	u := usual().Public
	for i := range rng.IntN(9) {
		p.Care = append(p.Care, u.Care[i%len(u.Care)])
	}
	for i := range rng.IntN(6) {
		c := u.Cautions[i%len(u.Cautions)]
		c.Text += " " + c.Text
		p.Cautions = append(p.Cautions, c)
	}
}

// reach is how far down a page of a height goes what stands on it, over the footer,
// as a share of the page between its margins; lines is how many lines of words that
// are, and pictures how many photos.
func reach(p pageContent, height float64) (share float64, lines, pictures int) {
	lowest := height
	baselines := map[float64]bool{}
	note := func(y float64) {
		if y*pt > 20 {
			lowest = min(lowest, y*pt)
		}
	}
	for _, r := range p.texts {
		note(r.y)
		if r.y*pt > 20 && !r.upward {
			baselines[math.Round(r.y)] = true
		}
	}
	for _, path := range p.paths {
		for _, q := range path.points {
			note(q[1])
		}
	}
	for _, b := range p.pictures {
		note(b[1])
	}
	return (height - 18 - lowest) / (height - 18 - 22), len(baselines), len(p.pictures)
}

// The drawn specs of the sweep go from a piece without a photo, a story or a part to
// one with four photos, a long story and thirty parts and products, on both papers.
// In any system no text stands on other text or leaves the page, no page is half empty
// that stands beside another, none has a lone block, and no photo stands on words.
func TestDrawnSpecsAreLaidOut(t *testing.T) {
	rng := rand.New(rand.NewPCG(14, 29))
	shapes := []Picture{drawn(t, 900, 600), drawn(t, 600, 900), drawn(t, 402, 300), drawn(t, 800, 340), drawn(t, 640, 640)}
	n := 80
	if os.Getenv("SLABFOLIO_REFERENCE") == "required" {
		n = 200
	}
	var all []float64
	pages := map[int]int{}
	for i := range n {
		r := drawnSpec(rng)
		longTexts(rng, r)
		some := slices.Clone(shapes)
		rng.Shuffle(len(some), func(a, b int) { some[a], some[b] = some[b], some[a] })
		o := options(t, some[:[]int{0, 1, 1, 2, 4}[rng.IntN(5)]]...)
		o.Paper = []string{"a4", "letter"}[rng.IntN(2)]
		o.Prefer = []units.System{units.Inches, units.Centimetres, units.Millimetres}[rng.IntN(3)]
		data, err := Sheet(r, o)
		if err != nil {
			t.Fatal(err)
		}
		read, size := readBack(t, data), paperSizes[o.Paper]
		pages[len(read)]++
		for _, f := range crowding(t, read, size[0], size[1], 8) {
			t.Errorf("piece %d on %s in %s: %s", i, o.Paper, o.Prefer, f)
		}
		for k, p := range read {
			what := fmt.Sprintf("piece %d on %s, %d photos, page %d of %d", i, o.Paper, len(o.Pictures), k+1, len(read))
			share, lines, _ := reach(p, size[1])
			if len(read) > 1 {
				all = append(all, share)
			}
			if len(read) > 1 && share < 0.25 || lines < scarce-1 {
				t.Errorf("%s: filled to %.0f %%, %d lines", what, 100*share, lines)
			}
			if f := wordsOnPhotos(t, p); len(f) > 0 {
				t.Errorf("%s: %s, and %d more", what, f[0], len(f)-1)
			}
		}
	}
	slices.Sort(all)
	half := 0
	for _, s := range all {
		if s < 0.5 {
			half++
		}
	}
	t.Logf("%d sheets by pages %v; of %d pages that stand beside another, the emptiest is filled to %.0f %%, a twentieth to less than %.0f %%, %d under a half", n, pages, len(all), 100*all[0], 100*all[len(all)/20], half)
	if half*20 > len(all) {
		t.Errorf("%d of %d pages are less than half full", half, len(all))
	}
}

// wordsOnPhotos reports words that stand on a photo, and photos that stand on each
// other.
func wordsOnPhotos(t *testing.T, p pageContent) []string {
	t.Helper()
	var faults []string
	for i, b := range p.pictures {
		for _, r := range p.texts {
			if w := boxOf(t, r); strings.TrimSpace(r.text) != "" && min(w.x1, b[2])-max(w.x0, b[0]) > 1 && min(w.y1, b[3])-max(w.y0, b[1]) > 1 {
				faults = append(faults, fmt.Sprintf("%q stands on a photo", r.text))
			}
		}
		for _, o := range p.pictures[:i] {
			if min(o[2], b[2])-max(o[0], b[0]) > 1 && min(o[3], b[3])-max(o[1], b[1]) > 1 {
				faults = append(faults, "a photo stands on another")
			}
		}
	}
	return faults
}

// Where the further photos have room below the words of the first page, they are shown: a
// larger drawing on the second is not worth a page whose lower third is empty.
func TestFurtherPhotosAreShownWhereThereIsRoom(t *testing.T) {
	for _, paper := range []string{"a4", "letter"} {
		for _, story := range []string{"A single board, folded over the edge like water.", "A single board, folded over the edge like water.\nTwo drawers hang below it on the right, and a third behind them that nobody has found yet."} {
			r := usual()
			r.Public.Story, r.Public.Found, r.Public.Mark = story, "", ""
			o := options(t, drawn(t, 900, 600), drawn(t, 400, 300), drawn(t, 402, 300))
			o.Paper = paper
			data, err := Sheet(r, o)
			if err != nil {
				t.Fatal(err)
			}
			shown := 0
			for _, p := range readBack(t, data) {
				shown += len(p.pictures)
			}
			if shown < len(o.Pictures) {
				t.Errorf("%s, story of %d letters: %d photos of %d", paper, len(story), shown, len(o.Pictures))
			}
		}
	}
}
