package linear

import (
	"image"
	"math"

	"slabfolio/imaging/colour"
)

// This file is the way of most photos: YCbCr with chroma at half width, one tone
// curve, and perhaps a matrix. It does in one step for each pair of pixels what
// half, curves and mixer do in three; a test holds them together.

// wide is the length of a curve table whose index cannot miss it: sixteen steps a
// level from −4096 on, which takes the excursions that chroma makes beyond black
// and white.
const (
	wide     = 16384
	wideZero = 4096
)

// fusedYCbCr returns nil where the picture or the transform is of another kind.
func fusedYCbCr(m *image.YCbCr, coding colour.Coding, t transform) func(int, []uint16) {
	if !t.simple || !neutral(fixedMatrix(t.matrix)) {
		return nil
	}
	tall := m.SubsampleRatio == image.YCbCrSubsampleRatio420
	if !tall && m.SubsampleRatio != image.YCbCrSubsampleRatio422 {
		return nil
	}
	f := &fused{m: m, tall: tall, k: fix(coding), plain: t.matrix == identity, q: fixedMatrix(t.matrix)}
	bent, smooth := newBent(t.curve)
	if f.plain && smooth {
		f.bent = bent
	}
	for i := range wide {
		// Indices wrap below 0; the top of the table is out of reach from above.
		level := min(max(i-wideZero, 0), 4080)
		if i >= wide-1500 {
			level = 0
		}
		f.curve[i] = colour.Scale16(t.curve[level])
		if f.bent != nil {
			f.curve[i] = f.bent.at(level)
		}
		f.finer[i] = int32(math.Round(min(max(t.curve[level], 0), 1) * 65535 * 4))
	}
	return f.row
}

// neutral tells whether a fixed matrix keeps neutral values.
func neutral(q [9]int64) bool { return q[0] == 1<<14 && q[4] == 1<<14 && q[8] == 1<<14 }

// A fused is the state of such a picture.
type fused struct {
	m     *image.YCbCr
	tall  bool // chroma has half the height too
	k     fixed
	plain bool // no matrix
	q     [9]int64
	curve [wide]uint16
	bent  *bent       // the curve by segments, for the widest vector code; nil where it is none
	finer [wide]int32 // the curve in quarters of a 16-bit step, for the matrix
}

// block is the number of pairs that are worked on at a time: their chroma fits a
// small array on the stack.
const block = 128

// chromas are the interpolated chroma of a block, in sixteenths of a level.
type chromas struct{ b, r [2 * block]int32 }

// row interpolates the chroma of a row and converts it, block by block.
func (f *fused) row(y int, dst []uint16) {
	m, w := f.m, len(dst)/3
	cw := (w + 1) / 2
	luma := m.Y[y*m.YStride : y*m.YStride+w]
	near, far := y, y
	if f.tall {
		near, far = y/2, secondChromaRow(y, (m.Rect.Dy()+1)/2)
	}
	cb0, cb1 := m.Cb[near*m.CStride:near*m.CStride+cw], m.Cb[far*m.CStride:far*m.CStride+cw]
	cr0, cr1 := m.Cr[near*m.CStride:near*m.CStride+cw], m.Cr[far*m.CStride:far*m.CStride+cw]
	var c chromas
	for from := f.vectorRow(dst, luma, cb0, cb1, cr0, cr1) / 2; from < cw; from += block {
		to := min(from+block, cw)
		spread(&c.b, cb0, cb1, from, to)
		spread(&c.r, cr0, cr1, from, to)
		end := min(2*to, w)
		if f.plain {
			curvePairs(f.k, &f.curve, dst[6*from:3*end], luma[2*from:end], &c)
		} else {
			mixPairs(f.k, &f.finer, &f.q, dst[6*from:3*end], luma[2*from:end], &c)
		}
	}
}

// spread interpolates the samples from…to of one chroma plane, near and far being
// its two rows.
func spread(out *[2 * block]int32, near, far []uint8, from, to int) {
	at := func(i int) int32 { return 3*int32(near[i]) + int32(far[i]) - 512 }
	last, v := at(max(from-1, 0)), at(from)
	n := len(near) - 1
	near, far = near[:n+1], far[:n+1]
	for i := from; i < to; i++ {
		j := min(i+1, n)
		next := 3*int32(near[j]) + int32(far[j]) - 512
		o := out[2*(i-from):]
		o[0], o[1] = 3*v+last, 3*v+next
		last, v = v, next
	}
}

// curvePairs is YCbCr to RGB and one curve.
func curvePairs(k fixed, table *[wide]uint16, out []uint16, luma []uint8, c *chromas) {
	ky, base := int32(k.y)<<4, int32(1<<15+wideZero<<16-(k.black*k.y)<<4)
	rcr, gcb, gcr, bcb := int32(k.rcr), int32(k.gcb), int32(k.gcr), int32(k.bcb)
	cb, cr := c.b[:len(luma)], c.r[:len(luma)]
	for x, l := range luma {
		yy := int32(l)*ky + base
		b, r := cb[x], cr[x]
		d := out[:3:3]
		d[0] = table[(yy+rcr*r)>>16&(wide-1)]
		d[1] = table[(yy-gcb*b-gcr*r)>>16&(wide-1)]
		d[2] = table[(yy+bcb*b)>>16&(wide-1)]
		out = out[3:]
	}
}

// mixPairs is YCbCr to RGB, one curve and a matrix.
func mixPairs(k fixed, table *[wide]int32, q *[9]int64, out []uint16, luma []uint8, c *chromas) {
	ky, base := int32(k.y)<<4, int32(1<<15+wideZero<<16-(k.black*k.y)<<4)
	rcr, gcb, gcr, bcb := int32(k.rcr), int32(k.gcb), int32(k.gcr), int32(k.bcb)
	cb, cr := c.b[:len(luma)], c.r[:len(luma)]
	q1, q2, q3, q5, q6, q7 := q[1], q[2], q[3], q[5], q[6], q[7]
	for x, l := range luma {
		yy := int32(l)*ky + base
		cbx, crx := cb[x], cr[x]
		r := int64(table[(yy+rcr*crx)>>16&(wide-1)])
		g := int64(table[(yy-gcb*cbx-gcr*crx)>>16&(wide-1)])
		b := int64(table[(yy+bcb*cbx)>>16&(wide-1)])
		d := out[:3:3]
		rg, rb, gb := r-g, r-b, g-b
		d[0] = clip16(r<<14 - q1*rg - q2*rb)
		d[1] = clip16(g<<14 + q3*rg - q5*gb)
		d[2] = clip16(b<<14 + q6*rb + q7*gb)
		out = out[3:]
	}
}
