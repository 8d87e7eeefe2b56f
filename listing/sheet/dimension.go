package sheet

import "math"

// Dimensions after ISO 129-1:2018: thin lines, filled arrows, extension lines
// with a small gap at the edge and 2 mm beyond the dimension line (8 times the
// line width), text above the line and parallel to it, read from below or from
// the right.
const (
	arrowLength = 2.4
	arrowHalf   = 0.32 // half its width: 15 degrees
	beyond      = 8 * lineThin
	clear       = 0.8 // between edge and extension line
	textAbove   = 0.9
)

// across draws a horizontal dimension from x0 to x1 on the level y; from0 and
// from1 are where the extension lines begin.
func (v *view) across(x0, x1, from0, from1, y float64, text string) {
	pdf := v.d.pdf
	v.pen(lineThin, nil)
	toward := math.Copysign(1, y-from0)
	pdf.Line(x0, from0+toward*clear, x0, y+toward*beyond)
	pdf.Line(x1, from1+toward*clear, x1, y+toward*beyond)
	w := v.d.width(small, text)
	if x1-x0 >= 2*arrowLength+1.5 {
		pdf.Line(x0, y, x1, y)
		v.arrow(x0, y, -1, 0)
		v.arrow(x1, y, 1, 0)
	} else { // arrows from outside
		pdf.Line(x0-2*arrowLength, y, x1+2*arrowLength, y)
		v.arrow(x0, y, 1, 0)
		v.arrow(x1, y, -1, 0)
	}
	if w <= x1-x0-1 {
		v.d.textMiddle((x0+x1)/2, y-textAbove, small, text)
		return
	}
	v.d.textRight(x0-1, y-textAbove, small, text)
}

// upright draws a vertical dimension from y0 down to y1 at x; from0 and from1
// are where the extension lines begin. Short ones carry their text at the right,
// or over the upper arrow where the dimension stands at the left.
func (v *view) upright(y0, y1, from0, from1, x float64, text string) {
	pdf := v.d.pdf
	v.pen(lineThin, nil)
	toward := math.Copysign(1, x-from0)
	pdf.Line(from0+toward*clear, y0, x+toward*beyond, y0)
	pdf.Line(from1+toward*clear, y1, x+toward*beyond, y1)
	if y1-y0 >= 2*arrowLength+1.5 {
		pdf.Line(x, y0, x, y1)
		v.arrow(x, y0, 0, -1)
		v.arrow(x, y1, 0, 1)
	} else {
		pdf.Line(x, y0-2*arrowLength, x, y1+2*arrowLength)
		v.arrow(x, y0, 0, 1)
		v.arrow(x, y1, 0, -1)
	}
	w := v.d.width(small, text)
	if w <= y1-y0-1 {
		cx, cy := x-textAbove, (y0+y1+w)/2
		pdf.TransformBegin()
		pdf.TransformRotate(90, cx, cy)
		v.d.text(cx, cy, small, text)
		pdf.TransformEnd()
		return
	}
	if toward > 0 {
		v.d.text(x+beyond+0.8, (y0+y1)/2+0.9, small, text)
		return
	}
	v.d.textMiddle(x, y0-2*arrowLength-textAbove, small, text)
}

// arrow draws a filled arrow whose tip is at x, y, pointing along dx, dy.
func (v *view) arrow(x, y, dx, dy float64) {
	pdf := v.d.pdf
	bx, by := x-dx*arrowLength, y-dy*arrowLength
	pdf.SetFillColor(0, 0, 0)
	pdf.MoveTo(x, y)
	pdf.LineTo(bx-dy*arrowHalf, by+dx*arrowHalf)
	pdf.LineTo(bx+dy*arrowHalf, by-dx*arrowHalf)
	pdf.ClosePath()
	pdf.DrawPath("F")
}
