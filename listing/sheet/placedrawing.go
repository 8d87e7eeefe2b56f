package sheet

import (
	"math"

	"slabfolio/listing/drawing"
	"slabfolio/listing/report"
)

// drawingMost is the most height that the views take, in millimetres: a drawing
// is to be looked at, not to fill a page.
const drawingMost = 170

// scales are the reductions of ISO 5455:1979 that a sheet is drawn in, with steps
// between them, which its clause 4.3 allows where a drawing would come out too
// small; the last two only where the piece would not fit otherwise.
var scales = []float64{1, 2, 2.5, 5, 7.5, 10, 12.5, 15, 20, 25, 30, 40, 50, 75, 100, 200}

// leastLengths are how long the top is drawn at least, in millimetres of paper,
// where a scale can be had for it: any smaller and it tells little; and where a whole
// page can be saved by it. A piece that is taller than long tells as much by its
// height.
var leastLengths = [2]float64{50, 34}

// drawable reports whether there is an outline to draw.
func (d *doc) drawable() bool {
	g := &d.r.Drawing
	sum := g.Length + g.Width + g.Thickness + g.Height + g.Footprint[0] + g.Footprint[1] + g.Knee
	for _, p := range g.Outline {
		sum += p[0] + p[1]
	}
	finite := !math.IsInf(sum, 0) && !math.IsNaN(sum)
	return len(g.Outline) >= 3 && g.Length > 0 && g.Width > 0 && finite
}

// An arrangement is the views at a scale, with where the notes stand.
type arrangement struct {
	scale    float64
	views    drawing.View
	w, h     float64 // of the views, in millimetres
	inMargin bool    // the notes stand beside the views, else below them
	inRow    bool    // the views stand side by side
}

// drawPiece draws the views as large as a scale of the list allows; below is the
// height of what comes under the drawing.
func (d *doc) drawPiece(below float64) {
	if !d.drawable() {
		return
	}
	a := d.fitDrawing(d.heightLeft() - below)
	top := d.y
	defer func() { d.noteDrawing(a) }()
	if a.inMargin {
		d.figure(d.drawingAlt(a), func() { d.drawView(a.views, max(d.axis, d.w-d.right-a.w), top) })
		from, width := d.onGrid(top+drawnNameRoom), d.axis-d.left-4
		d.notes(a, d.left, from, width)
		d.y = max(d.onGrid(top+a.h), from+d.noteHeight(width))
		return
	}
	d.figure(d.drawingAlt(a), func() { d.drawView(a.views, d.left+max(0, d.columnWidth()-a.w)/2, top) })
	d.y = d.onGrid(top + a.h)
	d.notes(a, d.left, d.y, d.columnWidth())
	d.y += d.noteHeight(d.columnWidth())
}

// drawingAlt is what a drawing shows, for who cannot see it.
func (d *doc) drawingAlt(a arrangement) string {
	return d.say("drawing.alt", "Scale", d.scaleText(a.scale), "Standing", drawing.Standing(&d.r.Drawing), "Size", d.sizeInBoth())
}

// drawnNameRoom is how far below the views' upper edge the notes beside them begin.
const drawnNameRoom = 3

// columnWidth is the page between its margins.
func (d *doc) columnWidth() float64 { return d.w - d.left - d.right }

// overallLength is the larger of top and base, in millimetres of the piece.
func (d *doc) overallLength() float64 { return max(d.r.Drawing.Length, d.r.Drawing.Footprint[0]) }

// tellingLength is what says whether a drawing is large enough to tell something.
func (d *doc) tellingLength() float64 {
	if h := 0.6 * d.r.Drawing.Height; h > d.overallLength() {
		return h
	}
	return d.overallLength()
}

// fitDrawing chooses the largest scale at which the drawing fits a height of
// room, but no smaller one than tells something, as long as a page can hold it.
func (d *doc) fitDrawing(room float64) arrangement {
	var last arrangement
	for i, scale := range scales {
		all := d.arranged(scale)
		for _, a := range all {
			if a.w <= d.columnWidth() && a.h <= drawingMost && d.withNotes(a) <= room+0.01 {
				return a
			}
		}
		last = all[0]
		if i+1 < len(scales) && d.tellingLength()/scales[i+1] >= d.leastLength {
			continue
		}
		// The smallest: the form that takes less height, where a page can hold it.
		for _, a := range all {
			if a.w <= d.columnWidth() && d.withNotes(a) <= d.pageHeight() && (last.w > d.columnWidth() || d.withNotes(a) < d.withNotes(last)) {
				last = a
			}
		}
		if last.w <= d.columnWidth() && d.withNotes(last) <= d.pageHeight() {
			return last
		}
	}
	return last
}

// arranged draws the views at a scale, in projection and in a row.
func (d *doc) arranged(scale float64) []arrangement {
	key := viewsOf{d.r, scale, d.w - d.right - d.axis}
	all, ok := d.views[key]
	if !ok {
		all = d.arrange(scale)
		d.views[key] = all
	}
	return all
}

// viewsOf is what the views hang on.
type viewsOf struct {
	r           *report.Report
	scale, room float64
}

func (d *doc) arrange(scale float64) []arrangement {
	o := d.drawingOptions(scale)
	if d.mayStandBeside() { // what is what needs no name
		o.Names = drawing.Names{}
	}
	all := []arrangement{{views: drawing.Views(&d.r.Drawing, o)}}
	if drawing.Standing(&d.r.Drawing) {
		all = append(all, arrangement{views: drawing.ViewsInRow(&d.r.Drawing, o), inRow: true})
	}
	for i := range all {
		a := &all[i]
		a.scale = scale
		a.w, a.h = a.views.Size(o.TextWidth)
		a.inMargin = a.w <= d.w-d.right-d.axis
	}
	return all
}

// leastDrawing is the height of the smallest drawing that tells something, with
// its notes and a line over it.
func (d *doc) leastDrawing() float64 { return d.withNotes(d.fitDrawing(0)) + d.lineHeight() }

// withNotes is the height of the views with the notes.
func (d *doc) withNotes(a arrangement) float64 {
	h := d.lineHeight() * math.Ceil(a.h/d.lineHeight()-0.001)
	if a.inMargin {
		return max(h, drawnNameRoom+d.lineHeight()+d.noteHeight(d.axis-d.left-4))
	}
	return h + d.noteHeight(d.columnWidth())
}

// A drawing of which nothing but a rectangle is known may stand small beside the
// figures: its size, in millimetres of paper.
const (
	smallWide = 54
	smallHigh = 44
	smallGap  = 6
)

// mayStandBeside reports whether the drawing would show nothing but a rectangle and
// its thickness.
func (d *doc) mayStandBeside() bool {
	g := &d.r.Drawing
	return d.drawable() && !drawing.Standing(g) && isRectangle(g.Outline)
}

// isRectangle reports whether an outline is four corners, each side along x or y.
func isRectangle(outline [][2]float64) bool {
	if len(outline) != 4 {
		return false
	}
	for i, p := range outline {
		q := outline[(i+1)%4]
		if p[0] != q[0] && p[1] != q[1] {
			return false
		}
	}
	return true
}

// besideFigures sets the small drawing beside the flow of figures, which was built
// to leave it room at the right.
func (d *doc) besideFigures(figures flow) flow {
	var small arrangement
	for _, scale := range scales {
		if small = d.arranged(scale)[0]; small.w <= smallWide && small.h <= smallHigh {
			break
		}
	}
	x := d.w - d.right - small.w
	d.besideLength = d.tellingLength() / small.scale
	// The length's line stands level with the first figure.
	figures[0] = d.withDraw(figures[0], func(top float64) {
		d.figure(d.drawingAlt(small), func() { d.drawView(small.views, x, top-1) })
		note := d.say("drawing.scale", "Scale", d.scaleText(small.scale))
		d.tagged(d.element("P"), func() { d.text(x, top+small.h+d.lineHeight(), name, note) })
	})
	if short := small.h + 2*d.lineHeight() - figures.height(); short > 0 {
		figures = append(figures, d.gap(math.Ceil(short/d.lineHeight())))
	}
	return figures
}
