package imaging

import (
	"math"

	"slabfolio/imaging/pixel"
)

// The soft edge, at the resolution of whatever picture is put on a ground.
//
// What is wanted of a pixel is t, the share of the lit backdrop's light that
// reaches it past the piece and through the shade: t = (1−a)·s. Where the piece
// surely is, t is 0; on the ground, it is the shade itself, c/B. In between it is
// the linear function of the pixel's three channels, over B, that fits what is
// known within a window: the guided filter (He, Sun and Tang, Guided image
// filtering, IEEE TPAMI 35(6), 2013, section 3.4 for a guide of three channels),
// weighed so that only what is known is fitted. Its coefficients are found on the
// reduced copy and applied to the pixels of the full picture (He and Sun, Fast
// guided filter, arXiv:1505.00996, 2015). Light adds up, so a function that is
// right for the copy's pixels is right for those which they are the mean of.

// Sizes of the filter, in pixels of the reduced copy and in shares of the lit
// backdrop.
const (
	matteReach = 6    // radius of a window
	matteEven  = 1e-4 // what the variance of the guide is raised by: noise of a hundredth
)

// soften finds the coefficients of t over the reduced copy: three by which c/B is
// multiplied, and one that is added. ratio is c/B of the copy's pixels.
func (c *cutout) soften(ratio [][3]float32, known []uint8) {
	sums := c.windows(ratio, known)
	planes := make([][]float32, 5)
	for k := range planes {
		planes[k] = make([]float32, len(ratio))
	}
	for i := range ratio {
		if sums[0][i] < 1 {
			continue
		}
		var at [14]float64
		for k := range at {
			at[k] = float64(sums[k][i])
		}
		for k, v := range fitted(at) {
			planes[k][i] = float32(v)
		}
		planes[4][i] = 1
	}
	for _, s := range planes {
		boxSum(s, c.w, c.h, matteReach)
	}
	c.soft = make([][4]float32, len(ratio))
	for i := range c.soft {
		for k := range 4 {
			c.soft[i][k] = planes[k][i] / max(planes[4][i], 1)
		}
		for k, v := range lumaShares {
			c.soft[i][k] += v
		}
	}
}

// windows are, for each pixel, sums over what is known in the window around it:
// how many pixels, their three ratios, the products of those, and what they lack
// of t, by itself and times each ratio. What they lack is counted from their
// brightness: where nothing is known, all is a shade.
func (c *cutout) windows(ratio [][3]float32, known []uint8) [][]float32 {
	sums := make([][]float32, 14)
	for k := range sums {
		sums[k] = make([]float32, len(ratio))
	}
	for i, r := range ratio {
		var p float32
		switch known[i] {
		case unknown:
			continue
		case knownPiece:
			p = -brightness(r)
		}
		for k, v := range [14]float32{1, r[0], r[1], r[2], r[0] * r[0], r[0] * r[1], r[0] * r[2], r[1] * r[1], r[1] * r[2], r[2] * r[2],
			p, p * r[0], p * r[1], p * r[2]} {
			sums[k][i] = v
		}
	}
	for _, s := range sums {
		boxSum(s, c.w, c.h, matteReach)
	}
	return sums
}

var lumaShares = [3]float32{0.2126, 0.7152, 0.0722}

func brightness(r [3]float32) float32 {
	return float32(lumaShares[0]*r[0]) + float32(lumaShares[1]*r[1]) + float32(lumaShares[2]*r[2])
}

// fitted is the linear function of three values, and its constant, that fits the
// sums of a window best.
func fitted(s [14]float64) (q [4]float64) {
	n := s[0]
	m := [3]float64{s[1] / n, s[2] / n, s[3] / n}
	p := s[10] / n
	v := func(k, i, j int) float64 { return s[k]/n - float64(m[i]*m[j]) }
	xx, xy, xz, yy, yz, zz := v(4, 0, 0)+matteEven, v(5, 0, 1), v(6, 0, 2), v(7, 1, 1)+matteEven, v(8, 1, 2), v(9, 2, 2)+matteEven
	cx, cy, cz := s[11]/n-float64(m[0]*p), s[12]/n-float64(m[1]*p), s[13]/n-float64(m[2]*p)
	// The inverse of a symmetric matrix by its cofactors.
	axx, axy, axz := float64(yy*zz)-float64(yz*yz), float64(xz*yz)-float64(xy*zz), float64(xy*yz)-float64(xz*yy)
	ayy, ayz, azz := float64(xx*zz)-float64(xz*xz), float64(xy*xz)-float64(xx*yz), float64(xx*yy)-float64(xy*xy)
	det := float64(xx*axx) + float64(xy*axy) + float64(xz*axz)
	q[0] = (float64(axx*cx) + float64(axy*cy) + float64(axz*cz)) / det
	q[1] = (float64(axy*cx) + float64(ayy*cy) + float64(ayz*cz)) / det
	q[2] = (float64(axz*cx) + float64(ayz*cy) + float64(azz*cz)) / det
	q[3] = p - float64(q[0]*m[0]) - float64(q[1]*m[1]) - float64(q[2]*m[2])
	return q
}

// boxSum replaces each value by the sum over the square of n pixels each way, in a
// time that does not grow with n.
func boxSum(v []float32, w, h, n int) {
	line := make([]float64, max(w, h)+1)
	pass := func(at, step, size int) {
		for i := range size {
			line[i+1] = line[i] + float64(v[at+i*step])
		}
		for i := range size {
			v[at+i*step] = float32(line[min(i+n+1, size)] - line[max(i-n, 0)])
		}
	}
	for y := range h {
		pass(y*w, 1, w)
	}
	for x := range w {
		pass(x, w, h)
	}
}

// ratios is c/B of each pixel of the reduced copy.
func (c *cutout) ratios(m *pixel.Image) [][3]float32 {
	out := make([][3]float32, c.w*c.h)
	for y := range c.h {
		row := m.Row(y)
		for x := range c.w {
			b := c.litAt(float64(x)+0.5, float64(y)+0.5)
			for k := range b {
				out[y*c.w+x][k] = float32(float64(row[x*3+k]) / b[k])
			}
		}
	}
	return out
}

// What is known of a pixel of the reduced copy.
const (
	unknown uint8 = iota
	knownPiece
	knownGround
)

// An edge is what is known of the place of a pixel of the full picture.
type edge struct {
	bare, piece float32    // the shares in which it lies on the ground and on the piece
	shade       float32    // s
	soft        [4]float32 // what t is of c/B
}

// edgeAt is the edge at (u, v) of the reduced copy, between four pixels of that.
func (c *cutout) edgeAt(u, v float64) (e edge) {
	x, y := math.Max(u-0.5, 0), math.Max(v-0.5, 0)
	x0, y0 := min(int(x), c.w-1), min(int(y), c.h-1)
	x1, y1 := min(x0+1, c.w-1), min(y0+1, c.h-1)
	at := [4]int{y0*c.w + x0, y0*c.w + x1, y1*c.w + x0, y1*c.w + x1}
	if z := c.zone[at[0]]; (z == onPiece || z == onGround) && z == c.zone[at[1]] && z == c.zone[at[2]] && z == c.zone[at[3]] {
		if z == onPiece {
			return edge{piece: 1}
		}
		return edge{bare: 1}
	}
	fx, fy := float32(x-float64(x0)), float32(y-float64(y0))
	for k, w := range [4]float32{(1 - fx) * (1 - fy), fx * (1 - fy), (1 - fx) * fy, fx * fy} {
		i := at[k]
		switch c.zone[i] {
		case onPiece:
			e.piece += w
		case onGround:
			e.bare += w
		}
		e.shade += float32(w * c.shade[i])
		for k, q := range c.soft[i] {
			e.soft[k] += float32(w * q)
		}
	}
	return e
}

// passing is t at a pixel whose three channels over B are r: never more than what
// any of them lets pass.
func (e *edge) passing(r [3]float32) float32 {
	t := e.soft[3]
	for k, v := range r {
		t += float32(e.soft[k] * v)
	}
	return max(0, min(t, r[0], r[1], r[2]))
}
