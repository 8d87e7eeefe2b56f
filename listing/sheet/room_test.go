package sheet

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

// photoShapes are the shapes of real photos of furniture: wide, tall, square, a strip.
var photoShapes = [][][2]int{
	{},
	{{1100, 720}},
	{{1200, 300}},
	{{1101, 720}, {1005, 650}, {1104, 722}, {1003, 760}, {1008, 752}},
	{{640, 1000}, {1020, 680}, {1040, 780}},
	{{1104, 722}, {1003, 760}, {1004, 251}, {640, 1000}, {1006, 700}, {660, 661}, {1008, 752}, {602, 900}},
}

// The use that sheets make of their room, over invented pieces of every kind, photos of
// every number and shape, both papers and all languages: every photo is shown that
// there is room for, no drawing could be a step larger in the room left on its page,
// and no page that stands beside another is nearly empty.
func TestSheetsUseTheirRoom(t *testing.T) {
	files, err := filepath.Glob("testdata/rooms/*.yaml")
	if err != nil || len(files) < 12 {
		t.Fatalf("%d invented pieces, %v", len(files), err)
	}
	langs := []string{"en"}
	if os.Getenv("SLABFOLIO_REFERENCE") == "required" && !testing.Short() {
		langs = []string{"en", "de", "fr", "es", "nl"}
	}
	var use []sheetUse
	for _, file := range files {
		for _, lang := range langs {
			for i, shapes := range photoShapes {
				for _, paper := range []string{"a4", "letter"} {
					what := fmt.Sprintf("%s %s %s photos %d", strings.TrimSuffix(filepath.Base(file), ".yaml"), lang, paper, i)
					use = append(use, useOf(t, what, file, lang, paper, shapes))
				}
			}
		}
	}
	for _, u := range use {
		t.Log(u)
		for _, f := range u.faults {
			t.Errorf("%s: %s", u.what, f)
		}
	}
}

// A sheetUse is how much of its pages a sheet uses.
type sheetUse struct {
	what           string
	fill, widest   []float64 // of each page: how far down it goes, and its largest gap in millimetres
	given, shown   int       // photos
	photo, drawing float64   // height of the main photo, length of the top as it is drawn
	scale          float64
	faults         []string
}

func (u sheetUse) String() string {
	return fmt.Sprintf("%-34s fill %3.0f %% gap %3.0f mm, %d of %d photos, main %3.0f mm, drawing %3.0f mm at 1:%g", u.what, u.fill, u.widest, u.shown, u.given, u.photo, u.drawing, u.scale)
}

func useOf(t *testing.T, what, file, lang, paper string, shapes [][2]int) sheetUse {
	t.Helper()
	spec, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	w, err := templates.Open(lang)
	if err != nil {
		t.Fatal(err)
	}
	p, findings := piece.ParsePiece(file, spec, piece.Defaults{})
	for _, f := range findings {
		if f.Rank == piece.Fault {
			t.Fatalf("%s: %s", file, f.Message)
		}
	}
	r, err := report.Build(p, nil, report.Options{Prefer: units.Centimetres, Paper: paper, Lang: lang, Words: w})
	if err != nil {
		t.Fatal(err)
	}
	o := &Options{Words: w, Paper: paper, Prefer: units.Centimetres}
	for _, s := range shapes {
		o.Pictures = append(o.Pictures, drawn(t, s[0], s[1]))
	}
	data, err := Sheet(r, o)
	if err != nil {
		t.Fatal(err)
	}
	keep(t, strings.ReplaceAll(what, " ", "-"), data)
	return measureUse(t, what, r, o, readBack(t, data))
}

func measureUse(t *testing.T, what string, r *report.Report, o *Options, read []pageContent) sheetUse {
	t.Helper()
	u := sheetUse{what: what, given: min(len(o.Pictures), MostPictures)}
	size := paperSizes[o.Paper]
	for i, p := range read {
		share, lines, _ := reach(p, size[1])
		u.fill, u.widest = append(u.fill, 100*share), append(u.widest, widestGap(p, size[1]))
		u.shown += len(p.pictures)
		if i == 0 && len(p.pictures) > 0 {
			u.photo = (p.pictures[0][3] - p.pictures[0][1]) * pt
		}
		if len(read) > 1 && (share < 0.4 || lines < scarce) {
			u.faults = append(u.faults, fmt.Sprintf("page %d is filled to %.0f %%, %d lines", i+1, 100*share, lines))
		}
		if scale, edges := drawingOn(p, r); len(edges) > 0 {
			u.scale, u.drawing = scale, r.Drawing.Length/scale
			if f := roomToDraw(t, r, o, scale, u.widest[i]); f != "" {
				u.faults = append(u.faults, f)
			}
		}
	}
	if u.scale == 0 {
		u.faults = append(u.faults, "no drawing")
	}
	if most := slices.Max(u.widest); u.shown < u.given && most > rowLeast+5*grid {
		u.faults = append(u.faults, fmt.Sprintf("%d of %d photos, and %.0f mm of a page are empty", u.shown, u.given, most))
	}
	return u
}

// widestGap is the largest height of a page, between its margins, on which nothing stands.
func widestGap(p pageContent, height float64) float64 {
	var spans [][2]float64
	add := func(low, high float64) {
		if low*pt > 20 {
			spans = append(spans, [2]float64{height - high*pt, height - low*pt})
		}
	}
	for _, r := range p.texts {
		add(r.y, r.y+r.size*0.7)
	}
	for _, b := range p.pictures {
		add(b[1], b[3])
	}
	for _, path := range p.paths {
		low, high := math.Inf(1), math.Inf(-1)
		for _, q := range path.points {
			low, high = min(low, q[1]), max(high, q[1])
		}
		add(low, high)
	}
	slices.SortFunc(spans, func(a, b [2]float64) int { return int(math.Copysign(1, a[0]-b[0])) })
	at, gap := 18.0, 0.0
	for _, s := range spans {
		gap, at = max(gap, s[0]-at), max(at, s[1])
	}
	return max(gap, height-22-at)
}

// drawingOn finds the outline of a piece on a page, and the scale it is drawn at.
func drawingOn(p pageContent, r *report.Report) (scale float64, edges []drawnPath) {
	for _, s := range scales {
		for _, e := range p.paths {
			if e.paint == "S" && math.Abs(e.width*pt-0.5) < 0.01 && isOutline(e, r.Drawing.Outline, s) {
				return s, append(edges, e)
			}
		}
	}
	return 0, nil
}

// roomToDraw says where a drawing, shorter than is wanted, could be a step larger in the
// room that its page has left.
func roomToDraw(t *testing.T, r *report.Report, o *Options, scale, gap float64) string {
	t.Helper()
	d, err := newDoc("sheet", r, o)
	if err != nil {
		t.Fatal(err)
	}
	size := paperSizes[o.Paper]
	d.left, d.right, d.top, d.bottom, d.axis = 20, 20, 18, 22, 58
	d.w, d.h = size[0], size[1]
	i := slices.Index(scales, scale)
	if i <= 0 || d.tellingLength()/scale >= wantedDrawing {
		return ""
	}
	room := math.Inf(1)
	if d.mayStandBeside() && d.overallLength()/scale <= smallWide {
		room = gap - 4*grid // it takes no height beside the figures
	}
	for _, now := range d.arranged(scale) {
		room = min(room, d.withNotes(now)+gap-4*grid)
	}
	for _, a := range d.arranged(scales[i-1]) {
		if a.w <= d.columnWidth() && a.h <= drawingMost && d.withNotes(a) < room {
			return fmt.Sprintf("drawn at 1:%g, and 1:%g has room in %.0f mm", scale, scales[i-1], gap)
		}
	}
	return ""
}
