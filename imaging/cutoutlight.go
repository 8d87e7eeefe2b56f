package imaging

import (
	"math"

	"slabfolio/imaging/equations"
	"slabfolio/imaging/pixel"
)

// The backdrop as the lamp would light it without the piece: B.

// powers are the six terms of a polynomial at a pixel of the reduced copy.
func (c *cutout) powers(x, y float64) [6]float64 {
	u, v := 2*x/float64(c.w)-1, 2*y/float64(c.h)-1
	return [6]float64{1, u, v, u * v, u * u, v * v}
}

// litAt is B at a pixel of the reduced copy, linear.
func (c *cutout) litAt(x, y float64) (b [3]float64) {
	t := c.powers(x, y)
	for k := range b {
		for i, v := range t {
			b[k] += float64(c.lit[k][i] * v)
		}
		b[k] = math.Max(b[k], 1)
	}
	return b
}

// fitLit fits B through the ground, step by step without what is darker than it:
// shadows. ok tells whether what is left is smooth.
func (c *cutout) fitLit(m *pixel.Image) (ok bool) {
	var rest float64
	for pass := range 5 {
		for k := range 3 {
			var a [6][7]float64
			var n, off float64
			for y := 1; y < c.h; y += 3 {
				for x := 1; x < c.w; x += 3 {
					if c.zone[y*c.w+x] != onGround {
						continue
					}
					q := m.Row(y)[x*3 : x*3+3]
					if pass > 0 && c.shadowed(q, float64(x), float64(y), 0.10/float64(pass)) {
						continue
					}
					t := c.powers(float64(x), float64(y))
					for i := range 6 {
						for j := range 6 {
							a[i][j] += float64(t[i] * t[j])
						}
						a[i][6] += float64(t[i] * float64(q[k]))
					}
					n++
					if pass > 0 {
						off += math.Abs(float64(q[k])/c.litAt(float64(x), float64(y))[k] - 1)
					}
				}
			}
			if n < 200 {
				return false
			}
			rest = math.Max(rest*float64(min(k, 1)), off/n)
			c.lit[k] = solved(a)
		}
	}
	return rest <= litSpread
}

// shadowed reports whether a pixel of the ground is darker than B by more than
// some share in its luminance, or brighter by twice that.
func (c *cutout) shadowed(q []uint16, x, y, share float64) bool {
	b := c.litAt(x, y)
	is := 0.2126*float64(q[0]) + 0.7152*float64(q[1]) + 0.0722*float64(q[2])
	lit := 0.2126*b[0] + 0.7152*b[1] + 0.0722*b[2]
	return is < lit*(1-share) || is > lit*(1+2*share)
}

// solved are the six unknowns of six equations; one that they do not settle is 0.
func solved(a [6][7]float64) [6]float64 {
	rows := make([][]float64, len(a))
	for i := range a {
		rows[i] = a[i][:]
	}
	x, _ := equations.Solve(rows)
	return [6]float64(x)
}
