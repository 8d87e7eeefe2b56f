package drawing

import (
	"math"
	"testing"
)

// The resin stands on the plan where the piece has it, at 1:10, in the views put
// together too, and no stroke of the grain runs over it.
func TestResinIsTintedWhereItLies(t *testing.T) {
	d := table()
	d.Resin = [][][2]float64{{{0, 150}, {1400, 100}, {1400, 200}, {0, 260}}, {{600, 160}, {700, 160}, {700, 190}, {600, 190}}}
	plan := Plan(d, options(10))
	if len(plan.Tints) != 1 || len(plan.Tints[0]) != 2 {
		t.Fatalf("tints %v, want one of two rings", plan.Tints)
	}
	for k, ring := range plan.Tints[0] {
		for i, p := range ring {
			if want := (Point{d.Resin[k][i][0] / 10, -d.Resin[k][i][1] / 10}); math.Hypot(p[0]-want[0], p[1]-want[1]) > 1e-9 {
				t.Errorf("ring %d, corner %d at %v, want %v", k, i, p, want)
			}
		}
	}
	grain, long := 0, 0.0
	for _, s := range plan.Strokes {
		if s.Line != Grain {
			continue
		}
		grain++
		for i, p := range s.Points {
			x, y := p[0]*10, -p[1]*10
			low, high := 150-50*x/1400, 260-60*x/1400
			island := x > 600 && x < 700 && y > 160 && y < 190
			if y > low && y < high && !island {
				t.Errorf("a stroke of the grain runs over resin at %.0f, %.0f", x, y)
			}
			if i > 0 {
				long = max(long, math.Abs(p[0]-s.Points[i-1][0]))
			}
		}
	}
	if grain < 5 || long > 3 {
		t.Errorf("%d strokes of the grain, the longest step %.1f mm: they bridge the resin", grain, long)
	}
	all := Views(d, options(10))
	if len(all.Tints) != 1 {
		t.Fatalf("%d tints in the views together", len(all.Tints))
	}
	var outline []Point
	for _, s := range all.Strokes {
		if s.Line == Visible {
			outline = s.Points
			break
		}
	}
	if dx, dy := all.Tints[0][0][0][0]-outline[0][0], all.Tints[0][0][0][1]-outline[0][1]; math.Abs(dx) > 1e-9 || math.Abs(dy+15) > 1e-9 {
		t.Errorf("in the views together the resin stands %.2f, %.2f off its corner", dx, dy+15)
	}
	d.Resin = nil
	if n := len(Plan(d, options(10)).Tints); n != 0 {
		t.Errorf("%d tints of resin that nobody knows the place of", n)
	}
}
