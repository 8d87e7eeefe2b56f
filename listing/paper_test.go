package listing

import (
	"testing"

	"slabfolio/listing/units"
)

// The paper is that of the workshop's country, whatever it measures in (Unicode CLDR,
// paperSize; from memory); without a country it goes with the units.
func TestPaperOfTheCountry(t *testing.T) {
	for _, c := range []struct {
		country string
		units   units.System
		want    string
	}{{"DE", units.Inches, "a4"}, {"GB", units.Inches, "a4"}, {"US", units.Millimetres, "letter"}, {"CA", units.Centimetres, "letter"}, {"", units.Inches, "letter"}, {"", units.Centimetres, "a4"}} {
		if got := defaultPaper(c.country, c.units); got != c.want {
			t.Errorf("%+v: %s", c, got)
		}
	}
}
