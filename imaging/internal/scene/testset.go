package scene

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"math"
)

// TestOptions say what a test photo is to be like. The zero value is a slab on
// two frames before a grey backdrop, seen from the front left, rightly exposed.
type TestOptions struct {
	EV       float64    // error of exposure, stops
	White    [3]float64 // error of white balance: factors of red, green, blue
	GreyCard bool       // an 18 % card lies on the top; its corners are in Truth.Marks, after the paper's
	Paper    string     // "a4" or "letter": a sheet lies on the top; its corners are the first four of Truth.Marks, clockwise
	Above    bool       // seen from above
	Askew    float64    // from above: degrees that the camera hangs off the vertical
	Turn     float64    // degrees that the piece is turned about the vertical
	Roll     float64    // degrees that the camera is held askew
	Round    bool       // a disc of 800 mm instead of the slab
	Resin    float64    // share of resin in the face; 0.2 where negative
	Light    int        // 0: the studio; 1, 2, 3 …: black backdrop, one small light at the Nth of 8 places round the piece
	Seed     uint64     // of the noise
	Samples  int        // 2 when 0: quick
}

// The slab of the test photos: 1200 mm by these widths at equal steps.
var testWidths = []float64{380, 410, 395, 420, 385}

// TestShot returns a quick photo with known truth. White lies low enough
// that nothing clips up to +1.5 EV.
func TestShot(o TestOptions, w, h int) Shot {
	const thick, under = 40, 700
	outline := Widths(1200, testWidths, 4, 7)
	if o.Round {
		outline = Round(800)
	}
	if o.Resin < 0 {
		o.Resin = 0.2
	}
	at := centred(outline, under)
	at.Move = Place{Turn: Vec{0, 0, o.Turn}}.frame().dir(at.Move)
	at.Turn.Z = o.Turn
	slab := Slab{Outline: outline, Thickness: thick, Rough: 0.6, LiveNear: 12, LiveFar: 10, Place: at,
		Log: Log{Wood: Oak, PithY: 190, PithZ: -60, Lean: 0.03, Seed: 9}}
	if o.Round {
		slab.LiveNear, slab.LiveFar = 0, 0
	}
	if o.Resin > 0 {
		lo, hi := outline.Bounds()
		mid := (lo[1] + hi[1]) / 2
		slab.Share = o.Resin
		slab.River = &River{Resin: Resin{Colour: srgb(120, 200, 190), Milk: 0.3, Body: srgb(24, 90, 96), Rough: 0.3},
			Centre: []float64{mid - 20, mid + 15, mid - 10, mid + 20}, Width: []float64{70, 90, 60, 80}, Slope: 0, Wander: 5, Seed: 12}
	}
	s := studio(Vec{0, 0, 450}, greyPaper, 800)
	s.Lights = s.Lights[:2] // without the light that mirrors in the face
	s.Level, s.Seed, s.EV, s.White, s.Samples = 0.3, 1000+o.Seed, o.EV, o.White, max(o.Samples, 2)
	s.Subject, s.Top = slab.Objects(), Top{outline, thick, at}
	turned := Place{Turn: Vec{0, 0, o.Turn}}.frame()
	for _, x := range []float64{-0.37, 0.37} {
		x *= outline.length()
		for _, y := range []float64{-130, 130} {
			s.Subject = append(s.Subject, beam(turned.dir(Vec{x, y, 0}), turned.dir(Vec{x, y, under}), 40, 40, 4, &blackCoat))
		}
	}
	s.lay(o, under+thick)
	if o.Light > 0 {
		s.dark(o.Light)
	}
	s.Camera = Camera{At: Vec{-1300, -2500, 1400}, LookAt: Vec{0, 0, 390}, Focal: 60, Roll: o.Roll}
	if o.Above {
		tan := math.Tan(o.Askew * math.Pi / 180)
		s.Camera.At, s.Camera.LookAt = Vec{0, -1900*tan - 0.5, under + thick + 1900}, Vec{0, 0, under + thick}
		s.Camera.Focal = 38
	}
	return Shot{Name: "test.jpg", Scene: s, W: w, H: h, Exif: Exif{Taken: "2026:03:02 09:30:00", Exposure: 1.0 / 30, ISO: 100}}
}

// lay puts paper and grey card on the top at height z.
func (s *Scene) lay(o TestOptions, z float64) {
	corners := func(at Vec, l, w, turn float64) {
		f := Place{Turn: Vec{0, 0, turn}, Move: at}.frame()
		// Clockwise in the picture, from the far left.
		for _, c := range [][2]float64{{-1, 1}, {1, 1}, {1, -1}, {-1, -1}} {
			s.Marks = append(s.Marks, f.out(Vec{c[0] * l / 2, c[1] * w / 2, 0.1}))
		}
	}
	turned := Place{Turn: Vec{0, 0, o.Turn}}.frame()
	if o.Paper != "" {
		at, letter := turned.dir(Vec{-190, 20, 0}).add(Vec{0, 0, z}), o.Paper == "letter"
		s.Props = append(s.Props, Paper(letter, at, o.Turn+4))
		if letter {
			corners(at, 279.4, 215.9, o.Turn+4)
		} else {
			corners(at, 297, 210, o.Turn+4)
		}
	}
	if o.GreyCard {
		at := turned.dir(Vec{210, -60, 0}).add(Vec{0, 0, z})
		s.Props = append(s.Props, Card(at, 180, 130, o.Turn-6))
		corners(at, 180, 130, o.Turn-6)
	}
}

// dark puts the scene before black with one small light at the nth of 8 places.
func (s *Scene) dark(n int) {
	sin, cos := sincos(n-1, 8)
	s.Backdrop.Colour = Vec{0.012, 0.012, 0.012}
	s.Lights = []Light{{At: Vec{1500 * cos, 1100*sin - 300, 1500}, Aim: Vec{0, 0, 600}, Width: 250, Height: 250, Power: 1}}
	s.Fill, s.Level = 0.01, 0.5
}

// TestSet returns the usual set of quick photos of one piece: exposures from
// −2 to +1.5 EV, casts of colour, a camera held askew, and views from above
// with a sheet of A4 and of letter on the top. Every one but those from above
// holds a grey card.
func TestSet(w, h int) []Shot {
	var set []Shot
	add := func(name string, o TestOptions) {
		o.Seed = uint64(len(set))
		s := TestShot(o, w, h)
		s.Name = fmt.Sprintf("%02d-%s.jpg", len(set)+1, name)
		set = append(set, s)
	}
	for _, ev := range []float64{0, -2, -1, 1, 1.5} {
		add(fmt.Sprintf("ev%+.1f", ev), TestOptions{EV: ev, GreyCard: true, Resin: -1})
	}
	add("warm", TestOptions{White: [3]float64{1.18, 1, 0.74}, GreyCard: true, Resin: -1})
	add("cool", TestOptions{White: [3]float64{0.86, 1, 1.22}, GreyCard: true, Resin: -1})
	add("askew", TestOptions{Roll: 1.5, GreyCard: true, Resin: -1})
	add("above-a4", TestOptions{Above: true, Paper: "a4", Resin: -1})
	add("above-letter", TestOptions{Above: true, Paper: "letter", Resin: -1, Askew: 7, Turn: 9})
	add("above-round", TestOptions{Above: true, Paper: "a4", Round: true, Askew: 4})
	return set
}

// LightPainting returns n frames of one piece on black, each lit by one small
// light from another side.
func LightPainting(n, w, h int) []Shot {
	var frames []Shot
	for i := range n {
		s := TestShot(TestOptions{Light: i + 1, Seed: uint64(i)}, w, h)
		s.Name = fmt.Sprintf("light-%d.jpg", i+1)
		frames = append(frames, s)
	}
	return frames
}

// NoisePhoto returns a JPEG of any size in a moment, for benchmarks: a streaky
// panel before a shaded wall, with the fine grain of a sensor. It is drawn
// straight in sRGB, nothing in it is true, and the same arguments give the
// same picture. Its file is about as big as a camera's would be.
func NoisePhoto(w, h int, seed uint64, e Exif, quality int) []byte {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	var table [1 << 12]float64
	for i := range table {
		table[i] = unit1(i, uint32(seed)) - 0.5
	}
	at := func(x, y int) float64 { return table[hash3(int32(x), int32(y), 3, uint32(seed))&(1<<12-1)] }
	blend := func(x, y, sx, sy int) float64 { // one octave of a lattice
		fx, fy := float64(x%sx)/float64(sx), float64(y%sy)/float64(sy)
		x, y = x/sx, y/sy
		return (at(x, y)*(1-fx)+at(x+1, y)*fx)*(1-fy) + (at(x, y+1)*(1-fx)+at(x+1, y+1)*fx)*fy
	}
	eachRow(0, h, func(y int) {
		row := img.Pix[y*img.Stride:]
		for x := range w {
			r, g, b := 196.0, 194.0, 190.0
			shade := -60 * float64(y) / float64(h) * float64(x) / float64(w)
			if x > w/6 && x < w*5/6 && y > h/3 && y < h*2/3 {
				v := 46*blend(x, y, w/5+1, h/60+1) + 36*blend(x, y, w/20+1, 7) + 26*blend(x, y, 41, 3)
				r, g, b = 168+v, 122+v, 80+0.7*v
			}
			n := mix64(seed ^ uint64(y)<<32 ^ uint64(x))
			for c, v := range [3]float64{r, g, b} {
				noise := float64(n>>(16*c)&0xffff)/65536 - 0.5
				row[4*x+c] = uint8(clamp(v+shade+17*noise, 0, 255))
			}
			row[4*x+3] = 255
		}
	})
	var out bytes.Buffer
	if quality == 0 {
		quality = 92
	}
	if err := jpeg.Encode(&out, img, &jpeg.Options{Quality: quality}); err != nil {
		panic("scene: " + err.Error()) // only for sizes over 65535
	}
	return withExif(out.Bytes(), e, w, h)
}
