package subject

// mean takes the mean of the whole grid, weighs it, and adds the outcome to
// every cell: what the picture is of matters everywhere in it.
func (l *layer) mean(g *grid) {
	sum := make([]int64, g.c)
	for i, v := range g.v[:g.w*g.h*g.c] {
		sum[i%g.c] += int64(v)
	}
	n := int64(g.w * g.h)
	in := make([]int16, 8*g.c)
	for i, s := range sum {
		in[i] = int16((2*s+n+2*n*top)/(2*n)) - top // rounded, never below nothing
	}
	more := newGrid(1, 8, l.out)
	l.eight(more.v, in, g.c)
	for i := range g.w * g.h {
		d := g.v[i*g.c:][:g.c]
		for k, v := range more.v[:g.c] {
			d[k] = clip(int32(d[k]) + int32(v))
		}
	}
}
