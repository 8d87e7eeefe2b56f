package colour

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// Sharma, Wu and Dalal, Color Research and Application 30(1), 2005, table 1.
func TestDeltaE2000MatchesThePaper(t *testing.T) {
	f, err := os.Open("testdata/ciede2000.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) != 35 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for _, row := range rows[1:] {
		var v [7]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(row[i+1], 64); err != nil {
				t.Fatal(err)
			}
		}
		p, q := Lab{v[0], v[1], v[2]}, Lab{v[3], v[4], v[5]}
		for _, got := range []float64{DeltaE2000(p, q), DeltaE2000(q, p)} {
			if math.Abs(got-v[6]) > 0.00005 {
				t.Errorf("pair %s: got %.5f, want %.4f", row[0], got, v[6])
			}
		}
	}
}

// IEC 61966-2-1 by the open-source colour library's check value.
func TestCurve(t *testing.T) {
	if got := Encode(0.18); math.Abs(got-0.4613561) > 5e-8 {
		t.Errorf("Encode(0.18) = %.7f, want 0.4613561", got)
	}
	for _, v := range []float64{-0.5, 0, 0.001, 0.0031308, 0.0032, 0.18, 1, 1.5} {
		if got := Decode(Encode(v)); math.Abs(got-v) > 2e-6 {
			t.Errorf("Decode(Encode(%v)) = %v", v, got)
		}
	}
}

func TestTablesRoundCorrectly(t *testing.T) {
	enc, dec := EncodeTable(), DecodeTable()
	for i := range enc {
		// Where the exact value is within a billionth of a half, either side is right.
		exact := Encode(float64(i)/65535) * 255
		if got := float64(enc[i]); math.Abs(got-exact) > 0.5+1e-9 {
			t.Fatalf("linear %d encodes to %v, exactly %v", i, got, exact)
		}
	}
	for i := range dec {
		if got := enc[dec[i]]; int(got) != i {
			t.Errorf("level %d comes back as %d", i, got)
		}
		if exact := Decode(float64(i)/255) * 65535; math.Abs(float64(dec[i])-exact) > 0.5 {
			t.Errorf("level %d decodes to %d, exactly %v", i, dec[i], exact)
		}
	}
}

// The matrices as derived from the published primaries in colour references, to
// seven decimals.
func TestMatrices(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want Matrix
	}{
		{"XYZ to sRGB", XYZToSRGB, Matrix{{3.2409699, -1.5373832, -0.4986108}, {-0.9692436, 1.8759675, 0.0415551}, {0.0556301, -0.2039770, 1.0569715}}},
		{"D65 to D50", d65ToD50, Matrix{{1.0478860, 0.0229188, -0.0502161}, {0.0295818, 0.9904835, -0.0170787}, {-0.0092519, 0.0150726, 0.7516781}}},
		{"D50 to D65", d50ToD65, Matrix{{0.9555126, -0.0230730, 0.0633091}, {-0.0283248, 1.0099429, 0.0210544}, {0.0123287, -0.0205353, 1.3307137}}},
		{"sRGB to D50", srgbToD50, Matrix{{0.4360413, 0.3851129, 0.1430458}, {0.2224845, 0.7169051, 0.0606104}, {0.0139202, 0.0970672, 0.7139126}}},
	} {
		for i := range 3 {
			for j := range 3 {
				// 1e-4: the D50 white is quoted to four decimals in some sources.
				if math.Abs(c.got[i][j]-c.want[i][j]) > 1e-4 {
					t.Errorf("%s [%d][%d] = %.7f, want %.7f", c.name, i, j, c.got[i][j], c.want[i][j])
				}
			}
		}
	}
}

// CIE 15 through the open-source colour library: XYZ 0.20654008, 0.12197225,
// 0.05136952 under D65.
func TestLab(t *testing.T) {
	got := xyzToLab([3]float64{0.20654008, 0.12197225, 0.05136952}, d65)
	if math.Abs(got.L-41.52787) > 1e-4 || math.Abs(got.A-52.63858) > 1e-3 || math.Abs(got.B-26.92318) > 1e-3 {
		t.Errorf("got %+v, want 41.52787, 52.63858, 26.92318", got)
	}
	if got := LinearToLab(0.18, 0.18, 0.18); math.Abs(got.L-49.496) > 1e-3 || math.Abs(got.A) > 0.02 || math.Abs(got.B) > 0.02 {
		t.Errorf("18 %% grey is %+v, want L* 49.496 and neutral", got)
	}
	for _, c := range []Lab{{50, 20, -30}, {80, -10, 5}, {4, 1, 1}} {
		r, g, b := c.Linear()
		back := LinearToLab(r, g, b)
		if DeltaE2000(c, back) > 1e-4 {
			t.Errorf("%+v comes back as %+v", c, back)
		}
	}
}
