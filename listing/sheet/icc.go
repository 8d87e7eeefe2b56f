package sheet

import (
	"encoding/binary"
	"math"
	"sync"
)

// srgbProfile returns an ICC profile, version 2.1, of the colour space of IEC
// 61966-2-1 (sRGB): a matrix and a curve, computed here from the published
// primaries, white point and transfer function.
var srgbProfile = sync.OnceValue(func() []byte {
	m := srgbToPCS()
	curve := curveTag()
	tags := []struct {
		sig  string
		data []byte
	}{
		{"cprt", textTag("No copyright")},
		{"desc", descTag("sRGB, IEC 61966-2-1")},
		{"wtpt", xyzTag(d50)},
		{"rXYZ", xyzTag([3]float64{m[0][0], m[1][0], m[2][0]})},
		{"gXYZ", xyzTag([3]float64{m[0][1], m[1][1], m[2][1]})},
		{"bXYZ", xyzTag([3]float64{m[0][2], m[1][2], m[2][2]})},
		{"rTRC", curve}, {"gTRC", nil}, {"bTRC", nil}, // one curve for all three
	}
	var table, body []byte
	start := 128 + 4 + 12*len(tags)
	table = binary.BigEndian.AppendUint32(table, uint32(len(tags)))
	var off, size uint32
	for _, t := range tags {
		if t.data != nil {
			off, size = uint32(start+len(body)), uint32(len(t.data))
			body = append(body, t.data...)
			for len(body)%4 != 0 {
				body = append(body, 0)
			}
		}
		table = append(table, t.sig...)
		table = binary.BigEndian.AppendUint32(table, off)
		table = binary.BigEndian.AppendUint32(table, size)
	}
	p := append(header(uint32(start+len(body))), table...)
	return append(p, body...)
})

// d50 is the illuminant of the ICC profile connection space (ICC.1:2001-04, 6.1.1).
var d50 = [3]float64{0.9642, 1, 0.8249}

// header is the 128 bytes of ICC.1:2001-04, 6.1.
func header(size uint32) []byte {
	h := make([]byte, 128)
	be := binary.BigEndian
	be.PutUint32(h[0:], size)
	be.PutUint32(h[8:], 0x02100000) // version 2.1
	copy(h[12:], "mntrRGB XYZ ")
	for i, v := range []uint16{2000, 1, 1, 0, 0, 0} { // a fixed date
		be.PutUint16(h[24+2*i:], v)
	}
	copy(h[36:], "acsp")
	copy(h[68:], xyzBytes(d50))
	return h
}

// srgbToPCS returns the matrix from linear sRGB to XYZ under D50. Primaries and
// white: IEC 61966-2-1 (ITU-R BT.709-2). Adaptation: linear Bradford, as ICC.1
// recommends (the matrix is that of ICC.1:2010-12, annex E.3).
func srgbToPCS() [3][3]float64 {
	xyz := func(x, y float64) [3]float64 { return [3]float64{x / y, 1, (1 - x - y) / y} }
	r, g, b, w := xyz(0.64, 0.33), xyz(0.30, 0.60), xyz(0.15, 0.06), xyz(0.3127, 0.3290)
	prim := [3][3]float64{{r[0], g[0], b[0]}, {r[1], g[1], b[1]}, {r[2], g[2], b[2]}}
	s := apply(invert(prim), w)
	for i := range prim {
		for j := range prim[i] {
			prim[i][j] *= s[j]
		}
	}
	bradford := [3][3]float64{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}
	from, to := apply(bradford, w), apply(bradford, d50)
	gain := [3][3]float64{{to[0] / from[0]}, {0, to[1] / from[1]}, {0, 0, to[2] / from[2]}}
	return multiply(invert(bradford), multiply(gain, multiply(bradford, prim)))
}

// curveTag is the sRGB transfer function as a table of 1024 points.
func curveTag() []byte {
	const n = 1024
	b := append([]byte("curv"), 0, 0, 0, 0)
	b = binary.BigEndian.AppendUint32(b, n)
	for i := range n {
		v := float64(i) / (n - 1)
		lin := v / 12.92
		if v > 0.04045 {
			lin = math.Pow((v+0.055)/1.055, 2.4)
		}
		b = binary.BigEndian.AppendUint16(b, uint16(math.Round(lin*65535)))
	}
	return b
}

func xyzTag(v [3]float64) []byte { return append([]byte("XYZ \x00\x00\x00\x00"), xyzBytes(v)...) }

func xyzBytes(v [3]float64) []byte {
	var b []byte
	for _, x := range v {
		b = binary.BigEndian.AppendUint32(b, uint32(int32(math.Round(x*65536)))) // s15Fixed16
	}
	return b
}

func textTag(s string) []byte { return append([]byte("text\x00\x00\x00\x00"+s), 0) }

// descTag has an ASCII part, and empty Unicode and Macintosh parts (6.5.17).
func descTag(s string) []byte {
	b := append([]byte("desc"), 0, 0, 0, 0)
	b = binary.BigEndian.AppendUint32(b, uint32(len(s)+1))
	b = append(append(b, s...), 0)
	return append(b, make([]byte, 4+4+2+1+67)...)
}

func apply(m [3][3]float64, v [3]float64) (out [3]float64) {
	for i := range m {
		out[i] = float64(m[i][0]*v[0]) + float64(m[i][1]*v[1]) + float64(m[i][2]*v[2])
	}
	return out
}

func multiply(a, b [3][3]float64) (out [3][3]float64) {
	for j := range 3 {
		col := apply(a, [3]float64{b[0][j], b[1][j], b[2][j]})
		out[0][j], out[1][j], out[2][j] = col[0], col[1], col[2]
	}
	return out
}

// invert returns the inverse by cofactors.
func invert(m [3][3]float64) (out [3][3]float64) {
	cof := func(i, j int) float64 {
		a, b, c, d := (i+1)%3, (i+2)%3, (j+1)%3, (j+2)%3
		return float64(m[a][c]*m[b][d]) - float64(m[a][d]*m[b][c])
	}
	det := float64(m[0][0]*cof(0, 0)) + float64(m[0][1]*cof(0, 1)) + float64(m[0][2]*cof(0, 2))
	for i := range 3 {
		for j := range 3 {
			out[j][i] = cof(i, j) / det
		}
	}
	return out
}
