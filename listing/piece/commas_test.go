package piece

import (
	"strings"
	"testing"
)

// A decimal comma inside [ ] cuts a length in two; both halves are good lengths, so
// the list itself has to tell. Figures by hand.
func TestADecimalCommaInAListIsAskedBack(t *testing.T) {
	const table = "serial: OY-1\ntitle: Desk\nkind: desk\nfinished: 2026-01-02\nunits: mm\ntop: {outline: {length: 2 m, widths: WIDTHS}, thickness: 4 cm, wood: [{species: european-ash}]}\nparts: [{name: drawer, material: oak, size: SIZE}]\n"
	for _, c := range []struct{ widths, size, remedy string }{ // an empty remedy: nothing is asked
		{"[92 cm, 95 cm, 97,5 cm]", "", "write 97.5 cm; if it is two values, write 97 cm, 5 cm"},
		{"[92,5 cm, 95 cm]", "", "write 92.5 cm"},
		{"[92,5cm,95,5cm]", "", "write 92.5cm"},
		{"[92 cm, 97, 5 cm, 95 cm]", "", "write 97.5 cm"},
		{"[92,25 cm, 95 cm]", "", "write 92.25 cm"},
		{"[1,250 mm, 1,300 mm]", "", "write 1250 mm or 1.250 mm"},
		{"[92,5, 95, 97,5]", "", "write 92.5; if"},
		{"[92,5,95,97,5]", "", "write 92.5; if"},
		{"[92 cm, 95 cm, 97 cm]", "", ""},
		{"[92cm,95cm,97cm]", "", ""},
		{"[920,950,975]", "", ""},
		{"[920, 950, 975 mm]", "", ""},
		{"[0,400,600,400,0]", "", ""},
		{"[0, 400, 600, 400, 0]", "", ""},
		{"[14 1/2 in, 15 in, 15 1/4 in]", "", ""},
		{"[900, 80 cm]", "", ""},
		{"", "[60,5, 30, 2]", "write 60.5"},
		{"", "[60,5,30,2]", "write 60.5"},
		{"", "[60,5 cm, 30 cm, 2 cm]", "write 60.5 cm"},
		{"", "[605,300, 20]", ""},
		{"", "[60, 30, 2 cm]", ""},
	} {
		widths, size := c.widths, c.size
		if widths == "" {
			widths = "[90 cm, 92 cm]"
		}
		if size == "" {
			size = "[60 cm, 30 cm, 10 cm]"
		}
		_, found := ParsePiece("piece.yaml", []byte(strings.NewReplacer("WIDTHS", widths, "SIZE", size).Replace(table)), Defaults{})
		var asked []Finding
		for _, f := range found {
			if f.Code == "spec.value" && strings.Contains(f.Message, "reads as two values") {
				asked = append(asked, f)
			}
		}
		switch {
		case c.remedy == "" && len(asked) > 0:
			t.Errorf("%s %s: asked %q, %q", c.widths, c.size, asked[0].Message, asked[0].Remedy)
		case c.remedy != "" && (len(asked) != 1 || asked[0].Rank != Fault || !strings.Contains(asked[0].Remedy, c.remedy)):
			t.Errorf("%s %s: %+v, want the remedy %q; all: %+v", c.widths, c.size, asked, c.remedy, found)
		}
	}
}

// Corners, spots and boxes have a fixed number of figures: what is wrong with their
// number says the comma.
func TestADecimalCommaInACornerIsNamed(t *testing.T) {
	for value, want := range map[string]string{
		"points: [[0, 0], [92,5, 10], [50, 40]]":    "write 92.5",
		"points: [[0,0], [92,10], [50,40,30]]":      "write 50.40",
		"photo: a.jpg, resin_at: [[0,5, 0,3]]":      "write 0.5",
		"photo: a.jpg, resin_at: [[0.5, 0.3, 0.4]]": "",
	} {
		_, found := ParsePiece("piece.yaml", []byte("serial: OY-1\ntitle: Desk\nkind: desk\nfinished: 2026-01-02\ntop: {outline: {"+value+"}, thickness: 4 cm, wood: [{species: european-ash}]}\n"), Defaults{})
		hinted := ""
		for _, f := range found {
			if strings.Contains(f.Remedy, "a comma parts two values") {
				hinted = f.Remedy
			}
		}
		if (want == "") != (hinted == "") || !strings.Contains(hinted, want) {
			t.Errorf("%s: %q, want %q; all: %+v", value, hinted, want, found)
		}
	}
}
