package linear

import (
	"image"
	"math"
	"strconv"
	"strings"

	"slabfolio/imaging/colour"
	"slabfolio/imaging/note"
)

// A transform takes device values to linear sRGB.
type transform struct {
	// row works on a row in place.
	row func([]uint16)
	// simple is set where all is one curve and a matrix; then these are they. The
	// curve is tabulated over the device values of the scale.
	simple bool
	curve  []float64
	matrix colour.Matrix
}

// rgbTransform returns the transform of src's three-channel pixels.
func rgbTransform(src *colour.Encoded, s deviceScale) (t transform, notes []note.Note) {
	if len(src.Profile) == 0 {
		return namedSpace(src.Space, s), nil
	}
	err := safely(func() error {
		p, err := readProfile(src.Profile, 3)
		if err == nil {
			t = p.rgb(s)
			return nil
		}
		// Grey with alpha is read as three equal channels, and keeps a grey profile.
		if p, err = readProfile(src.Profile, 1); err == nil && allGrey(src.Image) {
			c := sampleEngine(s, p.grey)
			t = shaper(s, [3][]float64{c, c, c}, identity)
			return nil
		}
		return errProfile
	})
	if err != nil {
		return namedSpace("srgb", s), badProfile()
	}
	return t, nil
}

func badProfile() []note.Note { return []note.Note{{Code: "colour.bad-profile"}} }

// allGrey tells whether the channels of every pixel are equal.
func allGrey(m image.Image) bool {
	switch m := m.(type) {
	case *image.NRGBA:
		for i := 0; i+3 < len(m.Pix); i += 4 {
			if m.Pix[i] != m.Pix[i+1] || m.Pix[i] != m.Pix[i+2] {
				return false
			}
		}
		return true
	case *image.NRGBA64:
		for i := 0; i+7 < len(m.Pix); i += 8 {
			if p := m.Pix[i : i+6]; p[0] != p[2] || p[0] != p[4] || p[1] != p[3] || p[1] != p[5] {
				return false
			}
		}
		return true
	}
	return false
}

// namedSpace is the transform of a colour space that has a name and no profile.
func namedSpace(space string, s deviceScale) transform {
	switch {
	case space == "adobe-rgb":
		c := sample(s, func(v float64) float64 { return math.Pow(v, 563.0/256) })
		return shaper(s, [3][]float64{c, c, c}, colour.XYZToSRGB.Times(colour.AdobeToXYZ))
	case space == "display-p3":
		c := sample(s, colour.Decode)
		return shaper(s, [3][]float64{c, c, c}, colour.XYZToSRGB.Times(colour.P3ToXYZ))
	case strings.HasPrefix(space, "gamma:"):
		if g, ok := gammaOf(space); ok {
			c := sample(s, func(v float64) float64 { return math.Pow(v, g) })
			return shaper(s, [3][]float64{c, c, c}, identity)
		}
	}
	c := sample(s, colour.Decode)
	return shaper(s, [3][]float64{c, c, c}, identity)
}

// sample tabulates a curve over the device values of a scale, 0…1 to 0…1.
func sample(s deviceScale, f func(float64) float64) []float64 {
	t := make([]float64, int(s)+1)
	for i := range t {
		t[i] = f(float64(i) / float64(s))
	}
	return t
}

// sampleEngine is sample for a function that takes its time: of the 65536 values
// of the fine scale every fifteenth is asked for and the rest interpolated, which
// on tone curves errs by less than a 16-bit step.
func sampleEngine(s deviceScale, f func(float64) float64) []float64 {
	if s == scale12 {
		return sample(s, f)
	}
	const step = 15 // divides 65535
	t := make([]float64, int(s)+1)
	last := f(0)
	for i := 0; i < int(s); i += step {
		next := f(float64(i+step) / float64(s))
		for k := range step {
			t[i+k] = last + (next-last)*float64(k)/step
		}
		last = next
	}
	t[s] = last
	return t
}

// curves returns the transform that has curves alone.
func curves(s deviceScale, c [3][]float64) func([]uint16) {
	if s == scale12 {
		var t [3][4096]uint16
		for i := range t {
			for k := range t[i] {
				t[i][k] = colour.Scale16(c[i][min(k, len(c[i])-1)])
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
			t[i][k] = colour.Scale16(c[i][k])
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
func shaper(s deviceScale, c [3][]float64, m colour.Matrix) transform {
	if nearIdentity(m) {
		m = identity
	}
	t := transform{curve: c[0], matrix: m, simple: alike(c[0], c[1]) && alike(c[0], c[2])}
	if m == identity {
		t.row = curves(s, c)
	} else {
		t.row = mixer(s, c, m)
	}
	return t
}

// alike tells whether two curves differ by less than a quarter of a 16-bit step.
func alike(a, b []float64) bool {
	for i := range a {
		if math.Abs(a[i]-b[i]) > 0.25/65535 {
			return false
		}
	}
	return true
}

var identity = colour.Matrix{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}

// mixer is the row function of a shaper.
func mixer(s deviceScale, c [3][]float64, m colour.Matrix) func([]uint16) {
	n := s.size()
	var t [3][]int32
	for i := range t {
		t[i] = make([]int32, n)
		for k := range t[i] {
			t[i][k] = int32(math.Round(min(max(c[i][min(k, len(c[i])-1)], 0), 1) * 65535 * 4))
		}
	}
	q := fixedMatrix(m)
	mask := uint16(n - 1)
	t0, t1, t2 := t[0][:n], t[1][:n], t[2][:n]
	return func(row []uint16) {
		for len(row) >= 3 {
			d := row[:3:3]
			r, g, b := int64(t0[d[0]&mask]), int64(t1[d[1]&mask]), int64(t2[d[2]&mask])
			d[0] = clip16(q[0]*r + q[1]*(g-r) + q[2]*(b-r))
			d[1] = clip16(q[4]*g + q[3]*(r-g) + q[5]*(b-g))
			d[2] = clip16(q[8]*b + q[6]*(r-b) + q[7]*(g-b))
			row = row[3:]
		}
	}
}

// fixedMatrix is a matrix in 1/16384, with the sum of each row in the place of its
// diagonal: out = sum·own + Σ other·(theirs − own). A sum of 1 to within a
// thousandth is made exactly 1, so that neutral device values stay neutral.
func fixedMatrix(m colour.Matrix) (q [9]int64) {
	for i := range 3 {
		sum := m[i][0] + m[i][1] + m[i][2]
		if math.Abs(sum-1) < 1e-3 {
			sum = 1
		}
		for j := range 3 {
			v := m[i][j]
			if i == j {
				v = sum
			}
			q[3*i+j] = int64(math.Round(v * (1 << 14)))
		}
	}
	return q
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
func nearIdentity(m colour.Matrix) bool {
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
