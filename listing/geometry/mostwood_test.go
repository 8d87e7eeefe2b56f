package geometry

import (
	"math"
	"testing"
)

// A rectangle of 1000 × 400 mm with a river that narrows evenly from 200 mm at the
// left to 100 mm at the right, from y 100 on: by plane geometry the most wood of
// a twentieth lies at the right end, where the river is on average 102.7 mm wide
// over the last 13 of 240 lines; an island of wood in it counts as wood.
func TestMostWoodAcross(t *testing.T) {
	o, err := Rectangle(1000, 400)
	if err != nil {
		t.Fatal(err)
	}
	river := [][2]float64{{0, 100}, {1000, 100}, {1000, 200}, {0, 300}}
	end := 100 + 100*6.5/240 // its width at the middle of the last 13 lines
	check := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 0.01 {
			t.Errorf("%s: %.3f mm of wood, want %.3f", what, got, want)
		}
	}
	one := [][][2]float64{river}
	check("all the way", o.MostWood(one, true, 0), 400-end)
	check("wider than the top", o.MostWood(one, true, 900), 400-end)
	check("within 240 mm in the middle", o.MostWood(one, true, 240), 240-end)     // 80 to 320
	check("within 40 mm in the middle", o.MostWood(one, true, 40), 220-(100+end)) // 180 to 220
	check("none", o.MostWood(nil, true, 0), 400)
	isle := [][2]float64{{900, 120}, {1000, 120}, {1000, 170}, {900, 170}}
	check("with an island of wood", o.MostWood(append(one, isle), true, 0), 450-end)
	// Along the width the lines run along the length: below the river all is wood.
	check("grain along the width", o.MostWood(one, false, 0), 1000)
}
