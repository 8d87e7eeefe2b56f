package linear

import (
	"image"

	"slabfolio/imaging/colour"
)

// BothWays reads a YCbCr picture by the quick way and by the plain one.
func BothWays(src *colour.Encoded) (quick, plain []uint16) {
	m := src.Image.(*image.YCbCr)
	t, _ := rgbTransform(src, scale12)
	f, g := fusedYCbCr(m, src.Coding, t), fetchYCbCr(m, src.Coding)
	for y := range m.Rect.Dy() {
		row := make([]uint16, 3*m.Rect.Dx())
		f(y, row)
		quick = append(quick, row...)
		g(y, row)
		t.row(row)
		plain = append(plain, row...)
	}
	return quick, plain
}
