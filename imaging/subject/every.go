package subject

// every is a convolution in which every channel counts for every other, of
// patches of 1×1 or 3×3.
func (l *layer) every(g *grid) *grid {
	if l.k == 1 {
		out := newGrid(g.w, g.h, l.out)
		for at := 0; at < g.w*g.h; at += 8 {
			l.eight(out.v[at*l.out:], g.v[at*g.c:], g.c)
		}
		return out
	}
	b := g.bordered(l.k / 2)
	w, h := (g.w-1)/l.stride+1, (g.h-1)/l.stride+1
	out := newGrid(w, h, l.out)
	size := l.k * l.k * g.c
	patch := make([]int16, 8*size)
	for at := 0; at < w*h; at += 8 {
		for p := range min(8, w*h-at) {
			x, y := (at+p)%w*l.stride, (at+p)/w*l.stride
			for row := range l.k {
				copy(patch[p*size+row*l.k*g.c:][:l.k*g.c], b.v[((y+row)*b.w+x)*g.c:])
			}
		}
		l.eight(out.v[at*l.out:], patch, size)
	}
	return out
}

// eightGo gives the values of eight cells whose patches lie size values apart.
func (l *layer) eightGo(dst, src []int16, size int) {
	for o := 0; o < l.out; o += 8 {
		w := l.weights[o*size:][:8*size]
		for p := range 8 {
			a := src[p*size:][:size]
			var sum [8]int32
			for k := 0; k < size; k += 2 {
				a0, a1 := int32(a[k]), int32(a[k+1])
				if a0|a1 == 0 {
					continue
				}
				v := (*[16]int16)(w[8*k:])
				for i := range sum {
					sum[i] += a0*int32(v[2*i]) + a1*int32(v[2*i+1])
				}
			}
			for i, s := range sum {
				dst[p*l.out+o+i] = l.scaled(s, o+i)
			}
		}
	}
}
