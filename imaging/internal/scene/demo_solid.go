package scene

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
