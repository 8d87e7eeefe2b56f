package subject

// each is a convolution of 5×5 in which each channel counts for itself alone.
func (l *layer) each(g *grid) *grid {
	b := g.bordered(l.k / 2)
	out := newGrid(g.w, g.h, l.out)
	for y := range g.h {
		for c := 0; c < l.out; c += 16 {
			l.sixteen(out.v[y*g.w*g.c+c:], b.v[y*b.w*g.c+c:], c, g.w, b.w)
		}
	}
	return out
}

// pairsARow is how many pairs of columns a patch's row of five makes; the last
// pair's second column weighs nothing.
const pairsARow = 3

// channel16 is the channel of 16 that stands at each place of the weights.
var channel16 = [16]int{0, 1, 2, 3, 8, 9, 10, 11, 4, 5, 6, 7, 12, 13, 14, 15}

// sixteenGo gives the values of channels c to c+15 along a row of n cells. src
// begins at the first cell's patch, in a grid of that width.
func (l *layer) sixteenGo(dst, src []int16, c, n, width int) {
	w := l.weights[c*l.k*pairsARow*2:]
	for x := range n {
		var sum [16]int32
		for row := range l.k {
			for pair := range pairsARow {
				at := (row*width + x + 2*pair) * l.out
				a, b := src[at:][:16], src[at+l.out:][:16]
				v := w[(row*pairsARow+pair)*32:][:32]
				for i, ch := range channel16 {
					sum[i] += int32(a[ch])*int32(v[2*i]) + int32(b[ch])*int32(v[2*i+1])
				}
			}
		}
		for i, ch := range channel16 {
			dst[x*l.out+ch] = l.scaled(sum[i], c+i)
		}
	}
}
