package colour

// A Matrix maps three values to three, row by row.
type Matrix [3][3]float64

// Matrices of the colour spaces met here, derived from the published primaries
// (IEC 61966-2-1; SMPTE EG 432-1; Adobe RGB (1998) Color Image Encoding) and the
// white points D65 (0.3127, 0.3290) and D50 of the ICC (0.9642, 1, 0.8249).
var (
	// srgbToXYZ takes linear sRGB to XYZ relative to D65.
	srgbToXYZ = Matrix{{0.4123908, 0.3575843, 0.1804808}, {0.2126390, 0.7151687, 0.0721923}, {0.0193308, 0.1191948, 0.9505322}}
	// XYZToSRGB is its inverse.
	XYZToSRGB = srgbToXYZ.inverse()
	// d65ToD50 and d50ToD65 adapt XYZ from one white to the other, by Bradford.
	d65ToD50 = adapt(d65, d50)
	d50ToD65 = adapt(d50, d65)
	// P3ToXYZ and AdobeToXYZ take linear Display P3 and Adobe RGB to XYZ relative to D65.
	P3ToXYZ    = Matrix{{0.4865709, 0.2656677, 0.1982173}, {0.2289746, 0.6917385, 0.0792869}, {0, 0.0451134, 1.0439444}}
	AdobeToXYZ = Matrix{{0.5766690, 0.1855582, 0.1882286}, {0.2973450, 0.6273636, 0.0752915}, {0.0270314, 0.0706889, 0.9913375}}
)

// White points as XYZ with Y = 1.
var (
	d65 = [3]float64{0.95045593, 1, 1.08905775}
	d50 = [3]float64{0.9642, 1, 0.8249}
)

var bradford = Matrix{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}

// adapt returns the Bradford matrix that takes XYZ relative to white from to XYZ
// relative to white to (ICC.1, annex E).
func adapt(from, to [3]float64) Matrix {
	a, b := bradford.Apply(from), bradford.Apply(to)
	scale := Matrix{{b[0] / a[0], 0, 0}, {0, b[1] / a[1], 0}, {0, 0, b[2] / a[2]}}
	return bradford.inverse().Times(scale).Times(bradford)
}

// Apply returns m·v.
func (m Matrix) Apply(v [3]float64) [3]float64 {
	var out [3]float64
	for i := range 3 {
		out[i] = float64(m[i][0]*v[0]) + float64(m[i][1]*v[1]) + float64(m[i][2]*v[2])
	}
	return out
}

// Times returns the matrix that applies n first, then m.
func (m Matrix) Times(n Matrix) Matrix {
	var out Matrix
	for i := range 3 {
		for j := range 3 {
			out[i][j] = float64(m[i][0]*n[0][j]) + float64(m[i][1]*n[1][j]) + float64(m[i][2]*n[2][j])
		}
	}
	return out
}

// inverse returns the inverse of m; m must have one.
func (m Matrix) inverse() Matrix {
	c := func(i, j int) float64 {
		a, b, d, e := (i+1)%3, (i+2)%3, (j+1)%3, (j+2)%3
		return float64(m[a][d]*m[b][e]) - float64(m[a][e]*m[b][d])
	}
	det := float64(m[0][0]*c(0, 0)) + float64(m[0][1]*c(0, 1)) + float64(m[0][2]*c(0, 2))
	var out Matrix
	for i := range 3 {
		for j := range 3 {
			out[j][i] = c(i, j) / det
		}
	}
	return out
}
