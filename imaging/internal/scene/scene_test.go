package scene

import (
	"math"
	"runtime"
	"slices"
	"testing"
)

// boardFromAbove is a plain board seen straight down: everything about its
// picture can be worked out by hand.
func boardFromAbove() Scene {
	o := Rectangle(1000, 400)
	place := Place{Move: Vec{-500, -200, 0}}
	b := Slab{Outline: o, Thickness: 30, Log: Log{Wood: Oak, PithY: 150, PithZ: -80, Seed: 3}, Place: place}
	s := studio(Vec{}, greyPaper, 1500)
	s.Subject, s.Top, s.Sensor = b.Objects(), Top{o, 30, place}, Sensor{}
	s.Camera = Camera{At: Vec{0, 0, 2030}, LookAt: Vec{0, 0, 0}, Focal: 50}
	return s
}

// The pinhole camera by hand: a sensor 36 mm wide behind a 50 mm lens, 2 m
// above the face.
func TestTruthOfPlanView(t *testing.T) {
	const w, h = 360, 240
	_, truth := Render(boardFromAbove(), w, h)
	mmPerPixel := 2000.0 / 50 * 36 / w // 4 mm
	want := [4][2]float64{
		{w/2 - 500/mmPerPixel, h/2 + 200/mmPerPixel}, {w/2 + 500/mmPerPixel, h/2 + 200/mmPerPixel},
		{w/2 + 500/mmPerPixel, h/2 - 200/mmPerPixel}, {w/2 - 500/mmPerPixel, h/2 - 200/mmPerPixel}}
	for i, c := range truth.Corners {
		if math.Hypot(c[0]-want[i][0], c[1]-want[i][1]) > 1e-6 {
			t.Errorf("corner %d at %v, want %v", i, c, want[i])
		}
	}
	area := 0.0
	for _, m := range truth.Mask {
		area += float64(m) / 255
	}
	if want := 1000 * 400 / (mmPerPixel * mmPerPixel); math.Abs(area-want) > 0.01*want {
		t.Errorf("mask covers %.0f pixels, want %.0f", area, want)
	}
}

// A camera 1 m away, level, looking along y: what lies 1 m off to the right at
// twice the distance is 26.57° off, which is half the focal length on the sensor.
func TestProjectLevelCamera(t *testing.T) {
	v := Camera{At: Vec{0, -1000, 500}, LookAt: Vec{0, 0, 500}, Focal: 36}.view(600, 400)
	x, y, ok := v.Project(Vec{1000, 1000, 1500})
	if !ok || math.Abs(x-600) > 1e-9 || math.Abs(y+100) > 1e-9 {
		t.Errorf("at %v, %v (%v), want 600, -100", x, y, ok)
	}
	if _, _, ok := v.Project(Vec{0, -2000, 0}); ok {
		t.Error("a place behind the camera has a place in the picture")
	}
	d := v.ray(x, y)
	if c := d.dot(Vec{1000, 2000, 1000}.unit()); c < 1-1e-12 {
		t.Errorf("ray back misses the place by %v", 1-c)
	}
}

func TestRollTurnsThePicture(t *testing.T) {
	c := Camera{At: Vec{0, -1000, 0}, LookAt: Vec{}, Focal: 36, Roll: 1.2}
	v := c.view(600, 400)
	x0, y0, _ := v.Project(Vec{-200, 0, 0})
	x1, y1, _ := v.Project(Vec{200, 0, 0})
	if got := math.Atan2(y1-y0, x1-x0) * 180 / math.Pi; math.Abs(got-1.2) > 1e-9 {
		t.Errorf("a level line is tilted by %v°, want 1.2° downwards to the right", got)
	}
}

func TestExposureAndWhiteAreFactors(t *testing.T) {
	s := boardFromAbove()
	s.EV = -1
	a, _ := Render(s, 60, 40)
	s.EV, s.White = -2, [3]float64{1.25, 1, 0.8}
	b, truth := Render(s, 60, 40)
	if truth.EV != -2 || truth.White != s.White {
		t.Errorf("truth says %v EV, %v", truth.EV, truth.White)
	}
	for i := range a.Pix {
		want := float64(a.Pix[i]) / 2 * s.White[i%3]
		if math.Abs(float64(b.Pix[i])-want) > 1.2 {
			t.Fatalf("value %d is %d, want %.1f", i, b.Pix[i], want)
		}
	}
}

func TestSameWhateverTheProcessors(t *testing.T) {
	s := boardFromAbove()
	s.Sensor = fullFrame
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	a, ta := Render(s, 120, 80)
	runtime.GOMAXPROCS(5)
	b, tb := Render(s, 120, 80)
	if !slices.Equal(a.Pix, b.Pix) || !slices.Equal(ta.Mask, tb.Mask) {
		t.Error("one and five processors draw different pictures")
	}
	s.Seed++
	if c, _ := Render(s, 120, 80); slices.Equal(a.Pix, c.Pix) {
		t.Error("another seed draws the same noise")
	}
}

// Noise is the difference to the same picture without it. Its variance must be
// shot × signal + read².
func TestNoiseIsShotAndRead(t *testing.T) {
	s := boardFromAbove()
	clean, _ := Render(s, 240, 160)
	s.Sensor = Sensor{Shot: 4e-4, Read: 4e-3}
	noisy, _ := Render(s, 240, 160)
	var got, want, sum float64
	n := 0
	for i, c := range clean.Pix {
		if c > 60000 || c < 3000 {
			continue // where clipping could bend the noise
		}
		d := (float64(noisy.Pix[i]) - float64(c)) / 65535
		got += d * d
		sum += d
		want += s.Sensor.Shot*float64(c)/65535 + s.Sensor.Read*s.Sensor.Read
		n++
	}
	if n < 50000 {
		t.Fatalf("only %d values to count", n)
	}
	if r := got / want; math.Abs(r-1) > 0.03 {
		t.Errorf("variance is %.3f times what it should be", r)
	}
	if mean := sum / float64(n); math.Abs(mean) > 1e-4 {
		t.Errorf("noise shifts the mean by %v", mean)
	}
}

// A grey card in the middle of the top must come out as the meter says.
func TestMeterSetsTheLevel(t *testing.T) {
	s := boardFromAbove()
	s.Level, s.Samples = 0.9, 6
	s.Props = []Object{Card(Vec{0, 0, 30}, 90, 60, 0)}
	m, _ := Render(s, 180, 120)
	var sum float64
	for y := 58; y < 62; y++ {
		for x := 87; x < 93; x++ {
			sum += float64(m.Row(y)[3*x+1]) / 65535
		}
	}
	if got := sum / 24; math.Abs(got/(0.18*0.9)-1) > 0.08 {
		t.Errorf("an 18 %% card gives %.4f, want about %.4f", got, 0.18*0.9)
	}
}

// The share of resin that the slab is asked for is the share that is seen.
func TestResinShareIsAsWanted(t *testing.T) {
	o := Widths(1200, []float64{400, 420, 390}, 4, 1)
	r := River{Centre: []float64{200, 230, 190}, Width: []float64{60, 90, 70}, Slope: 0.3, Wander: 6, Seed: 4}
	s := Slab{Outline: o, Thickness: 40, River: &r, Share: 0.21}
	r.grow = growth(s, r)
	if got := resinShare(o, &r, 40); math.Abs(got-0.21) > 0.002 {
		t.Errorf("share is %.4f, want 0.21", got)
	}
}

func TestOutlineAreas(t *testing.T) {
	if got, want := Rectangle(1000, 400).Area(), 400000.0; math.Abs(got-want) > 1e-6 {
		t.Errorf("rectangle: %v mm², want %v", got, want)
	}
	if got, want := Round(900).Area(), math.Pi*450*450; math.Abs(got/want-1) > 1e-4 {
		t.Errorf("disc: %v mm², want %v", got, want)
	}
	o := Widths(1000, []float64{300, 350, 320, 340, 310}, 6, 9)
	for k, want := range []float64{300, 350, 320, 340, 310} {
		i := k * stations / 4
		if got := o.Far[i][1] - o.Near[i][1]; math.Abs(got-want) > 1e-9 {
			t.Errorf("width at step %d: %v, want %v", k, got, want)
		}
	}
}

// The layers of a photo add up to it, noise aside, and the bare backdrop is never
// darker than what is seen of it behind the piece.
func TestLayersAddUp(t *testing.T) {
	s := TestShot(TestOptions{}, 120, 80).Scene
	s.Sensor.Shot, s.Sensor.Read = 0, 0
	m, truth, l := RenderLayers(s, 120, 80)
	shaded, pieces := 0, 0
	for i, v := range m.Pix {
		if d := int(v) - int(l.Piece.Pix[i]) - int(l.Behind.Pix[i]); d < -2 || d > 2 {
			t.Fatalf("sample %d is %d, its layers %d and %d", i, v, l.Piece.Pix[i], l.Behind.Pix[i])
		}
		if float64(l.Behind.Pix[i]) > 1.1*float64(l.Bare.Pix[i]) {
			t.Fatalf("sample %d: %d behind the piece, %d without it", i, l.Behind.Pix[i], l.Bare.Pix[i])
		}
		if truth.Mask[i/3] == 0 && float64(l.Behind.Pix[i]) < 0.8*float64(l.Bare.Pix[i]) {
			shaded++
		}
		if truth.Mask[i/3] == 255 && l.Piece.Pix[i] > 0 {
			pieces++
		}
	}
	if shaded < 300 || pieces < 3000 {
		t.Errorf("%d samples lie in shade and %d on the piece: nothing was tried", shaded, pieces)
	}
}
