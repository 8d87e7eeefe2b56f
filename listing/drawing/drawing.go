// Package drawing makes the views of a piece as strokes and labels, once for
// every document: plan and front elevation, with their dimensions. It knows
// neither PDF nor SVG, and places nothing on a page; writers pen what it returns.
package drawing

import (
	"math"
)

// A Line is a kind of line of ISO 128-2:2020.
type Line int

// The kinds of lines.
const (
	Visible   Line = iota // 01.2, edges that are seen
	Thin                  // 01.1, dimensions, extensions and the floor
	Hidden                // 02.1, edges that are not seen
	Adjoining             // 05.1, the room that something takes whose shape is not known
	Grain                 // 01.1, a step finer
	Centre                // 04.1, axes
)

// Dashes returns the dashes and gaps of a line in multiples of its width, none
// where it is not broken: 12 and 3 for line 02, dash 24, gap 3, dot 0.5 for lines
// 04 and 05 (ISO 128-2:2020, table 1).
func (l Line) Dashes() []float64 {
	switch l {
	case Hidden:
		return []float64{12, 3}
	case Centre:
		return []float64{24, 3, 0.5, 3}
	case Adjoining:
		return []float64{24, 3, 0.5, 3, 0.5, 3}
	}
	return nil
}

// A Point is a place on paper in millimetres, x to the right and y down.
type Point [2]float64

// A Stroke is a line through points.
type Stroke struct {
	Line   Line
	Points []Point
	Closed bool // back to the first point
}

// An Arrow is a filled arrowhead, its tip at a point, pointing along a unit
// vector.
type Arrow struct{ Tip, Toward Point }

// A Tint is a part of a face that is filled lightly: what an odd number of its
// rings go round.
type Tint [][]Point

// TintShare is how much black there is in a tint: enough to tell the resin from
// the wood, little enough for lines to be read on it.
const TintShare = 0.12

// An Anchor says which end of a label stands at its place.
type Anchor int

// The anchors.
const (
	AtStart Anchor = iota
	AtMiddle
	AtEnd
)

// A Label is text on its baseline; an upward one reads from below to above.
type Label struct {
	At     Point
	Anchor Anchor
	Upward bool
	Text   string
}

// A View is a picture of the piece. The origin of a plan is the lower left corner
// of the outline's extents; that of an elevation the outline's left end, on the
// floor or, where nothing stands on one, at the underside.
type View struct {
	Tints   []Tint // under the strokes
	Strokes []Stroke
	Arrows  []Arrow
	Labels  []Label
}

// Options are how the views are drawn.
type Options struct {
	Scale     float64                   // millimetres of the piece to one of paper
	Thickness float64                   // of the top as it is printed, in millimetres of the piece
	Length    func(mm float64) string   // writes a dimension
	TextWidth func(text string) float64 // of a label, in millimetres of paper
	Names     Names
}

// Names are what the views are called beside them; a view without one has none.
type Names struct{ Plan, Front, End string }

// A sketch is a view in the making.
type sketch struct {
	View
	*Options
	piece *Piece
}

// Standing reports whether the piece stands on a floor, on a base or legs.
func Standing(d *Piece) bool { return d.Height > d.Thickness }

// elevationHeight is what the view from the front shows, in millimetres of the
// piece: floor to top, or the thickness where nothing stands on a floor.
func elevationHeight(d *Piece) float64 { return max(d.Height, d.Thickness, 0) }

// line adds an open stroke through points.
func (s *sketch) line(l Line, points ...Point) {
	s.Strokes = append(s.Strokes, Stroke{Line: l, Points: points})
}

// rectangle adds a closed stroke with corners x0, y0 and x1, y1.
func (s *sketch) rectangle(l Line, x0, y0, x1, y1 float64) {
	s.Strokes = append(s.Strokes, Stroke{l, []Point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}, true})
}

// label adds text with its baseline at x, y.
func (s *sketch) label(x, y float64, a Anchor, text string) {
	s.Labels = append(s.Labels, Label{At: Point{x, y}, Anchor: a, Text: text})
}

// Bounds returns the upper left and the lower right corner of all that is drawn,
// labels included, beside letters of a size in millimetres of paper.
func (v *View) Bounds(letter float64, width func(text string) float64) (upper, lower Point) {
	upper, lower = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	add := func(x, y float64) {
		upper = Point{min(upper[0], x), min(upper[1], y)}
		lower = Point{max(lower[0], x), max(lower[1], y)}
	}
	for _, s := range v.Strokes {
		for _, p := range s.Points {
			add(p[0], p[1])
		}
	}
	for _, l := range v.Labels {
		before := width(l.Text) * l.Anchor.Share()
		after := width(l.Text) - before
		if l.Upward {
			add(l.At[0]-letter, l.At[1]-after)
			add(l.At[0], l.At[1]+before)
		} else {
			add(l.At[0]-before, l.At[1]-letter)
			add(l.At[0]+after, l.At[1])
		}
	}
	return upper, lower
}

// Share is how much of a label stands before its place: 0, a half or 1.
func (a Anchor) Share() float64 { return float64(a) / 2 }
