package measure

import (
	"errors"
	"math"
	"testing"
)

const quick = 1200 // pixels along the drawn photos' longer side

func overhead(tilt, turn float64, at func(x, y float64) [3]float64) flat {
	return flat{w: quick, h: quick * 3 / 4, focal: quick * 38 / 36, tilt: tilt, turn: turn, height: 1500, at: at}
}

// Truth: the drawing's own geometry, exact. To reach (before error of edge and
// lens, of which the drawing has none): corners 1 px, length and width 0.5 %,
// area 1 %, resin 2 % of the face.
func TestFlatTopIsMeasured(t *testing.T) {
	for _, c := range []struct {
		name       string
		tilt, turn float64
		sheet      rect
		kind       Kind
	}{
		{"straight from above, A4 beside the river", 0, 0, rect{-260, 80, 297, 210, 3}, A4},
		{"7 degrees, letter, camera turned", 7, 6, rect{200, 85, 279.4, 215.9, -8}, Letter},
		{"15 degrees, A4 on the river", 15, -4, rect{-150, -20, 297, 210, 40}, A4},
		{"10 degrees, letter across, camera turned a quarter", 10, 82, rect{300, 10, 279.4, 215.9, 88}, Letter},
	} {
		f := overhead(c.tilt, c.turn, bench(c.sheet))
		if c.turn > 45 {
			f.w, f.h = f.h, f.w
		}
		spot := f.place(420, -90)
		r, err := Top(Request{Photo: f.draw(), Focal35: 38, ResinAt: []Point{spot}})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if d := farthest(r.Sheet.Corners, c.sheet.corners(f)); d > 0.5 {
			t.Errorf("%s: a corner is %.2f px off", c.name, d)
		}
		if r.Sheet.Kind != c.kind {
			t.Errorf("%s: taken for %s, ratio %.3f", c.name, r.Sheet.Kind, r.Sheet.Ratio)
		}
		if math.Abs(r.Tilt-c.tilt) > 1 || math.Abs(r.Height-1500*math.Cos(c.tilt*math.Pi/180)) > 15 {
			t.Errorf("%s: tilt %.1f, height %.0f", c.name, r.Tilt, r.Height)
		}
		for _, v := range []struct {
			what string
			got  Value
			want float64
			rel  float64
		}{{"length", r.Length, 1100, 0.005}, {"width", r.Width, 420, 0.005}, {"area", r.Area, 0.462, 0.01}} {
			t.Logf("%s: %s %+.2f %%, stated ±%.2f %%", c.name, v.what, 100*(v.got.Value/v.want-1), 100*v.got.Error/v.want)
			if math.Abs(v.got.Value-v.want) > v.rel*v.want || math.Abs(v.got.Value-v.want) > v.got.Error {
				t.Errorf("%s: %s %.4f ± %.4f, want %.4f", c.name, v.what, v.got.Value, v.got.Error, v.want)
			}
		}
		if r.Resin == nil || math.Abs(r.Share.Value-1.0/6) > 0.02 {
			t.Errorf("%s: resin %.3f of the face, want %.3f; %v", c.name, r.Share.Value, 1.0/6, r.Notes)
		}
	}
}

// tiled makes the plain floor one of tiles of two colours.
func tiled(at func(x, y float64) [3]float64) func(x, y float64) [3]float64 {
	return func(x, y float64) [3]float64 {
		c := at(x, y)
		if c == floorGrey && (int(math.Floor(x/150))+int(math.Floor(y/150)))%2 == 0 {
			return srgb(150, 148, 140)
		}
		return c
	}
}

func code(err error) string {
	var r *Refusal
	if errors.As(err, &r) {
		return r.Code
	}
	return ""
}

func TestRefusals(t *testing.T) {
	a4 := func(x, y, turn float64) rect { return rect{x, y, 297, 210, turn} }
	for _, c := range []struct {
		name string
		at   func(x, y float64) [3]float64
		move float64 // of the camera along x, mm
		want string
	}{
		{"no sheet", bench(), 0, "measure.no-sheet"},
		{"two sheets", bench(a4(-300, 40, 3), a4(280, 30, -12)), 0, "measure.two-sheets"},
		{"sheet cut by the photo", bench(a4(-30, 40, 3)), 700, "measure.sheet-cut"},
		{"sheet on the floor", bench(a4(0, 400, 10)), 0, "measure.sheet-below"},
		{"sheet on a floor of tiles", tiled(bench(a4(0, 400, 10))), 0, "measure.sheet-below"},
		{"sheet half over the edge", bench(a4(-100, 190, 5)), 0, "measure.sheet-over"},
		{"sheet a little over the edge", bench(a4(-100, 120, 5)), 0, "measure.sheet-over"},
		{"sheet flush with the edge", bench(a4(-100, 105, 0)), 0, "measure.sheet-over"},
		{"top reaches out of the photo", bench(a4(100, 40, 3)), 350, "measure.top-cut"},
		{"a light top and no sheet", lightTop(900, 670), 0, "measure.sheet-is-top"},
		{"a light top of the sides of paper", lightTop(950, 672), 0, "measure.no-outline"},
		{"floor like the top", func(x, y float64) [3]float64 {
			if a4(0, 0, 8).has(x, y) {
				return paperPure
			}
			return woodBrown
		}, 0, "measure.no-outline"},
	} {
		at := c.at
		f := overhead(0, 0, func(x, y float64) [3]float64 { return at(x+c.move, y) })
		r, err := Top(Request{Photo: f.draw(), Focal35: 38})
		if code(err) != c.want {
			t.Errorf("%s: got %v, want %s (sheet %v)", c.name, err, c.want, r.Sheet)
		}
		if c.want != "measure.no-sheet" && c.want != "measure.sheet-cut" && c.want != "measure.two-sheets" && r.Sheet == nil {
			t.Errorf("%s: the sheet is not told", c.name)
		}
	}
	if _, err := Top(Request{}); code(err) != "measure.small" {
		t.Errorf("no picture: %v", err)
	}
}

// lightTop is a top on a dark floor, as light as paper nearly, with nothing on it.
func lightTop(length, width float64) func(x, y float64) [3]float64 {
	top := rect{0, 0, length, width, 2}
	return func(x, y float64) [3]float64 {
		if top.has(x, y) {
			return srgb(214, 204, 180)
		}
		return srgb(40, 44, 46)
	}
}

// A top lighter than the floor has four edges like a sheet's. The sheet on it is taken.
func TestSheetOnALightTop(t *testing.T) {
	top, sheet := lightTop(900, 670), rect{120, 60, 297, 210, 12}
	f := overhead(3, 0, func(x, y float64) [3]float64 {
		if sheet.has(x, y) {
			return paperPure
		}
		return top(x, y)
	})
	r, err := Top(Request{Photo: f.draw(), Focal35: 38})
	if err != nil {
		t.Fatalf("%v, sheet %v", err, r.Sheet)
	}
	if r.Sheet.Kind != A4 || math.Abs(r.Area.Value/0.603-1) > 0.01 {
		t.Errorf("sheet %v, area %.4f m², want 0.603", r.Sheet, r.Area.Value)
	}
}

func TestTheMakersWordOnPaperWinsWithADoubt(t *testing.T) {
	f := overhead(3, 0, bench(rect{-200, 60, 297, 210, 5}))
	r, err := Top(Request{Photo: f.draw(), Focal35: 38, Paper: Letter})
	if err != nil || r.Sheet.Kind != Letter {
		t.Fatalf("%v %v", r.Sheet, err)
	}
	if len(r.Notes) == 0 || r.Notes[0].Code != "measure.other-paper" {
		t.Errorf("no doubt: %v", r.Notes)
	}
}

func TestMarksPutItRight(t *testing.T) {
	sheet := rect{-200, 60, 297, 210, 5}
	f := overhead(5, 0, bench(sheet, rect{300, 60, 297, 210, 0}))
	m := f.draw()
	if _, err := Top(Request{Photo: m, Focal35: 38}); code(err) != "measure.two-sheets" {
		t.Fatalf("without marks: %v", err)
	}
	q := sheet.corners(f)
	for i := range q { // set by eye, in the other sense of turning
		q[i].X, q[i].Y = math.Round(q[i].X+2), math.Round(q[i].Y-2)
	}
	q[1], q[3] = q[3], q[1]
	r, err := Top(Request{Photo: m, Focal35: 38, Marks: &q})
	if err != nil {
		t.Fatal(err)
	}
	if d := farthest(r.Sheet.Corners, sheet.corners(f)); d > 0.5 {
		t.Errorf("a corner is %.2f px off", d)
	}
	if math.Abs(r.Length.Value-1100) > 5.5 {
		t.Errorf("length %.1f", r.Length.Value)
	}
	bad := [4]Point{{X: 10, Y: 10}, {X: 100, Y: 10}, {X: 20, Y: 12}, {X: 10, Y: 100}}
	if _, err := Top(Request{Photo: m, Marks: &bad}); code(err) != "measure.bad-marks" {
		t.Errorf("marks that make no sheet: %v", err)
	}
}

func TestByTape(t *testing.T) {
	f := overhead(0, 0, bench())
	m := f.draw()
	spot := f.place(0, -90)
	r, err := Top(Request{Photo: m, LengthMM: 1100, WidthMM: 420, ResinAt: []Point{spot}})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(r.Area.Value-0.462) > r.Area.Error || r.Area.Error > 0.03*0.462 {
		t.Errorf("area %.4f ± %.4f, want 0.462", r.Area.Value, r.Area.Error)
	}
	if math.Abs(r.Share.Value-1.0/6) > 0.02 {
		t.Errorf("resin %.3f", r.Share.Value)
	}
	// One of the two sides is read 4 % wrong, in the photo or on the tape: the truth lies within the stated error.
	for _, w := range []float64{420 * 1.04, 420 / 1.04} {
		r, err := Top(Request{Photo: m, LengthMM: 1100, WidthMM: w})
		if err != nil || math.Abs(r.Area.Value-1.1*0.42) > r.Area.Error {
			t.Errorf("width %.0f: area %.4f ± %.4f m², want %.4f; %v", w, r.Area.Value, r.Area.Error, 1.1*0.42, err)
		}
	}
	if _, err := Top(Request{Photo: m, LengthMM: 1100, WidthMM: 500}); code(err) != "measure.skew" {
		t.Errorf("a width that cannot be: %v", err)
	}
	r, err = Top(Request{Photo: overhead(3, 0, bench(rect{-200, 60, 297, 210, 5})).draw(), Focal35: 38, Paper: A4, LengthMM: 1180})
	if err != nil || len(r.Notes) == 0 || r.Notes[0].Code != "measure.tape-differs" {
		t.Errorf("a tape 80 mm off: %v %v", r.Notes, err)
	}
}

func TestSameWhateverThePhotosSize(t *testing.T) {
	sheet := rect{-260, 70, 297, 210, 3}
	f := overhead(8, 0, bench(sheet))
	big, err := Top(Request{Photo: f.draw(), Focal35: 38})
	if err != nil {
		t.Fatal(err)
	}
	f.w, f.h, f.focal = f.w/2, f.h/2, f.focal/2
	small, err := Top(Request{Photo: f.draw(), Focal35: 38})
	if err != nil {
		t.Fatal(err)
	}
	if d := math.Abs(big.Area.Value - small.Area.Value); d > 0.01*big.Area.Value {
		t.Errorf("area %.4f and %.4f", big.Area.Value, small.Area.Value)
	}
}

// A dark streak of the wood right beside the sheet, and the straight edge of a light top
// along it: each makes a larger four of edges, with wood within, that is no sheet.
func TestWhatRunsAlongTheSheetIsNotItsEdge(t *testing.T) {
	light := srgb(222, 196, 158)
	for _, c := range []struct {
		name  string
		sheet rect
		at    func(sheet rect) func(x, y float64) [3]float64
	}{
		{"a streak", rect{-200, 40, 297, 210, 0}, func(sheet rect) func(x, y float64) [3]float64 {
			board := bench(sheet)
			return func(x, y float64) [3]float64 {
				if math.Abs(x-sheet.x) < 180 && y < sheet.y-105-8 && y > sheet.y-105-14 {
					return srgb(70, 48, 30)
				}
				return board(x, y)
			}
		}},
		{"the edge of a light top", rect{-200, 80, 297, 210, 0}, func(sheet rect) func(x, y float64) [3]float64 {
			return func(x, y float64) [3]float64 {
				switch {
				case sheet.has(x, y):
					return paperPure
				case math.Abs(x) < 550 && math.Abs(y) < 210:
					return light
				}
				return srgb(58, 56, 54)
			}
		}},
	} {
		f := overhead(2, 0, c.at(c.sheet))
		r, err := Top(Request{Photo: f.draw(), Focal35: 38})
		if r.Sheet == nil {
			t.Errorf("%s: no sheet, %v", c.name, err)
			continue
		}
		if off := farthest(r.Sheet.Corners, c.sheet.corners(f)); off > 1 {
			t.Errorf("%s: a corner is %.1f px off, ratio %.3f, %v", c.name, off, r.Sheet.Ratio, err)
		}
	}
}
