package report

import (
	"fmt"
	"testing"
)

// A slip of a unit or a digit in a width or a thickness is asked about, and no usual size
// is (sizes from common practice, no source).
func TestWidthAndThicknessAreAskedAbout(t *testing.T) {
	for _, c := range []struct {
		kind, length, width, thickness, code string
	}{
		{"bench", "56 in", "1 3/4 in", "1 3/4 in", "size.width"}, {"stool", "15 in", "13 in", "21 in", "size.thickness"}, {"dining table", "84 in", "3 ft", "4.5 mm", "size.thickness"},
		{"console table", "54 in", "160 cm", "1 5/8 in", "size.width"}, {"serving board", "18 in", "35 mm", "7/8 in", "size.width"},
		{"bench", "56 in", "13 1/2 in", "1 3/4 in", ""}, {"stool", "15 in", "13 in", "1 1/2 in", ""}, {"dining table", "84 in", "38 in", "2 in", ""}, {"side table", "18 in", "18 in", "2 in", ""},
		{"serving board", "18 in", "9 in", "7/8 in", ""}, {"console table", "54 in", "16 in", "1 5/8 in", ""}, {"desk", "60 in", "30 in", "1 3/4 in", ""}, {"coffee table", "44 in", "24 in", "2 1/2 in", ""}, {"shelf", "36 in", "9 in", "1 in", ""},
	} {
		r := build(t, spec(t, fmt.Sprintf("serial: A1\ntitle: Piece\nkind: %s\nfinished: 2026-09-18\ntop: {outline: {length: %s, width: %s}, thickness: %s, wood: {species: white-oak}}\n", c.kind, c.length, c.width, c.thickness)), nil)
		for _, code := range []string{"size.width", "size.thickness"} {
			if _, doubted := found(r, code); doubted != (c.code == code) {
				t.Errorf("a %s of %s by %s by %s: %s asked about: %v", c.kind, c.length, c.width, c.thickness, code, doubted)
			}
		}
	}
}
