package sheet

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"slabfolio/listing/drawing"
	"slabfolio/listing/report"
)

// A box is where a run of text stands, in points from the lower left corner: as
// wide as its letters, from a little below the baseline to the height of capitals.
type box struct {
	x0, y0, x1, y1 float64
	run            textRun
}

func boxOf(t *testing.T, r textRun) box {
	t.Helper()
	faces, err := loadFaces()
	if err != nil {
		t.Fatal(err)
	}
	for i, n := range faceNames {
		if n == r.font {
			w := faces[i].width(strings.TrimRight(r.text, " \u00a0")) / 1000 * r.size
			if r.upward {
				return box{r.x - 0.62*r.size, r.y, r.x + 0.1*r.size, r.y + w, r}
			}
			return box{r.x, r.y - 0.1*r.size, r.x + w, r.y + 0.62*r.size, r}
		}
	}
	t.Fatalf("font %q is not ours", r.font)
	return box{}
}

// crowding reports text that leaves the page's margins, or stands on other text.
func crowding(t *testing.T, read []pageContent, w, h, margin float64) []string {
	t.Helper()
	var faults []string
	for _, p := range read {
		var all []box
		for _, r := range p.texts {
			if strings.Trim(r.text, " \u00a0") == "" {
				continue
			}
			b := boxOf(t, r)
			if b.x0 < margin/pt || b.y0 < margin/pt || b.x1 > (w-margin)/pt || b.y1 > (h-margin)/pt {
				faults = append(faults, fmt.Sprintf("page %d: %q leaves the page at %.0f, %.0f mm", r.page, r.text, r.x*pt, h-r.y*pt))
			}
			for _, o := range all {
				// Kerned neighbours on one line may touch by a hair.
				if min(b.x1, o.x1)-max(b.x0, o.x0) > 0.18*max(r.size, 10) && min(b.y1, o.y1)-max(b.y0, o.y0) > 0.6 {
					faults = append(faults, fmt.Sprintf("page %d: %q stands on %q at %.0f, %.0f mm", r.page, r.text, o.run.text, r.x*pt, h-r.y*pt))
				}
			}
			all = append(all, b)
		}
	}
	return faults
}

// drawnSpec makes up a piece: any size, with or without each thing that it may
// have, in any of the shapes.
func drawnSpec(rng *rand.Rand) *report.Report {
	r := usual()
	p := &r.Public
	long, wide, thick := 200+rng.Float64()*3000, 80+rng.Float64()*1200, 15+rng.Float64()*60
	if wide > long {
		long, wide = wide, long
	}
	g := drawing.Piece{Length: long, Width: wide, Thickness: thick, Grain: []string{"along length", "along width", "end grain"}[rng.IntN(3)]}
	switch rng.IntN(3) {
	case 0:
		g.Outline = [][2]float64{{0, 0}, {long, 0}, {long, wide}, {0, wide}}
	case 1:
		g.Outline = wavy(long, wide)
	default:
		wide = long
		g.Outline, g.Round, g.Width = circle(long), true, long
	}
	high := 0.0
	if rng.IntN(4) > 0 {
		g.BaseHeight = 150 + rng.Float64()*800
		g.Height = g.BaseHeight + thick
		high = g.Height
		if rng.IntN(5) > 0 {
			g.Footprint = [2]float64{long * (0.3 + rng.Float64()*0.8), wide * (0.3 + rng.Float64()*0.8)}
		}
		g.Knee = g.BaseHeight
		if rng.IntN(3) == 0 {
			g.Parts = []drawing.Part{{Name: "drawer", Length: long * (0.2 + 0.5*rng.Float64()), Width: wide * 0.7, BelowTop: 40 + 120*rng.Float64()}}
			g.Knee -= g.Parts[0].BelowTop
		}
		g.Base = drawing.Base{Style: "two welded frames"}
		if form := rng.IntN(4); form > 0 {
			g.Base.Form = []string{"", drawing.Frames, drawing.Legs, drawing.Pedestal}[form]
			g.Base.Wide, g.Base.Deep, g.Base.Closed, g.Base.Turned = min(60, g.Footprint[0]/3), min(40, g.Footprint[1]/3), rng.IntN(2) == 0, true
		}
	} else {
		p.Base = nil
	}
	if rng.IntN(2) == 0 {
		g.ResinShare = rng.Float64()
	}
	p.Dimensions = dimensions(long, wide, high, thick)
	if g.Knee > 0 {
		p.Dimensions.Knee = ptr(g.Knee)
	}
	r.Drawing = g
	p.Title = strings.Repeat("Long ", rng.IntN(12)) + p.Title
	p.Story = strings.Repeat(p.Story+"\n\n", rng.IntN(4))
	p.Care, p.Cautions = p.Care[:rng.IntN(len(p.Care)+1)], p.Cautions[:rng.IntN(len(p.Cautions)+1)]
	for i := range rng.IntN(30) * rng.IntN(2) {
		p.Parts = append(p.Parts, report.Part{Name: fmt.Sprintf("part %d", i), Material: "oak", Count: 1 + rng.IntN(3), Text: report.Text{In: "20 × 12 × 3½ in", Cm: "50.8 × 30.5 × 8.9 cm"}})
		p.Shown = append(p.Shown, report.ShownMaterial{Use: "glue", Product: fmt.Sprintf("product %d, of the kind that has a long name", i)})
	}
	if rng.IntN(4) == 0 {
		r.BaseURL = ""
	}
	return r
}

// No text stands on other text, nor leaves the page, in any document of any sample.
func TestNoTextStandsOnOtherTextInSamples(t *testing.T) {
	sizes := map[string][2]float64{"sheet": {210, 297}, "shipping": {210, 297}, "certificate": {210, 297}, "care": {148, 210}, "label": {148, 105}}
	for name, data := range everyDocument(t) {
		_, kind, _ := strings.Cut(strings.TrimSuffix(name, ".pdf"), "-")
		for _, f := range crowding(t, readBack(t, data), sizes[kind][0], sizes[kind][1], 5) {
			t.Errorf("%s: %s", name, f)
		}
	}
}

// Care and cautions stand in two columns, and a reader of the file comes upon all
// of the care before the cautions.
func TestColumnsAreReadOneAfterTheOther(t *testing.T) {
	data, err := Sheet(usual(), options(t, drawn(t, 900, 600)))
	if err != nil {
		t.Fatal(err)
	}
	text := ""
	for _, p := range readBack(t, data) {
		for _, r := range p.texts {
			text += strings.ReplaceAll(r.text, " ", "")
		}
	}
	last := -1
	for _, group := range [][]report.Paragraph{usual().Public.Care, usual().Public.Cautions} {
		for _, p := range group {
			at := strings.Index(text, strings.ReplaceAll(p.Text, " ", "")[:20])
			if at <= last {
				t.Errorf("%q comes at %d, what stands before it at %d", p.Text[:20], at, last)
			}
			last = at
		}
	}
}

// No page of a sheet holds a drawing and nothing else, or a lone line.
func TestNoLonePages(t *testing.T) {
	for name, r := range samples() {
		for _, paper := range []string{"a4", "letter"} {
			for _, pictures := range [][]Picture{nil, {drawn(t, 900, 600)}, {drawn(t, 600, 900)}} {
				o := options(t, pictures...)
				o.Paper = paper
				data, err := Sheet(r, o)
				if err != nil {
					t.Fatal(err)
				}
				for i, p := range readBack(t, data) {
					baselines := map[float64]bool{}
					for _, run := range p.texts {
						if run.font != "sans" && run.y*pt > 22 { // not the footer, nor a drawing's
							baselines[math.Round(run.y)] = true
						}
					}
					if len(baselines) < 4 {
						t.Errorf("%s on %s with %d photos: page %d has %d lines of text", name, paper, len(pictures), i+1, len(baselines))
					}
				}
			}
		}
	}
}
