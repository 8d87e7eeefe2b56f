package measure

import (
	"math"
	"testing"
)

// A lamp mirrored in the finish hides the sheet: the refusal, whatever it is taken for,
// tells how much of the photo is white. A sheet that is blown out itself is no shine.
func TestAShineOverTheSheetIsTold(t *testing.T) {
	sheet := rect{-260, 80, 297, 210, 3}
	for _, c := range []struct {
		name string
		at   func(x, y float64) [3]float64
		told bool
	}{
		{"a lamp mirrored beside the sheet's middle", shining(sheet, 180), true},
		{"a window mirrored", shining(sheet, 400), true},
		{"two sheets, blown out", func(x, y float64) [3]float64 {
			if sheet.has(x, y) || sheet.has(x-500, y) {
				return [3]float64{1, 1, 1}
			}
			return bench()(x, y)
		}, false},
		{"a sheet on the floor, blown out", func(x, y float64) [3]float64 {
			if sheet.has(x-260, y-330) {
				return [3]float64{1, 1, 1}
			}
			return bench()(x, y)
		}, false},
	} {
		_, err := Top(Request{Photo: overhead(3, 0, c.at).draw(), Focal35: 38})
		r, ok := err.(*Refusal)
		if !ok {
			t.Errorf("%s: not refused", c.name)
			continue
		}
		if told := r.Values["shine"] > 0; told != c.told {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// shining is the bench with a sheet and a lamp of wide mm mirrored at its lower left corner.
func shining(sheet rect, wide float64) func(x, y float64) [3]float64 {
	board := bench(sheet)
	return func(x, y float64) [3]float64 {
		c := board(x, y)
		if math.Abs(x) < 550 && math.Abs(y) < 210 {
			d := math.Hypot(x+330, y-80) / wide
			for i := range c {
				c[i] = math.Min(0.7*c[i]+1.2*math.Exp(-d*d), 1)
			}
		}
		return c
	}
}
