package inspect

import (
	"image"
	"math/bits"

	"github.com/corona10/goimagehash"
	"github.com/disintegration/imaging"

	"slabfolio/imaging/pixel"
	"slabfolio/imaging/spare"
)

// Both libraries are touched in this file alone. They get a small picture of
// our own making, 8-bit NRGBA of a known size, so that no odd type or size of a
// decoded file can reach their code (a crafted palette panics in a goroutine of
// imaging's own); what comes back is checked for its size.

// hashSide is the size of the picture that is hashed.
const hashSide = 64

// hashes are the 64-bit perceptual hashes of a photo: as it is, after one, two
// and three quarter-turns, and mirrored, so that a copy that was saved lying
// down or flipped is found too. Empty if the photo is too small.
func hashes(m *pixel.Image) []uint64 {
	p := thumbnail(m)
	if p == nil {
		return nil
	}
	var out []uint64
	for _, q := range []*image.NRGBA{p, imaging.Rotate90(p), imaging.Rotate180(p), imaging.Rotate270(p), imaging.FlipH(p)} {
		if q.Bounds() != image.Rect(0, 0, hashSide, hashSide) {
			return nil
		}
		h, err := goimagehash.PerceptionHash(q)
		if err != nil {
			return nil
		}
		out = append(out, h.GetHash())
	}
	return out
}

// thumbnail is the photo's luminance at 64×64. The reduction is to twice that
// by means in our own code; the library's box filter does the last step, where
// gamma-coded levels do no harm: a hash has no eye.
func thumbnail(m *pixel.Image) *image.NRGBA {
	if m.W < 16 || m.H < 16 {
		return nil
	}
	const side = 2 * hashSide
	g := grey(m)
	defer spare.Give(g)
	p := image.NewNRGBA(image.Rect(0, 0, side, side))
	for y := range side {
		y0 := y * m.H / side
		y1 := max((y+1)*m.H/side, y0+1)
		for x := range side {
			x0 := x * m.W / side
			x1 := max((x+1)*m.W/side, x0+1)
			var s, n float32
			for j := y0; j < y1; j++ {
				for i := x0; i < x1; i++ {
					s += g[j*m.W+i]
					n++
				}
			}
			v := uint8(s/n + 0.5)
			copy(p.Pix[y*p.Stride+4*x:], []uint8{v, v, v, 255})
		}
	}
	if q := imaging.Resize(p, hashSide, hashSide, imaging.Box); q.Bounds() == image.Rect(0, 0, hashSide, hashSide) {
		return q
	}
	return nil
}

// hashDistance is the least number of bits in which a photo's hash differs from those
// of another and of its turns; 64 when either has none.
func hashDistance(a, b []uint64) int {
	least := 64
	if len(b) == 0 {
		return least
	}
	for _, h := range a {
		least = min(least, bits.OnesCount64(h^b[0]))
	}
	return least
}
