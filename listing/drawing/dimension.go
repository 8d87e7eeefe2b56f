package drawing

import "math"

// Dimensions after ISO 129-1:2018: thin lines, filled arrows, extension lines
// with a small gap at the edge and 2 mm beyond the dimension line (8 times the
// line width), text above the line and parallel to it, read from below or from
// the right. All in millimetres of paper, beside letters of 8 points.
const (
	ArrowLength = 2.4
	ArrowHalf   = 0.32 // half an arrow's width: 15 degrees

	beyond    = 8 * 0.25
	clear     = 0.8 // between edge and extension line
	textAbove = 0.9
	roomInner = 2*ArrowLength + 1.5 // shorter dimensions have their arrows outside
)

// across draws a horizontal dimension from x0 to x1 on the level y; from0 and
// from1 are where the extension lines begin. Text that has no room between them
// stands right of it where beside is AtStart, else left.
func (s *sketch) across(x0, x1, from0, from1, y float64, text string, beside Anchor) {
	if y != from0 { // else it stands between the edges themselves
		toward := math.Copysign(1, y-from0)
		s.line(Thin, Point{x0, from0 + toward*clear}, Point{x0, y + toward*beyond})
		s.line(Thin, Point{x1, from1 + toward*clear}, Point{x1, y + toward*beyond})
	}
	if x1-x0 >= roomInner {
		s.line(Thin, Point{x0, y}, Point{x1, y})
		s.Arrows = append(s.Arrows, Arrow{Point{x0, y}, Point{-1, 0}}, Arrow{Point{x1, y}, Point{1, 0}})
	} else {
		s.line(Thin, Point{x0 - 2*ArrowLength, y}, Point{x1 + 2*ArrowLength, y})
		s.Arrows = append(s.Arrows, Arrow{Point{x0, y}, Point{1, 0}}, Arrow{Point{x1, y}, Point{-1, 0}})
	}
	if s.TextWidth(text) <= x1-x0-1 {
		s.label((x0+x1)/2, y-textAbove, AtMiddle, text)
		return
	}
	if beside == AtStart {
		s.label(x1+1, y-textAbove, AtStart, text)
		return
	}
	s.label(x0-1, y-textAbove, AtEnd, text)
}

// upright draws a vertical dimension from y0 down to y1 at x; from0 and from1
// are where the extension lines begin. Short ones carry their text at the right,
// or over the upper arrow where the dimension stands at the left.
func (s *sketch) upright(y0, y1, from0, from1, x float64, text string) {
	toward := math.Copysign(1, x-from0)
	if x != from0 { // else it stands between the edges themselves
		s.line(Thin, Point{from0 + toward*clear, y0}, Point{x + toward*beyond, y0})
		s.line(Thin, Point{from1 + toward*clear, y1}, Point{x + toward*beyond, y1})
	}
	if y1-y0 >= roomInner {
		s.line(Thin, Point{x, y0}, Point{x, y1})
		s.Arrows = append(s.Arrows, Arrow{Point{x, y0}, Point{0, -1}}, Arrow{Point{x, y1}, Point{0, 1}})
	} else {
		s.line(Thin, Point{x, y0 - 2*ArrowLength}, Point{x, y1 + 2*ArrowLength})
		s.Arrows = append(s.Arrows, Arrow{Point{x, y0}, Point{0, 1}}, Arrow{Point{x, y1}, Point{0, -1}})
	}
	switch {
	case s.TextWidth(text) <= y1-y0-1:
		s.Labels = append(s.Labels, Label{Point{x - textAbove, (y0 + y1) / 2}, AtMiddle, true, text})
	case toward > 0:
		s.label(x+beyond+0.8, (y0+y1)/2+0.9, AtStart, text)
	default:
		s.label(x, y0-2*ArrowLength-textAbove, AtMiddle, text)
	}
}
