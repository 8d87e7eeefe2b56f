package drawing

import (
	"math"
)

// gaps between views, in millimetres of paper, labels included.
const (
	gapBelow  = 5
	gapBeside = 5
)

// letterSize is the height that bounds give to labels: 8 points.
const letterSize = 2.8

// Views puts the views of a piece together in third-angle projection (ISO
// 5456-2:1996, 5.3): the plan over the front, the right end right of it. Where
// nothing stands on a floor, the front is the edge of the top. The upper left
// corner of all that is drawn is the origin.
func Views(d *Piece, o *Options) View {
	plan, front, end := Plan(d, o), Front(d, o), End(d, o)
	_, below := plan.Bounds(letterSize, o.TextWidth)
	out := plan
	if len(front.Strokes) > 0 {
		above, right := front.Bounds(letterSize, o.TextWidth)
		floor := below[1] + gapBelow - above[1]
		out.add(front, 0, floor)
		if len(end.Strokes) > 0 {
			left, _ := end.Bounds(letterSize, o.TextWidth)
			out.add(end, right[0]+gapBeside-left[0], floor)
		}
	}
	upper, _ := out.Bounds(letterSize, o.TextWidth)
	var all View
	all.add(out, -upper[0], -upper[1])
	return all
}

// ViewsInRow puts the views side by side, each under its name, where the plan is
// too deep to stand over the front. They are not placed by projection then.
func ViewsInRow(d *Piece, o *Options) View {
	var row View
	edge := 0.0
	for _, v := range []View{Plan(d, o), Front(d, o), End(d, o)} {
		if len(v.Strokes) == 0 {
			continue
		}
		upper, lower := v.Bounds(letterSize, o.TextWidth)
		x := edge
		if edge > 0 {
			x += gapBeside
		}
		row.add(v, x-upper[0], 0)
		edge = x + lower[0] - upper[0]
	}
	upper, _ := row.Bounds(letterSize, o.TextWidth)
	var all View
	all.add(row, 0, -upper[1])
	return all
}

// Size is how wide and how high a view is whose upper left corner is the origin.
func (v *View) Size(width func(text string) float64) (w, h float64) {
	_, lower := v.Bounds(letterSize, width)
	return lower[0], lower[1]
}

// add puts another view into v, moved by x and y.
func (v *View) add(other View, x, y float64) {
	moved := func(points []Point) []Point {
		out := make([]Point, len(points))
		for i, p := range points {
			out[i] = Point{p[0] + x, p[1] + y}
		}
		return out
	}
	for _, t := range other.Tints {
		var tint Tint
		for _, ring := range t {
			tint = append(tint, moved(ring))
		}
		v.Tints = append(v.Tints, tint)
	}
	for _, s := range other.Strokes {
		v.Strokes = append(v.Strokes, Stroke{s.Line, moved(s.Points), s.Closed})
	}
	for _, a := range other.Arrows {
		v.Arrows = append(v.Arrows, Arrow{Point{a.Tip[0] + x, a.Tip[1] + y}, a.Toward})
	}
	for _, l := range other.Labels {
		l.At = Point{l.At[0] + x, l.At[1] + y}
		v.Labels = append(v.Labels, l)
	}
}

// ThirdAngle is the symbol of third-angle projection after ISO 5456-2:1996, annex
// A (proportions from memory): a cone without its tip, seen from its small end at
// the left and from the side at the right. The cone's larger diameter is high; the
// upper left corner is the origin.
func ThirdAngle(high float64) View {
	s := &sketch{}
	r := high / 2
	s.circle(Thin, r, r, r)
	s.circle(Thin, r, r, r/2)
	x0, x1 := 1.5*high, 2.5*high
	s.Strokes = append(s.Strokes, Stroke{Thin, []Point{{x0, r / 2}, {x1, 0}, {x1, high}, {x0, 1.5 * r}}, true})
	const over = 1.0
	s.Strokes = append(s.Strokes,
		Stroke{Centre, []Point{{-over, r}, {x1 + over, r}}, false},
		Stroke{Centre, []Point{{r, -over}, {r, high + over}}, false})
	return s.View
}

// circle adds a circle of 48 corners around x, y.
func (s *sketch) circle(l Line, x, y, r float64) {
	const corners = 48
	c := Stroke{Line: l, Closed: true}
	for i := range corners {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
		c.Points = append(c.Points, Point{x + r*cos, y + r*sin})
	}
	s.Strokes = append(s.Strokes, c)
}
