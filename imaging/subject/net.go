package subject

import "fmt"

// A net is its layers by name:
//
//	s0.c                 stem, 3×3 with a stride of 2
//	sN.0.c               N = 1 to 4: each stage begins with another such
//	sN.i.a .d .p         then blocks: 1×1, each channel's 5×5, 1×1, added to what came in
//	sN.i.m               or the picture's mean, added to every cell
//	l4 l3 d3.c           decoder: the coarser, doubled, and the finer, added; then 3×3
//	u2 l2 d2.c u1 l1 d1.c u0 l0 d0.c o
type net map[string]*layer

// forward runs the net over a picture.
func (n net) forward(in *grid) *grid {
	a := n.every("s0.c", in)
	b := n.stage(1, a)
	c := n.stage(2, b)
	d := n.stage(3, c)
	e := n.stage(4, d)
	y := n.join("l4", e, "l3", d, "d3.c")
	y = n.join("u2", y, "l2", c, "d2.c")
	y = n.join("u1", y, "l1", b, "d1.c")
	y = n.join("u0", y, "l0", a, "d0.c")
	return n.every("o", y)
}

func (n net) every(name string, g *grid) *grid { return n[name].every(g) }

// stage halves the grid and runs the stage's blocks.
func (n net) stage(s int, g *grid) *grid {
	g = n.every(fmt.Sprintf("s%d.0.c", s), g)
	for i := 1; ; i++ {
		name := fmt.Sprintf("s%d.%d", s, i)
		switch {
		case n[name+".d"] != nil:
			h := n[name+".d"].each(n.every(name+".a", g))
			g.add(n.every(name+".p", h))
		case n[name+".m"] != nil:
			n[name+".m"].mean(g)
		default:
			return g
		}
	}
}

// join brings a coarse grid and one twice as fine together.
func (n net) join(up string, coarse *grid, side string, fine *grid, mix string) *grid {
	g := n.every(side, fine)
	g.addDoubled(n.every(up, coarse))
	return n.every(mix, g)
}
