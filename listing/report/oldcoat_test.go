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
		"found: Traces of old paint on the underside.\n":                                           true,
		"found: Reste von altem Lack, alte graue Farbe.\n":                                         true,
		"found: Old varnish all over, left as it was.\n":                                           true,
		"finish: {product: \"original finish, unknown\"}\n":                                        true,
		"found: An old nail, and a coat hook.\n":                                                   false,
		"found: Holes of old coat hooks.\n":                                                        false,
		"finish: {family: hardwax-oil, product: hardwax oil}\n":                                    false,
		"story: Painted in the old way.\nfound: An old coin.\n":                                    false,
		"finish: {family: varnish, product: old town varnish co.}\n":                               true,
		"story: A barn door once. The old blue paint is still on its back.\n":                      true,
		"found: Old paint on both faces, sanded off.\n":                                            false,
		"found: Old paint, removed from the top and left on the underside.\n":                      true,
		"found: Old paint on the underside, tested and lead-free.\n":                               false,
		"found: Old paint on the underside. A laboratory found no lead in it.\n":                   false,
		"found: Old paint on the underside.\nstory: A laboratory found no lead in it.\n":           true, // in what is not said there
		"photos: {captions: {a.jpg: \"The old paint on the edge, left as it was\"}}\n":             true,
		"photos: {captions: {a.jpg: \"Old paint, sanded off all over\"}}\n":                        false,
		"log: [{date: 2027-02-10, did: \"cleaned; the old varnish on the underside was left\"}]\n": true,
		"log: [{date: 2027-02-10, did: stripped the old finish and oiled again}]\n":                false,
		"log: [{date: 2027-02-10, did: wiped the old finish down and oiled it}]\n":                 false,
		"story: A barn door once, and its old paint is gone from everything but the inside.\n":     true,
		"story: Its old paint is gone.\n":                                                          false,
		"found: Alter Lack, vollständig entfernt.\n":                                               false,
		"found: Ancienne peinture sous le plateau, sans plomb.\n":                                  false,
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

// What became of an old coat is read from its own sentence: a negation, a doubt, a part
// and a place leave it there, a word for lead counts where it is said of the coat. The
// maker is asked where a story only names one (common practice, no source: whoever
// overlooks lead does more harm than whoever asks).
func TestWhatBecameOfAnOldCoat(t *testing.T) {
	const cautioned, asked, silent = "cautioned", "asked", "silent"
	for lines, want := range map[string]string{
		"found: Old paint, not removed":                                                       cautioned,
		"found: Old paint, never stripped, on the edge":                                       cautioned,
		"found: Old paint. It was not removed":                                                cautioned,
		"found: Old paint that couldn't be removed":                                           cautioned,
		"found: Old paint, to be removed by the buyer":                                        cautioned,
		"found: No old paint was removed":                                                     cautioned,
		"found: Alter Anstrich, nicht entfernt":                                               cautioned,
		"found: Ancienne peinture, pas enlevée":                                               cautioned,
		"found: Pintura antigua, no eliminada":                                                cautioned,
		"found: Oude verf, niet verwijderd":                                                   cautioned,
		"found: Old paint sanded off the top, kept on the sides":                              cautioned,
		"found: Old paint sanded off the top":                                                 cautioned,
		"found: Old varnish removed from the top only":                                        cautioned,
		"found: Old varnish removed from the top":                                             cautioned,
		"found: Old paint, partly removed":                                                    cautioned,
		"found: Old paint, half gone":                                                         cautioned,
		"found: Alter Lack, vom Blatt entfernt, an den Kanten belassen":                       cautioned,
		"found: Alter Lack, teilweise abgeschliffen":                                          cautioned,
		"found: Vieille peinture, enlevée sauf dessous":                                       cautioned,
		"found: Oude verf, grotendeels verwijderd":                                            cautioned,
		"found: Old paint on the edge. Nails removed":                                         cautioned,
		"found: Old paint on the edge, bark and nails removed":                                cautioned,
		"found: Old paint, removed":                                                           silent,
		"found: Old paint on both faces. It was sanded off":                                   silent,
		"found: Old paint, removed from both faces":                                           silent,
		"found: Old paint removed; nothing left":                                              silent,
		"found: Vieille peinture, complètement décapé":                                        silent,
		"found: We stripped the old paint":                                                    silent,
		"found: Old paint, cannot be called lead-free":                                        cautioned,
		"found: Old paint, not tested, may not be lead-free":                                  cautioned,
		"found: Old paint, probably lead-free":                                                cautioned,
		"found: Old paint under lead-free oil":                                                cautioned,
		"found: Old paint on the edge, our oil is lead-free":                                  cautioned,
		"found: Old paint on the edge\nstory: Our oil is lead-free.":                          cautioned,
		"found: Old paint on the edge. Our oil is tested lead-free":                           cautioned,
		"found: Old paint on the edge\nfinish: {family: hardwax-oil, product: Lead-free oil}": cautioned,
		"found: Old paint, not removed, tested lead-free":                                     silent,
		"found: Old paint. Tested lead-free":                                                  silent,
		"found: Alte Farbe, geprüft, bleifrei":                                                silent,
		"story: The old paint shows in the cracks.":                                           cautioned,
		"story: It keeps its old green paint on one edge.":                                    cautioned,
		"story: The edge bears the original paint of the barn.":                               cautioned,
		"story: The old paint was never removed.":                                             cautioned,
		"story: We sanded the old paint off the top.":                                         asked,
		"story: Old paint had hidden the grain for a century.":                                asked,
		"story: We left the old paint. It is a barn door.":                                    cautioned,
		"story: The old paint was removed.":                                                   silent,
		"story: We removed all of the old paint.":                                             silent,
		"found: Old paint on the back. The varnish was removed":                               cautioned,
		"found: Old paint on the back. The paint was removed":                                 silent,
		"found: Old paint on the back; old varnish removed":                                   cautioned,
		"found: Old varnish removed, old paint on the back":                                   cautioned,
		"found: Old paint, removed where loose":                                               cautioned,
		"found: Old paint removed as far as it went":                                          cautioned,
		"found: Old paint, we removed what was loose":                                         cautioned,
		"found: Old paint removed by a previous owner, they say":                              cautioned,
		"found: Old paint, rust removed":                                                      cautioned,
		"found: Old paint, lead-free according to the seller":                                 cautioned,
		"found: Alte Farbe, bleifrei laut Verkäufer":                                          cautioned,
		"found: Vieille peinture, sans plomb selon le vendeur":                                cautioned,
		"found: Old paint below, the varnish on top is lead-free":                             cautioned,
		"found: The paint is original":                                                        cautioned,
		"found: Die Farbe ist alt":                                                            cautioned,
		"found: La peinture est ancienne":                                                     cautioned,
		"found: Verf van vroeger":                                                             cautioned,
		"found: Paint from the 1920s":                                                         cautioned,
		"story: We did not remove the old paint.":                                             cautioned,
		"story: We chose not to strip the old paint.":                                         cautioned,
		"story: Most of the old paint is gone.":                                               cautioned,
		"story: All the old paint is gone.":                                                   silent,
		"story: No old paint, but the old varnish is there.":                                  asked,
		"story: An old paint shop sold us the table.":                                         silent,
		"story: The finish is old-fashioned soap.":                                            silent,
		"found: Lead paint, removed":                                                          silent,
		"found: No lead paint":                                                                silent,
		"found: No lead paint was removed":                                                    cautioned,
		"found: Traces of red lead":                                                           cautioned,
		"found: Layers of old white lead paint":                                               cautioned,
		"found: Barn paint of 1920 on the back":                                               cautioned,
		"found: Paint from the barn on the edge":                                              cautioned,
		"found: Old painted edge":                                                             cautioned,
		"found: Restos de pintura antigua":                                                    cautioned,
		"found: Peinture ancienne sur le chant":                                               cautioned,
		"found: Lackreste und Mennige":                                                        cautioned,
		"found: Loodmenie op de rand":                                                         cautioned,
		"found: No old paint found":                                                           silent,
		"found: No traces of old paint":                                                       silent,
		"found: Keine alte Farbe gefunden":                                                    silent,
		"found: Pas de peinture ancienne":                                                     silent,
		"found: No old paint on the top, on the edge there is":                                cautioned,
		"found: No old paint on the top, some on the edge":                                    cautioned,
		"story: Das Holz hat seine ursprüngliche Farbe behalten.":                             silent, // its colour
		"story: Een oud vlak.":                                                                silent, // a face
		"story: Der ursprüngliche Anstrich ist noch zu sehen.":                                cautioned,
		"found: An old paint tin in the hollow":                                               silent,
		"found: A tin of old paint in the hollow":                                             silent,
		"found: An old paint tin in the hollow, and old paint on the edge":                    cautioned,
	} {
		r := build(t, spec(t, strings.Replace(longBoard, "SPECIES", "european-oak", 1)+lines+"\n"), nil)
		_, doubt := found(r, "finish.old-coat")
		warned := slices.ContainsFunc(r.Public.Cautions, func(c Paragraph) bool { return c.ID == "caution.old-coat" })
		got := silent
		switch {
		case warned && doubt:
			got = cautioned
		case doubt:
			got = asked
		case warned:
			got = "cautioned, and the maker is not told"
		}
		if got != want {
			t.Errorf("%s: %s, want %s", lines, got, want)
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
