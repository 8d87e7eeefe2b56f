package pixel

import (
	"fmt"

	"slabfolio/imaging/spare"
)

// reduceRows is how many of the input rows behind one row of an analysis copy
// are read, evenly spread; the others are passed over.
const reduceRows = 2

// Reduce returns an upright copy of r for analysis, no side longer than side
// and never larger than r: plain block averages in linear light, over every
// column but, where a block is tall, only some of its rows. That makes it
// several times quicker than Resample; use it to measure, never to show.
// It returns an error for an empty picture or a side below one.
func Reduce(r Rows, orientation, side int) (*Image, error) {
	w, h := r.Size()
	if w <= 0 || h <= 0 || side <= 0 {
		return nil, fmt.Errorf("cannot reduce a picture of %d × %d to %d pixels", w, h, side)
	}
	ow, oh := FitWithin(w, h, side, side)
	out := &Image{ow, oh, spare.Fresh[uint16](ow * oh * 3)} // it is held as long as the photo
	row, sum := spare.Take[uint16](w*3+1), make([]uint64, ow*4)
	defer spare.Give(row)
	edge := make([]int, ow+1)
	for x := range edge {
		edge[x] = x * w / ow
	}
	for y := range oh {
		clear(sum)
		y0, y1 := y*h/oh, (y+1)*h/oh
		n := min(reduceRows, y1-y0)
		for i := range n {
			r.Row(row, y0+(2*i+1)*(y1-y0)/(2*n))
			addBlocks(sum, row, edge)
		}
		dst := out.Row(y)
		for x := range ow {
			d := uint64(n * (edge[x+1] - edge[x]))
			for c := range 3 {
				dst[3*x+c] = uint16((sum[4*x+c] + d/2) / d)
			}
		}
	}
	return Orient(out, orientation), nil
}

// addBlocksGo adds the pixels of a row between each two edges to sum, four values a
// block, of which the last says nothing.
func addBlocksGo(sum []uint64, row []uint16, edge []int) {
	for x := range len(edge) - 1 {
		in := row[edge[x]*3 : edge[x+1]*3]
		var r, g, b uint64
		for ; len(in) >= 3; in = in[3:] {
			r += uint64(in[0])
			g += uint64(in[1])
			b += uint64(in[2])
		}
		s := sum[x*4 : x*4+3 : x*4+3]
		s[0] += r
		s[1] += g
		s[2] += b
	}
}

// FitWithin returns the size of a picture of w × h made to fit within maxW ×
// maxH with its proportions kept, never enlarged, at least one pixel a side.
func FitWithin(w, h, maxW, maxH int) (int, int) {
	if w <= maxW && h <= maxH {
		return w, h
	}
	if int64(w)*int64(maxH) >= int64(h)*int64(maxW) {
		return maxW, max(int((int64(h)*int64(maxW)+int64(w)/2)/int64(w)), 1)
	}
	return max(int((int64(w)*int64(maxH)+int64(h)/2)/int64(h)), 1), maxH
}
