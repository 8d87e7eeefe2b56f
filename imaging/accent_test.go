package imaging

import (
	"math"
	"testing"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/frame"
	"slabfolio/imaging/pixel"
	"slabfolio/imaging/tone"
)

// inWood is a photo all of one sRGB colour, whose middle the search took for the
// piece.
func inWood(c [3]float64, f frame.Result) *Photo {
	m := pixel.New(60, 40)
	for i := range m.Pix {
		m.Pix[i] = clipped16(65535 * colour.Decode(c[i%3]/255))
	}
	if !f.Grain {
		f.Mask = &pixel.Mask{W: 3, H: 1, Pix: []uint8{0, 255, 0}}
	}
	return &Photo{W: 600, H: 400, small: m, Frame: f, Tone: tone.AsShot()}
}

// The accent of the papers is that of the piece where it is surely found, in
// whichever photo that is, and not of what a search in a room may have taken for
// it. Hues of the two woods in CIE LCh, worked out with another program: 43° and
// 85° (from memory of its answer to within 3°).
func TestAccentOfTheSurePiece(t *testing.T) {
	padauk, laburnum, grey := [3]float64{138, 60, 40}, [3]float64{184, 150, 60}, [3]float64{128, 128, 128}
	sure, grain := frame.Result{Sure: true}, frame.Result{Grain: true}
	for _, c := range []struct {
		name   string
		photos []*Photo
		hue    float64
		sure   bool
	}{
		{"a room with a floor, then the piece on paper", []*Photo{inWood(laburnum, frame.Result{}), inWood(padauk, sure)}, 43, true},
		{"a room, then the grain", []*Photo{inWood(laburnum, frame.Result{}), inWood(padauk, grain)}, 43, true},
		{"the piece, then a room", []*Photo{inWood(padauk, sure), inWood(laburnum, frame.Result{})}, 43, true},
		{"rooms alone", []*Photo{nil, inWood(laburnum, frame.Result{}), inWood(padauk, frame.Result{})}, 85, false},
		{"a sure piece without a hue, then a room", []*Photo{inWood(grey, sure), inWood(laburnum, frame.Result{})}, 85, false},
	} {
		a, ok := SetAccent(c.photos)
		if !ok || a.Sure != c.sure || math.Abs(a.Hue-c.hue) > 4 {
			t.Errorf("%s: hue %.0f, sure %v, found %v; want %.0f, %v", c.name, a.Hue, a.Sure, ok, c.hue, c.sure)
		}
	}
	if a, ok := SetAccent([]*Photo{inWood(grey, sure), nil}); ok {
		t.Errorf("grey has the accent %+v", a)
	}
}
