package linear

import "math"

// A smooth curve, such as sRGB's or a pure power, is as well told by a polynomial
// of second degree for each of 32 segments as by its 4081 values: within one 16-bit
// step. That is what the widest vector code works out in place of looking up, and
// for its sake what the tables of the other ways hold, so that all give the same.

const (
	segments    = 32
	segmentBits = 7 // levels in a segment: 128
)

// A bent is a curve by segments: the three coefficients of each, of the powers of
// the level within it.
type bent [3][segments]float32

// mostBent is how far a polynomial may be from the curve, in 16-bit steps.
const mostBent = 0.8

// newBent returns the segments of a curve of 4081 levels; ok is false where they
// are not near enough to it.
func newBent(curve []float64) (b *bent, ok bool) {
	b = new(bent)
	for s := range segments {
		from := s << segmentBits
		part := curve[from:min(from+1<<segmentBits, 4081)]
		b[0][s], b[1][s], b[2][s] = fitted(part)
		for i, v := range part {
			got := b.value(from + i)
			if math.Abs(float64(got)-v*65535) > mostBent || got < -0.4 || got > 65535.4 {
				return nil, false
			}
		}
	}
	return b, true
}

// value is the 16-bit value at a level, not rounded. Each step is rounded to 32
// bits once, as the vector code does it.
func (b *bent) value(level int) float32 {
	s, t := level>>segmentBits, float64(level&(1<<segmentBits-1))
	v := float32(math.FMA(float64(b[2][s]), t, float64(b[1][s])))
	return float32(math.FMA(float64(v), t, float64(b[0][s])))
}

// at is the 16-bit value at a level.
func (b *bent) at(level int) uint16 {
	return uint16(math.RoundToEven(float64(b.value(level))))
}

// fitted returns the polynomial that is nearest to values at 0, 1, 2…: by least
// squares, with more weight towards the ends, where a polynomial strays most.
func fitted(values []float64) (c0, c1, c2 float32) {
	var m [3][4]float64
	middle := float64(len(values)-1) / 2
	for i, v := range values {
		t := float64(i)
		away := (t - middle) / (middle + 0.5)
		w := 1 / math.Sqrt(1-float64(away*away)+0.02)
		p := [3]float64{1, t, float64(t * t)}
		for r := range 3 {
			for k := range 3 {
				m[r][k] += float64(w * p[r] * p[k])
			}
			m[r][3] += float64(w * p[r] * v * 65535)
		}
	}
	for i := range 3 { // Gauss and Jordan; the matrix is positive definite
		for j := range 3 {
			if j == i || m[i][i] == 0 {
				continue
			}
			f := m[j][i] / m[i][i]
			for k := range 4 {
				m[j][k] -= float64(f * m[i][k])
			}
		}
	}
	at := func(i int) float32 {
		if m[i][i] == 0 {
			return 0
		}
		return float32(m[i][3] / m[i][i])
	}
	return at(0), at(1), at(2)
}
