package drawing

import (
	"math"
)

// Levels of the dimension lines beside the views, in millimetres of paper.
const (
	levelAbove = 6
	levelSide  = 7
	nameAbove  = 2 // of a view's name over an elevation
)

// Plan draws the piece from above: the outline as it is, the resin where it is
// known where it lies, the grain, the base
// below the top as hidden edges, and the overall size.
func Plan(d *Piece, o *Options) View {
	s := &sketch{Options: o, piece: d}
	if len(d.Resin) > 0 {
		var tint Tint
		for _, ring := range d.Resin {
			tint = append(tint, s.onPaper(ring))
		}
		s.Tints = append(s.Tints, tint)
	}
	for _, stroke := range strokes(d, 0.8*o.Scale) {
		s.line(Grain, s.onPaper(stroke)...)
	}
	s.planBase()
	s.Strokes = append(s.Strokes, Stroke{Visible, s.onPaper(d.Outline), true})
	x1, y0 := d.Length/o.Scale, -d.Width/o.Scale
	text := o.Length(d.Length)
	if d.Round {
		text = "Ø\u2009" + text
		s.across(0, x1, y0/2, y0/2, y0-levelAbove, text, AtEnd)
	} else {
		s.across(0, x1, s.reach(0), s.reach(d.Length), y0-levelAbove, text, AtEnd)
		s.upright(y0, 0, s.side(d.Width), s.side(0), x1+levelSide, o.Length(d.Width))
	}
	// The name stands left of the length, or above it where that is too near.
	level := y0 - levelAbove - textAbove
	if (x1-o.TextWidth(text))/2 < o.TextWidth(o.Names.Plan)+3 {
		level -= 4
	}
	s.name(o.Names.Plan, level)
	return s.View
}

// name sets a view's name at its left.
func (s *sketch) name(text string, y float64) {
	if text != "" {
		s.label(1, y, AtStart, text)
	}
}

// onPaper turns points of the plan into points on paper.
func (s *sketch) onPaper(points [][2]float64) []Point {
	out := make([]Point, len(points))
	for i, p := range points {
		out[i] = Point{p[0] / s.Scale, -p[1] / s.Scale}
	}
	return out
}

// reach is the paper y of the outline's farthest point near an end, where the
// extension line of the length begins.
func (s *sketch) reach(x float64) float64 {
	best := 0.0
	for _, p := range s.piece.Outline {
		if math.Abs(p[0]-x) < s.piece.Length*0.005+0.5 {
			best = max(best, p[1])
		}
	}
	return -best / s.Scale
}

// side is the paper x where the extension line of the width begins, at a level
// of the extents: at the right end where the outline comes near that level
// there, else where it touches it.
func (s *sketch) side(level float64) float64 {
	const near = 4 // millimetres of paper
	touch, end := 0.0, math.Inf(1)
	for _, p := range s.piece.Outline {
		off := math.Abs(p[1] - level)
		if off < s.piece.Width*0.005+0.5 {
			touch = max(touch, p[0])
		}
		if p[0] > s.piece.Length*0.98 {
			end = min(end, off)
		}
	}
	if end < near*s.Scale {
		touch = s.piece.Length
	}
	return touch / s.Scale
}

// Front draws the piece from the long side, End from its right end: the top's
// edge, what hangs below it, and the base. Front is empty where the thickness is
// not known, or where the piece stands on something of which neither shape nor
// footprint is known: a top in the air is no drawing. End is empty there too,
// where nothing stands on a floor, and where it shows what the front shows.
func Front(d *Piece, o *Options) View {
	if d.Thickness <= 0 || floats(d) {
		return View{}
	}
	s := newSide(d, o, d.Length, d.Footprint[0])
	s.member = d.Base.Wide / o.Scale
	for _, p := range d.Parts {
		s.parts = append(s.parts, hanging{p.Length / o.Scale, p.BelowTop / o.Scale, d.Drawn(p)})
	}
	if !Standing(d) {
		s.topEdge()
		s.upright(s.top, s.under, s.long, s.long, s.long+levelSide, o.Length(o.Thickness))
		s.name(o.Names.Front, s.top-nameAbove)
		return s.View
	}
	s.draw(false)
	s.heights()
	s.knee()
	s.name(o.Names.Front, s.top-nameAbove)
	return s.View
}

// floats reports whether nothing is known of what the piece stands on.
func floats(d *Piece) bool {
	return Standing(d) && (d.Footprint[0] <= 0 || d.Footprint[1] <= 0)
}

// End draws the piece from its right end.
func End(d *Piece, o *Options) View {
	if d.Thickness <= 0 || !Standing(d) || floats(d) || d.Round && d.Footprint[0] == d.Footprint[1] {
		return View{}
	}
	s := newSide(d, o, d.Width, d.Footprint[1])
	s.member = d.Base.Deep / o.Scale
	for _, p := range d.Parts {
		s.parts = append(s.parts, hanging{p.Width / o.Scale, p.BelowTop / o.Scale, 1})
	}
	s.draw(true)
	s.name(o.Names.End, s.top-nameAbove)
	return s.View
}
