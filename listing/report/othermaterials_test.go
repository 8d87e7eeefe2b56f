package report

import (
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/templates"
)

// What base and parts are said to be of gets a line of care, in the words of any language
// of the papers; of what is none of it, and of what no care is known, nothing is claimed,
// and of the latter the maker is told. Common practice, no source.
func TestOtherMaterialsHaveCare(t *testing.T) {
	const stool = "serial: OY-931\ntitle: Stool\nkind: stool\nfinished: 2026-09-18\nunits: cm\ntop: {outline: {diameter: 33}, thickness: 3.5, wood: {species: european-ash}}\nfinish: {family: soap}\n"
	base := func(said string) string {
		return "base: {" + said + ", height: 42, weight: 2 kg, footprint: {length: 30, width: 30}}\n"
	}
	for lines, want := range map[string]string{
		base("style: leather-wrapped legs, material: steel"):                         "leather",
		base("style: \"Stahlbeine, mit Leder bezogen\", material: steel"):            "leather",
		base("style: pieds gainés de cuir, material: steel"):                         "leather",
		base("style: four legs, material: leather"):                                  "leather",
		base("style: four legs, material: european-ash"):                             "",
		base("style: four legs on leather pads, material: european-ash"):             "",
		base("style: faux leather sling, material: steel"):                           "?",
		"parts: [{name: seat of paper cord, count: 1, weight: 400 g}]\n":             "cord",
		"parts: [{name: upholstered seat, count: 1, weight: 400 g}]\n":               "fabric",
		"parts: [{name: Sitzpolster, count: 1, weight: 400 g}]\n":                    "fabric",
		"parts: [{name: cane seat, count: 1, weight: 400 g}]\n":                      "cane",
		"parts: [{name: asiento de enea, count: 1, weight: 400 g}]\n":                "cane",
		"parts: [{name: shelf, material: marble, count: 1, weight: 4 kg}]\n":         "stone",
		"parts: [{name: toughened glass shelf, count: 1, weight: 4 kg}]\n":           "glass",
		"parts: [{name: ESG-Glasplatte aus Glas, count: 1, weight: 4 kg}]\n":         "glass",
		"parts: [{name: suede seat, count: 1, weight: 400 g}]\n":                     "?",
		"parts: [{name: cord hole cover, material: brass, count: 1, weight: 9 g}]\n": "",
		"parts: [{name: felt pads, count: 4, weight: 1 g}]\n":                        "",
	} {
		for _, lang := range templates.Langs() {
			r := told(t, stool+lines, lang)
			var got []string
			for _, c := range r.Public.Care {
				if id, ok := strings.CutPrefix(c.ID, "care.material."); ok {
					got = append(got, id)
				}
			}
			asked := slices.ContainsFunc(r.Findings, func(f piece.Finding) bool { return f.Code == "care.unknown-material" })
			if asked {
				got = append(got, "?")
			}
			if strings.Join(got, " ") != want {
				t.Errorf("%s, %q: care for %q, want %q", lang, lines, got, want)
			}
		}
	}
}
