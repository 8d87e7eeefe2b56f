package pixel

// A Mask is one byte a pixel: 255 on what is meant, 0 outside of it. It lies over
// the whole of a picture, whatever its own size.
type Mask struct {
	W, H int
	Pix  []uint8
}

// At is the value at shares (x, y) of the picture, 0 outside of it.
func (m *Mask) At(x, y float64) uint8 {
	i, j := int(x*float64(m.W)), int(y*float64(m.H))
	if x < 0 || y < 0 || i >= m.W || j >= m.H {
		return 0
	}
	return m.Pix[j*m.W+i]
}

// Holds reports whether pixel (x, y) of a picture of w × h lies on the mask.
func (m *Mask) Holds(x, y, w, h int) bool { return m.Pix[y*m.H/h*m.W+x*m.W/w] != 0 }
