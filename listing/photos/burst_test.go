package photos

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
	"testing"

	"slabfolio/imaging"
)

// lampShot is a drawn wall, lit at one of its ends, as an opened photo.
func lampShot(t *testing.T, left bool) *Shot {
	t.Helper()
	const w, h = 160, 120
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			v := 40 + 180*x/w
			if left {
				v = 220 - 180*x/w
			}
			if x/20%2 == y/20%2 {
				v = v * 3 / 4
			}
			m.SetNRGBA(x, y, color.NRGBA{uint8(v), uint8(v), uint8(v), 255})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	p, err := imaging.Open(imaging.Request{Name: "wall.png", Data: b.Bytes()}, &imaging.Options{Pure: true, NoMaster: true})
	if err != nil {
		t.Fatal(err)
	}
	return &Shot{Photo: p}
}

// What a burst is for is told by exposures and light together: exposures at least
// 1.8 times apart are a bracket, one exposure in other light is light painting, and
// one exposure in one light is the same photo again.
func TestBurstKind(t *testing.T) {
	var lit [2][3]*Shot // by the right lamp and by the left one
	for i := range 6 {
		lit[i/3][i%3] = lampShot(t, i/3 == 1)
	}
	// A positive figure is an exposure in the light of the left lamp, a negative
	// one in that of the right; left0 and right0 tell none.
	const left0, right0 = 1e-9, -1e-9
	for name, c := range map[string]struct {
		frames []float64
		want   string
	}{
		"two are too few":                 {[]float64{1, -1}, ""},
		"other light, one exposure":       {[]float64{1, -1, 1}, "lightest"},
		"other light, exposures differ":   {[]float64{1, -1.5, 1}, ""},
		"the same light, one exposure":    {[]float64{1, 1, 1}, ""},
		"a bracket":                       {[]float64{1, 2, 4}, "bracket"},
		"a bracket in any order":          {[]float64{4, 1, 2}, "bracket"},
		"just apart enough":               {[]float64{1, 1.8, 3.25}, "bracket"},
		"two of a bracket too near":       {[]float64{1, 1.79, 4}, ""},
		"no exposure told, in one light":  {[]float64{left0, left0, left0}, ""},
		"no exposure told, other light":   {[]float64{left0, right0, left0}, "lightest"},
		"one exposure of a bracket twice": {[]float64{1, 1, 4}, ""},
	} {
		var frames []*Shot
		for i, f := range c.frames {
			sh := lit[0][i]
			if f > 0 {
				sh = lit[1][i]
			}
			sh.Photo.Facts.ExposureTime = math.Abs(f)
			if f == left0 || f == right0 {
				sh.Photo.Facts.ExposureTime = 0
			}
			frames = append(frames, sh)
		}
		if got := burstKind(frames, likenessOf(frames)); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// likenessOf compares each of the frames with the one before, whatever the camera says.
func likenessOf(frames []*Shot) []likeness {
	out := make([]likeness, len(frames))
	var eye eye
	for i := 1; i < len(frames); i++ {
		out[i].edges, out[i].light = eye.likeness(frames[i-1].Photo, frames[i].Photo)
	}
	return out
}
