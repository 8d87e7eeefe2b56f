package units

import (
	"math"
	"testing"
)

// Every spelling of the spec. 1 in = 25.4 mm exactly (international yard and
// pound agreement, 1959).
func TestLengthSpellings(t *testing.T) {
	for _, c := range []struct {
		text string
		bare System
		want float64 // mm
	}{
		{"54 in", Inches, 1371.6}, {"1 3/4 in", Inches, 44.45}, {"1-3/4\"", Inches, 44.45}, {"1¾ in", Inches, 44.45}, {"1.75", Inches, 44.45},
		{"1 3/4", Inches, 44.45}, {"1-3/4", Inches, 44.45}, {"1¾", Inches, 44.45}, {"3/4", Inches, 19.05}, {"¾″", Inches, 19.05}, {"1 ¾”", Inches, 44.45},
		{"4 ft 6 in", Inches, 1371.6}, {"4' 6 1/2\"", Inches, 1384.3}, {"4’ 6 ½”", Inches, 1384.3}, {"4′6½″", Inches, 1384.3}, {"4'-6\"", Inches, 1371.6}, {"4' 6", Centimetres, 1371.6},
		{"137.2 cm", Inches, 1372}, {"1372 mm", Inches, 1372}, {"1.4 m", Inches, 1400}, {"137.2cm", Inches, 1372}, {"137.2\u00a0cm", Inches, 1372},
		{"40.5", Centimetres, 405}, {"405", Millimetres, 405}, {"1 m 37 cm", Inches, 1370}, {"28 3⁄8 in", Inches, 720.725}, {"1 ¹³⁄₁₆ in", Inches, 46.0375}, {"1¹³⁄₁₆ in", Inches, 46.0375},
		{"54 inches", Inches, 1371.6}, {"54 In.", Inches, 1371.6}, {"0 in", Inches, 0}, {".5 in", Inches, 12.7}, {"1 3/4''", Inches, 44.45}, {"0.5", Inches, 12.7}, {"1‑3/4 in", Inches, 44.45},
	} {
		got, err := ParseLength(c.text, c.bare)
		if err != nil {
			t.Errorf("ParseLength(%q, %s): %v", c.text, c.bare, err)
			continue
		}
		if math.Abs(float64(got)-c.want) > 1e-9 {
			t.Errorf("ParseLength(%q, %s) = %v mm, want %v mm", c.text, c.bare, float64(got), c.want)
		}
	}
}

func TestWrongLengths(t *testing.T) {
	for _, text := range []string{"", " ", "in", "-5 in", "−5 in", "NaN", "inf", ".inf", "1e3", "0x10", "1_000", "137,2 cm", "1,234 mm", "54 inchs", "54 yd", "1 2 in", "1 3/0 in", "1 5/4 in", "1.5 3/4 in", "1.5/2",
		"4 in 6 ft", "4 ft 14 in", "4 ft 6 cm", "1 m 6 in", "1..2", "1.2.3 in", "54 in in", "five in", "54 x 16 in", "+5 in", "4' 6' in", "1 ft 2 in 3 mm 4 mm", "9999999999999999999999/2 in", "∞"} {
		if got, err := ParseLength(text, Inches); err == nil {
			t.Errorf("ParseLength(%q) = %v mm, want an error", text, float64(got))
		}
	}
}
