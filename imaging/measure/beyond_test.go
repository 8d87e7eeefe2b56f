package measure

import (
	"math"
	"testing"
)

// A board with a dark brown strip of 6 mm beyond one long edge, and a shadow of the
// floor of 6 mm beyond the other: the strip is seen as wide as it was drawn, the
// shadow is none.
func TestBeyondTheEdgeOfTheFace(t *testing.T) {
	side, shade := srgb(60, 40, 24), srgb(70, 70, 73)
	board := bench(rect{-260, 80, 297, 210, 3})
	f := overhead(0, 0, func(x, y float64) [3]float64 {
		if math.Abs(x) < 550 && y > 210 && y < 216 {
			return side
		}
		if math.Abs(x) < 550 && y < -210 && y > -216 {
			return shade
		}
		return board(x, y)
	})
	m := f.draw()
	j := job{m: m, copy: newCopy(m, copySide)}
	var edge []Point // clockwise as seen
	for x := -540.0; x <= 540; x += 4 {
		edge = append(edge, f.place(x, 210))
	}
	for y := 200.0; y >= -200; y -= 4 {
		edge = append(edge, f.place(550, y))
	}
	for x := 540.0; x >= -540; x -= 4 {
		edge = append(edge, f.place(x, -210))
	}
	for y := -200.0; y <= 200; y += 4 {
		edge = append(edge, f.place(-550, y))
	}
	a, b := f.place(0, 0), f.place(100, 0)
	perMM := math.Hypot(b.X-a.X, b.Y-a.Y) / 100
	wide := j.beyond(edge, perMM)
	for _, c := range []struct {
		name string
		at   int
		want float64 // mm
	}{{"the strip", 135, 6}, {"the right end", 271 + 50, 0}, {"the shadow", 271 + 101 + 135, 0}, {"the left end", 271 + 101 + 271 + 50, 0}} {
		// A pixel is 1.2 mm, and half of one is taken off for colour that runs past an edge.
		if got := wide[c.at] / perMM; math.Abs(got-c.want) > 1.4 {
			t.Errorf("%s: %.1f mm, want %.0f", c.name, got, c.want)
		}
	}
}
