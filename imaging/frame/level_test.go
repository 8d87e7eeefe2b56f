package frame

import (
	"math"
	"testing"

	"slabfolio/imaging/internal/phototest"
	"slabfolio/imaging/internal/scene"
	"slabfolio/imaging/pixel"
)

// front returns the demo's desk seen from the front, from height z, with the
// camera held askew by roll degrees.
func front(roll, z, look float64) (*pixel.Image, scene.View) {
	for _, p := range scene.Demo() {
		if p.Folder != "OY-0219" {
			continue
		}
		s := p.Shots[0].Scene
		s.Samples, s.EV, s.White = 1, 0, [3]float64{}
		s.Camera = scene.Camera{At: scene.Vec{X: 0, Y: -2900, Z: z}, LookAt: scene.Vec{X: 0, Y: 0, Z: look}, Focal: 50, Roll: roll}
		m, truth := scene.Render(s, 480, 320)
		return m, truth.View
	}
	return nil, scene.View{}
}

// A camera held askew is found out to a quarter of a degree, from the front; a
// level one is left alone.
func TestQualityStraighten(t *testing.T) {
	if testing.Short() {
		t.Skip("drawing the scenes takes a while")
	}
	for _, roll := range []float64{-2.5, -1, 0, 1.5, 2.5} {
		m, _ := front(roll, 600, 420)
		r := Find(m, nil)
		t.Logf("roll %+.1f: angle %+.2f, corners %v, notes %v", roll, r.Angle, r.Corners != nil, r.Notes)
		if math.Abs(r.Angle-roll) > 0.25 {
			t.Errorf("roll %+.1f: angle %+.2f", roll, r.Angle)
		}
	}
}

// A camera looking down makes the legs converge downwards; put right, points
// above one another in the scene stand above one another in the picture.
func TestQualityKeystone(t *testing.T) {
	if testing.Short() {
		t.Skip("drawing the scenes takes a while")
	}
	for _, c := range []struct{ z, look float64 }{{420, 420}, {700, 400}, {900, 400}} {
		m, v := front(0, c.z, c.look)
		r := Find(m, nil)
		inv := r.Source(m.W, m.H).inverse()
		var before, after float64
		for _, x := range []float64{-600, 600} {
			x0, y0, _ := v.Project(scene.Vec{X: x, Y: -250, Z: 0})
			x1, y1, _ := v.Project(scene.Vec{X: x, Y: -250, Z: 700})
			before = math.Max(before, math.Abs(math.Atan((x1-x0)/(y1-y0)))*180/math.Pi)
			x0, y0 = inv.Apply(x0, y0)
			x1, y1 = inv.Apply(x1, y1)
			after = math.Max(after, math.Abs(math.Atan((x1-x0)/(y1-y0)))*180/math.Pi)
		}
		t.Logf("camera at %v: legs lean %.2f°, after %.2f°; corners %v, notes %v", c.z, before, after, r.Corners != nil, r.Notes)
		if after > 0.5 && r.Corners != nil || after > before+0.25 {
			t.Errorf("camera at %v: legs lean %.2f° after, %.2f° before", c.z, after, before)
		}
	}
}

// Three-quarter views, held level, must not be turned by their perspective.
func TestQualityThreeQuarterStaysLevel(t *testing.T) {
	for _, d := range phototest.Draw(t, 360) {
		r := Find(d.Image, nil)
		t.Logf("%s %s: angle %+.2f corners %v", d.Piece, d.Name, r.Angle, r.Corners != nil)
		if d.Name != "desk-1.jpg" && math.Abs(r.Angle) > 0.5 {
			t.Errorf("%s %s is turned by %.2f°", d.Piece, d.Name, r.Angle)
		}
	}
}
