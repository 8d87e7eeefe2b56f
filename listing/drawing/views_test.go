package drawing

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"slabfolio/listing/report"
)

// options draw at a scale, with letters that are 1.5 mm wide.
func options(scale float64) *Options {
	return &Options{
		Scale: scale, Thickness: 40, Length: func(mm float64) string { return fmt.Sprintf("%.0f", mm) },
		TextWidth: func(s string) float64 { return 1.5 * float64(len(s)) },
	}
}

// table is 1400 by 400 by 760 mm on a base of 1100 by 300, with a drawer.
func table() *report.Drawing {
	return &report.Drawing{
		Outline: [][2]float64{{0, 0}, {1400, 0}, {1400, 400}, {0, 400}}, Length: 1400, Width: 400, Thickness: 40, Grain: "along length",
		Height: 760, BaseHeight: 720, Footprint: [2]float64{1100, 300},
		Parts: []report.DrawnPart{{Name: "drawer", Length: 500, Width: 300, BelowTop: 90}},
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
	if got, want := labelTexts(front), []string{"1100", "150", "40", "760"}; !slices.Equal(got, want) {
		t.Errorf("dimensions of the front %v, want %v", got, want)
	}
}

// ISO 129-1: arrows touch the extension lines from within, and from outside where
// there is no room for them; text stands above its line.
func TestDimensionsPointAtTheirEnds(t *testing.T) {
	for _, long := range []float64{40, 4} {
		s := &sketch{Options: options(1)}
		s.across(0, long, 10, 10, 4, "12")
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
		Labels:  []Label{{Point{10, 5}, Middle, false, "1234"}, {Point{-5, 0}, Middle, true, "123456"}, {Point{0, 0}, End, false, "12"}},
	}
	upper, lower := v.Bounds(2, width)
	if want := (Point{-7, -4}); upper != want {
		t.Errorf("upper left %v, want %v", upper, want)
	}
	if want := (Point{12, 5}); lower != want {
		t.Errorf("lower right %v, want %v", lower, want)
	}
}
