package inspect

import (
	"image"
	"math/bits"

	"github.com/corona10/goimagehash"

	"slabfolio/imaging/pixel"
)

// hash is the 64-bit perceptual hash of a photo. The library is touched here
// alone. It gets a small grey picture of our own making, whose size we know, so
// nothing it could stumble over reaches it.
func hash(m *pixel.Image) (uint64, bool) {
	const side = 64
	if m.W < 8 || m.H < 8 {
		return 0, false
	}
	g := grey(m)
	p := image.NewGray(image.Rect(0, 0, side, side))
	for y := range side {
		y0, y1 := y*m.H/side, max((y+1)*m.H/side, y*m.H/side+1)
		for x := range side {
			x0, x1 := x*m.W/side, max((x+1)*m.W/side, x*m.W/side+1)
			var s, n float32
			for j := y0; j < y1; j++ {
				for i := x0; i < x1; i++ {
					s += g[j*m.W+i]
					n++
				}
			}
			p.Pix[y*side+x] = uint8(s/n + 0.5)
		}
	}
	h, err := goimagehash.PerceptionHash(p)
	if err != nil {
		return 0, false
	}
	return h.GetHash(), true
}

// apart is the number of bits in which two hashes differ.
func apart(a, b uint64) int { return bits.OnesCount64(a ^ b) }
