package pixel

// Rows is a picture that can be read a row at a time: linear light, sRGB
// primaries, three interleaved 16-bit values a pixel as in Image, in the
// orientation in which it is stored. Row fills the first 3·w values of dst.
// It is called from two goroutines at once, with a dst for each.
type Rows interface {
	Size() (w, h int)
	Row(dst []uint16, y int)
}

// Size returns the picture's width and height.
func (m *Image) Size() (w, h int) { return m.W, m.H }

// Rows returns the picture as Rows.
func (m *Image) Rows() Rows { return imageRows{m} }

type imageRows struct{ m *Image }

func (r imageRows) Size() (w, h int)        { return r.m.W, r.m.H }
func (r imageRows) Row(dst []uint16, y int) { copy(dst, r.m.Row(y)) }
