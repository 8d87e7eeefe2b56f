package scene

import "slabfolio/imaging/pixel"

// Codes returns the picture as 8-bit sRGB, 3 bytes a pixel.
func Codes(m *pixel.Image) []byte {
	t := curve()
	out := make([]byte, 0, m.W*m.H*3)
	for y := range m.H {
		for _, v := range m.Row(y)[:3*m.W] {
			out = append(out, t[v])
		}
	}
	return out
}
