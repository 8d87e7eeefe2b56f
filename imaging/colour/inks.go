package colour

import (
	"image"
	"math"
	"sync"

	"slabfolio/imaging/decode"
	"slabfolio/imaging/note"
)

func tableOnce(n int, f func(int) uint16) func() []uint16 {
	return sync.OnceValue(func() []uint16 {
		t := make([]uint16, n)
		for i := range t {
			t[i] = f(i)
		}
		return t
	})
}

// grayTable is the table from grey levels, n of them, to linear light.
func grayTable(src *decode.Source, n int) ([]uint16, []note.Note) {
	t := make([]uint16, n)
	curve := Decode
	var notes []note.Note
	if len(src.Profile) > 0 {
		if p, err := readProfile(src.Profile, 1); err == nil {
			curve = func(v float64) float64 {
				c := p.to([4]float64{v, v, v})
				return c[1]
			}
		} else {
			notes = []note.Note{{Code: "colour.bad-profile"}}
		}
	} else if g, ok := gammaOf(src.Space); ok {
		curve = func(v float64) float64 { return math.Pow(v, g) }
	}
	for i := range t {
		t[i] = scale16(curve(float64(i) / float64(n-1)))
	}
	return t, notes
}

// inkNodes is the number of nodes to a side of the table over CMYK: twice the
// usual 9 of press profiles, less one.
const inkNodes = 17

// inks returns the fetch of a CMYK picture: through its profile, or by the plain
// formula (1−C)(1−K) in sRGB code values where there is none, which a note tells.
func inks(src *decode.Source, m *image.CMYK) (func(int, []uint16), []note.Note) {
	if len(src.Profile) == 0 {
		return plainInks(m), []note.Note{{Code: "colour.cmyk-no-profile"}}
	}
	p, err := readProfile(src.Profile, 4)
	if err != nil {
		return plainInks(m), []note.Note{{Code: "colour.bad-profile"}}
	}
	const n = inkNodes
	node := make([][3]int32, n*n*n*n)
	i := 0
	for k := range n {
		for c := range n {
			for mm := range n {
				for y := range n {
					const u = 1.0 / (n - 1)
					node[i] = codes(p.code([4]float64{float64(c) * u, float64(mm) * u, float64(y) * u, float64(k) * u}))
					i++
				}
			}
		}
	}
	return func(y int, dst []uint16) { inkRow(m, node, y, dst) }, nil
}

// inkRow looks a row up: tetrahedral over C, M and Y, linear over K.
func inkRow(m *image.CMYK, node [][3]int32, y int, dst []uint16) {
	const n = inkNodes
	lin := decode17()
	src := m.Pix[y*m.Stride:]
	place := func(v uint8) uint32 { return (uint32(v)*(n-1)*65536 + 127) / 255 }
	for x := range len(dst) / 3 {
		s := src[4*x : 4*x+4 : 4*x+4]
		c, mm, yy, k := place(s[0]), place(s[1]), place(s[2]), place(s[3])
		ik, fk := int(k>>16), int64(k&65535)
		v := tetra(node[ik*n*n*n:], n, c, mm, yy)
		if fk > 0 {
			w := tetra(node[(ik+1)*n*n*n:], n, c, mm, yy)
			for i := range v {
				v[i] += ((w[i]-v[i])*fk + 1<<15) >> 16
			}
		}
		d := dst[3*x : 3*x+3 : 3*x+3]
		d[0], d[1], d[2] = clipCode(lin, v[0]), clipCode(lin, v[1]), clipCode(lin, v[2])
	}
}

func plainInks(m *image.CMYK) func(int, []uint16) {
	t := DecodeTable()
	return func(y int, dst []uint16) {
		src := m.Pix[y*m.Stride:]
		for x := range len(dst) / 3 {
			k := 255 - uint32(src[4*x+3])
			for i := range 3 {
				dst[3*x+i] = t[((255-uint32(src[4*x+i]))*k+127)/255]
			}
		}
	}
}
