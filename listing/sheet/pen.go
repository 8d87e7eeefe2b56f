package sheet

import (
	"slabfolio/listing/drawing"
	"slabfolio/listing/units"
)

// Line widths of ISO 128-2:2020, line group 0.5: visible edges wide, everything
// else half of that; grain strokes one step finer. In millimetres.
const (
	lineVisible = 0.5
	lineThin    = 0.25
	lineGrain   = 0.18
)

// drawView pens a view with its origin at x, y.
func (d *doc) drawView(v drawing.View, x, y float64) {
	d.artifact(func() { d.penView(v, x, y) })
}

func (d *doc) penView(v drawing.View, x, y float64) {
	for _, t := range v.Tints {
		d.drawTint(t, x, y)
	}
	for _, s := range v.Strokes {
		d.drawStroke(s, x, y)
	}
	d.pdf.SetFillColor(0, 0, 0)
	for _, a := range v.Arrows {
		d.drawArrow(a, x, y)
	}
	for _, l := range v.Labels {
		d.drawLabel(l, x, y)
	}
}

func (d *doc) drawStroke(s drawing.Stroke, x, y float64) {
	d.setLine(s.Line)
	for i, p := range s.Points {
		if i == 0 {
			d.pdf.MoveTo(x+p[0], y+p[1])
		} else {
			d.pdf.LineTo(x+p[0], y+p[1])
		}
	}
	if s.Closed {
		d.pdf.ClosePath()
	}
	d.pdf.DrawPath("D")
}

// tintGrey is 12 % black as a solid colour, since PDF/A-1 knows no transparency.
const tintGrey = 224

func (d *doc) drawTint(t drawing.Tint, x, y float64) {
	d.pdf.SetFillColor(tintGrey, tintGrey, tintGrey)
	for _, ring := range t {
		for i, p := range ring {
			if i == 0 {
				d.pdf.MoveTo(x+p[0], y+p[1])
			} else {
				d.pdf.LineTo(x+p[0], y+p[1])
			}
		}
		d.pdf.ClosePath()
	}
	d.pdf.DrawPath("F*") // even and odd
}

// setLine sets width and dashes.
func (d *doc) setLine(l drawing.Line) {
	width := lineThin
	switch l {
	case drawing.Visible:
		width = lineVisible
	case drawing.Grain:
		width = lineGrain
	}
	dashes := l.Dashes()
	for i := range dashes {
		dashes[i] *= width
	}
	d.pdf.SetDrawColor(0, 0, 0)
	d.pdf.SetLineWidth(width)
	d.pdf.SetLineCapStyle("butt")
	d.pdf.SetLineJoinStyle("round")
	d.pdf.SetDashPattern(dashes, 0)
}

func (d *doc) drawArrow(a drawing.Arrow, x, y float64) {
	dx, dy := a.Toward[0], a.Toward[1]
	x, y = x+a.Tip[0], y+a.Tip[1]
	backX, backY := x-dx*drawing.ArrowLength, y-dy*drawing.ArrowLength
	d.pdf.MoveTo(x, y)
	d.pdf.LineTo(backX-dy*drawing.ArrowHalf, backY+dx*drawing.ArrowHalf)
	d.pdf.LineTo(backX+dy*drawing.ArrowHalf, backY-dx*drawing.ArrowHalf)
	d.pdf.ClosePath()
	d.pdf.DrawPath("F")
}

func (d *doc) drawLabel(l drawing.Label, x, y float64) {
	x, y = x+l.At[0], y+l.At[1]
	before := d.width(small, l.Text) * l.Anchor.Share()
	if !l.Upward {
		d.text(x-before, y, small, l.Text)
		return
	}
	d.pdf.TransformBegin()
	d.pdf.TransformRotate(90, x, y+before)
	d.text(x, y+before, small, l.Text)
	d.pdf.TransformEnd()
}

// drawingOptions are how this document has its views drawn.
func (d *doc) drawingOptions(scale float64) *drawing.Options {
	return &drawing.Options{
		Scale: scale, Thickness: d.printedThickness(), Length: d.dimension,
		TextWidth: func(s string) float64 { return d.width(small, s) },
		Names:     drawing.Names{Plan: d.say("drawing.plan"), Front: d.say("drawing.front"), End: d.say("drawing.end")},
	}
}

// printedThickness is the top's as it stands among the figures, so that both are
// rounded alike.
func (d *doc) printedThickness() float64 {
	if m := d.r.Public.Dimensions; m != nil && m.TopThickness != nil {
		return *m.TopThickness
	}
	return d.r.Drawing.Thickness
}

// dimension writes a length as drawings have it: the preferred system, the other
// in brackets.
func (d *doc) dimension(mm float64) string {
	l := units.Length(mm)
	return d.number(l.Number(d.prefer) + " [" + l.Number(d.second()) + "]")
}
