package units

import "testing"

// 1/16 in is 1.5875 mm. Rounded up, each system goes to its own next step and no further.
func TestFineLengths(t *testing.T) {
	for _, c := range []struct {
		mm       float64
		near, up string
	}{
		{0.2, "1⁄16 in (2 mm)", "1⁄16 in (1 mm)"}, {1.5875, "1⁄16 in (2 mm)", "1⁄16 in (2 mm)"}, {1.7, "1⁄16 in (2 mm)", "⅛ in (2 mm)"}, {4.7, "3⁄16 in (5 mm)", "3⁄16 in (5 mm)"},
		{5.02, "3⁄16 in (5 mm)", "¼ in (5 mm)"}, {25.4, "1 in (25 mm)", "1 in (26 mm)"},
		{9.7, "⅜ in (10 mm)", "7⁄16 in (10 mm)"}, {3.4, "⅛ in (3 mm)", "3⁄16 in (4 mm)"}, // the high ends of a teak top and of a shelf, once 11 and 5 mm
	} {
		if got := Length(c.mm).Fine(Inches); got != c.near {
			t.Errorf("%v: %s, want %s", c.mm, got, c.near)
		}
		if got := Length(c.mm).FineUp(Inches); got != c.up {
			t.Errorf("%v up: %s, want %s", c.mm, got, c.up)
		}
	}
	for mm, want := range map[float64]string{0.2: "1 mm (1⁄16 in)", 4.02: "4 mm (3⁄16 in)", 4.7: "5 mm (3⁄16 in)", 5.2: "6 mm (¼ in)", 9.7: "10 mm (7⁄16 in)"} {
		if got := Length(mm).FineUp(Millimetres); got != want {
			t.Errorf("%v: %s, want %s", mm, got, want)
		}
	}
}
