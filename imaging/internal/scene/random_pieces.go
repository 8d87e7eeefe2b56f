package scene

import "math"

// A RandomPiece is a piece with its extents.
type RandomPiece struct {
	Objs   []Object
	By     []Object // what belongs to the picture of it and not to it: hands that hold a board
	Kind   string
	Top    float64 // height of what things may stand on; 0: nothing may
	HX, HY float64 // half extents of that
	R      float64 // radius of the footprint
	Hung   bool    // on the wall, which is at y = HY
	Out    bool    // stands out of doors
}

// A maker draws its pieces: their wood and what stands under it.
type maker struct {
	Random
	w     Wood
	look  shader
	metal bool
}

// Piece returns a random piece of furniture standing on z = 0 about the origin.
func (r Random) Piece() RandomPiece { return r.piece(r.kind()) }

func (r Random) piece(kind string) RandomPiece {
	m := maker{r, r.wood(), nil, r.p(0.4)}
	m.look = r.woodLook(m.w)
	if m.metal {
		m.look = r.metal()
	} else if r.p(0.15) {
		m.look = r.paint()
	} else if r.p(0.15) {
		m.look = r.woodLook(r.wood())
	}
	p := m.draw(kind)
	p.Kind = kind
	if r.p(0.15) { // one paint or one stain all over
		var all shader = r.paint()
		if r.p(0.5) {
			all = r.woodLook(r.wood())
		}
		for i := range p.Objs {
			p.Objs[i].shader = all
		}
	}
	return p
}

// How often each kind is drawn.
var kinds = []struct {
	name  string
	often int
}{
	{"table", 8}, {"round", 5}, {"coffee", 6}, {"bench", 5}, {"console", 3}, {"desk", 6}, {"stool", 2}, {"shelf", 5}, {"board", 4},
	{"chair", 4}, {"cabinet", 4}, {"barrel", 1}, {"upright", 2}, {"spindles", 9}, {"turned stool", 3}, {"sawhorses", 3},
	{"pedestal", 3}, {"waterfall", 4}, {"cookie", 3}, {"cookie table", 2}, {"block", 2}, {"upholstered", 4}, {"slats", 4}, {"picnic", 2},
	{"glass", 2}, {"held board", 3}, {"workbench", 4}, {"stack", 1},
	{"set", 5}, {"grand", 6}, {"upright piano", 2}, {"opened", 6}, {"garden set", 6}, {"period", 6}, {"hung", 4}, {"bed", 1}, {"small", 3}, {"thin", 7},
}

func (r Random) kind() string {
	n := 0
	for _, k := range kinds {
		n += k.often
	}
	at := r.IntN(n)
	for _, k := range kinds {
		if at -= k.often; at < 0 {
			return k.name
		}
	}
	return kinds[0].name
}

func (m maker) draw(kind string) RandomPiece {
	switch kind {
	case "round":
		d, h := m.u(500, 1400), m.u(330, 480)
		if m.p(0.5) {
			h = m.u(650, 740)
		}
		return m.top(d, d, h, m.u(18, 60), true)
	case "coffee":
		p := m.top(m.u(700, 1500), m.u(400, 800), m.u(300, 470), m.u(20, 70), false)
		if m.p(0.3) {
			sh := Rectangle(p.HX*1.6, p.HY*1.5)
			p.Objs = append(p.Objs, m.slab(sh, 20, m.w, false, centred(sh, m.u(60, 180)))...)
		}
		return p
	case "bench":
		p := m.top(m.u(800, 2000), m.u(250, 420), m.u(380, 460), m.u(20, 70), false)
		if m.p(0.25) {
			p.Objs = append(p.Objs, m.back(p.HX, p.HY, p.Top, m.look)...)
		}
		return p
	case "console":
		return m.top(m.u(900, 1600), m.u(280, 450), m.u(720, 860), m.u(20, 60), false)
	case "desk":
		return m.desk()
	case "stool":
		d := m.u(280, 420)
		return m.top(d, d*m.u(0.8, 1), m.u(400, 780), m.u(20, 50), m.p(0.6))
	case "shelf":
		return m.shelf()
	case "board":
		return m.board(m.p(0.4))
	case "chair":
		return m.chair()
	case "cabinet":
		return m.chest()
	case "barrel":
		return m.barrel()
	case "upright":
		l, d := m.u(800, 2200), m.u(300, 800)
		o, live := m.outline(l, d)
		return RandomPiece{Objs: m.slab(o, m.u(30, 80), m.w, live, Place{Turn: Vec{0, -m.u(75, 90), 0}, Move: Vec{0, -d / 2, 5}}), R: d / 2}
	}
	if p, ok := m.other(kind); ok {
		return p
	}
	return m.top(m.u(1100, 2600), m.u(600, 1100), m.u(680, 740), m.u(20, 70), false)
}

// other draws what is no top on plain legs; ok is false for a kind that is.
func (m maker) other(kind string) (p RandomPiece, ok bool) {
	switch kind {
	case "spindles":
		return m.spindleChair(), true
	case "turned stool":
		return m.turnedStool(), true
	case "sawhorses":
		return m.onSawhorses(), true
	case "pedestal":
		return m.pedestal(), true
	case "waterfall":
		return m.waterfall(), true
	case "cookie":
		return m.cookie(), true
	case "cookie table":
		p := m.cookie()
		h := m.u(300, 560)
		p.Objs = append(moved(p.Objs, 0, Vec{0, 0, h}), m.legs(p.R*0.7, p.R*0.7, h, m.look, m.metal)...)
		p.Top += h
		return p, true
	case "block":
		return m.block(), true
	case "upholstered":
		return m.upholstered(), true
	case "slats":
		return m.slats(), true
	case "picnic":
		return m.picnic(), true
	case "glass":
		return m.glass(), true
	case "held board":
		return m.held(), true
	case "workbench":
		return m.workbench(), true
	case "stack":
		return m.stack(), true
	case "set":
		return m.set(), true
	case "grand":
		return m.grand(), true
	case "upright piano":
		return m.uprightPiano(), true
	case "period":
		return m.period(), true
	case "hung":
		return m.hung(), true
	case "bed":
		return m.bed(), true
	case "small":
		return m.small(), true
	case "garden set":
		return m.gardenSet(), true
	case "opened":
		return m.opened(), true
	case "thin":
		return m.thin(), true
	}
	return p, false
}

// top is a top on legs; round takes l for the diameter.
func (m maker) top(l, wd, h, thick float64, round bool) RandomPiece {
	var o Outline
	live := false
	if round {
		o = Round(l)
		if m.p(0.3) { // oval
			k := m.u(0.55, 0.9)
			for _, e := range [][][2]float64{o.Near, o.Far} {
				for i := range e {
					e[i][1] *= k
				}
			}
			wd = l * k
		}
	} else {
		o, live = m.outline(l, wd)
	}
	p := RandomPiece{Top: h + thick, HX: l / 2, HY: wd / 2, R: math.Hypot(l, wd) / 2}
	p.Objs = m.slab(o, thick, m.w, live, centred(o, h))
	if m.p(0.12) { // painted, stone
		pl := m.paint()
		for i := range p.Objs {
			p.Objs[i].shader = pl
		}
	}
	k := 1.0
	if round {
		k = 0.72
	}
	p.Objs = append(p.Objs, m.legs(l/2*k, wd/2*k, h, m.look, m.metal)...)
	return p
}

func (m maker) desk() RandomPiece {
	p := m.top(m.u(1000, 1700), m.u(500, 800), m.u(690, 740), m.u(18, 45), false)
	for _, s := range []float64{-1, 1} {
		if m.p(0.6) {
			p.Objs = append(p.Objs, m.cabinet(s*p.HX*0.65, 0, m.u(0, 1)*p.HX*0.3+150, p.HY*1.5, m.u(100, 680), p.Top-30, m.look)...)
		}
	}
	return p
}

func (m maker) shelf() RandomPiece {
	l, d, n := m.u(500, 1400), m.u(180, 420), 1+m.IntN(5)
	h := float64(n) * m.u(250, 400)
	if n == 1 {
		o, live := m.outline(l, d)
		return RandomPiece{Objs: m.slab(o, m.u(20, 60), m.w, live, centred(o, 0)), R: l / 2, HX: l / 2, HY: d / 2}
	}
	p := RandomPiece{HX: l / 2, HY: d / 2, R: math.Hypot(l, d) / 2, Top: h + 20}
	for i := range n + 1 {
		o := Rectangle(l, d)
		p.Objs = append(p.Objs, m.slab(o, 22, m.w, false, centred(o, h*float64(i)/float64(n)))...)
	}
	for _, s := range []float64{-1, 1} {
		if !m.metal {
			p.Objs = append(p.Objs, at(box(22, d, h+22, 2), m.look, Place{Move: Vec{s * (l/2 + 11), 0, 0}}))
			continue
		}
		for _, t := range []float64{-1, 1} {
			p.Objs = append(p.Objs, beam(Vec{s * l / 2, t * d * 0.45, 0}, Vec{s * l / 2, t * d * 0.45, h + 22}, 25, 25, 2, m.look))
		}
	}
	if m.p(0.4) {
		p.Objs = append(p.Objs, at(box(l, 8, h, 1), m.look, Place{Move: Vec{0, d / 2, 0}}))
	}
	for i := range n { // things on it belong to the picture, not to the piece
		if m.p(0.5) {
			t := moved(m.Thing(m.u(120, 0.9*h/float64(n))), m.u(-30, 30), Vec{m.u(-0.35, 0.35) * l, 0, h*float64(i)/float64(n) + 22})
			p.By = append(p.By, t...)
		}
	}
	return p
}

func (m maker) board(upright bool) RandomPiece {
	l, d := m.u(250, 600), m.u(130, 320)
	o, live := m.outline(l, d)
	if m.p(0.3) {
		o, live = Round(d), false
		l = d
	}
	p := RandomPiece{R: l / 2}
	pl := centred(o, 0)
	thick := m.u(14, 40)
	if upright {
		pl = Place{Turn: Vec{m.u(60, 85), 0, 0}, Move: Vec{-l / 2, 0, 2}}
		if m.p(0.5) {
			pl = Place{Turn: Vec{0, -m.u(65, 85), 0}, Move: Vec{0, -d / 2, 2}}
		}
	} else if m.p(0.7) {
		p.Top, p.HX, p.HY = thick, l/2*0.7, d/2*0.7
	}
	p.Objs = m.slab(o, thick, m.w, live, pl)
	if m.p(0.25) { // a handle
		p.Objs = append(p.Objs, moved(m.slab(Rectangle(m.u(70, 160), m.u(25, 60)), thick, m.w, false, centred(Rectangle(100, 40), 0)), 0, Vec{l/2 + 40, 0, 0})...)
		if upright {
			p.Objs = p.Objs[:len(p.Objs)-3]
		}
	}
	return p
}

// held is a board upright in two hands.
func (m maker) held() RandomPiece {
	p := m.board(true)
	lo, hi := bounds(p.Objs)
	lift := m.u(600, 1200)
	p.Objs = moved(p.Objs, 0, Vec{0, 0, lift})
	skin := &paint{albedo: hsv(m.u(0.02, 0.09), m.u(0.25, 0.7), m.u(0.2, 0.95)), rough: 0.7, f0: 0.03}
	sleeve := m.paint()
	for _, s := range []float64{-1, 1} {
		x := (lo.X+hi.X)/2 + s*(hi.X-lo.X)/2
		hand := Vec{x, (lo.Y + hi.Y) / 2, lift + lo.Z + m.u(0.2, 0.7)*(hi.Z-lo.Z)}
		for range 4 {
			f := hand.add(Vec{0, -15, m.u(-40, 40)})
			p.By = append(p.By, rod(f.add(Vec{s * 30, 25, 0}), f.add(Vec{-s * 25, -10, 0}), 9, skin))
		}
		elbow := hand.add(Vec{s * m.u(20, 200), m.u(100, 250), -m.u(50, 300)})
		p.By = append(p.By, rod(hand.add(Vec{s * 20, 20, 0}), elbow, 32, skin), rod(elbow, Vec{s * 220, 350, lift + 250}, 50, sleeve))
	}
	if m.p(0.6) { // the rest of the person, behind
		p.By = append(p.By, at(ball(m.u(160, 230), 380), sleeve, Place{Move: Vec{0, 380, lift}}), at(ball(85, 115), skin, Place{Move: Vec{0, 360, lift + 480}}),
			rod(Vec{-90, 380, lift - 300}, Vec{-110, 380, 0}, 75, m.paint()), rod(Vec{90, 380, lift - 300}, Vec{110, 380, 0}, 75, m.paint()))
	}
	return p
}

func (m maker) chest() RandomPiece {
	l, d, h := m.u(400, 1800), m.u(300, 550), m.u(400, 1300)
	leg := 0.0
	if m.p(0.6) {
		leg = m.u(60, 250)
	}
	p := RandomPiece{Objs: m.cabinet(0, 0, l, d, h, h+leg, m.woodLook(m.w)), HX: l / 2, HY: d / 2, Top: h + leg, R: math.Hypot(l, d) / 2}
	if leg > 0 {
		p.Objs = append(p.Objs, m.legs(l/2*0.95, d/2*0.95, leg, m.look, m.metal)...)
	}
	return p
}

func (m maker) barrel() RandomPiece {
	h, rad := m.u(300, 900), m.u(150, 350)
	prof := [][2]float64{{0, h}, {rad * 0.8, h}}
	bulge := m.u(0, 0.2)
	for i := 0; i <= 12; i++ {
		t := float64(i) / 12
		prof = append(prof, [2]float64{rad * (0.85 + bulge*math.Sin(math.Pi*t)), h * (1 - t)})
	}
	p := RandomPiece{Objs: []Object{at(lathe(prof, 32), m.woodLook(m.w), Place{})}, HX: rad * 0.6, HY: rad * 0.6, Top: h, R: rad}
	for range m.IntN(5) {
		z := h * m.u(0.05, 0.9)
		p.Objs = append(p.Objs, at(cylinder(rad*(0.86+bulge*math.Sin(math.Pi*z/h)), 25), m.Random.metal(), Place{Move: Vec{0, 0, z}}))
	}
	return p
}
