package imaging

import "slabfolio/imaging/pixel"

// Where on the piece its sharpness is judged.

const (
	onCells     = 24   // a side of the grid on which a cut-out tells what of it is piece
	enoughPiece = 0.25 // share of the cut-outs that has to be piece for them to lie well
)

// pieceIn tells what of a cut-out of detailSide pixels is piece, without a cell of
// its outline, where what is behind it shows; nil where the outline is not sure.
func (p *Photo) pieceIn(left, top int) *pixel.Mask {
	k := p.Frame.Mask
	if !p.Frame.Sure || k == nil {
		return nil
	}
	out := &pixel.Mask{W: onCells, H: onCells, Pix: make([]uint8, onCells*onCells)}
	dx, dy := 1/float64(k.W), 1/float64(k.H)
	for i := range out.Pix {
		x := (float64(left) + (float64(i%onCells)+0.5)*detailSide/onCells) / float64(p.W)
		y := (float64(top) + (float64(i/onCells)+0.5)*detailSide/onCells) / float64(p.H)
		out.Pix[i] = 255
		for _, s := range [5][2]float64{{}, {dx, 0}, {-dx, 0}, {0, dy}, {0, -dy}} {
			out.Pix[i] = min(out.Pix[i], k.At(x+s[0], y+s[1]))
		}
	}
	return out
}

// bandOnPiece is the upper edge of the band that the cut-outs are taken from: top,
// unless little of them is piece there and a sure outline tells of a better place.
func (p *Photo) bandOnPiece(top int, lefts [3]int) int {
	if !p.Frame.Sure || p.Frame.Mask == nil {
		return top
	}
	share := func(top int) (n float64) {
		for _, left := range lefts {
			for _, v := range p.pieceIn(left, top).Pix {
				n += float64(v) / 255
			}
		}
		return n / (3 * onCells * onCells)
	}
	most := share(top)
	if most >= enoughPiece {
		return top
	}
	for y := 0; y <= p.H-detailSide; y += detailSide / 4 {
		if n := share(y); n > most {
			top, most = y, n
		}
	}
	return top
}
