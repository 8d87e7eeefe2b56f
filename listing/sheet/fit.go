package sheet

import "math"

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

// drawPiece draws plan and elevation as large as a scale of the list allows;
// below is the height of what comes under the drawing. What the drawing says in
// words stands in the margin beside it, or under it where it needs the margin.
func (d *doc) drawPiece(below float64) {
	if !d.drawable() {
		return
	}
	g := &d.r.Drawing
	scale, height, beside := d.fitDrawing(d.room() - below)
	long := d.long() / scale
	v := &view{d: d, drawing: g, scale: scale}
	v.x = d.axis + roomLeft + (long-g.Length/scale)/2
	if !beside {
		v.x = d.left + roomSide + (d.w-d.left-d.right-2*roomSide-g.Length/scale)/2
	}
	top := d.y
	v.planBase = top + roomAbove + g.Width/scale
	v.floor = v.planBase + roomBetween + d.elevationHeight()/scale
	v.plan()
	v.elevation()
	end := d.onGrid(top + height)
	if beside {
		from := d.onGrid(top + roomAbove)
		d.notes(scale, d.left, from, d.axis-d.left-4)
		d.y = max(end, from+d.noteHeight(d.axis-d.left-4))
		return
	}
	d.notes(scale, d.axis, end, d.measure())
	d.y = end + d.noteHeight(d.measure())
}

// elevationHeight is what the view from the front shows, in millimetres of the
// piece: floor to top, or the thickness where nothing stands on a floor.
func (d *doc) elevationHeight() float64 {
	g := &d.r.Drawing
	return max(g.Height, g.Thickness, 0)
}

// long is the larger of top and base, in millimetres of the piece.
func (d *doc) long() float64 { return max(d.r.Drawing.Length, d.r.Drawing.Footprint[0]) }

// least is how long a drawing is at least, in millimetres of paper, where a
// scale can be had for it: any smaller and it tells nothing.
const least = 40

// fitDrawing chooses the largest scale at which the drawing fits a height of
// room, but no smaller one than tells something, as long as the page holds it.
// It returns the height of the views, and whether the notes stand beside them.
func (d *doc) fitDrawing(room float64) (scale, height float64, beside bool) {
	for i, s := range scales {
		scale = s
		height, beside = d.drawingAt(s)
		whole := d.withNotes(height, beside)
		fits := height <= drawingMost && whole <= room
		last := i+1 < len(scales) && d.long()/scales[i+1] < least && whole <= d.room()
		if d.wideEnough(s) && (fits || last) {
			break
		}
	}
	return scale, height, beside
}

// drawingFits reports whether a drawing that tells something, with its notes,
// takes no more than room.
func (d *doc) drawingFits(room float64) bool {
	_, height, beside := d.fitDrawing(room)
	return d.withNotes(height, beside) <= room+0.01
}

// withNotes is the height of the views and, where they stand below, the notes.
func (d *doc) withNotes(height float64, beside bool) float64 {
	if beside {
		return max(height, roomAbove+d.noteHeight(d.axis-d.left-4))
	}
	return height + d.noteHeight(d.measure())
}

// drawingAt returns the height of the views at a scale, and whether they leave
// the notes their place in the margin.
func (d *doc) drawingAt(scale float64) (height float64, beside bool) {
	height = roomAbove + (d.r.Drawing.Width+d.elevationHeight())/scale + roomBetween
	if d.r.Drawing.Height > d.r.Drawing.Thickness {
		height += roomBelow
	}
	height = d.step() * math.Ceil(height/d.step()-0.001)
	return height, d.long()/scale <= d.w-d.right-roomSide-d.axis-roomLeft
}

// wideEnough reports whether the page is wide enough for a scale.
func (d *doc) wideEnough(scale float64) bool {
	return d.long()/scale <= d.w-d.left-d.right-2*roomSide
}
