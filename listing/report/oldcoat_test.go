package report

import (
	"strings"
	"testing"
)

// What was on the wood before may hold lead: 40 CFR 745 (US EPA) asks for a test before
// work on paint of before 1978. A maker's own finish is no old coat.
func TestOldCoatsAreAskedAbout(t *testing.T) {
	for lines, want := range map[string]bool{
		"found: Traces of old paint on the underside.\n":             true,
		"found: Reste von altem Lack, alte graue Farbe.\n":           true,
		"found: Old varnish all over, left as it was.\n":             true,
		"finish: {product: \"original finish, unknown\"}\n":          true,
		"found: An old nail, and a coat hook.\n":                     false,
		"finish: {family: hardwax-oil, product: hardwax oil}\n":      false,
		"story: Painted in the old way.\nfound: An old coin.\n":      false,
		"finish: {family: varnish, product: old town varnish co.}\n": true,
	} {
		r := build(t, spec(t, strings.Replace(longBoard, "SPECIES", "european-oak", 1)+lines), nil)
		f, got := found(r, "finish.old-coat")
		if got != want || got && (!strings.Contains(f.Message, "lead") || !strings.Contains(f.Remedy, "the rules where you live")) {
			t.Errorf("%q: %v %+v, want %v", lines, got, f, want)
		}
	}
}

// A finish whose family nobody told leaves its buyer without care, and the maker is told so.
func TestFinishWithoutAFamily(t *testing.T) {
	for lines, want := range map[string]bool{"finish: {product: unknown}\n": true, "finish: {family: wax}\n": false, "": false} {
		r := build(t, spec(t, strings.Replace(longBoard, "SPECIES", "european-oak", 1)+lines), nil)
		if _, got := found(r, "finish.no-family"); got != want {
			t.Errorf("%q: %v, want %v", lines, got, want)
		}
	}
}
