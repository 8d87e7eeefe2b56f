package listing

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// The maker's own words that a paper of another language prints as they were written
// are told once for a piece; what is translated, in figures, or not printed is not.
func TestWordsThatStayUntranslated(t *testing.T) {
	dir, o := layBoard(t)
	const words = "  resin: {area: 10 %, colour: 'smoke, \"very\" grey'}\nbase: {style: trestle legs, material: steel, weight: 4 kg, height: 30 cm, coating: RAL 9005}\ndelivery: {lead_time: about six weeks}\nfound: It stood by the mill.\n"
	spec := strings.Replace(boardSpec, "top: {outline: {diameter: 30 cm}, thickness: 2 cm, wood: [{species: european-ash}]}\n", "top:\n  outline: {diameter: 30 cm}\n  thickness: 2 cm\n  wood: [{species: european-ash, origin: {country: GB, note: storm-felled near the river}}]\n", 1) + words
	for _, c := range []struct {
		more, said string
		not        []string
	}{
		{"lang: [en-GB, de, nl]\n", `in German and Dutch these stay as you wrote them: found ("It stood by the mill."), origin ("storm-felled near the river"), colour (`, []string{"RAL", "title"}},
		{"lang: [en-GB, de]\ntranslations: {de: {found: Stand bei der Muehle.}}\n", `in German these stay as you wrote them: origin (`, []string{"found", "Dutch"}},
		{"lang: [en-GB, de]\nparts: [{name: drawer, material: european-ash, count: 1, size: [20 cm, 10 cm, 4 cm], walls: 8 mm, below_top: 2 cm}, {name: secret latch, weight: 100 g}]\n", `secret latch`, []string{`"drawer"`}}, // the one has a word in German
		{"lang: [en-GB, en-US]\n", "", nil},
		{"lang: [de]\n", "", nil},
	} {
		if err := os.WriteFile(filepath.Join(dir, "piece.yaml"), []byte(spec+c.more), 0o644); err != nil {
			t.Fatal(err)
		}
		sum, err := Prepare(t.Context(), []string{dir}, o)
		if err != nil || sum.Results[0].Outcome != Prepared {
			t.Fatalf("%s: %v, %+v", c.more, err, sum.Results)
		}
		var said []string
		for _, f := range sum.Results[0].Findings {
			if f.Code == "lang.untranslated" {
				said = append(said, f.Message)
				if f.Rank != piece.Note {
					t.Errorf("%s: a %s", c.more, f.Rank)
				}
			}
		}
		all := strings.Join(said, "\n")
		if (c.said == "") != (len(said) == 0) || len(said) > 1 || !strings.Contains(all, c.said) {
			t.Errorf("%s: said %q, want %q", c.more, said, c.said)
		}
		for _, key := range []string{"base.style", "delivery.lead_time"} {
			if c.said != "" && !strings.Contains(all, key) {
				t.Errorf("%s: %s is missing: %q", c.more, key, said)
			}
		}
		for _, not := range c.not {
			if strings.Contains(all, not) {
				t.Errorf("%s: %s is said: %q", c.more, not, said)
			}
		}
	}
}

// A word of another language in the papers' own is noticed (words from memory), and what
// English shares with another is not.
func TestWordsOfAnotherLanguage(t *testing.T) {
	for _, c := range []struct {
		text, lang string
		want       bool
	}{
		{"Blau", "en", true}, {"grün", "en", true}, {"zwei Stahlrahmen", "en", true}, {"bleu nuit", "en", true}, {"azul", "en", true}, {"groen", "en", true},
		{"smoke grey", "en", false}, {"claro walnut", "en", false}, {"noir", "en", false}, {"Blau", "de", false}, {"Blau mit bleu", "de", false}, {"bleu", "de", true},
		{"deep blue, called Blau", "en", false}, {"smoke", "de", false}, {"two frames", "fr", false}, {"", "en", false},
	} {
		if got := inAnotherLanguage(c.text, c.lang); got != c.want {
			t.Errorf("%q in %s: %t", c.text, c.lang, got)
		}
	}
}

// Of the workshop's words those count that stand on a paper in another language: its
// guarantee, and the care of the finish that the piece has, not that of another.
func TestWorkshopsWordsStay(t *testing.T) {
	dir, o := layBoard(t)
	shop := "currency: GBP\nguarantee: Five years on all of it\nfinishes:\n  - {product: blend nine, family: hardwax-oil, clean: A damp cloth alone}\n  - {product: blend ten, family: hardwax-oil, clean: A dry cloth alone}\n"
	for name, text := range map[string]string{"workshop.yaml": shop, "piece.yaml": boardSpec + "finish: {family: hardwax-oil, product: blend nine}\nlang: [en-GB, de]\n"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	sum, err := Prepare(t.Context(), []string{dir}, o)
	if err != nil || sum.Results[0].Outcome != Prepared {
		t.Fatalf("%v, %+v", err, sum.Results)
	}
	for _, f := range sum.Results[0].Findings {
		if f.Code != "lang.untranslated" {
			continue
		}
		if !strings.Contains(f.Message, `guarantee ("Five years on all of it")`) || !strings.Contains(f.Message, `finishes.clean ("A damp cloth alone")`) || strings.Contains(f.Message, "dry cloth") || !strings.Contains(f.Remedy, "without clean") {
			t.Errorf("said %q, %q", f.Message, f.Remedy)
		}
		return
	}
	t.Error("nothing is said of the workshop's words")
}
