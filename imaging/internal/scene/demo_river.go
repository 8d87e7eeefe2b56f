package scene

import "fmt"

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
	p.Work = paintedWithLight(s)
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
	plan := s
	plan.Props = append(plan.Props, Paper(false, Vec{115, -205, under + thick}, 5))
	p.Work = []Shot{work("IMG_0324-plan.jpg", plan, Camera{At: Vec{25, -70, 2350}, LookAt: Vec{0, 0, 420}, Focal: 46, Roll: 2}, "2026:07:24 09:38:02")}
	return p
}

// paintedWithLight is the console in the evening: the camera stays where it is,
// and one small lamp is carried round the table from frame to frame.
func paintedWithLight(s Scene) (frames []Shot) {
	at := Vec{0, 0, 760}
	s.Fill = 0.02
	cam := Camera{At: Vec{620, -2750, 1330}, LookAt: Vec{0, 0, 400}, Focal: 64}
	for i, lamp := range []struct {
		from  Vec
		level float64
	}{
		{Vec{-1300, -300, 900}, 0.8}, // along the grain, from the left
		{Vec{1300, -350, 900}, 0.8},  // and from the right
		{Vec{-500, -1500, 800}, 0.6}, // on the bark side
		{Vec{700, -1700, 60}, 0.06},  // low, for the frames
		{Vec{0, 300, 1400}, 1},       // from above, for what lies behind
	} {
		f := s
		f.Seed, f.Level = s.Seed+uint64(i), lamp.level
		f.Lights = []Light{{At: at.add(lamp.from), Aim: at.add(Vec{0, 0, -150}), Width: 420, Height: 320, Power: 1, Colour: Vec{1.02, 1, 0.97}}}
		t := work(fmt.Sprintf("evening-%d.jpg", i+1), f, cam, fmt.Sprintf("2026:05:29 21:%02d:%02d", 40+i/3, 4+19*(i%3)))
		t.Exif.Exposure, t.Exif.Stop = 2, 11
		frames = append(frames, t)
	}
	return frames
}

// leg is an upright box section in a frame's coordinates.
func leg(f frame, at Vec, height, w, d float64) Object {
	g := f
	g.o = f.out(at)
	return Object{mesh: box(w, d, height, 3), shader: &millSteel, frame: g}
}
