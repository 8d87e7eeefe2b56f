package pixel

// Cut returns the part of m of w × h pixels at (x, y), which must lie within m:
// m itself when that is all of it, else a copy.
func (m *Image) Cut(x, y, w, h int) *Image {
	if x == 0 && y == 0 && w == m.W && h == m.H {
		return m
	}
	out := New(w, h)
	for j := range h {
		copy(out.Row(j), m.Row(y + j)[x*3:(x+w)*3])
	}
	return out
}

// Pad returns a picture of w × h with m at (left, top), which must fit, and the
// backdrop carried on around it. A real backdrop is never of one colour, so a
// flat border would show as a frame: the border takes up the colours along m's
// edge instead, smoothed, wherever they are like the backdrop's own colour, and
// that colour where they are not.
func (m *Image) Pad(w, h, left, top int, backdrop [3]uint16) *Image {
	out := New(w, h)
	for y := range m.H {
		copy(out.Row(top + y)[left*3:], m.Row(y))
	}
	right, bottom := left+m.W, top+m.H
	if left > 0 || right < w {
		l, r := make([][3]uint16, m.H), make([][3]uint16, m.H)
		for y := range m.H {
			l[y], r[y] = m.mean(0, y, min(8, m.W), 1), m.mean(max(m.W-8, 0), y, min(8, m.W), 1)
		}
		smooth(l, backdrop)
		smooth(r, backdrop)
		for y := range m.H {
			row := out.Row(top + y)
			fill(row[:left*3], l[y])
			fill(row[right*3:], r[y])
		}
	}
	for _, edge := range []struct{ from, to, at int }{{0, top, top}, {bottom, h, bottom - 1}} {
		if edge.from >= edge.to {
			continue
		}
		line := make([][3]uint16, w)
		src := out.Cut(0, max(min(edge.at-4, bottom-8), top), w, min(8, m.H))
		for x := range line {
			line[x] = src.mean(x, 0, 1, src.H)
		}
		smooth(line, backdrop)
		for y := edge.from; y < edge.to; y++ {
			row := out.Row(y)
			for x, c := range line {
				fill(row[x*3:x*3+3], c)
			}
		}
	}
	return out
}

// mean is the mean colour of a box of m.
func (m *Image) mean(x, y, w, h int) (c [3]uint16) {
	var sum [3]int
	for j := range h {
		row := m.Row(y + j)[x*3 : (x+w)*3]
		for i, v := range row {
			sum[i%3] += int(v)
		}
	}
	for k := range c {
		c[k] = uint16(sum[k] / (w * h))
	}
	return c
}

// smooth replaces what is unlike the backdrop in a line of colours and blurs
// the line over a sixteenth of its length.
func smooth(line [][3]uint16, backdrop [3]uint16) {
	for i, c := range line {
		for k, v := range c {
			if d := int(v) - int(backdrop[k]); d > int(backdrop[k])/2+500 || -d > int(backdrop[k])/3+500 {
				line[i] = backdrop
				break
			}
		}
	}
	reach := max(len(line)/32, 1)
	src := append([][3]uint16(nil), line...)
	n := len(line)
	var sum [3]int
	at := func(i int) [3]uint16 { return src[min(max(i, 0), n-1)] }
	for i := -reach; i <= reach; i++ {
		for k, v := range at(i) {
			sum[k] += int(v)
		}
	}
	for i := range line {
		for k := range sum {
			line[i][k] = uint16(sum[k] / (2*reach + 1))
			sum[k] += int(at(i + reach + 1)[k]) - int(at(i - reach)[k])
		}
	}
}

// fill sets every pixel of a row to one colour.
func fill(row []uint16, c [3]uint16) {
	for ; len(row) >= 3; row = row[3:] {
		row[0], row[1], row[2] = c[0], c[1], c[2]
	}
}
