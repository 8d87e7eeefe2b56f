package units

import "testing"

// A decimal comma is read where it can be nothing else (SI Brochure, 9th ed., 5.4.4:
// the decimal marker is the point or the comma; neither parts thousands).
func TestDecimalCommas(t *testing.T) {
	for text, want := range map[string]string{
		"2,20 m x 95 cm x 4 cm": "2.20 m x 95 cm x 4 cm", "4,5": "4.5", "2,80m": "2.80m", "52,5 kg": "52.5 kg", "2,20 x 0,955": "", "1,2345 m": "1.2345 m",
		"1,250 mm": "", "37,38,39": "", "1,250.50": "", "3.950,00": "", "18, 20": "", "oak, 20 kg": "", "1 3/4": "", "1/2,5": "", "2,5/8": "", ",5": "", "5,": "", "71,5 cm hoch, 24,5 kg": "71.5 cm hoch, 24.5 kg",
		"37,5, 38,2, 37,9": "37.5, 38.2, 37.9",
	} {
		got, ok := WithPoints(text)
		if want == "" && (ok || got != text) || want != "" && (!ok || got != want) {
			t.Errorf("WithPoints(%q) = %q, %v, want %q", text, got, ok, want)
		}
	}
}
