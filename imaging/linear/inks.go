package linear

import (
	"image"
	"math"
	"sync"

	"slabfolio/imaging/colour"
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
func grayTable(src *colour.Encoded, n int) ([]uint16, []note.Note) {
	t := make([]uint16, n)
	fill := func(curve func(float64) float64) {
		for i := range t {
			t[i] = colour.Scale16(curve(float64(i) / float64(n-1)))
		}
	}
	if len(src.Profile) > 0 {
		err := safely(func() error {
			p, err := readProfile(src.Profile, 1)
			if err != nil {
				// Some programs leave the RGB profile on a photo made grey.
				p, err = readProfile(src.Profile, 3)
			}
			if err == nil {
				fill(p.grey)
			}
			return err
		})
		if err == nil {
			return t, nil
		}
		fill(colour.Decode)
		return t, badProfile()
	}
	if g, ok := gammaOf(src.Space); ok {
		fill(func(v float64) float64 { return math.Pow(v, g) })
	} else {
		fill(colour.Decode)
	}
	return t, nil
}

// inkNodes is the number of nodes to a side of the table over CMYK: twice the
// usual 9 of press profiles, less one.
const inkNodes = 17

// inks returns the fetch of a CMYK picture: through its profile, or by the plain
// formula (1−C)(1−K) in sRGB code values where there is none, which a note tells.
func inks(src *colour.Encoded, m *image.CMYK) (func(int, []uint16), []note.Note) {
	if len(src.Profile) == 0 {
		return plainInks(m), []note.Note{{Code: "colour.cmyk-no-profile"}}
	}
	var node [][3]int32
	err := safely(func() error {
		p, err := readProfile(src.Profile, 4)
		if err == nil {
			node = inkTable(p)
		}
		return err
	})
	if err != nil {
		return plainInks(m), badProfile()
	}
	return func(y int, dst []uint16) { inkRow(m, node, y, dst) }, nil
}

// inkTable asks the engine for the colour at each node; K is the outermost index,
// then C, M and Y.
func inkTable(p *profile) [][3]int32 {
	const n = inkNodes
	const u = 1.0 / (n - 1)
	node := make([][3]int32, 0, n*n*n*n)
	for k := range n {
		for c := range n {
			for m := range n {
				for y := range n {
					node = append(node, codes(p.code([4]float64{float64(c) * u, float64(m) * u, float64(y) * u, float64(k) * u})))
				}
			}
		}
	}
	return node
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
	t := colour.DecodeTable()
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
