package scene

import "math"

// A Wood says how a wood looks. The colours are common practice for oiled
// boards, no source; the anatomy (which woods have rings of pores, rays that
// show, dark heartwood) is that of any wood handbook, from memory.
type Wood struct {
	Late, Early Vec     // latewood and earlywood of the heart, linear
	Sap         Vec     // sapwood
	Streak      Vec     // darker pigment that follows the rings
	Ring        float64 // mean width of a growth ring, mm
	Porous      float64 // 1: pores stand in rings (oak, ash, elm); 0: scattered (maple)
	PoreLength  float64 // mm along the grain
	Contrast    float64 // between early and late wood
	Pigment     float64 // amount of Streak
	Fleck       float64 // medullary rays that show
	Wild        float64 // how far the grain wanders
	Curl        float64 // figure across the grain
	SapWidth    float64 // mm below the bark
	Bark        Vec     // the surface under the bark
}

// The woods that the demo and the test sets are made of.
var (
	Oak = Wood{Late: srgb(196, 158, 112), Early: srgb(138, 97, 60), Sap: srgb(214, 186, 146), Streak: srgb(140, 100, 62), Bark: srgb(122, 88, 58),
		Ring: 2.9, Porous: 1, PoreLength: 9, Contrast: 0.95, Pigment: 0.34, Fleck: 0.9, Wild: 0.8, SapWidth: 16}
	Elm = Wood{Late: srgb(172, 126, 84), Early: srgb(104, 66, 40), Sap: srgb(206, 174, 132), Streak: srgb(92, 62, 38), Bark: srgb(104, 70, 46),
		Ring: 4.3, Porous: 0.9, PoreLength: 7, Contrast: 0.95, Pigment: 0.7, Fleck: 0.15, Wild: 1.7, SapWidth: 24}
	Walnut = Wood{Late: srgb(122, 88, 62), Early: srgb(84, 58, 41), Sap: srgb(186, 154, 118), Streak: srgb(58, 40, 30), Bark: srgb(84, 60, 44),
		Ring: 5.2, Porous: 0.35, PoreLength: 10, Contrast: 0.6, Pigment: 0.75, Fleck: 0.05, Wild: 1.2, Curl: 0.05, SapWidth: 30}
	Maple = Wood{Late: srgb(222, 190, 147), Early: srgb(184, 142, 98), Sap: srgb(230, 206, 170), Streak: srgb(182, 142, 100), Bark: srgb(170, 134, 96),
		Ring: 4.4, Porous: 0, PoreLength: 3, Contrast: 1, Pigment: 0.34, Fleck: 0.3, Wild: 0.9, Curl: 0.08, SapWidth: 60}
	Ash = Wood{Late: srgb(220, 191, 148), Early: srgb(160, 118, 76), Sap: srgb(228, 204, 166), Streak: srgb(176, 136, 92), Bark: srgb(152, 122, 88),
		Ring: 4.4, Porous: 1, PoreLength: 11, Contrast: 0.95, Pigment: 0.28, Fleck: 0.05, Wild: 0.8, SapWidth: 50}
)

// A Knot is a branch in a board.
type Knot struct {
	X, Y   float64 // where it meets the top face, mm
	Radius float64 // mm
	Dead   bool    // dark and checked
}

// A Log says where in its tree a board was cut.
type Log struct {
	Wood   Wood
	PithY  float64 // the pith in the board's own coordinates, mm
	PithZ  float64
	Lean   float64 // how far the pith climbs along the length: makes cathedrals
	Radius float64 // of the heartwood, mm; 0 means no sapwood shows
	Knots  []Knot
	Seed   uint32
	Swap   bool // the grain runs along y
	Up     bool // the grain runs along z
}

// heart is what the texture knows of one place in the wood.
type heart struct {
	colour Vec
	late   float64 // 0 to 1
	pore   float64 // 0 to 1
	tilt   float64 // slope of the fibres, for the gloss
}

// at returns the wood at a place. foot is the size of a pixel there in mm, and
// keeps details out that no pixel could show. end is 0 on a face along the
// grain and 1 square to it.
func (g *Log) at(p Vec, foot, end float64) heart {
	w, s := &g.Wood, g.Seed
	if g.Swap {
		p = Vec{p.Y, p.X, p.Z}
	}
	if g.Up {
		p = Vec{p.Z, p.Y, p.X}
	}
	x := p.X
	wild := w.Ring * w.Wild
	bendY := 3.2 * wild * noise(x/420, 0.5, 3.1, s+1)
	bendZ := 2.6 * wild * noise(x/380, 7.5, 1.1, s+2)
	dy, dz := p.Y-g.PithY-bendY, p.Z-g.PithZ-bendZ-g.Lean*x
	r := math.Hypot(dy, dz)
	plain := r // before the knots bend the rings
	dark, swirl := g.knots(p, &r)
	r += wild * (2.4*noise(x/340, dy/110, dz/110, s+3) + 0.9*noise(x/110, dy/38, dz/38, s+4) +
		0.28*noise(x/34, dy/11, dz/11, s+5) + 0.10*noise(x/12, dy/4, dz/4, s+6))
	plain += 1.6 * wild * noise(x/340, dy/110, dz/110, s+3)
	r = math.Max(r, 0)
	u := r/w.Ring + 0.9*noise1(r/(7*w.Ring), s+7)
	i := math.Floor(u)
	f := u - i
	ring := unit1(int(i), s+8)

	// A ring starts with a wide-pored band and ends in dense latewood.
	blur := clamp(foot/w.Ring, 0, 1) // a ring narrower than a pixel is only its mean
	var early float64
	if w.Porous > 0.2 {
		width := 0.16 + 0.16*ring
		early = 1.15 * math.Exp(-math.Pow(f/width, 1.6)) * smooth(0, 0.04, f)
		early += 0.30 * smooth(0.45, 1, f) * (1 - smooth(0.98, 1, f))
	} else {
		early = -0.15 + 0.75*smooth(0.80, 0.97, f)*(1-smooth(0.985, 1, f)) // only a thin line
	}
	early = early*(1-blur) + 0.3*blur
	if a := clamp(2.2/math.Max(foot, 1e-3)-0.6, 0, 1); a > 0 { // bands are rows of pores, not drawn lines
		early *= 1 + a*(1.15*noise(x/(1.6*w.PoreLength), dy/0.95, dz/0.95, s+23)+0.5*noise(x/55, dy/3.1, dz/3.1, s+24))
	}
	c := w.Late.mix(w.Early, clamp(early*w.Contrast*(0.55+0.6*ring), 0, 1))

	// Pigment in bands that follow the rings, and slow drifts of tone.
	band := noise1(u/3.1, s+9)*0.6 + 0.7*noise(x/260, dy/26, dz/26, s+10) + 0.35*noise1(u*0.9, s+11)
	c = c.mix(w.Streak, w.Pigment*smooth(-0.05, 0.85, band))
	c = c.mul(1 + 0.13*noise(x/500, dy/60, dz/60, s+12) + 0.16*(ring-0.5))
	warm := 0.035 * noise(x/300, dy/60, dz/60, s+13)
	c = Vec{c.X * (1 + warm), c.Y, c.Z * (1 - 1.4*warm)}

	if g.Radius > 0 {
		at := g.Radius + 4*noise(x/120, dy/30, dz/30, s+14)
		sap := smooth(at-2.5, at+3, plain) * (1 - dark)
		c = c.mix(w.Sap.mix(c, 0.25+0.25*early), sap)
	}
	h := heart{colour: c, late: 1 - early}
	g.fibre(&h, x, dy, dz, early, foot, end)
	if w.Fleck > 0 {
		g.fleck(&h, x, r, dy, dz, foot, end)
	}
	if w.Curl > 0 {
		h.tilt = noise(x/9+0.3*noise(x/40, dy/25, dz/25, s+20), dy/60, dz/60, s+21) * smooth(-0.2, 0.6, noise(x/260, dy/120, dz/120, s+22))
		h.colour = h.colour.mul(1 + w.Curl*h.tilt)
	}
	if dark > 0 {
		h.colour = h.colour.mix(srgb(66, 40, 24), dark)
	}
	h.colour = h.colour.mul(1 - 0.32*swirl)
	if end > 0 {
		h.colour = h.colour.mul(1 - 0.42*end) // end grain drinks more oil
		h.colour = Vec{h.colour.X * (1 + 0.03*end), h.colour.Y, h.colour.Z * (1 - 0.08*end)}
	}
	return h
}

// knots bends the rings round the branches; it returns how dark the place is
// and how far it lies in the swirl around a knot.
func (g *Log) knots(p Vec, r *float64) (dark, swirl float64) {
	for i, k := range g.Knots {
		seed := g.Seed + 40 + uint32(i)
		// The branch climbs from the pith outwards, slanting along the length.
		depth := p.Z - g.PithZ
		dx := p.X - k.X - 0.12*depth + 3*noise(p.X/20, p.Y/20, p.Z/20, seed)
		dy := p.Y - k.Y + 2*noise(p.X/16, p.Y/16, 4.2, seed+1)
		d := math.Hypot(dx*0.72, dy)
		reach := 3.2 * k.Radius
		if d > 3*reach {
			continue
		}
		e := math.Exp(-d * d / (reach * reach))
		*r += e * k.Radius * 2.6
		swirl = math.Max(swirl, math.Exp(-d*d/(1.6*k.Radius*k.Radius)))
		if d < k.Radius {
			*r = d*1.3 + 300
		}
		rim := math.Exp(-math.Pow((d-k.Radius)/(0.12*k.Radius+0.6), 2))
		in := smooth(1.05*k.Radius, 0.85*k.Radius, d)
		dk := 0.45*in + 0.55*rim
		if k.Dead {
			crack := 1 - smooth(0, 0.22, math.Abs(noise(dx/k.Radius*1.6, dy/k.Radius*1.6, 0.3, seed+2)))
			dk = 0.7*in + 0.8*rim + 0.5*in*crack
		}
		dark = math.Max(dark, clamp(dk, 0, 0.95))
	}
	return dark, swirl
}

// fibre adds the fine streaks of the fibres and the open pores.
func (g *Log) fibre(h *heart, x, dy, dz, early, foot, end float64) {
	w, s := &g.Wood, g.Seed
	show := func(size float64) float64 { return clamp(1.6*size/math.Max(foot, 1e-3)-0.35, 0, 1) }
	v := 0.0
	if a := show(2.4); a > 0 {
		v += 0.11 * a * noise(x/90, dy/2.4, dz/2.4, s+15)
	}
	if a := show(0.8); a > 0 {
		v += 0.15 * a * noise(x/45, dy/0.8, dz/0.8, s+16)
	}
	if a := show(0.3); a > 0 {
		v += 0.12 * a * noise(x/16, dy/0.3, dz/0.3, s+17)
	}
	along := w.PoreLength
	if end > 0.5 {
		along = 60 // seen end on a pore is a dot
	}
	if a := show(0.45); a > 0 {
		crowd := w.Porous*early + (1-w.Porous)*0.3
		n := noise(x/along, dy/0.42, dz/0.42, s+18)
		h.pore = a * smooth(0.42-0.42*crowd, 0.75-0.3*crowd, n) * clamp(0.15+crowd, 0, 1)
	}
	v -= 0.42 * h.pore * (0.35 + 0.65*clamp(w.Porous+0.3, 0, 1))
	h.colour = h.colour.mul(1 + v)
	h.tilt += 2 * v
}

// fleck adds the rays: sheets that run along the fibres and out from the pith,
// broad and pale where the face follows them, short dark dashes elsewhere.
func (g *Log) fleck(h *heart, x, r, dy, dz, foot, end float64) {
	s := g.Seed
	turn := math.Atan2(dz, dy) * math.Max(r, 30) // mm along the ring
	thin := 1.1
	a := clamp(2*thin/math.Max(foot, 1e-3)-0.4, 0, 1)
	if a == 0 {
		return
	}
	n := noise(x/13, r/24, turn/thin, s+19)
	ray := smooth(0.34, 0.6, n) * a * g.Wood.Fleck
	// How far the face follows the sheet: its slope across the ring.
	lie := math.Abs(dz) / math.Max(math.Hypot(dy, dz), 1) // 1 right above the pith: flat-sawn
	pale := h.colour.mul(1.22)
	deep := h.colour.mul(0.80)
	h.colour = h.colour.mix(deep.mix(pale, smooth(0.75, 0.45, lie)*(1-end)), ray*0.7)
}
