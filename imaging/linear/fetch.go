package linear

import (
	"image"

	"slabfolio/imaging/colour"
)

// A deviceScale says how device values are written into a row: their white.
type deviceScale int

const (
	// scale12 is sixteen steps to each 8-bit level: 255 is 4080. The steps keep
	// what interpolated chroma tells between levels.
	scale12 deviceScale = 4080
	// scale16bit is the full 16 bits.
	scale16bit deviceScale = 65535
)

// table length: every value that a fetch can write is a valid index.
func (s deviceScale) size() int {
	if s == scale12 {
		return 4096
	}
	return 65536
}

func fetchNRGBA(m *image.NRGBA) func(int, []uint16) {
	return func(y int, dst []uint16) {
		src := m.Pix[y*m.Stride:]
		for i := 0; i+3 <= len(dst); i += 3 {
			s := src[:4:4]
			d := dst[i : i+3 : i+3]
			d[0], d[1], d[2] = uint16(s[0])<<4, uint16(s[1])<<4, uint16(s[2])<<4
			src = src[4:]
		}
	}
}

func fetchNRGBA64(m *image.NRGBA64) func(int, []uint16) {
	return func(y int, dst []uint16) {
		src := m.Pix[y*m.Stride:]
		for i := 0; i+3 <= len(dst); i += 3 {
			s := src[:8:8]
			d := dst[i : i+3 : i+3]
			d[0] = uint16(s[0])<<8 | uint16(s[1])
			d[1] = uint16(s[2])<<8 | uint16(s[3])
			d[2] = uint16(s[4])<<8 | uint16(s[5])
			src = src[8:]
		}
	}
}

func fetchGray(m *image.Gray, t []uint16) func(int, []uint16) {
	return func(y int, dst []uint16) {
		src := m.Pix[y*m.Stride:]
		for x := range len(dst) / 3 {
			v := t[src[x]]
			d := dst[3*x : 3*x+3 : 3*x+3]
			d[0], d[1], d[2] = v, v, v
		}
	}
}

func fetchGray16(m *image.Gray16, t []uint16) func(int, []uint16) {
	return func(y int, dst []uint16) {
		src := m.Pix[y*m.Stride:]
		for x := range len(dst) / 3 {
			v := t[int(src[2*x])<<8|int(src[2*x+1])]
			d := dst[3*x : 3*x+3 : 3*x+3]
			d[0], d[1], d[2] = v, v, v
		}
	}
}

// fetchLab converts CIE L*a*b* pixels of 8 bits (128 = zero for a* and b*).
func fetchLab(m *image.NRGBA) func(int, []uint16) {
	return func(y int, dst []uint16) {
		src := m.Pix[y*m.Stride:]
		for x := range len(dst) / 3 {
			c := colour.Lab{L: float64(src[4*x]) * 100 / 255, A: float64(src[4*x+1]) - 128, B: float64(src[4*x+2]) - 128}
			r, g, b := c.Linear()
			dst[3*x], dst[3*x+1], dst[3*x+2] = colour.Scale16(r), colour.Scale16(g), colour.Scale16(b)
		}
	}
}

// alpha8 flattens a linear row on white by the picture's alpha.
func alpha8(m *image.NRGBA) func(int, []uint16) {
	return func(y int, row []uint16) {
		src := m.Pix[y*m.Stride:]
		for x := range len(row) / 3 {
			if a := uint32(src[4*x+3]); a != 255 {
				over(row[3*x:3*x+3:3*x+3], a*257)
			}
		}
	}
}

func alpha16(m *image.NRGBA64) func(int, []uint16) {
	return func(y int, row []uint16) {
		src := m.Pix[y*m.Stride:]
		for x := range len(row) / 3 {
			if a := uint32(src[8*x+6])<<8 | uint32(src[8*x+7]); a != 65535 {
				over(row[3*x:3*x+3:3*x+3], a)
			}
		}
	}
}

func over(p []uint16, a uint32) {
	for i, v := range p {
		p[i] = uint16((uint64(v)*uint64(a) + 65535*uint64(65535-a) + 32767) / 65535)
	}
}

// fixed is colour.Factors in 1/65536, as integers.
type fixed struct{ y, black, rcr, gcb, gcr, bcb int }

func fix(c colour.Coding) fixed {
	f := c.Factors()
	q := func(v float64) int { return int(v*65536 + 0.5) }
	return fixed{q(f.Y), int(f.Black), q(f.RCr), q(f.GCb), q(f.GCr), q(f.BCb)}
}
