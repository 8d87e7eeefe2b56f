package imaging

import (
	"slices"
	"testing"

	"slabfolio/imaging/frame"
	"slabfolio/imaging/note"
	"slabfolio/imaging/pixel"
)

// beforeShelves is a table, its edges spread over so many pixels, before a wall of
// shelves whose edges are spread over others.
func beforeShelves(table, shelves int) *Photo {
	const w, h = 2400, 1600
	m := pixel.New(w, h)
	soft := func(d, spread int) int { return max(0, min(1000, 500+1000*d/max(spread, 1))) } // of 1000, at d pixels within an edge
	for y := range h {
		for x := range w {
			stripe := min(x%80, 80-x%80) - 20
			wall := 6000 + 20*soft(stripe, shelves)
			row := min(y%80, 80-y%80) - 20
			wall = wall + 10*soft(row, shelves)
			in := min(x-300, 2100-x, y-300, 620-y)
			leg := max(min(x-400, 520-x), min(x-1900, 2020-x))
			in = max(in, min(leg, y-500, 1400-y))
			grain := min(x%120, 120-x%120) - 30
			wood := 20000 + 20*soft(grain, table) + 10*soft(min(y%60, 60-y%60)-15, table)
			a := soft(in, table)
			for k, c := range [3]int{100, 70, 45} {
				m.Pix[(y*w+x)*3+k] = uint16((a*wood*c/100 + (1000-a)*wall) / 1000)
			}
		}
	}
	mask := &pixel.Mask{W: 240, H: 160, Pix: make([]uint8, 240*160)}
	for y := 30; y < 140; y++ {
		for x := 30; x < 210; x++ {
			if y < 62 || x >= 40 && x < 52 || x >= 190 && x < 202 {
				mask.Pix[y*240+x] = 255
			}
		}
	}
	p := &Photo{W: w, H: h, Numbers: map[string]float64{}}
	p.small, _ = pixel.Reduce(m.Rows(), 1, smallSide)
	box := [4]float64{300.0 / w, 300.0 / h, 2100.0 / w, 1400.0 / h}
	p.Frame = frame.Result{Crop: [4]float64{0, 0, 1, 1}, Inside: [4]float64{0, 0, 1, 1}, Subject: box, Sure: true, Mask: mask}
	if err := p.inspect(m.Rows(), 1); err != nil {
		panic(err)
	}
	return p
}

// Sharpness is that of the piece, not of what shows beneath a table: in the middle
// of its box there is nothing of it. Real blur is 6 of 2400 pixels and more, see
// inspect.
func TestSharpnessOfThePiece(t *testing.T) {
	for _, c := range []struct {
		name           string
		table, shelves int
		soft           bool
	}{{"a soft table before sharp shelves", 14, 1, true}, {"a sharp table before soft shelves", 1, 14, false}} {
		p := beforeShelves(c.table, c.shelves)
		isSoft := func(n note.Note) bool { return n.Code == "inspect.soft" }
		if got := slices.ContainsFunc(p.Notes, isSoft); got != c.soft {
			t.Errorf("%s: said to be soft %v, want %v; edges of %.1f pixels", c.name, got, c.soft, p.Numbers["edge_px"])
		}
	}
}
