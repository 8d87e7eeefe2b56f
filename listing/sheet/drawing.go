package sheet

import (
	"math"

	"slabfolio/listing/report"
	"slabfolio/listing/units"
)

// Line widths of ISO 128-2:2020, line group 0.5: visible edges wide, everything
// else half of that; grain strokes one step finer.
const (
	lineVisible = 0.5
	lineThin    = 0.25
	lineGrain   = 0.18
)

// Room around the views for dimensions, in millimetres of paper.
const (
	roomAbove   = 9.5 // the length, over the plan
	roomSide    = 15  // widths and heights, at the right
	roomLeft    = 12  // the thickness, at the left, where the notes leave less
	roomBetween = 9
	roomBelow   = 9.5 // the footprint, under the elevation
)

// A view is where a drawing stands on the page and how it is scaled.
type view struct {
	d        *doc
	x        float64 // paper x of the plan's left end
	front    float64 // paper x of the elevation's
	scale    float64 // millimetres of the piece to one of paper
	drawing  *report.Drawing
	planBase float64 // paper y of the plan's lower edge
	floor    float64 // paper y of the floor, or of the edge view's underside
}

// at turns a point of the plan into one on paper.
func (v *view) at(x, y float64) (px, py float64) { return v.x + x/v.scale, v.planBase - y/v.scale }

// plan draws the outline as it is, the grain, and the overall size.
func (v *view) plan() {
	g, pdf := v.drawing, v.d.pdf
	v.grain()
	v.pen(lineVisible, nil)
	for i, p := range g.Outline {
		x, y := v.at(p[0], p[1])
		if i == 0 {
			pdf.MoveTo(x, y)
		} else {
			pdf.LineTo(x, y)
		}
	}
	pdf.ClosePath()
	pdf.DrawPath("D")
	x0, y0 := v.at(0, g.Width)
	x1, y1 := v.at(g.Length, 0)
	if g.Round {
		v.across(x0, x1, (y0+y1)/2, (y0+y1)/2, y0-6, "Ø\u2009"+v.length(g.Length))
		return
	}
	top := func(x float64) float64 { _, y := v.at(x, v.reach(x)); return y }
	v.across(x0, x1, top(0), top(g.Length), y0-6, v.length(g.Length))
	v.upright(y0, y1, v.side(g.Width), v.side(0), x1+7, v.length(g.Width))
}

// pen sets the line: width, and dashes or none.
func (v *view) pen(width float64, dash []float64) {
	pdf := v.d.pdf
	pdf.SetDrawColor(0, 0, 0)
	pdf.SetLineWidth(width)
	pdf.SetLineCapStyle("butt")
	pdf.SetLineJoinStyle("round")
	pdf.SetDashPattern(dash, 0)
}

// reach is the largest y of the outline near an end, where the extension line
// of the length begins.
func (v *view) reach(x float64) float64 {
	best := 0.0
	for _, p := range v.drawing.Outline {
		if math.Abs(p[0]-x) < v.drawing.Length*0.005+0.5 {
			best = max(best, p[1])
		}
	}
	return best
}

// side is the paper x where the extension line of the width begins, at a level
// of the extents: at the right end where the outline comes near that level
// there, else where it touches it.
func (v *view) side(level float64) float64 {
	const near = 4 // millimetres of paper
	touch, end := 0.0, math.Inf(1)
	for _, p := range v.drawing.Outline {
		off := math.Abs(p[1] - level)
		if off < v.drawing.Width*0.005+0.5 {
			touch = max(touch, p[0])
		}
		if p[0] > v.drawing.Length*0.98 {
			end = min(end, off)
		}
	}
	if end < near*v.scale {
		touch = v.drawing.Length
	}
	x, _ := v.at(touch, 0)
	return x
}

// elevation draws the piece from the front: the top's edge, and the room that
// the base takes, since its shape is not in the spec.
func (v *view) elevation() {
	g, pdf := v.drawing, v.d.pdf
	if g.Thickness <= 0 {
		return
	}
	x0, x1 := v.front, v.front+g.Length/v.scale
	top := v.floor - v.d.elevationHeight()/v.scale
	under := top + g.Thickness/v.scale
	foot := [2]float64{(x0 + x1 - g.Footprint[0]/v.scale) / 2, (x0 + x1 + g.Footprint[0]/v.scale) / 2}
	standing := g.Height > g.Thickness
	if standing {
		v.pen(lineThin, nil)
		pdf.Line(min(x0, foot[0])-4, v.floor, max(x1, foot[1])+4, v.floor)
		v.below(under)
		if g.Footprint[0] > 0 {
			v.pen(lineThin, longDashDoubleDot)
			pdf.Line(foot[0], under, foot[0], v.floor)
			pdf.Line(foot[1], under, foot[1], v.floor)
		}
	}
	v.pen(lineVisible, nil)
	pdf.Rect(x0, top, x1-x0, under-top, "D")
	right := max(x1, foot[1])
	if !standing {
		v.upright(top, under, x1, x1, right+7, v.length(v.thickness()))
		return
	}
	v.upright(top, v.floor, x1, right+4, right+7, v.length(g.Height))
	v.upright(top, under, x0, x0, min(x0, foot[0])-7, v.length(v.thickness()))
	if g.Footprint[0] > 0 {
		v.across(foot[0], foot[1], v.floor, v.floor, v.floor+7, v.length(g.Footprint[0]))
		if over := (g.Length - g.Footprint[0]) / 2; over > 0 && over/v.scale > 3 {
			v.across(x0, foot[0], under, v.floor, v.floor+7, v.length(over))
		}
	}
}

// thickness is the top's as it stands among the figures, so that both are
// rounded alike.
func (v *view) thickness() float64 {
	if m := v.d.r.Public.Dimensions; m != nil && m.TopThickness != nil {
		return *m.TopThickness
	}
	return v.drawing.Thickness
}

// longDashDoubleDot is line 05.1 of ISO 128-2, for outlines of what adjoins, in
// multiples of the line width: dash 24, gap 3, dot 0.5.
var longDashDoubleDot = []float64{24 * lineThin, 3 * lineThin, 0.5 * lineThin, 3 * lineThin, 0.5 * lineThin, 3 * lineThin}

// dashed is line 02.1 of ISO 128-2, for hidden edges: dash 12, gap 3.
var dashed = []float64{12 * lineThin, 3 * lineThin}

// below draws what hangs under the top as hidden edges, centred.
func (v *view) below(under float64) {
	g := v.drawing
	for _, p := range g.Parts {
		if p.Length <= 0 || p.BelowTop <= 0 {
			continue
		}
		w, h := p.Length/v.scale, p.BelowTop/v.scale
		v.pen(lineThin, dashed)
		v.d.pdf.Rect(v.front+(g.Length/v.scale-w)/2, under, w, h, "D")
	}
}

// length writes a length as dimensions have it: the preferred system, the other
// in brackets.
func (v *view) length(mm float64) string {
	l := units.Length(mm)
	return l.Number(v.d.prefer) + " [" + l.Number(v.d.second()) + "]"
}
