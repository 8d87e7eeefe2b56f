package measure

import (
	"math"
	"testing"

	"slabfolio/imaging/pixel"
)

// lake is the bench with a lake of resin near its right end, an island of wood in it.
func lake(sheet rect) (at func(x, y float64) [3]float64, resin func(x, y float64) bool) {
	board := bench(sheet)
	isLake := func(x, y float64) bool {
		d := math.Hypot(x-380, y-70)
		return d < 100 && d > 45
	}
	resin = func(x, y float64) bool { return isLake(x, y) || math.Abs(y+90) < 35 }
	return func(x, y float64) [3]float64 {
		if isLake(x, y) && !sheet.has(x, y) {
			return resinTeal
		}
		return board(x, y)
	}, resin
}

func inRings(rings [][]Point, p Point) bool {
	in := false
	for _, r := range rings {
		in = in != pixel.Inside(r, p)
	}
	return in
}

// A drawn board is asked at every 5 mm whether it is resin there: the truth is
// the function that it was drawn from. The outline may lie turned by a half turn,
// never mirrored. What lies under a sheet on the river counts too.
func TestResinLiesWhereItWasDrawn(t *testing.T) {
	for _, c := range []struct {
		name       string
		tilt, turn float64
		sheet      rect
	}{
		{"straight from above", 0, 0, rect{-260, 80, 297, 210, 3}},
		{"9 degrees, camera turned", 9, 5, rect{-200, 85, 279.4, 215.9, -8}},
		{"sheet on the river", 6, -4, rect{-150, -20, 297, 210, 40}},
		{"camera upside down", 4, 176, rect{-260, 80, 297, 210, 3}},
	} {
		at, resin := lake(c.sheet)
		f := overhead(c.tilt, c.turn, at)
		r, err := Top(Request{Photo: f.draw(), Focal35: 38, ResinAt: []Point{f.place(500, -90), f.place(380, 140)}})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		best := math.Inf(1)
		for _, sign := range []float64{1, -1} {
			wrong, all := 0.0, 0.0
			for x := -547.5; x < 550; x += 5 {
				for y := -207.5; y < 210; y += 5 {
					p := Point{X: r.Length.Value/2 + sign*x, Y: r.Width.Value/2 + sign*y}
					if all++; inRings(r.OnTop, p) != resin(x, y) {
						wrong++
					}
				}
			}
			best = min(best, wrong/all)
		}
		t.Logf("%s: %.2f %% of the face wrong, in %d rings", c.name, 100*best, len(r.OnTop))
		if best > 0.02 {
			t.Errorf("%s: resin where wood is, or the other way, on %.1f %% of the face", c.name, 100*best)
		}
	}
}

// A board with a band of pale sapwood along one side that the photo cuts within
// that band: the border of the two woods is as sharp as an edge, and is none.
func TestATopThatIsCutAtItsSapwoodIsRefused(t *testing.T) {
	board := bench(rect{-260, 60, 297, 210, 3})
	pale := srgb(222, 190, 146)
	at := func(x, y float64) [3]float64 {
		if math.Abs(x) < 550 && y > -210 && y < -140 {
			return pale
		}
		return board(x, y)
	}
	for _, c := range []struct {
		move float64 // of the camera upwards, mm: 0 shows the whole board
		want string
	}{{0, ""}, {360, "measure.top-cut"}} {
		f := overhead(0, 0, func(x, y float64) [3]float64 { return at(x, y+c.move) })
		r, err := Top(Request{Photo: f.draw(), Focal35: 38})
		if code(err) != c.want {
			t.Errorf("moved by %.0f mm: %v, want %q; %.1f × %.1f mm", c.move, err, c.want, r.Length.Value, r.Width.Value)
		}
	}
}
