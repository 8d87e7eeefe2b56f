package measure

import (
	"math"
	"testing"
)

// stacked is a board of 1100 × 420 mm whose sides flare: at a depth of z below its face it
// reaches wide(z) mm out past y = ±200, between ends that are cut upright; with a sheet on
// it. It is drawn as a stack of slices by projective geometry alone: what is seen is the
// first slice that the ray meets.
func stacked(f flat, thick float64, wide func(z float64) float64, round float64) flat {
	_, _, _, camera := f.frame()
	sheet := rect{-260, 40, 297, 210, 3}
	bark := srgb(92, 66, 44)
	f.at = func(x, y float64) [3]float64 {
		if sheet.has(x, y) {
			return paperPure
		}
		if math.Abs(x) > 580 || math.Abs(y) > 250 {
			return floorGrey
		}
		for z := 0.0; z <= thick; z++ {
			u, v := x+(x-camera[0])*z/camera[2], y+(y-camera[1])*z/camera[2]
			w := 200 + wide(z)
			if math.Abs(u) > 550 || math.Abs(v) > w {
				continue
			}
			if a, b := math.Abs(u)-550+round, math.Abs(v)-w+round; a > 0 && b > 0 && math.Hypot(a, b) > round {
				continue
			}
			c := woodBrown
			if z > 0 {
				c = bark
			}
			for i := range c {
				c[i] *= 1 + 0.08*math.Sin(v/3+2*math.Sin(u/70))
			}
			return c
		}
		return floorGrey
	}
	return f
}

// At the corners of a top that is cut straight across the depth of its flaring sides is
// read off the photo. The truth is the drawing's own: the width at the widest place, and
// how deep that lies. A corner that is rounded, and edges that stand upright, tell none.
func TestSectionAtTheCorner(t *testing.T) {
	for _, c := range []struct {
		name        string
		tilt, turn  float64
		thick       float64
		wide        func(z float64) float64
		round, deep float64 // deep: of the widest place
		most        float64 // that the width may be off
	}{
		{"round, widest in the middle", 0, 0, 50, func(z float64) float64 { return 16 - 16*math.Pow((z-25)/25, 2) }, 0, 25, 0.005},
		{"bevel down to the underside", 5, 4, 40, func(z float64) float64 { return 20 * z / 40 }, 0, 40, 0.01}, // an edge is no place that is round
		{"round, camera off to one side", 12, 0, 50, func(z float64) float64 { return 16 - 16*math.Pow((z-25)/25, 2) }, 0, 25, 0.005},
		{"upright, corners rounded by 14 mm", 0, 3, 40, func(float64) float64 { return 0 }, 14, 0, 0.005},
	} {
		f := overhead(c.tilt, c.turn, nil)
		f.w, f.h, f.focal = 1800, 1050, 1800*38/36
		f = stacked(f, c.thick, c.wide, c.round)
		r, err := Top(Request{Photo: f.draw(), Focal35: 38, ThicknessMM: c.thick})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		want := 400 + 2*c.wide(c.deep)
		t.Logf("%s: width %+.2f %% (stated %.2f), length %+.2f %%, area %+.2f %% (%.2f)", c.name, 100*(r.Width.Value/want-1), 100*r.Width.Error/want,
			100*(r.Length.Value/1100-1), 100*(r.Area.Value*1e6/1100/want-1), 100*r.Area.Error/r.Area.Value)
		if off := math.Abs(r.Width.Value - want); off > c.most*want || off > r.Width.Error {
			t.Errorf("%s: width %.1f ± %.1f, want %.1f", c.name, r.Width.Value, r.Width.Error, want)
		}
	}
}
