package sheet

import "slabfolio/listing/grain"

// grain draws a few strokes in the direction of the grain, clear of the edge.
func (v *view) grain() {
	g := v.drawing
	top := &grain.Top{Outline: g.Outline, Length: g.Length, Width: g.Width, Direction: g.Grain}
	v.pen(lineGrain, nil)
	for _, stroke := range top.Strokes(0.8 * v.scale) {
		for i, p := range stroke {
			if x, y := v.at(p[0], p[1]); i == 0 {
				v.d.pdf.MoveTo(x, y)
			} else {
				v.d.pdf.LineTo(x, y)
			}
		}
		v.d.pdf.DrawPath("D")
	}
}
