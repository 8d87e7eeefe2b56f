package report

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// The examples of codes are those of the posts' own pages on how an address is
// written (from memory): Royal Mail, USPS Publication 28, Canada Post.
func TestHomeIsToldByTheAddress(t *testing.T) {
	for address, want := range map[string]string{
		"4 Kiln Lane, Ostrel, Northshire":              "",
		"4 Kiln Lane, Ostrel, NS1 4AA":                 "GB",
		"4 Kiln Lane\nOstrel\nSW1A 1AA":                "GB",
		"4 Kiln Lane, Ostrel, ns1 4aa, United Kingdom": "GB",
		"Unit 3, 4 Kiln Lane, Ostrel, Scotland":        "GB",
		"4 Kiln Lane, Ostrel, VT 05000":                "US",
		"4 Kiln Lane, Ostrel VT 05000-1234":            "US",
		"4 Kiln Lane, Ostrel, USA":                     "US",
		"4 Kiln Lane, Ostrel ON K1A 0B1":               "CA",
		"Ofenweg 4, 01234 Ostrel":                      "", // as in five countries
		"Ofenweg 4, 01234 Ostrel, Deutschland":         "DE",
		"Ofenweg 4, 01234 Ostrel, Germany.":            "DE",
		"Four, XX 05000":                               "", // no state
		"France Street 4, Ostrel":                      "",
		"":                                             "",
	} {
		w := &piece.Workshop{}
		w.Address.V = address
		if got := Home(w); got != want {
			t.Errorf("%q: %q, want %q", address, got, want)
		}
		w.Country.V = "NL"
		if got := Home(w); got != "NL" {
			t.Errorf("%q with a country: %q", strings.ReplaceAll(address, "\n", "; "), got)
		}
	}
	if got := Home(nil); got != "" {
		t.Errorf("of no workshop: %q", got)
	}
}
