package drawing

import (
	"math"

	"slabfolio/listing/report"
)

// Levels of the dimension lines beside the views, in millimetres of paper.
const (
	levelAbove = 6
	levelSide  = 7
)

// Plan draws the piece from above: the outline as it is, the grain, and the
// overall size.
func Plan(d *report.Drawing, o *Options) View {
	s := &sketch{Options: o, piece: d}
	for _, stroke := range strokes(d, 0.8*o.Scale) {
		s.line(Grain, s.onPaper(stroke)...)
	}
	s.Strokes = append(s.Strokes, Stroke{Visible, s.onPaper(d.Outline), true})
	x1, y0 := d.Length/o.Scale, -d.Width/o.Scale
	if d.Round {
		s.across(0, x1, y0/2, y0/2, y0-levelAbove, "Ø\u2009"+o.Length(d.Length))
		return s.View
	}
	s.across(0, x1, s.reach(0), s.reach(d.Length), y0-levelAbove, o.Length(d.Length))
	s.upright(y0, 0, s.side(d.Width), s.side(0), x1+levelSide, o.Length(d.Width))
	return s.View
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

// Front draws the piece from the long side: the top's edge, what hangs below it,
// and the room that the base takes. It is empty where the thickness is not known.
func Front(d *report.Drawing, o *Options) View {
	s := &sketch{Options: o, piece: d}
	if d.Thickness <= 0 {
		return s.View
	}
	x1 := d.Length / o.Scale
	top := -ElevationHeight(d) / o.Scale
	under := top + d.Thickness/o.Scale
	if Standing(d) {
		s.base(under)
	}
	s.rectangle(Visible, 0, top, x1, under)
	if !Standing(d) {
		s.upright(top, under, x1, x1, x1+levelSide, o.Length(o.Thickness))
		return s.View
	}
	s.frontDimensions(top, under)
	return s.View
}

// foot is where the base's footprint begins and ends, centred under the top.
func (s *sketch) foot() (x0, x1 float64) {
	d := s.piece
	return (d.Length - d.Footprint[0]) / s.Scale / 2, (d.Length + d.Footprint[0]) / s.Scale / 2
}

// base draws the floor, the parts below the top as hidden edges, and where the
// base begins and ends.
func (s *sketch) base(under float64) {
	d := s.piece
	x0, x1 := s.foot()
	s.line(Thin, Point{min(0, x0) - 4, 0}, Point{max(d.Length/s.Scale, x1) + 4, 0})
	for _, p := range d.Parts {
		if p.Length > 0 && p.BelowTop > 0 {
			x := (d.Length - p.Length) / s.Scale / 2
			s.rectangle(Hidden, x, under, x+p.Length/s.Scale, under+p.BelowTop/s.Scale)
		}
	}
	if d.Footprint[0] > 0 {
		s.line(Adjoining, Point{x0, under}, Point{x0, 0})
		s.line(Adjoining, Point{x1, under}, Point{x1, 0})
	}
}

// frontDimensions are height and thickness, the footprint and its distance from
// the end of the top.
func (s *sketch) frontDimensions(top, under float64) {
	d := s.piece
	x0, x1 := s.foot()
	end := d.Length / s.Scale
	right := max(end, x1)
	s.upright(top, 0, end, right+4, right+levelSide, s.Length(d.Height))
	s.upright(top, under, 0, 0, min(0, x0)-levelSide, s.Length(s.Thickness))
	if d.Footprint[0] <= 0 {
		return
	}
	s.across(x0, x1, 0, 0, levelSide, s.Length(d.Footprint[0]))
	if over := (d.Length - d.Footprint[0]) / 2; over/s.Scale > 3 {
		s.across(0, x0, under, 0, levelSide, s.Length(over))
	}
}
