package linear

import (
	"image"

	"slabfolio/imaging/colour"
)

// fetchYCbCr turns planes into RGB at sixteen steps a level. Chroma that is
// stored at half size is interpolated, ¾ of the nearer sample and ¼ of the
// farther in each direction (the triangle filter on centred siting that JPEG's
// reference decoders use), not repeated.
func fetchYCbCr(m *image.YCbCr, coding colour.Coding) func(int, []uint16) {
	k := fix(coding)
	switch m.SubsampleRatio {
	case image.YCbCrSubsampleRatio420:
		return func(y int, dst []uint16) { half(m, k, y, dst, true) }
	case image.YCbCrSubsampleRatio422:
		return func(y int, dst []uint16) { half(m, k, y, dst, false) }
	case image.YCbCrSubsampleRatio444:
		return func(y int, dst []uint16) { full(m, k, y, y, dst) }
	case image.YCbCrSubsampleRatio440:
		return func(y int, dst []uint16) { full(m, k, y, secondChromaRow(y, (m.Rect.Dy()+1)/2), dst) }
	}
	return func(y int, dst []uint16) { rare(m, k, y, dst) }
}

// secondChromaRow is the chroma row, of n at half height, that is second nearest to row y.
func secondChromaRow(y, n int) int {
	f := y/2 - 1 + 2*(y&1)
	return min(max(f, 0), n-1)
}

// put writes one pixel: luma is a level, cb and cr are sixteenths of a level,
// counted from their zero.
func (k *fixed) put(d []uint16, luma uint8, cb, cr int) {
	yy := (int(luma)-k.black)*k.y<<4 + 1<<15
	d[0] = clip12((yy + k.rcr*cr) >> 16)
	d[1] = clip12((yy - k.gcb*cb - k.gcr*cr) >> 16)
	d[2] = clip12((yy + k.bcb*cb) >> 16)
}

func clip12(v int) uint16 {
	if uint(v) <= 4080 {
		return uint16(v)
	}
	if v < 0 {
		return 0
	}
	return 4080
}

// half reads a row whose chroma is half as wide, and with tall half as high too.
func half(m *image.YCbCr, k fixed, y int, dst []uint16, tall bool) {
	w := len(dst) / 3
	cw := (w + 1) / 2
	luma := m.Y[y*m.YStride : y*m.YStride+w]
	near, far := y, y
	if tall {
		near, far = y/2, secondChromaRow(y, (m.Rect.Dy()+1)/2)
	}
	cb0, cb1 := m.Cb[near*m.CStride:near*m.CStride+cw], m.Cb[far*m.CStride:far*m.CStride+cw]
	cr0, cr1 := m.Cr[near*m.CStride:near*m.CStride+cw], m.Cr[far*m.CStride:far*m.CStride+cw]
	// In fourths of a level, vertically; then in sixteenths, horizontally.
	b := 3*int(cb0[0]) + int(cb1[0]) - 512
	r := 3*int(cr0[0]) + int(cr1[0]) - 512
	lastB, lastR := b, r
	for i := range cw {
		nextB, nextR := b, r
		if i+1 < cw {
			nextB = 3*int(cb0[i+1]) + int(cb1[i+1]) - 512
			nextR = 3*int(cr0[i+1]) + int(cr1[i+1]) - 512
		}
		d := dst[6*i:]
		k.put(d[:3:3], luma[2*i], 3*b+lastB, 3*r+lastR)
		if 2*i+1 < w {
			k.put(d[3:6:6], luma[2*i+1], 3*b+nextB, 3*r+nextR)
		}
		lastB, lastR, b, r = b, r, nextB, nextR
	}
}

// full reads a row whose chroma has the full width; far is the second chroma row
// (y itself when the height is full too).
func full(m *image.YCbCr, k fixed, y, far int, dst []uint16) {
	w := len(dst) / 3
	luma := m.Y[y*m.YStride : y*m.YStride+w]
	near := y
	if m.SubsampleRatio == image.YCbCrSubsampleRatio440 {
		near = y / 2
	}
	cb0, cb1 := m.Cb[near*m.CStride:near*m.CStride+w], m.Cb[far*m.CStride:far*m.CStride+w]
	cr0, cr1 := m.Cr[near*m.CStride:near*m.CStride+w], m.Cr[far*m.CStride:far*m.CStride+w]
	for x := range w {
		k.put(dst[3*x:3*x+3:3*x+3], luma[x],
			4*(3*int(cb0[x])+int(cb1[x])-512), 4*(3*int(cr0[x])+int(cr1[x])-512))
	}
}

// rare reads quarter-width chroma (4:1:1 and 4:1:0): linear between centres
// across, nearest down.
func rare(m *image.YCbCr, k fixed, y int, dst []uint16) {
	w := len(dst) / 3
	cw := (w + 3) / 4
	row := m.COffset(0, y)
	cb, cr := m.Cb[row:row+cw], m.Cr[row:row+cw]
	luma := m.Y[y*m.YStride : y*m.YStride+w]
	for x := range w {
		// Centres lie at 4i+1.5; weights are eighths.
		i, t := (x+2)/4-1, 2*((x+2)%4)+1
		j := min(i+1, cw-1)
		i = max(i, 0)
		b := int(cb[i])*(8-t) + int(cb[j])*t - 1024
		r := int(cr[i])*(8-t) + int(cr[j])*t - 1024
		k.put(dst[3*x:3*x+3:3*x+3], luma[x], 2*b, 2*r)
	}
}
