package measure

import (
	"math"
	"testing"
)

// The strip of a live edge that is seen between face and outermost line tells how
// deep that line lies, and the measured width grows by what the camera's height
// makes of it. The truth is geometry by hand: a side that falls 1.5 mm for each mm that
// it reaches out and is looked at with a tangent t off the vertical, from over the top,
// shows (1 − 1.5·t) of its reach, and what lies z deep at u from under the camera is
// seen u·z/H too near. Without a strip nothing is added.
func TestStripOfALiveEdge(t *testing.T) {
	bark := srgb(92, 66, 44)
	for _, c := range []struct {
		name  string
		strip float64 // mm
	}{{"a strip of 12 mm", 12}, {"none", 0}} {
		board := bench(rect{-260, 80, 297, 210, 3})
		f := overhead(5, 3, func(x, y float64) [3]float64 {
			if math.Abs(x) < 550 && math.Abs(y) < 210 && math.Abs(y) > 210-c.strip {
				return bark
			}
			return board(x, y)
		})
		r, err := Top(Request{Photo: f.draw(), Focal35: 38, ThicknessMM: 60})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		_, _, _, camera := f.frame()
		want := 420.0
		for _, u := range []float64{210 + camera[1], 210 - camera[1]} { // of both edges from under the camera
			want += u / camera[2] * 1.5 * c.strip / (1 - 1.5*u/camera[2])
		}
		t.Logf("%s: width %.1f ± %.1f, want %.1f", c.name, r.Width.Value, r.Width.Error, want)
		if math.Abs(r.Width.Value-want) > 0.003*want {
			t.Errorf("%s: width %.1f, want %.1f", c.name, r.Width.Value, want)
		}
		if math.Abs(r.Width.Value-want) > r.Width.Error || math.Abs(r.Length.Value/1100-1) > 0.005 {
			t.Errorf("%s: width %.1f ± %.1f, length %.1f", c.name, r.Width.Value, r.Width.Error, r.Length.Value)
		}
	}
}

// What is no strip: a face that goes from light to dark, grain of the same contrast,
// a strip that is lighter, as sapwood is.
func TestNoStrip(t *testing.T) {
	draw := func(at func(d float64) float64) []float64 {
		v := make([]float64, 62)
		for k := range v {
			v[k] = at(float64(k) + 0.5)
		}
		return v
	}
	for _, c := range []struct {
		name string
		v    []float64
		want float64
	}{
		{"a dark strip of 12", draw(func(d float64) float64 {
			if d < 12 {
				return 0.4
			}
			return 0.5
		}), 12},
		{"a slope", draw(func(d float64) float64 { return 0.4 + 0.002*d }), 0},
		{"grain", draw(func(d float64) float64 { return 0.5 + 0.05*math.Sin(d/2) }), 0},
		{"broad grain", draw(func(d float64) float64 { return 0.5 - 0.05*math.Sin(d/4) }), 0},
		{"sapwood", draw(func(d float64) float64 {
			if d < 12 {
				return 0.6
			}
			return 0.5
		}), 0},
		{"faint", draw(func(d float64) float64 {
			if d < 12 {
				return 0.49
			}
			return 0.5
		}), 0},
	} {
		if got := stripIn(c.v, 1.5, 36); math.Abs(got-c.want) > 1 {
			t.Errorf("%s: %g mm, want %g", c.name, got, c.want)
		}
	}
}
