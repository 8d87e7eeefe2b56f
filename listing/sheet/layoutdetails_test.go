package sheet

import (
	"math"
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/report"
)

// The lines of a drawing are 0.5, 0.25 and 0.18 mm wide: line group 0.5 of ISO
// 128-2:2020, table 1, and a step finer; and no others.
func TestLinesOfTheirGroup(t *testing.T) {
	data, err := Sheet(usual(), options(t, drawn(t, 900, 600)))
	if err != nil {
		t.Fatal(err)
	}
	seen := map[float64]int{}
	for _, p := range readBack(t, data) {
		for _, e := range p.paths {
			if e.paint == "S" {
				seen[math.Round(e.width*pt*100)/100]++
			}
		}
	}
	if len(seen) != 3 || seen[0.5] == 0 || seen[0.25] == 0 || seen[0.18] == 0 {
		t.Errorf("widths of lines in millimetres, and how many: %v", seen)
	}
}

// The resin's strip is 24 mm long, and tinted as far as its share.
func TestResinStripIsAsLongAsItsShare(t *testing.T) {
	r := usual()
	r.Drawing.ResinShare = 0.25
	r.BaseURL = "" // no code, which is of filled boxes too
	data, err := Sheet(r, options(t, drawn(t, 900, 600)))
	if err != nil {
		t.Fatal(err)
	}
	var wide []float64
	for _, p := range readBack(t, data) {
		for _, e := range p.paths {
			if e.paint == "f" && len(e.points) == 4 {
				wide = append(wide, (e.points[1][0]-e.points[0][0])*pt)
			}
		}
	}
	if len(wide) != 1 || math.Abs(wide[0]-6) > 0.02 {
		t.Errorf("filled boxes of %.2f mm, want one of 6", wide)
	}
}

// The resin is filled by even and odd, at the scale of the drawing, where the
// piece has it; it stands under the lines.
func TestResinOnThePlanReadsBack(t *testing.T) {
	r := usual()
	g := &r.Drawing
	g.Resin = [][][2]float64{{{0, 150}, {g.Length, 150}, {g.Length, 260}}}
	data, err := Sheet(r, options(t, drawn(t, 900, 600)))
	if err != nil {
		t.Fatal(err)
	}
	scale, _ := drawingIn(t, data)
	found := 0
	for _, p := range readBack(t, data) {
		for i, e := range p.paths {
			if e.paint == "f*" && isOutline(e, g.Resin[0], scale) {
				found++
				if !slices.ContainsFunc(p.paths[i:], func(q drawnPath) bool { return q.paint == "S" && isOutline(q, g.Outline, scale) }) {
					t.Error("the tint does not stand under the outline")
				}
			}
		}
	}
	if found == 0 {
		t.Errorf("no path is the resin at 1:%g", scale)
	}
}

// Up to nine widths of a top stand beside the drawing, and no more.
func TestWidthsBesideTheDrawing(t *testing.T) {
	for n, want := range map[int]bool{1: false, 2: true, mostWidths: true, mostWidths + 1: false} {
		r := usual()
		r.Drawing.Widths = make([]float64, n)
		d, err := newDoc("sheet", r, options(t))
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Contains(strings.Join(d.drawingNotes(10), " "), "at equal steps"); got != want {
			t.Errorf("%d widths are told: %v", n, got)
		}
	}
	if mostWidths != 9 {
		t.Errorf("up to %d widths", mostWidths)
	}
}

// A document is of the day of the latest work on the piece, and of one edition more
// for each.
func TestDocumentDateAndNumber(t *testing.T) {
	r := usual()
	d, err := newDoc("sheet", r, options(t))
	if err != nil {
		t.Fatal(err)
	}
	if date, number := d.documentDate(), d.documentNumber(); date != "2026-09-18" || number != "OY-0142/1" {
		t.Errorf("as finished: %s, %s", date, number)
	}
	r.Log = []report.LogRecord{{Date: "2027-02-10"}, {Date: "2026-12-01"}, {Date: "some day"}}
	if date, number := d.documentDate(), d.documentNumber(); date != "2027-02-10" || number != "OY-0142/4" {
		t.Errorf("after three works: %s, %s", date, number)
	}
}
