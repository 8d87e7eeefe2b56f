package colour

import (
	"math"
	"strconv"
	"strings"

	"slabfolio/imaging/decode"
	"slabfolio/imaging/note"
)

// rgbTransform returns the function that takes a row of device values to linear
// sRGB, in place.
func rgbTransform(src *decode.Source, s deviceScale) (func([]uint16), []note.Note) {
	if len(src.Profile) > 0 {
		p, err := readProfile(src.Profile, 3)
		if err == nil {
			return p.rgb(s), nil
		}
		f, _ := namedSpace("srgb", s)
		return f, []note.Note{{Code: "colour.bad-profile"}}
	}
	return namedSpace(src.Space, s)
}

// namedSpace is the transform of a colour space that has a name and no profile.
func namedSpace(space string, s deviceScale) (func([]uint16), []note.Note) {
	switch {
	case space == "adobe-rgb":
		c := sample(s, func(v float64) float64 { return math.Pow(v, 563.0/256) })
		return shaper(s, [3][]float64{c, c, c}, XYZToSRGB.Times(adobeToXYZ)), nil
	case space == "display-p3":
		c := sample(s, Decode)
		return shaper(s, [3][]float64{c, c, c}, XYZToSRGB.Times(p3ToXYZ)), nil
	case strings.HasPrefix(space, "gamma:"):
		if g, ok := gammaOf(space); ok {
			c := sample(s, func(v float64) float64 { return math.Pow(v, g) })
			return curves(s, [3][]float64{c, c, c}), nil
		}
	}
	c := sample(s, Decode)
	return curves(s, [3][]float64{c, c, c}), nil
}

// sample tabulates a curve over the device values of a scale, 0…1 to 0…1.
func sample(s deviceScale, f func(float64) float64) []float64 {
	t := make([]float64, int(s)+1)
	for i := range t {
		t[i] = f(float64(i) / float64(s))
	}
	return t
}

// curves returns the transform that has curves alone.
func curves(s deviceScale, c [3][]float64) func([]uint16) {
	if s == scale12 {
		var t [3][4096]uint16
		for i := range t {
			for k := range t[i] {
				t[i][k] = scale16(c[i][min(k, len(c[i])-1)])
			}
		}
		return func(row []uint16) {
			for len(row) >= 3 {
				d := row[:3:3]
				d[0], d[1], d[2] = t[0][d[0]&4095], t[1][d[1]&4095], t[2][d[2]&4095]
				row = row[3:]
			}
		}
	}
	var t [3]*[65536]uint16
	for i := range t {
		t[i] = new([65536]uint16)
		for k := range t[i] {
			t[i][k] = scale16(c[i][k])
		}
	}
	return func(row []uint16) {
		for len(row) >= 3 {
			d := row[:3:3]
			d[0], d[1], d[2] = t[0][d[0]], t[1][d[1]], t[2][d[2]]
			row = row[3:]
		}
	}
}

// shaper returns the transform of curves and a matrix to linear sRGB, fused: the
// curves give 16 bits and two more, the matrix runs in 1/16384.
func shaper(s deviceScale, c [3][]float64, m Matrix) func([]uint16) {
	if nearIdentity(m) {
		return curves(s, c)
	}
	n := s.size()
	var t [3][]int32
	for i := range t {
		t[i] = make([]int32, n)
		for k := range t[i] {
			t[i][k] = int32(math.Round(min(max(c[i][min(k, len(c[i])-1)], 0), 1) * 65535 * 4))
		}
	}
	var q [9]int64
	for i := range 3 {
		for j := range 3 {
			q[3*i+j] = int64(math.Round(m[i][j] * (1 << 14)))
		}
	}
	mask := uint16(n - 1)
	t0, t1, t2 := t[0][:n], t[1][:n], t[2][:n]
	return func(row []uint16) {
		for len(row) >= 3 {
			d := row[:3:3]
			r, g, b := int64(t0[d[0]&mask]), int64(t1[d[1]&mask]), int64(t2[d[2]&mask])
			d[0] = clip16(q[0]*r + q[1]*g + q[2]*b)
			d[1] = clip16(q[3]*r + q[4]*g + q[5]*b)
			d[2] = clip16(q[6]*r + q[7]*g + q[8]*b)
			row = row[3:]
		}
	}
}

func clip16(v int64) uint16 {
	v = (v + 1<<15) >> 16
	if uint64(v) <= 65535 {
		return uint16(v)
	}
	if v < 0 {
		return 0
	}
	return 65535
}

// nearIdentity tells whether a matrix moves no colour by more than the rounding
// of ordinary sRGB profiles (see reference values: they differ in the 4th decimal).
func nearIdentity(m Matrix) bool {
	for i := range 3 {
		for j := range 3 {
			want := 0.0
			if i == j {
				want = 1
			}
			if math.Abs(m[i][j]-want) > 1e-3 {
				return false
			}
		}
	}
	return true
}

// gammaOf reads a space named "gamma:2.2".
func gammaOf(space string) (float64, bool) {
	text, ok := strings.CutPrefix(space, "gamma:")
	g, err := strconv.ParseFloat(text, 64)
	return g, ok && err == nil && g > 0.1 && g < 10
}
