package scene

// A Piece is one piece of the demo workshop as it is built and photographed.
// Its spec in testdata/demo must say the same sizes; a test there compares.
type Piece struct {
	Folder    string  // under testdata/demo
	Length    float64 // of the top, mm
	Width     float64
	Thickness float64
	Under     float64 // floor to the underside of the top, mm; 0 without a base
	Area      float64 // of the top's outline, mm²
	Resin     float64 // share of the resin in the top's face, 0 to 1
	Shots     []Shot
}

// Demo returns the pieces of the demo workshop.
func Demo() []Piece {
	return []Piece{console(), bench(), coffeeTable(), boards(), desk(), shelf()}
}

const inch = 25.4

func newPiece(folder string, o Outline, thickness, under, resin float64) Piece {
	lo, hi := o.Bounds()
	return Piece{Folder: folder, Length: hi[0] - lo[0], Width: hi[1] - lo[1], Thickness: thickness, Under: under, Area: o.Area(), Resin: resin}
}

// centred stands an outline's middle over the origin at height z.
func centred(o Outline, z float64) Place {
	lo, hi := o.Bounds()
	return Place{Move: Vec{-(lo[0] + hi[0]) / 2, -(lo[1] + hi[1]) / 2, z}}
}

// landscape and portrait are the sizes of the demo's photos.
const (
	longSide  = 3000
	shortSide = 2000
)

func take(name string, s Scene, cam Camera, taken string) Shot {
	s.Camera = cam
	if s.Samples == 0 {
		s.Samples = 5
	}
	return Shot{Name: name, Scene: s, W: longSide, H: shortSide, Quality: 92,
		Exif: Exif{Taken: taken, Zone: "+01:00", Exposure: 1.0 / 15, ISO: 100}}
}

// console is a console table of elm with a green river, on two steel frames.
func console() Piece {
	widths := []float64{15.75 * inch, 16.125 * inch, 15.5 * inch, 16.25 * inch, 15.625 * inch}
	o := Widths(56*inch, widths, 5, 3)
	const thick, under, share = 1.75 * inch, 28.5 * inch, 0.17
	river := &River{Resin: Resin{Colour: srgb(128, 212, 182), Milk: 0.2, Body: srgb(22, 112, 94), Rough: 0.1},
		Centre: []float64{230, 195, 215, 180, 190, 228, 205}, Width: []float64{60, 90, 50, 70, 95, 60, 75}, Slope: 0.35, Wander: 9, Seed: 11}
	top := Slab{Outline: o, Thickness: thick, Share: share, River: river, LiveNear: 16, LiveFar: 14, Place: centred(o, under),
		Log: Log{Wood: Elm, PithY: 205, PithZ: -60, Lean: 0.03, Radius: 172, Seed: 7, Knots: []Knot{{X: 1010, Y: 330, Radius: 13}, {X: 380, Y: 90, Radius: 9, Dead: true}}}}
	s := studio(Vec{0, 0, 500}, lightPaper, 900)
	s.Seed, s.Subject, s.Top = 208, top.Objects(), Top{o, thick, top.Place}
	for _, x := range []float64{-546, 546} { // frames of 40 mm box, 330 mm deep
		s.Subject = append(s.Subject,
			beam(Vec{x, -145, 6}, Vec{x, -145, under}, 40, 40, 4, &blackCoat), beam(Vec{x, 145, 6}, Vec{x, 145, under}, 40, 40, 4, &blackCoat),
			beam(Vec{x, -125, 26}, Vec{x, 125, 26}, 40, 40, 4, &blackCoat), beam(Vec{x, -125, under - 25}, Vec{x, 125, under - 25}, 40, 40, 4, &blackCoat),
			beam(Vec{x, -160, under - 2.5}, Vec{x, 160, under - 2.5}, 90, 5, 0.5, &blackCoat))
		for _, y := range []float64{-145, 145} { // levelling feet
			s.Subject = append(s.Subject, Object{mesh: cylinder(14, 6), shader: &felt, frame: Place{Move: Vec{x, y, 0}}.frame()})
		}
	}
	p := newPiece("OY-0208", o, thick, under, share)
	detail := s
	detail.Samples = 8
	p.Shots = []Shot{
		take("OY208-1.jpg", s, Camera{At: Vec{-1500, -2700, 1420}, LookAt: Vec{10, 0, 385}, Focal: 62}, "2026:05:29 10:41:07"),
		take("OY208-2-above.jpg", s, Camera{At: Vec{0, -1, 2650}, LookAt: Vec{0, 0, 760}, Focal: 42}, "2026:05:29 10:58:30"),
		take("OY208-3.jpg", detail, Camera{At: Vec{-330, -560, 1170}, LookAt: Vec{-90, 10, 768}, Focal: 50, Stop: 9}, "2026:05:29 11:06:52"),
	}
	p.Shots[0].Exif.Private = true
	return p
}

// benchPoints is the bench's seat as the maker traced it, mm.
var benchPoints = [][2]float64{
	{0, 12}, {210, 4}, {420, 0}, {640, 9}, {860, 16}, {1080, 8}, {1280, 3}, {1460, 10},
	{1460, 352}, {1270, 361}, {1060, 356}, {850, 347}, {630, 351}, {410, 360}, {200, 357}, {0, 349},
}

// bench is a solid oak bench on two plank ends and a stretcher.
func bench() Piece {
	o := Traced(benchPoints, 8, 1.2, 21)
	const thick, under = 52, 403
	top := Slab{Outline: o, Thickness: thick, LiveNear: 13, LiveFar: 11, Place: centred(o, under),
		Log: Log{Wood: Oak, PithY: 150, PithZ: -38, Lean: 0.022, Radius: 166, Seed: 31, Knots: []Knot{{X: 470, Y: 235, Radius: 16, Dead: true}, {X: 1130, Y: 120, Radius: 8}}}}
	s := studio(Vec{0, 0, 300}, warmPaper, 900)
	s.Seed, s.Subject, s.Top = 211, top.Objects(), Top{o, thick, top.Place}
	for i, x := range []float64{-527.5, 527.5} {
		leg := Slab{Outline: Rectangle(under, 300), Thickness: 45, Ease: 3, Place: Place{Turn: Vec{0, -90, 0}, Move: Vec{x + 22.5, -150, 0}},
			Log: Log{Wood: Oak, PithY: 130 + 40*float64(i), PithZ: -70, Lean: 0.02, Seed: 33 + uint32(i)}}
		s.Subject = append(s.Subject, leg.Objects()...)
	}
	rail := Slab{Outline: Rectangle(1124, 40), Thickness: 90, Ease: 2, Place: Place{Move: Vec{-562, -20, 150}}, Log: Log{Wood: Oak, PithY: -60, PithZ: 40, Seed: 37}}
	s.Subject = append(s.Subject, rail.Objects()...)
	p := newPiece("OY-0211", o, thick, under, 0)
	dark := s
	dark.EV = -1
	detail := s
	detail.Samples = 8
	p.Shots = []Shot{
		take("bench three-quarter.jpg", dark, Camera{At: Vec{1500, -2500, 1230}, LookAt: Vec{-10, 0, 205}, Focal: 66}, "2026:06:19 15:20:11"),
		take("bench end.jpg", s, Camera{At: Vec{-2700, -1000, 900}, LookAt: Vec{-150, 0, 235}, Focal: 70}, "2026:06:19 15:33:48"),
		take("bench detail.jpg", detail, Camera{At: Vec{-560, -480, 800}, LookAt: Vec{-265, 40, 450}, Focal: 60, Stop: 8}, "2026:06:19 15:41:02"),
	}
	p.Shots[1].W, p.Shots[1].H, p.Shots[1].Sideways = shortSide, longSide, true
	return p
}

// coffeeTable is a round table of walnut with a blue pool, on two crossed
// frames of raw steel.
func coffeeTable() Piece {
	o := Round(900)
	const thick, under, share = 46, 374, 0.24
	river := &River{Resin: Resin{Colour: srgb(120, 176, 222), Milk: 0.24, Body: srgb(20, 62, 112), Rough: 0.09},
		Centre: []float64{300, 380, 470, 500, 470, 540, 640}, Width: []float64{120, 190, 250, 160, 210, 260, 150}, Slope: 0.4, Wander: 16, Seed: 51}
	top := Slab{Outline: o, Thickness: thick, Share: share, River: river, Ease: 2.5, Place: centred(o, under),
		Log: Log{Wood: Walnut, PithY: 470, PithZ: -90, Lean: 0.05, Radius: 395, Seed: 53, Knots: []Knot{{X: 640, Y: 250, Radius: 15}}}}
	s := studio(Vec{0, 0, 350}, greyPaper, 900)
	s.Seed, s.Subject, s.Top = 214, top.Objects(), Top{o, thick, top.Place}
	for i, turn := range []float64{35, -55} { // 60 × 30 mm box, 640 mm across the feet
		f := Place{Turn: Vec{0, 0, turn}}.frame()
		h := under - 15 - 0.5*float64(i)
		s.Subject = append(s.Subject, beam(f.out(Vec{-320, 0, h}), f.out(Vec{320, 0, h}), 60, 30, 3, &millSteel))
		for _, side := range []float64{-1, 1} {
			s.Subject = append(s.Subject, leg(f, Vec{305 * side, 0, 2}, under-30, 30, 60))
		}
	}
	p := newPiece("OY-0214", o, thick, under, share)
	p.Shots = []Shot{
		take("IMG_0317.jpg", s, Camera{At: Vec{-900, -2100, 1330}, LookAt: Vec{0, 10, 215}, Focal: 70}, "2026:07:24 09:12:44"),
		take("IMG_0322.jpg", s, Camera{At: Vec{0, -1, 2150}, LookAt: Vec{0, 0, 400}, Focal: 40}, "2026:07:24 09:30:19"),
	}
	return p
}

// leg is an upright box section in a frame's coordinates.
func leg(f frame, at Vec, height, w, d float64) Object {
	g := f
	g.o = f.out(at)
	return Object{mesh: box(w, d, height, 3), shader: &millSteel, frame: g}
}

// boards is a batch of six maple serving boards.
func boards() Piece {
	o := RoundedRectangle(420, 180, 16)
	const thick = 22
	s := studio(Vec{0, 0, 60}, warmPaper, 420)
	s.Seed = 217
	lie := []Place{
		{Turn: Vec{0, 0, 3}, Move: Vec{-215, -60, 0}}, {Turn: Vec{0, 0, -5}, Move: Vec{-210, -30, 22.2}}, {Turn: Vec{0, 0, 9}, Move: Vec{-190, -75, 44.4}},
		{Turn: Vec{0, 0, -16}, Move: Vec{-225, 20, 66.6}}, {Turn: Vec{0, 0, 24}, Move: Vec{70, -330, 0}}, {Turn: Vec{0, 0, -52}, Move: Vec{-520, 10, 0}},
	}
	for i, at := range lie {
		b := Slab{Outline: o, Thickness: thick, Ease: 3, Rough: 0.5, Place: at,
			Log: Log{Wood: Maple, PithY: 40 + 31*float64(i%3), PithZ: -30 - 17*float64(i%4), Lean: 0.04, Seed: 71 + 7*uint32(i)}}
		s.Subject = append(s.Subject, b.Objects()...)
	}
	s.Top = Top{o, thick, lie[3]}
	p := newPiece("OY-0217", o, thick, 0, 0)
	p.Shots = []Shot{take("boards.jpg", s, Camera{At: Vec{-260, -1450, 980}, LookAt: Vec{-10, -90, 10}, Focal: 56, Stop: 14}, "2026:08:14 16:02:33")}
	return p
}

// desk is an ash writing desk with a walnut drawer.
func desk() Piece {
	o := Rectangle(48*inch, 24*inch)
	const thick, under = 1.125 * inch, 28.25 * inch
	place := centred(o, under)
	top := Slab{Outline: o, Thickness: thick, Ease: 2.5, Place: place, Log: Log{Wood: Ash, PithY: 330, PithZ: -52, Lean: 0.03, Seed: 91, Knots: []Knot{{X: 830, Y: 420, Radius: 6}}}}
	s := studio(Vec{0, 0, 500}, lightPaper, 1000)
	s.Seed, s.Subject, s.Top = 219, top.Objects(), Top{o, thick, place}
	const lx, ly = 22.5 * inch, 10.5 * inch // middle of the legs
	post := 2 * inch
	for i, at := range [][2]float64{{-lx, -ly}, {lx, -ly}, {-lx, ly}, {lx, ly}} {
		l := Slab{Outline: Rectangle(under, post), Thickness: post, Ease: 3, Place: Place{Turn: Vec{0, -90, 0}, Move: Vec{at[0] + post/2, at[1] - post/2, 0}},
			Log: Log{Wood: Ash, PithY: -70, PithZ: 60, Lean: 0.01, Seed: 101 + uint32(i)}}
		s.Subject = append(s.Subject, l.Objects()...)
	}
	const deep = 3.5 * inch
	plank := func(l, turn float64, at Vec, w Wood, seed uint32) {
		b := Slab{Outline: Rectangle(l, 0.875*inch), Thickness: deep, Ease: 1.5, Place: Place{Turn: Vec{0, 0, turn}, Move: at}, Log: Log{Wood: w, PithY: -90, PithZ: 50, Lean: 0.02, Seed: seed}}
		s.Subject = append(s.Subject, b.Objects()...)
	}
	z := under - deep
	plank(43*inch, 0, Vec{-21.5 * inch, ly - 11, z}, Ash, 111)
	for i, x := range []float64{-lx - 11, lx + 11} {
		plank(19*inch, 90, Vec{x + 11, -9.5 * inch, z}, Ash, 113+uint32(i))
	}
	plank(10*inch, 0, Vec{-21.5 * inch, -ly - 11, z}, Ash, 117)
	plank(10*inch, 0, Vec{11.5 * inch, -ly - 11, z}, Ash, 118)
	const out = 95 // the drawer stands open, mm
	plank(22.9*inch, 0, Vec{-11.45 * inch, -ly - 11 - out, z + 1}, Walnut, 121)
	wall := func(l, turn float64, at Vec, seed uint32) {
		b := Slab{Outline: Rectangle(l, 0.5*inch), Thickness: 2.6 * inch, Ease: 1, Rough: 0.65, Place: Place{Turn: Vec{0, 0, turn}, Move: at}, Log: Log{Wood: Walnut, PithY: -60, PithZ: 40, Seed: seed}}
		s.Subject = append(s.Subject, b.Objects()...)
	}
	for i, x := range []float64{-11*inch + 0.5*inch, 11 * inch} {
		wall(16*inch, 90, Vec{x, -ly + 11 - out, z + 8}, 123+uint32(i))
	}
	floor := Slab{Outline: Rectangle(21*inch, 16*inch), Thickness: 8, Place: Place{Move: Vec{-10.5 * inch, -ly + 11 - out, z + 10}}, Log: Log{Wood: Ash, PithY: 90, PithZ: -70, Seed: 127}}
	s.Subject = append(s.Subject, floor.Objects()...)
	for _, x := range []float64{-70, 70} {
		s.Subject = append(s.Subject, Object{mesh: cylinder(4, 24), shader: &brass, frame: Place{Turn: Vec{90, 0, 0}, Move: Vec{x, -ly - 11 - out, z + 46}}.frame()})
	}
	s.Subject = append(s.Subject, beam(Vec{-84, -ly - 35 - out, z + 46}, Vec{84, -ly - 35 - out, z + 46}, 9, 9, 1.5, &brass))
	p := newPiece("OY-0219", o, thick, under, 0)
	warm := s
	warm.White = [3]float64{1.16, 1, 0.76}
	p.Shots = []Shot{
		take("desk-1.jpg", s, Camera{At: Vec{1350, -2650, 1450}, LookAt: Vec{0, 0, 360}, Focal: 60, Roll: 1.2}, "2026:09:04 11:47:09"),
		take("desk-2-drawer.jpg", warm, Camera{At: Vec{-420, -1150, 1130}, LookAt: Vec{20, -330, 670}, Focal: 55, Stop: 11}, "2026:09:04 12:01:50"),
	}
	return p
}

// shelf is an offcut of walnut with its bark side to the front.
func shelf() Piece {
	o := Rectangle(760, 210)
	const thick = 36
	at := centred(o, 0)
	b := Slab{Outline: o, Thickness: thick, LiveNear: 14, Place: at, Log: Log{Wood: Walnut, PithY: 250, PithZ: -40, Lean: 0.03, Radius: 205, Seed: 131, Knots: []Knot{{X: 250, Y: 150, Radius: 10}}}}
	s := studio(Vec{0, 0, 30}, lightPaper, 500)
	s.Seed, s.Subject, s.Top = 223, b.Objects(), Top{o, thick, at}
	p := newPiece("OY-0223", o, thick, 0, 0)
	p.Shots = []Shot{take("shelf.jpg", s, Camera{At: Vec{-420, -1150, 640}, LookAt: Vec{0, 10, 0}, Focal: 58, Stop: 16}, "2026:10:02 17:25:37")}
	return p
}
