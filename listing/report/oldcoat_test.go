package report

import (
	"slices"
	"strings"
	"testing"

	"slabfolio/templates"
)

// What was on the wood before may hold lead: 40 CFR 745 (US EPA) asks for a test before
// work on paint of before 1978. A maker's own finish is no old coat. Where one is still
// there the buyer is cautioned, in every language; where it is gone, or was tested and
// holds no lead, nobody is.
func TestOldCoatsAreAskedAbout(t *testing.T) {
	for lines, want := range map[string]bool{
		"found: Traces of old paint on the underside.\n":                                 true,
		"found: Reste von altem Lack, alte graue Farbe.\n":                               true,
		"found: Old varnish all over, left as it was.\n":                                 true,
		"finish: {product: \"original finish, unknown\"}\n":                              true,
		"found: An old nail, and a coat hook.\n":                                         false,
		"found: Holes of old coat hooks.\n":                                              false,
		"finish: {family: hardwax-oil, product: hardwax oil}\n":                          false,
		"story: Painted in the old way.\nfound: An old coin.\n":                          false,
		"finish: {family: varnish, product: old town varnish co.}\n":                     true,
		"story: A barn door once. The old blue paint is still on its back.\n":            true,
		"story: Old paint had hidden the grain for a century.\n":                         false,
		"found: Old paint on both faces, sanded off.\n":                                  false,
		"found: Old paint, removed from the top and left on the underside.\n":            true,
		"found: Old paint on the underside, tested and lead-free.\n":                     false,
		"found: Old paint on the underside.\nstory: A laboratory found no lead in it.\n": false,
		"found: Alter Lack, vollständig entfernt.\n":                                     false,
		"found: Ancienne peinture sous le plateau, sans plomb.\n":                        false,
	} {
		p := spec(t, strings.Replace(longBoard, "SPECIES", "european-oak", 1)+lines)
		for _, lang := range templates.Langs() {
			words, err := templates.Open(lang)
			if err != nil {
				t.Fatal(err)
			}
			r, err := Build(p, nil, Options{Words: words})
			if err != nil {
				t.Fatal(err)
			}
			f, got := found(r, "finish.old-coat")
			if got != want || got && (!strings.Contains(f.Message, "lead") || !strings.Contains(f.Remedy, "the rules where you live")) {
				t.Errorf("%s, %q: %v %+v, want %v", lang, lines, got, f, want)
			}
			cautioned := slices.ContainsFunc(r.Public.Cautions, func(c Paragraph) bool {
				return c.ID == "caution.old-coat" && strings.Contains(c.Text, "40 CFR 745")
			})
			if cautioned != want {
				t.Errorf("%s, %q: the buyer is cautioned: %v", lang, lines, cautioned)
			}
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
