package report

import (
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/templates"
)

// A product that repeats its family's name says it once.
func TestFinishIsCalledOnce(t *testing.T) {
	for _, c := range []struct{ name, product, want string }{
		{"hardwax oil", "hardwax oil, clear, tin 3", "hardwax oil, clear, tin 3"},
		{"hardwax oil", "Hardwax Oil 7", "Hardwax Oil 7"},
		{"oil and varnish blend", "wiping oil, tin 9", "oil and varnish blend, wiping oil, tin 9"},
		{"shellac", "", "shellac"},
		{"", "tin 4", "tin 4"},
	} {
		if got := (&Finish{Name: c.name, Product: c.product}).Called(); got != c.want {
			t.Errorf("%q and %q: %q, want %q", c.name, c.product, got, c.want)
		}
	}
}

// 70.548 lb are 32 kg by the pound of 0.45359237 kg (1959 agreement). What a maker
// read as 700 lb is 317.515 kg, and stays 700 lb.
func TestWhatTheScaleSaid(t *testing.T) {
	b := &builder{words: words(t)}
	for kg, want := range map[float64]TextWeights{32: {"70.5 lb", "32 kg"}, 1.4: {"3.1 lb", "1.4 kg"}, 317.514659: {"700 lb", "317.5 kg"}, 31.4: {"69.2 lb", "31.4 kg"}} {
		if got := b.scaleTexts(kg); got != want {
			t.Errorf("%g kg: %q, want %q", kg, got, want)
		}
	}
}

// The mark of the shelf is the maker's, the product's name the buyer's; what is no mark
// stays as it was written.
func TestShelfMarksStayInTheRecord(t *testing.T) {
	for product, want := range map[string]string{
		"hardwax oil, clear, tin 3": "hardwax oil, clear", "plain mineral oil with beeswax, jar 2": "plain mineral oil with beeswax", "slow casting resin (drum B)": "slow casting resin",
		"Hartwachsöl, Dose 3": "Hartwachsöl", "tin 3": "", "oil, two coats": "oil, two coats", "hardwax oil 3041": "hardwax oil 3041", "oil, tin opened in May": "oil, tin opened in May", "wax, 2 tins": "wax, 2 tins", "": "",
		"hardwax oil - tin 3": "hardwax oil", "hardwax oil – tin 3": "hardwax oil", "hardwax oil, tin 3, half full": "hardwax oil", "oil (can 2, opened May 2025)": "oil", "hardwax oil, batch 0047": "hardwax oil", "slow resin lot A7": "slow resin",
		"resin, lot A-7/2, drum B": "resin", "resin, drum B, batch no. 12": "resin", "batch 0047": "", "Gießharz, Charge 0815": "Gießharz", "oil for a lot of wood": "oil for a lot of wood", "two-part oil": "two-part oil", "oil 2-in-1": "oil 2-in-1", "tin 3, half full": "",
	} {
		if got := forBuyer(product); got != want {
			t.Errorf("%q: %q, want %q", product, got, want)
		}
	}
	r := build(t, spec(t, packed+"finish: {family: hardwax-oil, product: \"hardwax oil, clear, tin 3\"}\nmaterials: [{use: finish, product: \"hardwax oil, clear, tin 3\", show: yes}]\n"), nil)
	for _, p := range r.Public.Care {
		if strings.Contains(p.Text, "tin 3") {
			t.Errorf("the buyer reads %q", p.Text)
		}
	}
	if f, ok := said(r, "finish.shelf-mark"); !ok || r.Public.Shown[0].Product != "hardwax oil, clear" || r.Record[0].Product != "hardwax oil, clear, tin 3" {
		t.Errorf("shown %v, recorded %v, told %v", r.Public.Shown, r.Record, f)
	}
	for _, product := range []string{"hardwax oil tin 3", "wax jar B, nearly empty"} {
		r := build(t, spec(t, packed+"finish: {family: hardwax-oil, product: \""+product+"\"}\n"), nil)
		if f, ok := said(r, "finish.shelf-mark"); !ok || f.Rank != piece.Doubt || !strings.Contains(f.Remedy, "write a comma before that") {
			t.Errorf("%s: %+v", product, f)
		}
	}
	if r = build(t, spec(t, packed+"finish: {family: hardwax-oil, product: tin 3}\n"), nil); r.Public.Finish.Called() != "hardwax oil" {
		t.Errorf("called %q", r.Public.Finish.Called())
	}
}

// A part's usual name, and a wood that is one of several, are said in the language of the
// papers; what nobody knows stays as the maker wrote it.
func TestKnownWordsAreTranslated(t *testing.T) {
	const spec1 = "serial: W-1\ntitle: T\nkind: desk\nfinished: 2026-11-05\ntop: {outline: {length: 140 cm, width: 60 cm}, thickness: 3 cm, wood: [{species: walnut}]}\n" +
		"base: {style: trestle, material: oak, height: 70 cm}\nparts: [{name: drawer, material: oak}, {name: Drawer slides}, {name: secret latch}]\n"
	for lang, want := range map[string]string{
		"en": "Walnut; oak, trestle; drawer, Drawer slides, secret latch", "de": "Nussbaum; Eiche, Bockgestell; Schublade, Schubladenauszüge, secret latch",
		"fr": "Noyer; chêne, tréteaux; tiroir, coulisses de tiroir, secret latch", "es": "Nogal; roble, caballetes; cajón, guías de cajón, secret latch", "nl": "Noten; eiken, schragen; lade, ladegeleiders, secret latch",
	} {
		w, err := templates.Open(lang)
		if err != nil {
			t.Fatal(err)
		}
		r, err := Build(spec(t, spec1), nil, Options{Words: w, Lang: lang})
		if err != nil {
			t.Fatal(err)
		}
		var parts []string
		for _, p := range r.Public.Parts {
			parts = append(parts, p.Name)
		}
		if got := r.Public.Materials[0].Name + "; " + r.Public.Base.Material + ", " + r.Public.Base.Style + "; " + strings.Join(parts, ", "); got != want {
			t.Errorf("%s: %q, want %q", lang, got, want)
		}
	}
}
