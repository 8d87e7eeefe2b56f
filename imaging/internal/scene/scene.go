// Package scene draws photographs of furniture that does not exist: a small
// ray caster whose pictures serve the demo, the tests and the benchmarks,
// because everything about them is known. It is no general renderer and
// knows nothing of specs.
package scene

import "slabfolio/imaging/pixel"

// A Scene is a subject on a seamless backdrop, the light on it, and the
// camera with its faults.
type Scene struct {
	Seed     uint64
	Subject  []Object // what the photo is of
	Props    []Object // what else lies there: a sheet of paper, a grey card
	Top      Top      // the top's corners and outline, for Truth
	Marks    []Vec    // places whose position in the picture Truth should tell
	Backdrop Backdrop
	Lights   []Light
	Fill     float64 // share of the light on the top that comes from all round, 0 to 1
	Level    float64 // what a white card on the top would give at 0 EV, linear; 0.9 when 0
	Camera   Camera
	EV       float64    // error of exposure, in stops; 0 is right
	White    [3]float64 // error of white balance: factors of red, green, blue; all 0 means right
	Sensor   Sensor
	Samples  int // rays a pixel; 4 when 0
	// Shaded is how many of them find the light where they all meet one thing; 2 when 0.
	// The filter evens the light out afterwards; colours need more samples.
	Shaded int
	only   func(x, y int) bool // pixels to be drawn, the others are left black; nil: all
}

// A Top is where the top of a piece is in the scene.
type Top struct {
	Outline Outline
	Height  float64 // z of its face above its own origin, mm
	Place   Place
}

// A Light is a rectangle that shines evenly, a softbox or a window.
type Light struct {
	At, Aim       Vec     // its centre, and what it points at
	Width, Height float64 // mm
	Power         float64 // radiance against the other lights
	Colour        Vec     // all 0 means white
}

// A Camera is a pinhole or a thin lens in front of a 36 mm wide sensor.
type Camera struct {
	At, LookAt Vec
	Focal      float64 // mm, for a sensor whose longer side is 36 mm
	Roll       float64 // degrees, how far the camera was held askew; clockwise turns the picture anticlockwise
	Stop       float64 // f-number; 0 keeps everything sharp
	Focus      Vec     // where it is sharp; LookAt when zero
}

// Sensor is what lens and sensor add to a picture.
type Sensor struct {
	Blur     float64 // standard deviation of the lens's blur, pixels
	Vignette float64 // share of light lost in the corners
	Shot     float64 // variance of the noise per unit of linear light: 1 over the electrons at white
	Read     float64 // standard deviation of the noise in the dark, linear
}

// Truth is what is known of a drawn photo.
type Truth struct {
	W, H    int
	Camera  Camera
	EV      float64
	White   [3]float64    // factors that the colours were multiplied by
	Mask    []uint8       // how much of a pixel the subject covers, 0 to 255, row by row
	Corners [4][2]float64 // of the top's outline in the picture, pixels: near left, near right, far right, far left
	Outline [][2]float64  // of the top in mm, anticlockwise from above
	Marks   [][2]float64  // where the scene's marks are in the picture, pixels
	View    View
}

// A View maps places of the scene into the picture.
type View struct {
	at, right, up, ahead Vec
	scale, cx, cy        float64
}

func (c Camera) view(w, h int) View {
	ahead := c.LookAt.sub(c.At).unit()
	up := Vec{0, 0, 1}
	if ahead.Z < -0.999 || ahead.Z > 0.999 {
		up = Vec{0, 1, 0} // straight down: the far side is up
	}
	right := ahead.cross(up).unit()
	up = right.cross(ahead)
	roll := Place{Turn: Vec{0, 0, c.Roll}}.frame()
	r := right.mul(roll.x.X).add(up.mul(roll.x.Y))
	u := right.mul(roll.y.X).add(up.mul(roll.y.Y))
	return View{c.At, r, u, ahead, c.Focal * float64(max(w, h)) / 36, float64(w) / 2, float64(h) / 2}
}

// Project returns where a place of the scene is in the picture, in pixels from
// its upper left corner; ok is false behind the camera.
func (v View) Project(p Vec) (x, y float64, ok bool) {
	d := p.sub(v.at)
	z := d.dot(v.ahead)
	if z <= 0 {
		return 0, 0, false
	}
	return v.cx + v.scale*d.dot(v.right)/z, v.cy - v.scale*d.dot(v.up)/z, true
}

// ray returns the direction through a point of the picture.
func (v View) ray(x, y float64) Vec {
	return v.ahead.mul(v.scale).add(v.right.mul(x - v.cx)).sub(v.up.mul(y - v.cy)).unit()
}

// Render draws s at w×h pixels, in linear light, and returns what is true of
// it. The picture is the same for the same scene, whatever the number of
// processors.
func Render(s Scene, w, h int) (*pixel.Image, Truth) { return render(s, w, h, nil) }

// render is Render; layers are filled where there are some.
func render(s Scene, w, h int, layers *Layers) (*pixel.Image, Truth) {
	if s.White == [3]float64{} {
		s.White = [3]float64{1, 1, 1}
	}
	if s.Samples == 0 {
		s.Samples = 4
	}
	if s.Shaded == 0 {
		s.Shaded = 2
	}
	if s.Level == 0 {
		s.Level = 0.9
	}
	v := s.Camera.view(w, h)
	t := newTracer(&s, v)
	t.layers = layers
	truth := Truth{W: w, H: h, Camera: s.Camera, EV: s.EV, White: s.White, Mask: make([]uint8, w*h), View: v}
	truth.Corners, truth.Outline = s.Top.seen(v)
	for _, m := range s.Marks {
		x, y, _ := v.Project(m)
		truth.Marks = append(truth.Marks, [2]float64{x, y})
	}
	img := pixel.New(w, h)
	const band = 480
	for y := 0; y < h; y += band {
		t.band(img, truth.Mask, w, h, y, min(y+band, h))
	}
	if layers != nil {
		layers.Bare = t.bare(w, h)
	}
	return img, truth
}

// seen returns the outline's four corners in the picture, and the outline.
func (t Top) seen(v View) (corners [4][2]float64, ring [][2]float64) {
	n := len(t.Outline.Near)
	if n == 0 {
		return corners, nil
	}
	f := t.Place.frame()
	o := t.Outline
	for i, p := range [][2]float64{o.Near[0], o.Near[n-1], o.Far[n-1], o.Far[0]} {
		x, y, _ := v.Project(f.out(Vec{p[0], p[1], t.Height}))
		corners[i] = [2]float64{x, y}
	}
	return corners, o.Polygon()
}
