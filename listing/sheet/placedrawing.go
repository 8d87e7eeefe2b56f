package sheet

import (
	"math"

	"slabfolio/listing/drawing"
)

// Room around the views for dimensions, in millimetres of paper.
const (
	roomAbove   = 9.5 // the length, over the plan
	roomSide    = 15  // widths and heights, at the right
	roomLeft    = 12  // the thickness, at the left, where the notes leave less
	roomBetween = 9
	roomBelow   = 9.5 // the footprint, under the elevation
)

// drawingMost is the most height that the views take, in millimetres: a drawing
// is to be looked at, not to fill a page.
const drawingMost = 160

// scales are the reductions of ISO 5455 that a sheet is drawn in; the last two
// only where the piece would not fit otherwise.
var scales = []float64{1, 2, 5, 10, 20, 50, 100, 200}

// drawable reports whether there is an outline to draw.
func (d *doc) drawable() bool {
	g := &d.r.Drawing
	sum := g.Length + g.Width + g.Thickness + g.Height + g.Footprint[0]
	for _, p := range g.Outline {
		sum += p[0] + p[1]
	}
	finite := !math.IsInf(sum, 0) && !math.IsNaN(sum)
	return len(g.Outline) >= 3 && g.Length > 0 && g.Width > 0 && finite
}

// A form is how plan, elevation and notes share the page.
type form int

const (
	inMargin form = iota // elevation under the plan, notes in the margin beside them
	under                // elevation under the plan, notes under both
	inRow                // elevation beside the plan, notes under both
)

// An arrangement is a form at a scale.
type arrangement struct {
	form   form
	scale  float64
	height float64 // of the views, in millimetres of paper
}

// drawPiece draws plan and elevation as large as a scale of the list allows;
// below is the height of what comes under the drawing.
func (d *doc) drawPiece(below float64) {
	if !d.drawable() {
		return
	}
	g := &d.r.Drawing
	a := d.fitDrawing(d.heightLeft() - below)
	high := drawing.ElevationHeight(g)
	spare := (d.overallLength() - g.Length) / a.scale / 2 // base beyond the top, at each end
	top := d.y
	planBase := top + roomAbove + g.Width/a.scale
	floor := planBase + roomBetween + high/a.scale
	var planX, frontX float64
	switch a.form {
	case inMargin:
		planX = d.axis + roomLeft + spare
		frontX = planX
	case under:
		planX = d.left + roomSide + (d.w-d.left-d.right-2*roomSide-g.Length/a.scale)/2
		frontX = planX
	case inRow:
		planX = d.left + 1
		frontX = planX + g.Length/a.scale + roomSide + roomLeft + spare
		planBase = top + roomAbove + max(g.Width, high)/a.scale
		floor = planBase
	}
	o := d.drawingOptions(a.scale)
	d.drawView(drawing.Plan(g, o), planX, planBase)
	d.drawView(drawing.Front(g, o), frontX, floor)
	end := d.onGrid(top + a.height)
	if a.form == inMargin {
		from, width := d.onGrid(top+roomAbove), d.axis-d.left-4
		d.notes(a.scale, d.left, from, width)
		d.y = max(end, from+d.noteHeight(width))
		return
	}
	d.notes(a.scale, d.left, end, d.measure())
	d.y = end + d.noteHeight(d.measure())
}

// overallLength is the larger of top and base, in millimetres of the piece.
func (d *doc) overallLength() float64 { return max(d.r.Drawing.Length, d.r.Drawing.Footprint[0]) }

// leastLength is how long a drawing is at least, in millimetres of paper, where a
// scale can be had for it: any smaller and it tells nothing.
const leastLength = 40

// fitDrawing chooses the largest scale at which the drawing fits a height of
// room, but no smaller one than tells something, as long as a page can hold it.
func (d *doc) fitDrawing(room float64) arrangement {
	var last arrangement
	for i, scale := range scales {
		all := d.arrangements(scale)
		for _, a := range all {
			if a.height <= drawingMost && d.withNotes(a) <= room+0.01 {
				return a
			}
		}
		for _, a := range all {
			smallest := i+1 == len(scales) || d.overallLength()/scales[i+1] < leastLength
			if smallest && d.withNotes(a) <= d.pageHeight() {
				return a
			}
			last = a
		}
	}
	return last
}

// drawingFits reports whether a drawing that tells something, with its notes,
// takes no more than room.
func (d *doc) drawingFits(room float64) bool { return d.withNotes(d.fitDrawing(room)) <= room+0.01 }

// withNotes is the height of the views with the notes.
func (d *doc) withNotes(a arrangement) float64 {
	if a.form == inMargin {
		return max(a.height, roomAbove+d.lineHeight()+d.noteHeight(d.axis-d.left-4))
	}
	return a.height + d.noteHeight(d.measure())
}

// arrangements lists the forms that the width of the page allows at a scale,
// the preferred one first. At the last scale there is always one.
func (d *doc) arrangements(scale float64) []arrangement {
	g := &d.r.Drawing
	foot := 0.0
	if drawing.Standing(g) {
		foot = roomBelow
	}
	whole := func(h float64) float64 { return d.lineHeight() * math.Ceil(h/d.lineHeight()-0.001) }
	stacked := whole(roomAbove + (g.Width+drawing.ElevationHeight(g))/scale + roomBetween + foot)
	long, page := d.overallLength()/scale, d.w-d.left-d.right
	var all []arrangement
	switch {
	case long <= d.w-d.right-roomSide-d.axis-roomLeft:
		all = append(all, arrangement{inMargin, scale, stacked})
	case long <= page-2*roomSide || scale == scales[len(scales)-1]:
		all = append(all, arrangement{under, scale, stacked})
	}
	if g.Length/scale+long+1+2*roomSide+roomLeft <= page && foot > 0 {
		row := whole(roomAbove + max(g.Width, drawing.ElevationHeight(g))/scale + foot)
		all = append(all, arrangement{inRow, scale, row})
	}
	return all
}
