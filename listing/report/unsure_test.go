package report

import (
	"slices"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// spec reads a spec that is written in the test.
func spec(t *testing.T, text string) *piece.Piece {
	t.Helper()
	p, findings := piece.ParsePiece("piece.yaml", []byte(text), piece.Defaults{})
	for _, f := range findings {
		if f.Rank == piece.Fault {
			t.Fatalf("%s:%d: %s", f.File, f.Line, f.Message)
		}
	}
	return p
}

const roundTable = `serial: OY-0391
title: Moon
kind: coffee table
finished: 2026-03-03
weighed: 24 kg
base: {material: steel, height: 16 in, weight: 4.5 kg}
top:
  outline: {diameter: 36 in}
  thickness: 45 mm
  resin: {area: 10 %}
  wood:
`

func found(r *Report, code string) (piece.Finding, bool) {
	for _, f := range r.Findings {
		if f.Code == code {
			return f, true
		}
	}
	return piece.Finding{}, false
}

// A wood whose density nobody knows still has its share: 60 and 40 % of the 90 %
// that 10 % of resin leave are 54 and 36 %.
func TestSharesWithAnUnknownWood(t *testing.T) {
	r := build(t, spec(t, roundTable+"    - {species: black-walnut, share: 60 %}\n    - {species: stuhlholz, share: 40 %}\n"), nil)
	var got []float64
	for _, m := range r.Public.Materials[:3] {
		got = append(got, m.Share)
	}
	if want := [3]float64{54, 36, 10}; got[0] != want[0] || got[1] != want[1] || got[2] != want[2] {
		t.Errorf("shares %v, want %v", got, want)
	}
	if f, ok := found(r, "wood.unknown"); !ok || !strings.Contains(f.Remedy, "botanical") {
		t.Errorf("the unknown wood: %+v", f)
	}
}

// The sums share the top out evenly where the maker said nothing; no document
// says so for a fact.
func TestSharesThatNobodySaidAreNotPrinted(t *testing.T) {
	r := build(t, spec(t, roundTable+"    - {species: black-walnut}\n    - {species: hard-maple}\n"), nil)
	for _, m := range r.Public.Materials[:2] {
		if m.Share != 0 {
			t.Errorf("%s: share %g %%, and the spec says none", m.Name, m.Share)
		}
	}
	if r.Public.Materials[2].Share != 10 {
		t.Errorf("resin: %g %%, want 10", r.Public.Materials[2].Share)
	}
}

// Sycamore is Platanus in America and Acer in Europe.
func TestANameOfTwoTreesIsAsked(t *testing.T) {
	for wood, want := range map[string]bool{
		"{species: sycamore}": true, "{species: Sycamore, origin: {country: GB}}": false, "{species: sycamore, origin: {country: NZ}}": true,
		"{species: sycamore, origin: {country: US}}": false, "{species: sycamore-maple}": false, "{species: Platanus occidentalis}": false,
	} {
		f, got := found(build(t, spec(t, roundTable+"    - "+wood+"\n"), nil), "wood.namesake")
		if got != want {
			t.Errorf("%s: asked %v, want %v", wood, got, want)
		}
		if got && (!strings.Contains(f.Remedy, "sycamore-maple") || !strings.Contains(f.Remedy, "Platanus occidentalis")) {
			t.Errorf("the remedy names not both: %s", f.Remedy)
		}
	}
}

// Where no origin tells, the workshop's country does, and says so; a wood's own
// origin comes first. Acer in Europe and Platanus in America: common practice, no source.
func TestTheWorkshopsCountryTellsANameOfTwoTrees(t *testing.T) {
	const acer, platanus = "Acer pseudoplatanus", "Platanus occidentalis"
	for _, c := range []struct {
		workshop, wood, botanical string
		rank                      piece.Rank // of what is said; "" for nothing
	}{
		{"country: GB", "{species: sycamore}", acer, piece.Note},
		{"country: GB", "{species: Rippled sycamore}", acer, piece.Note},
		{"address: 'Unit 4, Mill Lane, Germany'", "{species: sycamore}", acer, piece.Note},
		{"country: GB", "{species: sycamore, origin: {country: US}}", platanus, ""},
		{"country: US", "{species: sycamore, origin: {country: GB}}", acer, ""},
		{"country: US", "{species: sycamore}", platanus, piece.Note},
		{"country: GB", "{species: sycamore, origin: {country: NZ}}", platanus, piece.Doubt},
		{"country: NZ", "{species: sycamore}", platanus, piece.Doubt},
		{"country: NZ", "{species: spalted sycamore}", platanus, piece.Doubt},
		{"country: GB", "{species: Platanus occidentalis}", platanus, ""},
		{"country: GB", "{species: American sycamore}", platanus, ""},
	} {
		w, findings := piece.ParseWorkshop(piece.WorkshopName, []byte("workshop: {name: Ostrel Yard, "+c.workshop+"}\n"))
		if len(findings) > 0 {
			t.Fatal(findings)
		}
		r := build(t, spec(t, roundTable+"    - "+c.wood+"\n"), w)
		if m := r.Public.Materials[0]; m.Botanical != c.botanical || strings.Contains(m.Name, "American") != (c.botanical == platanus && c.wood != "{species: spalted sycamore}") {
			t.Errorf("%s, %s: %s (%s), want %s", c.workshop, c.wood, m.Name, m.Botanical, c.botanical)
		}
		f, _ := found(r, "wood.namesake")
		if f.Rank != c.rank || c.rank != "" && !(strings.Contains(f.Message, acer) && strings.Contains(f.Message, platanus)) {
			t.Errorf("%s, %s: said %+v, want a %q", c.workshop, c.wood, f, c.rank)
		}
	}
}

// One drawer of a wood that may be several takes the weight of the whole desk
// away: that is said, and no tipping load is reckoned without the drawer.
func TestAMissingWeightIsSaid(t *testing.T) {
	text := strings.Replace(roundTable, "weighed: 24 kg\n", "parts: [{name: drawer, material: oak, size: [18 in, 11 in, 4 in], walls: 1/2 in}]\n", 1) + "    - {species: black-walnut}\n"
	text = strings.Replace(text, "height: 16 in", "height: 16 in, footprint: {length: 20 in, width: 20 in}", 1)
	r := build(t, spec(t, text), nil)
	f, ok := found(r, "weight.not-known")
	if !ok || f.Rank != piece.Doubt || !strings.Contains(f.Message, "drawer") {
		t.Errorf("got %+v", f)
	}
	if r.Stability != nil || r.Absent["stability"] == "" {
		t.Errorf("stability %+v, absent %q", r.Stability, r.Absent["stability"])
	}
}

// What was mixed is the poorest way to say how much resin is in a top.
func TestResinFromWhatWasMixed(t *testing.T) {
	mixed := strings.Replace(roundTable, "{area: 10 %}", "{mixed: 4 l}", 1) + "    - {species: black-walnut}\n"
	if f, ok := found(build(t, spec(t, mixed), nil), "resin.from-mixed"); !ok || f.Rank != piece.Note {
		t.Errorf("got %+v", f)
	}
	if f, ok := found(build(t, spec(t, roundTable+"    - {species: black-walnut}\n"), nil), "resin.from-mixed"); ok {
		t.Errorf("said of a share of the face: %+v", f)
	}
}

// A weight that a scale alone said is written without a range: 24 / 0.45359237 = 52.9.
func TestTheScaleAlone(t *testing.T) {
	r := build(t, spec(t, roundTable+"    - {species: stuhlholz}\n"), nil)
	if got := r.Public.Weight.Text; got.Lb != "52.9 lb" || got.Kg != "24 kg" {
		t.Errorf("got %+v", got)
	}
}

// Woods without a reading are named together, and a piece that nobody said how to
// pack is told of, unless it is gone.
func TestNotesAreSaidOnce(t *testing.T) {
	r := build(t, spec(t, roundTable+"    - {species: black-walnut, share: 50 %}\n    - {species: hard-maple, share: 50 %}\n"), nil)
	n := 0
	for _, f := range r.Findings {
		if f.Code == "wood.no-reading" {
			n++
			if !strings.Contains(f.Message, "black-walnut and hard-maple") {
				t.Errorf("got %q", f.Message)
			}
		}
	}
	if _, ok := found(r, "packing.missing"); n != 1 || !ok {
		t.Errorf("%d notes of readings, packing told: %v", n, ok)
	}
	r = build(t, spec(t, "availability: sold\n"+roundTable+"    - {species: black-walnut}\n"), nil)
	if _, ok := found(r, "packing.missing"); ok {
		t.Error("a sold piece is asked how it is packed")
	}
}

// A piece is not used before it is finished, however early its last coat was;
// 28 days after 2026-01-10 hardwax oil has hardened through (finishes.md: 10 to 28 d).
func TestACoatLongBeforeTheEnd(t *testing.T) {
	for last, want := range map[string]string{"2026-03-01": "fully hard by 29\u00a0March 2026", "2026-01-10": "fully hard since 7\u00a0February 2026"} {
		r := build(t, spec(t, "finish: {family: hardwax-oil, last_coat: "+last+"}\n"+roundTable+"    - {species: black-walnut}\n"), nil)
		if r.Public.Care[0].ID == "" || !strings.Contains(r.Public.Care[0].Text, want) {
			t.Errorf("last coat %s: %q", last, r.Public.Care[0].Text)
		}
		if f := r.Public.Finish; f.LightUseFrom < r.Public.Finished {
			t.Errorf("last coat %s: used from %s, finished %s", last, f.LightUseFrom, r.Public.Finished)
		}
	}
}

// 1 3/4 in is 44.45 mm, which is 4.4 cm: rounded to tenths of a millimetre on the
// way it became 4.5, and the drawing said 4.4.
func TestNothingIsRoundedTwice(t *testing.T) {
	r := build(t, spec(t, strings.Replace(roundTable, "45 mm", "1 3/4 in", 1)+"    - {species: black-walnut}\n"), nil)
	mm := *r.Public.Dimensions.TopThickness
	if got := units.Length(mm).Text(units.Centimetres); mm != 44.45 || got != "4.4 cm" || units.Length(r.Drawing.Thickness).Text(units.Centimetres) != got {
		t.Errorf("thickness %g mm, %s; drawn %g mm", mm, got, r.Drawing.Thickness)
	}
}

// A diameter of 36 in is 914.4 mm, not the 914.26 mm across the corners of the
// polygon that stands for the circle.
func TestADiameterIsExact(t *testing.T) {
	d := build(t, spec(t, roundTable+"    - {species: black-walnut}\n"), nil).Public.Dimensions
	if *d.Length != 914.4 || *d.Width != 914.4 {
		t.Errorf("%g × %g mm, want 914.4", *d.Length, *d.Width)
	}
}

// ISPM 15 is for solid wood: a crate holds some, a carton none.
func TestSolidWoodInThePacking(t *testing.T) {
	for how, want := range map[string]bool{"crate": true, "carton": false, "blanket-wrapped": false} {
		r := build(t, spec(t, "packing: {how: "+how+"}\n"+roundTable+"    - {species: black-walnut}\n"), nil)
		if len(r.Public.Shipping.Packages) == 0 || r.SolidPacking != want {
			t.Errorf("%s: solid wood %v, want %v", how, r.SolidPacking, want)
		}
	}
}

// A finish that was hard before the piece was done leaves no prints of wrapping.
func TestHardBeforeItIsWrapped(t *testing.T) {
	for _, c := range []struct {
		lastCoat string
		said     bool
	}{{"2026-02-01", false}, {"2026-03-02", true}} {
		text := strings.Replace(roundTable, "top:\n", "finish: {family: wax, product: jar 3, last_coat: "+c.lastCoat+"}\npacking: {how: carton}\ntop:\n", 1) + "    - {species: black-walnut}\n"
		if _, ok := found(build(t, spec(t, text), nil), "packing.cure"); ok != c.said {
			t.Errorf("last coat %s: packing.cure found %v, want %v", c.lastCoat, ok, c.said)
		}
	}
}

// The way into a home hangs on sizes alone: it is told where no weight is known.
func TestPassageWithoutAWeight(t *testing.T) {
	text := strings.Replace(roundTable, "weighed: 24 kg\n", "", 1) + "    - {species: stuhlholz}\n"
	r := build(t, spec(t, text), nil)
	if r.Public.Weight != nil {
		t.Fatalf("weight %+v", r.Public.Weight)
	}
	if _, ok := r.Figures["passage.stood_on_end_mm"]; !ok {
		t.Errorf("no height to stand it on end; absent: %v", r.Absent)
	}
}

// A fixing in words is taken for a rigid one only where they leave no doubt.
func TestWordsOfARigidFixing(t *testing.T) {
	for text, want := range map[string]bool{
		"glued and screwed": true, "Epoxied into the legs": true, "rigid, eight bolts": true,
		"": false, "eight bolts": false, "eight wooden buttons in grooves, free to slide": false, "glued at the middle, slotted at the ends": false, "screwed, not glued": false,
	} {
		if got := saysRigid(text); got != want {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
}

// Glue on a steel frame holds a top across its grain; a plank end of wood moves
// with it.
func TestGluedToSteelAndToWood(t *testing.T) {
	for material, want := range map[string]bool{"steel": true, "european-oak": false} {
		p := parse(t, "testdata/console.yaml")
		p.Base.Material = piece.Of(material)
		p.Base.Fixing = &piece.Fixing{At: p.Base.At, Text: piece.Of("glued")}
		if _, ok := found(build(t, p, nil), "fixing.rigid-across-grain"); ok != want {
			t.Errorf("%s: %v, want %v", material, ok, want)
		}
	}
}

// What it needs on the way into a home is on the carrier's sheet: a top of
// 54 x 1 5/8 in with a drawer 3 3/4 in below it stands up without its legs in
// sqrt(54² + 5.375²) = 54.27 in, 137.8 cm. A door leaf of 30 in leaves 28 in clear
// (handling.md, about 50 mm less).
func TestTheWayInIsOnTheCarriersSheet(t *testing.T) {
	r := build(t, parse(t, "testdata/console.yaml"), nil)
	i := slices.IndexFunc(r.Freight.Notes, func(n string) bool { return strings.Contains(n, "stood on end") })
	if i < 0 {
		t.Fatalf("no word of it in %q", r.Freight.Notes)
	}
	for _, want := range []string{"the top", "54¼ in (137.8 cm)", "5⅜ in (13.7 cm)", "94½ in (240 cm)", "(71.2 cm) clear"} {
		if !strings.Contains(r.Freight.Notes[i], want) {
			t.Errorf("%q does not say %q", r.Freight.Notes[i], want)
		}
	}
}

// A right triangle of 90 x 60 cm has its middle at a third of each side, 30 and
// 20 cm; a base of the weight of the top stands under the middle of its box, at
// 45 and 30 cm: together 37.5 and 25 cm.
func TestCentreOfMassInPlan(t *testing.T) {
	r := build(t, spec(t, `serial: OY-0392
title: Wedge
kind: side table
finished: 2026-03-03
units: cm
base: {material: steel, height: 50, weight: 9 kg, footprint: {length: 80, width: 50}}
top: {outline: {points: [[100, 40], [190, 40], [100, 100]]}, thickness: 4, weighed: 9 kg, wood: [{species: black-walnut}]}
`), nil)
	for k, want := range map[string]float64{"centre_of_mass_along_mm": 375, "centre_of_mass_across_mm": 250} {
		if f := r.Figures[k]; f.Value != want || f.Unit != "mm" {
			t.Errorf("%s: %+v, want %g mm", k, f, want)
		}
	}
}
