package sheet

import (
	"testing"

	"rsc.io/qr"
)

func TestCodeSaysWhereTheListingIs(t *testing.T) {
	r := usual()
	for base, want := range map[string]string{
		"https://ostrelyard.example/pieces/": "https://ostrelyard.example/pieces/OY-0142/",
		"https://ostrelyard.example":         "https://ostrelyard.example/OY-0142/",
		"":                                   "OY-0142\nEstuary console table\nOstrel Yard",
	} {
		r.BaseURL = base
		if got := codeText(r); got != want {
			t.Errorf("base_url %q: the code says %q, want %q", base, got, want)
		}
	}
}

// The code on paper is the code that was encoded, module for module, with a
// quiet zone of four modules round it (ISO/IEC 18004), as poppler draws it.
func TestCodeOnPaper(t *testing.T) {
	r := usual()
	data, err := Label(r, options(t))
	if err != nil {
		t.Fatal(err)
	}
	m := raster(t, data, "1")
	code, err := qr.Encode(codeText(r), qr.M)
	if err != nil {
		t.Fatal(err)
	}
	module := codeSide / float64(code.Size+2*quietZone)
	x, y := 148-9-codeSide+3.5, 105-9-codeSide+3.5
	for row := -quietZone; row < code.Size+quietZone; row++ {
		for col := -quietZone; col < code.Size+quietZone; col++ {
			want := row >= 0 && col >= 0 && row < code.Size && col < code.Size && code.Black(col, row)
			px := int((x + (float64(col+quietZone)+0.5)*module) * perMM)
			py := int((y + (float64(row+quietZone)+0.5)*module) * perMM)
			if got := m.GrayAt(px, py).Y < 128; got != want {
				t.Fatalf("module %d, %d is dark: %v, want %v", col, row, got, want)
			}
		}
	}
}

// A serial is readable at two metres: capitals of 10 mm at least, measured on
// the label as the rows that the serial darkens.
func TestSerialIsLarge(t *testing.T) {
	data, err := Label(usual(), options(t))
	if err != nil {
		t.Fatal(err)
	}
	m := raster(t, data, "1")
	first, last := -1, -1
	for y := 0; y < 40*perMM; y++ {
		for x := 10 * perMM; x < 30*perMM; x++ { // the first letter
			if m.GrayAt(x, y).Y < 128 {
				if first < 0 {
					first = y
				}
				last = y
				break
			}
		}
		if first >= 0 && y-last > perMM {
			break
		}
	}
	if high := float64(last-first) / perMM; high < 10 {
		t.Errorf("the serial is %.1f mm high, want 10 or more", high)
	}
}
