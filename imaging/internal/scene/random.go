package scene

import (
	"image"
	"math"
	"math/rand/v2"
)

// A Random draws random pieces of furniture, things and whole rooms, with the
// mask of the piece, for training a net. Its pictures need not be fine; they
// must be of many kinds.
type Random struct {
	*rand.Rand
	Tex []*image.RGBA // pictures for walls, floors and things; may be empty
}

func (r Random) u(a, b float64) float64 { return a + (b-a)*r.Float64() }
func (r Random) p(x float64) bool       { return r.Float64() < x }
func (r Random) seed() uint32           { return r.Uint32() >> 8 }

func hsv(h, s, v float64) Vec {
	f := func(n float64) float64 {
		k := math.Mod(n+h*6, 6)
		return 255 * (v - v*s*math.Max(0, math.Min(math.Min(k, 4-k), 1)))
	}
	return srgb(f(5), f(3), f(1))
}

func (r Random) wood() Wood {
	w := []Wood{Oak, Elm, Walnut, Maple, Ash}[r.IntN(5)]
	// darker or lighter stain, redder or greyer
	k := math.Exp(r.u(-0.9, 0.35))
	switch {
	case r.p(0.3):
		k = 1
	case r.p(0.3): // a dark stain
		k = math.Exp(r.u(-2.3, -0.9))
	}
	t := Vec{k * r.u(0.9, 1.15), k, k * r.u(0.75, 1.15)}
	for _, c := range []*Vec{&w.Late, &w.Early, &w.Sap, &w.Streak, &w.Bark} {
		*c = c.had(t)
		if r.p(0.15) {
			g := (c.X + c.Y + c.Z) / 3
			*c = c.mix(Vec{g, g, g}, 0.5)
		}
	}
	return w
}

func (r Random) paint() *paint {
	var c Vec
	switch r.IntN(6) {
	case 0:
		v := r.u(0.6, 0.95)
		c = srgb(255*v, 255*v*r.u(0.93, 1), 255*v*r.u(0.85, 1))
	case 1:
		v := r.u(0.03, 0.25)
		c = srgb(255*v, 255*v, 255*v*r.u(0.9, 1.1))
	case 2:
		v := r.u(0.25, 0.7)
		c = srgb(255*v, 255*v*r.u(0.9, 1.05), 255*v*r.u(0.8, 1.1))
	default:
		c = hsv(r.Float64(), r.u(0.1, 0.9), r.u(0.15, 0.95))
	}
	return &paint{albedo: c, rough: r.u(0.2, 1), f0: r.u(0.01, 0.05), grain: r.u(0, 0.25), seed: r.seed()}
}

func (r Random) metal() *paint {
	switch r.IntN(5) {
	case 0:
		return &millSteel
	case 1:
		return &brass
	case 2:
		return &paint{albedo: Vec{0.05, 0.05, 0.05}, rough: r.u(0.15, 0.4), f0: 0.5, metal: Vec{0.6, 0.6, 0.62}}
	case 3:
		return &paint{albedo: srgb(200, 200, 198), rough: 0.5, f0: 0.04}
	}
	return &blackCoat
}

// woodLook is wood with the grain along z.
func (r Random) woodLook(w Wood) shader {
	return &slabShader{Log{Wood: w, PithY: r.u(-150, 150), PithZ: r.u(40, 150), Lean: r.u(0, 0.03), Seed: r.seed(), Up: true}, nil, 1000, 40, r.u(0.3, 0.8)}
}
