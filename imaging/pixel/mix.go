package pixel

// round is half a unit in the last place of a weighted sum.
const round = 1 << (weightBits - 1)

// mixRowsGo sets each dst[i] to the weighted sum of rows[k][at+i].
func mixRowsGo(dst []uint16, rows [][]uint16, weight []int16, at int) {
	acc := make([]uint32, len(dst))
	for i := range acc {
		acc[i] = round
	}
	for k, row := range rows {
		c := uint32(weight[k])
		if c == 0 {
			continue
		}
		row = row[at : at+len(acc)]
		for i, v := range row {
			acc[i] += c * uint32(v)
		}
	}
	for i, a := range acc {
		dst[i] = uint16(a >> weightBits)
	}
}

// shrinkRowGo filters a row of interleaved pixels along itself, from output
// pixel from on.
func shrinkRowGo(dst, src []uint16, f *filter, from int) {
	n := f.taps
	for i := from; i < len(f.first); i++ {
		first := f.first[i]
		weight := f.weight[i*n : (i+1)*n]
		in := src[int(first)*3:]
		in = in[:min(3*n, len(in))]
		r, g, b := uint32(round), uint32(round), uint32(round)
		for _, c := range weight {
			if len(in) < 3 {
				break
			}
			c := uint32(c)
			r += c * uint32(in[0])
			g += c * uint32(in[1])
			b += c * uint32(in[2])
			in = in[3:]
		}
		p := dst[i*3 : i*3+3 : i*3+3]
		p[0], p[1], p[2] = uint16(r>>weightBits), uint16(g>>weightBits), uint16(b>>weightBits)
	}
}
