package drawing

import (
	"fmt"
	"math"
	"slices"
	"testing"
)

// options draw at a scale, with letters that are 1.5 mm wide.
func options(scale float64) *Options {
	return &Options{
		Scale: scale, Thickness: 40, Length: func(mm float64) string { return fmt.Sprintf("%.0f", mm) },
		TextWidth: func(s string) float64 { return 1.5 * float64(len(s)) },
	}
}

// table is 1400 by 400 by 760 mm on a base of 1100 by 300, with a drawer.
func table() *Piece {
	return &Piece{
		Outline: [][2]float64{{0, 0}, {1400, 0}, {1400, 400}, {0, 400}}, Length: 1400, Width: 400, Thickness: 40, Grain: "along length",
		Height: 760, BaseHeight: 720, Footprint: [2]float64{1100, 300},
		Parts: []Part{{Name: "drawer", Length: 500, Width: 300, BelowTop: 90}},
	}
}

func labelTexts(v View) []string {
	var all []string
	for _, l := range v.Labels {
		all = append(all, l.Text)
	}
	slices.Sort(all)
	return all
}

// extent is how far the strokes of a line reach.
func extent(v View, l Line) (x0, y0, x1, y1 float64) {
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, s := range v.Strokes {
		if s.Line != l {
			continue
		}
		for _, p := range s.Points {
			x0, y0, x1, y1 = min(x0, p[0]), min(y0, p[1]), max(x1, p[0]), max(y1, p[1])
		}
	}
	return x0, y0, x1, y1
}

func wantExtent(t *testing.T, v View, l Line, want [4]float64) {
	t.Helper()
	x0, y0, x1, y1 := extent(v, l)
	for i, got := range []float64{x0, y0, x1, y1} {
		if math.Abs(got-want[i]) > 1e-9 {
			t.Errorf("line %d reaches %.2f %.2f to %.2f %.2f, want %v", l, x0, y0, x1, y1, want)
			return
		}
	}
}

// Each edge stands where the piece has it, at 1:10.
func TestViewsAreToScale(t *testing.T) {
	plan, front := Plan(table(), options(10)), Front(table(), options(10))
	wantExtent(t, plan, Visible, [4]float64{0, -40, 140, 0})
	wantExtent(t, front, Visible, [4]float64{0, -76, 140, -72})
	wantExtent(t, front, Adjoining, [4]float64{15, -72, 125, 0})
	wantExtent(t, front, Hidden, [4]float64{45, -72, 95, -63})
	if got, want := labelTexts(plan), []string{"1400", "400"}; !slices.Equal(got, want) {
		t.Errorf("dimensions of the plan %v, want %v", got, want)
	}
	if got, want := labelTexts(front), []string{"1100", "150", "40", "500", "760", "90"}; !slices.Equal(got, want) {
		t.Errorf("dimensions of the front %v, want %v", got, want)
	}
}

// ISO 129-1: arrows touch the extension lines from within, and from outside where
// there is no room for them; text stands above its line.
func TestDimensionsPointAtTheirEnds(t *testing.T) {
	for _, long := range []float64{40, 4} {
		s := &sketch{Options: options(1)}
		s.across(0, long, 10, 10, 4, "12", AtEnd)
		for i, a := range s.Arrows {
			inward := a.Toward[0] > 0 == (i == 0)
			if a.Tip != (Point{float64(i) * long, 4}) || inward != (long < roomInner) {
				t.Errorf("%.0f mm long: arrow %d at %v points to %v", long, i, a.Tip, a.Toward)
			}
		}
		if l := s.Labels[0]; l.At[1] >= 4 || l.At[1] < 2 {
			t.Errorf("the text stands at %v over a line at 4", l.At)
		}
		s = &sketch{Options: options(1)}
		s.upright(0, long, 10, 10, 17, "1234")
		for i, a := range s.Arrows {
			inward := a.Toward[1] > 0 == (i == 0)
			if a.Tip != (Point{17, float64(i) * long}) || inward != (long < roomInner) {
				t.Errorf("%.0f mm high: arrow %d at %v points to %v", long, i, a.Tip, a.Toward)
			}
		}
		if l := s.Labels[0]; l.Upward != (long == 40) || l.Upward && l.At[0] >= 17 {
			t.Errorf("%.0f mm high: text at %v, upward %v", long, l.At, l.Upward)
		}
	}
}

// Bounds hold every stroke and label, turned ones too.
func TestBounds(t *testing.T) {
	width := func(s string) float64 { return float64(len(s)) }
	v := View{
		Strokes: []Stroke{{Points: []Point{{1, 2}, {3, -4}}}},
		Labels:  []Label{{Point{10, 5}, AtMiddle, false, "1234"}, {Point{-5, 0}, AtMiddle, true, "123456"}, {Point{0, 0}, AtEnd, false, "12"}},
	}
	upper, lower := v.Bounds(2, width)
	if want := (Point{-7, -4}); upper != want {
		t.Errorf("upper left %v, want %v", upper, want)
	}
	if want := (Point{12, 5}); lower != want {
		t.Errorf("lower right %v, want %v", lower, want)
	}
	// A label alone, six wide and two high, by hand: before its place, around it, behind it.
	for _, c := range []struct {
		anchor       Anchor
		upward       bool
		upper, lower Point
	}{
		{AtStart, false, Point{10, 18}, Point{16, 20}}, {AtMiddle, false, Point{7, 18}, Point{13, 20}}, {AtEnd, false, Point{4, 18}, Point{10, 20}},
		{AtStart, true, Point{8, 14}, Point{10, 20}}, {AtMiddle, true, Point{8, 17}, Point{10, 23}}, {AtEnd, true, Point{8, 20}, Point{10, 26}},
	} {
		one := View{Labels: []Label{{Point{10, 20}, c.anchor, c.upward, "123456"}}}
		if upper, lower := one.Bounds(2, width); upper != c.upper || lower != c.lower {
			t.Errorf("anchor %d, upward %v: %v to %v, want %v to %v", c.anchor, c.upward, upper, lower, c.upper, c.lower)
		}
	}
}

// A base of a known form is drawn from its sections, hidden in the plan; any other
// as the room that it takes.
func TestBases(t *testing.T) {
	for _, c := range []struct {
		name       string
		base       Base
		plan       int // hidden edges in the plan
		front, end int // visible edges, the top's included
		adjoining  bool
	}{
		{"only its room", Base{Style: "crossed boards"}, 1, 1, 1, true},
		{"two closed frames", Base{Form: Frames, Wide: 80, Deep: 40, Closed: true}, 2, 3, 3, false},
		{"two frames, perhaps open", Base{Form: Frames, Wide: 80, Deep: 40}, 2, 3, 4, false},
		{"four legs", Base{Form: Legs, Wide: 60, Deep: 60}, 4, 3, 3, false},
		{"a column on a plate", Base{Form: Pedestal, Wide: 114, Deep: 114, Plate: 10}, 2, 3, 3, false},
		{"a column on a foot", Base{Form: Pedestal, Wide: 114, Deep: 114}, 2, 2, 2, true},
	} {
		d := table()
		d.Parts, d.Base = nil, c.base
		plan, front, end := Plan(d, options(10)), Front(d, options(10)), End(d, options(10))
		if n := strokesOf(plan, Hidden); n != c.plan {
			t.Errorf("%s: %d hidden edges in the plan, want %d", c.name, n, c.plan)
		}
		wantExtent(t, plan, Hidden, [4]float64{15, -35, 125, -5})
		if n := strokesOf(front, Visible); n != c.front {
			t.Errorf("%s: %d visible edges in front, want %d", c.name, n, c.front)
		}
		if n := strokesOf(end, Visible); n != c.end {
			t.Errorf("%s: %d visible edges from the end, want %d", c.name, n, c.end)
		}
		if got := strokesOf(front, Adjoining) > 0; got != c.adjoining {
			t.Errorf("%s: drawn as its room: %v", c.name, got)
		}
		if x0, _, x1, y1 := extent(front, Visible); c.base.Form != "" && (y1 != 0 || x0 != 0 || x1 != 140) {
			t.Errorf("%s: the base does not reach the floor or leaves the top: %g to %g, down to %g", c.name, x0, x1, y1)
		}
	}
}

// The bar of a closed frame is as thick above and below its opening as at the
// sides: 40 mm at 1:10.
func TestOpeningOfAClosedFrame(t *testing.T) {
	d := table()
	d.Parts, d.Base = nil, Base{Form: Frames, Wide: 80, Deep: 40, Closed: true}
	v := End(d, options(10))
	var frame, opening [4]float64
	for _, stroke := range v.Strokes {
		x0, y0, x1, y1 := extent(View{Strokes: []Stroke{stroke}}, Visible)
		switch {
		case y1 == 0: // it stands on the floor
			frame = [4]float64{x0, y0, x1, y1}
		case y1 < 0 && y1 > -10: // its lower edge is just above the floor
			opening = [4]float64{x0, y0, x1, y1}
		}
	}
	u, o := opening, frame
	for side, got := range map[string]float64{"left": u[0] - o[0], "above": u[1] - o[1], "right": o[2] - u[2], "below": o[3] - u[3]} {
		if math.Abs(got-4) > 1e-9 {
			t.Errorf("%s: the bar is %.2f mm thick, want 4", side, got)
		}
	}
}

func strokesOf(v View, l Line) int {
	n := 0
	for _, s := range v.Strokes {
		if s.Line == l {
			n++
		}
	}
	return n
}

// Third angle (ISO 5456-2:1996, 5.3): the plan stands over the front in line with
// it, the end right of the front on one floor; and the symbol's circles stand left
// of its cone, whose small end points at them.
func TestThirdAngle(t *testing.T) {
	o := options(10)
	var boxes [][]Point
	for _, s := range Views(table(), o).Strokes {
		if s.Line == Visible {
			boxes = append(boxes, s.Points)
		}
	}
	plan, front, end := boxes[0], boxes[1], boxes[2]
	if plan[0][0] != front[0][0] || plan[0][1] >= front[0][1] {
		t.Errorf("the plan at %v does not stand over the front at %v", plan[0], front[0])
	}
	if end[0][0] <= front[1][0] || math.Abs(end[0][1]-front[0][1]) > 1e-9 || math.Abs(end[1][0]-end[0][0]-40) > 1e-9 {
		t.Errorf("the end at %v does not stand right of the front at %v", end[0], front[1])
	}
	var cone, circle []Point
	for _, s := range ThirdAngle(4).Strokes {
		if len(s.Points) == 4 {
			cone = s.Points
		} else if s.Closed {
			circle = s.Points
		}
	}
	small, large := cone[3][1]-cone[0][1], cone[2][1]-cone[1][1]
	if cone[0][0] >= cone[1][0] || small >= large || circle[0][0] >= cone[0][0] {
		t.Errorf("the symbol's cone is %.1f high at its left and %.1f at its right, circles at %.1f", small, large, circle[0][0])
	}
}

// Knee room and what hangs below the top are dimensioned, and the overhang at the
// end as at the front.
func TestKneeRoomAndOverhangs(t *testing.T) {
	d := table()
	d.Knee = 630
	if got, want := labelTexts(Front(d, options(5))), []string{"1100", "150", "40", "500", "630", "760", "90"}; !slices.Equal(got, want) {
		t.Errorf("front: %v, want %v", got, want)
	}
	if got, want := labelTexts(End(d, options(5))), []string{"300", "50"}; !slices.Equal(got, want) {
		t.Errorf("end: %v, want %v", got, want)
	}
	for _, l := range Front(d, options(5)).Labels {
		if l.Text == "630" && (math.Abs(l.At[1]+63) > 1e-9 || !l.Upward) {
			t.Errorf("the knee room's text stands at %v", l.At)
		}
	}
}

// As many drawers are drawn as there are, evenly apart between the sides of the base, by
// hand: 1100 less twice 300 leaves three gaps of 166.7. Without room for it, and of what
// does not hang side by side, one is drawn; the end shows one behind the other.
func TestDrawersSideBySide(t *testing.T) {
	for _, c := range []struct {
		part  Part
		lefts []float64
	}{
		{Part{Name: "drawer", Length: 300, Width: 200, BelowTop: 90, Count: 2, SideBySide: true}, []float64{316.7, 783.3}},
		{Part{Name: "drawer", Length: 300, Width: 200, BelowTop: 90, Count: 1, SideBySide: true}, []float64{550}},
		{Part{Name: "drawer", Length: 420, Width: 200, BelowTop: 90, Count: 3, SideBySide: true}, []float64{35, 490, 945}}, // the base is too narrow for them
		{Part{Name: "drawer", Length: 800, Width: 200, BelowTop: 90, Count: 2, SideBySide: true}, []float64{300}},
		{Part{Name: "apron", Length: 300, Width: 20, BelowTop: 90, Count: 2}, []float64{550}},
	} {
		d := table()
		d.Parts = []Part{c.part}
		for view, want := range map[string][]float64{"front": c.lefts, "end": {(400 - c.part.Width) / 2}} {
			v := Front(d, options(10))
			if view == "end" {
				v = End(d, options(10))
			}
			var got []float64
			for _, s := range v.Strokes {
				if s.Line == Hidden {
					got = append(got, 10*s.Points[0][0])
				}
			}
			if !slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 0.1 }) {
				t.Errorf("%s of %d %ss of %.0f mm: they begin at %.1f, want %.1f", view, c.part.Count, c.part.Name, c.part.Length, got, want)
			}
		}
	}
}
