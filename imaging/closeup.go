package imaging

import (
	"fmt"

	"slabfolio/imaging/pixel"
	"slabfolio/imaging/rendition"
)

const (
	closeSide = 256 // of each cut-out in a close-up
	closeGap  = 4   // between them
)

// closeup lays the middles of cut-outs at full size side by side on white, as a
// JPEG by which to judge sharpness and noise.
func closeup(details []*pixel.Image, pure bool) ([]byte, error) {
	if len(details) == 0 {
		return nil, nil
	}
	sheet := pixel.New(len(details)*(closeSide+closeGap)-closeGap, closeSide)
	for i := range sheet.Pix {
		sheet.Pix[i] = 65535
	}
	for i, d := range details {
		x, y := (d.W-closeSide)/2, (d.H-closeSide)/2
		if x < 0 || y < 0 {
			return nil, fmt.Errorf("a cut-out of %d × %d holds no %d × %d", d.W, d.H, closeSide, closeSide)
		}
		m := d.Cut(x, y, closeSide, closeSide)
		for j := range closeSide {
			copy(sheet.Row(j)[i*(closeSide+closeGap)*3:], m.Row(j))
		}
	}
	pic := rendition.Develop(sheet, rendition.AsShot(), 0)
	defer pic.Release()
	f, err := pic.Encode(rendition.Size{Name: "close-up", Width: sheet.W, Format: "jpeg", Quality: 85}, rendition.Meta{},
		&rendition.Options{Pure: pure, Bare: true})
	return f.Data, err
}
