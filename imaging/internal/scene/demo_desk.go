package scene

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
	plank := func(l, turn float64, at Vec, w Wood, seed uint32) {
		s.Subject = append(s.Subject, apron(l, turn, at, w, seed)...)
	}
	z := under - apronDeep
	plank(43*inch, 0, Vec{-21.5 * inch, ly - 11, z}, Ash, 111)
	for i, x := range []float64{-lx - 11, lx + 11} {
		plank(19*inch, 90, Vec{x + 11, -9.5 * inch, z}, Ash, 113+uint32(i))
	}
	plank(10*inch, 0, Vec{-21.5 * inch, -ly - 11, z}, Ash, 117)
	plank(10*inch, 0, Vec{11.5 * inch, -ly - 11, z}, Ash, 118)
	s.Subject = append(s.Subject, drawer(ly, z)...)
	p := newPiece("OY-0219", o, thick, under, 0)
	warm := s
	warm.White = [3]float64{1.16, 1, 0.76}
	p.Shots = []Shot{
		take("desk-1.jpg", s, Camera{At: Vec{1350, -2650, 1450}, LookAt: Vec{0, 0, 360}, Focal: 60, Roll: 1.2}, "2026:09:04 11:47:09"),
		take("desk-2-drawer.jpg", warm, Camera{At: Vec{-420, -1150, 1130}, LookAt: Vec{20, -330, 670}, Focal: 55, Stop: 11}, "2026:09:04 12:01:50"),
	}
	return p
}

const apronDeep = 3.5 * inch

// apron is a board on edge, 7/8 in thick.
func apron(l, turn float64, at Vec, w Wood, seed uint32) []Object {
	return Slab{Outline: Rectangle(l, 0.875*inch), Thickness: apronDeep, Ease: 1.5, Place: Place{Turn: Vec{0, 0, turn}, Move: at},
		Log: Log{Wood: w, PithY: -90, PithZ: 50, Lean: 0.02, Seed: seed}}.Objects()
}

// drawer is the walnut drawer, standing open; ly is where the middle of the
// legs is, z its underside.
func drawer(ly, z float64) []Object {
	const out = 95 // the drawer stands open, mm
	parts := apron(22.9*inch, 0, Vec{-11.45 * inch, -ly - 11 - out, z + 1}, Walnut, 121)
	wall := func(l, turn float64, at Vec, seed uint32) {
		b := Slab{Outline: Rectangle(l, 0.5*inch), Thickness: 2.6 * inch, Ease: 1, Rough: 0.65, Place: Place{Turn: Vec{0, 0, turn}, Move: at}, Log: Log{Wood: Walnut, PithY: -60, PithZ: 40, Seed: seed}}
		parts = append(parts, b.Objects()...)
	}
	for i, x := range []float64{-11*inch + 0.5*inch, 11 * inch} {
		wall(16*inch, 90, Vec{x, -ly + 11 - out, z + 8}, 123+uint32(i))
	}
	floor := Slab{Outline: Rectangle(21*inch, 16*inch), Thickness: 8, Place: Place{Move: Vec{-10.5 * inch, -ly + 11 - out, z + 10}}, Log: Log{Wood: Ash, PithY: 90, PithZ: -70, Seed: 127}}
	parts = append(parts, floor.Objects()...)
	for _, x := range []float64{-70, 70} {
		parts = append(parts, Object{mesh: cylinder(4, 24), shader: &brass, frame: Place{Turn: Vec{90, 0, 0}, Move: Vec{x, -ly - 11 - out, z + 46}}.frame()})
	}
	parts = append(parts, beam(Vec{-84, -ly - 35 - out, z + 46}, Vec{84, -ly - 35 - out, z + 46}, 9, 9, 1.5, &brass))
	return parts
}
