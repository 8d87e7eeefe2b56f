package subject

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// Every layer of the net, on values over the whole range: the vector code gives
// what the plain code gives.
func TestVectorsAgreeWithPlainCode(t *testing.T) {
	if !vectors {
		t.Skip("this machine has no AVX2")
	}
	defer func() { vectors = true }()
	rng := rand.New(rand.NewPCG(7, 8))
	for name, l := range shipped() {
		g := newGrid(1+rng.IntN(20), 1+rng.IntN(12), l.in)
		if l.kind == 'd' {
			g = newGrid(g.w, g.h, l.out)
		}
		for i := range g.v[:g.w*g.h*g.c] {
			g.v[i] = int16(rng.IntN(2*top+1) - top)
			if rng.IntN(3) == 0 {
				g.v[i] = int16(rng.IntN(2)*2*top - top)
			}
		}
		run := func() []int16 {
			switch l.kind {
			case 'd':
				return l.each(g).v
			case 'm':
				c := *g
				c.v = slices.Clone(g.v)
				l.mean(&c)
				return c.v[:c.w*c.h*c.c]
			}
			o := l.every(g)
			return o.v[:o.w*o.h*o.c]
		}
		vectors = true
		fast := run()
		vectors = false
		if plain := run(); !slices.Equal(fast[:g.c], plain[:g.c]) || !slices.Equal(fast, plain) {
			t.Errorf("layer %s differs on a grid of %d × %d", name, g.w, g.h)
		}
	}
}
