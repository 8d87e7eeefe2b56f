package report

import (
	"fmt"
	"maps"
	"math"
	"os"
	"slices"
	"strings"
	"sync"
	"testing"

	"slabfolio/listing/figure"
	"slabfolio/listing/geometry"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

// english is read once, as a run does it.
var english = sync.OnceValues(func() (*templates.Words, error) { return templates.Open("en") })

func words(t *testing.T) *templates.Words {
	t.Helper()
	w, err := english()
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func parse(t *testing.T, file string) *piece.Piece {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	p, findings := piece.ParsePiece("piece.yaml", data, piece.Defaults{})
	for _, f := range findings {
		if f.Rank == piece.Fault {
			t.Fatalf("%s: %s:%d: %s", file, f.File, f.Line, f.Message)
		}
	}
	return p
}

func build(t *testing.T, p *piece.Piece, w *piece.Workshop) *Report {
	t.Helper()
	r, err := Build(p, w, Options{Words: words(t)})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The console table of the contract: 54 x 16 in, base 28 3/8 in, top 1 5/8 in.
func TestSizesOfTheConsole(t *testing.T) {
	p := parse(t, "testdata/console.yaml")
	p.Seats = piece.Of(2)
	r := build(t, p, nil)
	d := r.Public.Dimensions
	if r.Public.Seats != 2 || r.Figures["seats"].Rule != "as the maker says" {
		t.Errorf("%d seats by %q", r.Public.Seats, r.Figures["seats"].Rule)
	}
	if d.Text.In != "54 × 16 × 30 in" || d.Text.Cm != "137.2 × 40.6 × 76.2 cm" {
		t.Errorf("got %+v", d.Text)
	}
	if *d.Knee != 625.48 { // 625.475
		t.Errorf("knee room %g mm, want (28 3/8 - 3 3/4) in = 625.48", *d.Knee)
	}
	if got := units.Length(*d.TopThickness).Text(units.Centimetres); got != "4.1 cm" || r.Figures["dimensions.top_thickness_mm"].Value != *d.TopThickness {
		t.Errorf("thickness %s, %g mm, want 1 5/8 in = 41.275 mm = 4.1 cm", got, *d.TopThickness)
	}
}

// Knee room is a question of what somebody sits at: of a desk always, of a console
// only where the spec says for how many, of a bench never, though it has seats.
func TestKneeRoomOfWhatIsSatAt(t *testing.T) {
	for _, c := range []struct {
		kind  string
		seats int
		want  bool
	}{
		{"console table", 0, false}, {"console table", 2, true}, {"desk", 0, true}, {"dining table", 0, true}, {"bench", 3, false}, {"stool", 1, false},
	} {
		p := parse(t, "../../testdata/demo/OY-0208/piece.yaml")
		p.Kind = piece.Of(c.kind)
		if c.seats > 0 {
			p.Seats = piece.Of(c.seats)
		}
		if got := build(t, p, nil).Public.Dimensions.Knee != nil; got != c.want {
			t.Errorf("%s with %d seats: knee room told: %v, want %v", c.kind, c.seats, got, c.want)
		}
	}
}

// By hand for the same piece: 17 kg of top and 10.8 kg of base on the scale, a
// drawer, 1.1 kg of slides.
func TestWeightOfTheConsole(t *testing.T) {
	r := build(t, parse(t, "testdata/console.yaml"), nil)
	w := r.Public.Weight
	sum := 0.0
	for _, p := range r.WeightParts {
		sum += p.Kg
	}
	if w == nil || math.Abs(w.Kg-sum) > 0.01 || !(w.Low < w.Kg && w.Kg < w.High) {
		t.Fatalf("weight %+v, parts sum to %g", w, sum)
	}
	if *w.Weighed != 31.4 {
		t.Errorf("weighed %g", *w.Weighed)
	}
	if f := r.Figures["weight.kg"]; f.Value != w.Kg {
		t.Errorf("the figure says %g, the weight %g", f.Value, w.Kg)
	}
}

func TestWeightTexts(t *testing.T) {
	b := &builder{words: words(t)}
	for _, c := range []struct {
		kg, low, high float64
		wantKg, lb    string
	}{
		{31.02, 28.2, 33.9, "31 kg, between 28 and 34", "68 lb, between 62 and 75"},
		{12.34, 9.6, 14.7, "12 kg, between 10 and 15", "27 lb, between 21 and 32"},
		{31.02, 30.9, 31.2, "31 kg", "68 lb"}, // a range in one system alone would read as a doubt about the scale
		{1.27, 1.06, 1.49, "1.3 kg, between 1.1 and 1.5", "2.8 lb, between 2.3 and 3.3"},
		{0.127, 0.106, 0.149, "130 g, between 110 and 150", "4.5 oz, between 3.7 and 5.3"},
		{0.0793, 0.0681, 0.0963, "80 g, between 70 and 95", "2.8 oz, between 2.4 and 3.4"}, // a coaster
		{3.44, 3.1, 3.9, "3.4 kg, between 3.1 and 3.9", "7.6 lb, between 6.8 and 8.6"},
	} {
		got := b.weightTexts(c.kg, c.low, c.high)
		if got.Kg != c.wantKg || got.Lb != c.lb {
			t.Errorf("%g kg: %q, %q; want %q, %q", c.kg, got.Kg, got.Lb, c.wantKg, c.lb)
		}
	}
}

func workshop(t *testing.T, text string) *piece.Workshop {
	t.Helper()
	w, findings := piece.ParseWorkshop("workshop.yaml", []byte(text))
	for _, f := range findings {
		t.Fatalf("%s:%d %s", f.File, f.Line, f.Message)
	}
	return w
}

func TestTheWorkshopsOwnProductsGoFirst(t *testing.T) {
	w := workshop(t, `
workshop: {name: Ostrel Yard, email: post@ostrel.example}
currency: EUR
finishes:
  - {product: Tin of the good oil, family: hardwax-oil, light_use: 3 days, cure_from: 4 days, cure_to: 6 days, clean: damp cloth only, food_contact: Tested to EN 1186 by its maker}
resins:
  - {product: Deep clear, chemistry: epoxy, heat: 52 C}
`)
	r := build(t, parse(t, "testdata/console.yaml"), w)
	f := r.Public.Finish
	if f.LightUseFrom != "2026-09-19" || f.FullCureFrom != "2026-09-20" || f.FullCureTo != "2026-09-22" {
		t.Errorf("dates %+v; the sheet says 3, 4 and 6 days after 2026-09-16", f)
	}
	texts := ""
	for _, p := range append(r.Public.Care, r.Public.Cautions...) {
		texts += p.Text + "\n"
	}
	for _, want := range []string{"Damp cloth only.", "52 °C (126 °F)"} {
		if !strings.Contains(texts, want) {
			t.Errorf("the texts lack %q", want)
		}
	}
	if r.Public.Maker == nil || r.Public.Maker.Name != "Ostrel Yard" {
		t.Errorf("maker %+v", r.Public.Maker)
	}
}

func TestAltText(t *testing.T) {
	pub := &Public{Title: "Estuary", Kind: "console table", Materials: []Material{
		{Name: "Wych elm", Role: "wood"}, {Name: "Cast resin", Detail: "smoke grey, translucent", Role: "resin"}, {Name: "Steel", Role: "base"}}}
	for _, c := range []struct{ view, caption, want string }{
		{"three-quarter", "", "Console table in wych elm and smoke grey resin, seen from one corner"},
		{"above", "", "Console table in wych elm and smoke grey resin, seen from above"},
		{"end grain", "The iron staple.", "End grain of the console table in wych elm and smoke grey resin, close up. The iron staple"},
		{"maker's mark", "", "The maker’s mark on the console table in wych elm and smoke grey resin"},
		{"", "", "Console table in wych elm and smoke grey resin"},
		{"something new", "", "Console table in wych elm and smoke grey resin"},
	} {
		if got := altText(words(t), pub, c.view, c.caption); got != c.want {
			t.Errorf("%s: %q, want %q", c.view, got, c.want)
		}
	}
	for _, view := range piece.Views {
		got := altText(words(t), pub, view, strings.Repeat("a long caption ", 60))
		if n := len([]rune(got)); n > 250 || n < 100 {
			t.Errorf("%s: %d characters", view, n)
		}
		if low := strings.ToLower(got); strings.Contains(low, "image of") || strings.Contains(low, "photo of") || strings.Contains(low, "picture of") {
			t.Errorf("%s: %q", view, got)
		}
	}
	if got := altText(words(t), &Public{}, "", ""); got == "" {
		t.Error("nothing is said of a piece without words")
	}
}

func TestContradictionsAreFound(t *testing.T) {
	for _, c := range []struct {
		name, code string
		change     func(*piece.Piece)
	}{
		{"resin past its date", "date.expired", func(p *piece.Piece) { p.Materials[0].Expires = piece.Of(piece.Date{Year: 2026, Month: 9, Day: 17}) }},
		{"in stock with a buyer", "availability.sold", func(p *piece.Piece) { p.Availability = piece.Of("in stock") }},
		{"drawer below the floor", "part.below-floor", func(p *piece.Piece) { p.Parts[0].BelowTop = piece.Of(units.Length(900)) }},
		{"overhang against footprint", "top.overhang", func(p *piece.Piece) { p.Top.Overhang = piece.Of(units.Length(200)) }},
		{"a bar of a console", "size.height", func(p *piece.Piece) { p.Base.Height = piece.Of(units.Length(900)) }},
		{"too little knee room", "size.knee", func(p *piece.Piece) { p.Kind = piece.Of("desk"); p.Parts[0].BelowTop = piece.Of(units.Length(200)) }},
		{"slot too short", "fixing.slot-short", func(p *piece.Piece) { p.Base.Fixing.Slot = piece.Of(units.Length(9)) }},
		{"fixed across the grain, distance unsaid", "fixing.rigid-across-grain", func(p *piece.Piece) {
			p.Base.Fixing = &piece.Fixing{At: p.Base.At, Bolt: piece.Of("M8"), Holes: piece.Of("fixed")}
		}},
		{"glued down, in words", "fixing.rigid-across-grain", func(p *piece.Piece) {
			p.Base.Fixing = &piece.Fixing{At: p.Base.At, Text: piece.Of("glued to the frames, and screwed")}
		}},
		{"board edged across the grain", "movement.crossed-grain", func(p *piece.Piece) {
			p.Top.Wood = append(p.Top.Wood, piece.Wood{At: p.Base.At, Species: piece.Of("white-oak"), Grain: piece.Of("along width")})
		}},
		{"two woods that move unlike", "movement.two-woods", func(p *piece.Piece) {
			p.Top.Wood = []piece.Wood{{At: p.Base.At, Species: piece.Of("american-beech"), Cut: piece.Of("flat-sawn")}, {At: p.Base.At, Species: piece.Of("western-redcedar"), Cut: piece.Of("flat-sawn")}}
		}},
		{"a price of no currency", "price.no-currency", func(p *piece.Piece) { p.Price.Currency = piece.Value[string]{} }},
		{"a price finer than its coins", "price.fine", func(p *piece.Piece) { p.Price.Amount.V = 1890.999 }},
		{"below cost", "price.below-cost", func(p *piece.Piece) {}},
		{"no finish", "finish.missing", func(p *piece.Piece) { p.Finish = nil }},
		{"no base", "base.missing", func(p *piece.Piece) { p.Base = nil }},
		{"wood from the yard", "wood.wet", func(p *piece.Piece) { p.Top.Wood[0].Moisture.Reading = piece.Of(units.Percent(28)) }},
		{"no moisture reading", "wood.no-reading", func(p *piece.Piece) { p.Top.Wood[0].Moisture = nil }},
		{"left before the cure", "packing.before-cure", func(p *piece.Piece) { p.Buyer.Delivered = piece.Of(piece.Date{Year: 2026, Month: 9, Day: 20}) }},
		{"packed before the cure, says the log", "packing.before-cure", func(p *piece.Piece) {
			p.Log = []piece.LogEntry{{At: p.Base.At, Date: piece.Of(piece.Date{Year: 2026, Month: 9, Day: 20}), Did: piece.Of("wrapped for the van")}}
		}},
		{"solid crate over a border", "packing.ispm15", func(p *piece.Piece) {}},
		{"heavy for a carton", "packing.heavy-carton", func(p *piece.Piece) { p.Packing.How, p.Packing.Legs = piece.Of("carton"), piece.Of("on") }},
		{"crate of what", "packing.crate", func(p *piece.Piece) { p.Packing.Crate = piece.Of("gingerbread") }},
		{"too long to be stood up", "passage.ceiling", func(p *piece.Piece) { p.Top.Outline.Length = piece.Of(units.Length(2500)) }},
		{"more top than slab", "costs.yield", func(p *piece.Piece) {
			p.Costs.Slabs = []piece.BoughtSlab{{At: p.Base.At, Size: []piece.Value[units.Length]{piece.Of(units.Length(500)), piece.Of(units.Length(300)), piece.Of(units.Length(50))}}}
		}},
		{"a listed wood", "wood.listed", func(p *piece.Piece) {
			p.Top.Wood[0].Species = piece.Of("Dalbergia nigra")
			p.Top.Wood[0].Density = piece.Of(units.Density(850))
		}},
	} {
		p := parse(t, "testdata/console.yaml")
		count := func(p *piece.Piece) int {
			n := 0
			for _, f := range build(t, p, nil).Findings {
				if f.Code == c.code {
					n++
					if f.Message == "" || f.Remedy == "" || f.File == "" {
						t.Errorf("%s: %+v", c.name, f)
					}
				}
			}
			return n
		}
		before := count(p)
		c.change(p)
		after := count(p)
		always := c.code == "price.below-cost" || c.code == "packing.ispm15"
		if after != 1 || (before != 0) != always {
			t.Errorf("%s: %s found %d times before, %d after", c.name, c.code, before, after)
		}
	}
}

// What is not said is absent, with a reason; nothing is made up in its place.
func TestAbsentFiguresSayWhy(t *testing.T) {
	for _, c := range []struct {
		name, key string
		change    func(*piece.Piece)
		gone      func(*Public) bool
	}{
		{"no base height", "dimensions.height_mm", func(p *piece.Piece) { p.Base.Height = piece.Value[units.Length]{} }, func(q *Public) bool { return q.Dimensions.Height == nil }},
		{"no packing", "shipping.packages", func(p *piece.Piece) { p.Packing = nil }, func(q *Public) bool { return len(q.Shipping.Packages) == 0 && q.Shipping.PeopleToLift == 2 }},
		{"no packing", "freight", func(p *piece.Piece) { p.Packing = nil }, nil},
		{"no base", "weight.kg", func(p *piece.Piece) { p.Base, p.Weighed = nil, piece.Value[units.Mass]{} }, func(q *Public) bool { return q.Weight == nil }},
		{"no base", "dimensions.knee_clearance_mm", func(p *piece.Piece) { p.Base = nil }, func(q *Public) bool { return q.Dimensions.Knee == nil }},
		{"no fixing", "movement.between_fixings_mm", func(p *piece.Piece) { p.Base.Fixing = nil }, nil},
		{"a fixing in words", "movement.between_fixings_mm", func(p *piece.Piece) { p.Base.Fixing = &piece.Fixing{Text: piece.Of("glued")} }, nil},
		{"no distance across", "movement.between_fixings_mm", func(p *piece.Piece) { p.Base.Fixing.Across = piece.Value[units.Length]{} }, nil},
		{"no footprint", "overhang_side_mm", func(p *piece.Piece) { p.Base.FootprintWidth = piece.Value[units.Length]{} }, nil},
		{"no footprint, no overhang", "overhang_end_mm", func(p *piece.Piece) {
			p.Base.FootprintLength, p.Top.Overhang = piece.Value[units.Length]{}, piece.Value[units.Length]{}
		}, nil},
		{"no footprint", "stability", func(p *piece.Piece) { p.Base.FootprintLength = piece.Value[units.Length]{} }, nil},
		{"no costs", "costs", func(p *piece.Piece) { p.Costs = nil }, nil},
		{"no finish", "finish", func(p *piece.Piece) { p.Finish = nil }, func(q *Public) bool { return q.Finish == nil }},
		{"soap never cures", "finish.full_cure_to", func(p *piece.Piece) { p.Finish.Family = piece.Of("soap") }, func(q *Public) bool { return q.Finish.FullCureTo == "" }},
		{"base of unknown weight, and no scale", "weight.kg", func(p *piece.Piece) { p.Base.Weight, p.Weighed = piece.Value[units.Mass]{}, piece.Value[units.Mass]{} }, func(q *Public) bool { return q.Weight == nil }},
		{"base of unknown weight, but a scale", "weight.estimate_kg", func(p *piece.Piece) { p.Base.Weight = piece.Value[units.Mass]{} }, func(q *Public) bool { return q.Weight.Kg == 31.4 }},
		{"unknown wood", "movement", func(p *piece.Piece) { p.Top.Wood[0].Species = piece.Of("no such wood") }, func(q *Public) bool { return q.Movement == nil }},
	} {
		p := parse(t, "testdata/console.yaml")
		p.Seats = piece.Of(2) // somebody sits at it
		if r := build(t, p, nil); r.Absent[c.key] != "" {
			t.Errorf("%s is absent from the whole piece: %s", c.key, r.Absent[c.key])
		}
		c.change(p)
		r := build(t, p, nil)
		if r.Absent[c.key] == "" {
			t.Errorf("%s: no reason for %s; there are %v", c.name, c.key, slices.Sorted(maps.Keys(r.Absent)))
		}
		if _, there := r.Figures[c.key]; there {
			t.Errorf("%s: %s is absent and there", c.name, c.key)
		}
		if c.gone != nil && !c.gone(&r.Public) {
			t.Errorf("%s: the public side still has it", c.name)
		}
	}
}

// An outline that is measured from a photo comes in from outside.
func TestOutlineFromAPhoto(t *testing.T) {
	p := parse(t, "testdata/console.yaml")
	p.Top.Outline = piece.Outline{At: p.Top.At, Photo: piece.Of("plan.jpg")}
	p.Top.Resin[0].Area = piece.Value[units.Percent]{}
	p.Top.Resin[0].Mixed = piece.Amount{}
	p.Top.Resin[0].LeftOver = piece.Amount{}
	r := build(t, p, nil)
	if r.Public.Dimensions.Length != nil || r.Absent["dimensions.length_mm"] == "" || r.Absent["dimensions.top_area_m2"] == "" {
		t.Errorf("sizes from nowhere: %+v, %v", r.Public.Dimensions, r.Absent)
	}
	plan, err := geometry.TracedWithin([][2]float64{{0, 0}, {1000, 0}, {1000, 500}, {0, 500}}, 4)
	if err != nil {
		t.Fatal(err)
	}
	share := figure.Figure{Value: 0.2, Low: 0.19, High: 0.21, Unit: "1", Rule: "counted on the photo", Source: "plan.jpg"}
	r, err = Build(p, nil, Options{Words: words(t), Plan: plan, PlanResinShare: &share})
	if err != nil {
		t.Fatal(err)
	}
	d := r.Public.Dimensions
	if d.TopArea == nil || math.Abs(*d.TopArea-0.5) > 1e-9 || d.ResinArea == nil || math.Abs(*d.ResinArea-0.1) > 1e-9 {
		t.Errorf("areas %+v, want 0.5 and 0.1 m2", d)
	}
	if r.Drawing.Resin != nil || r.Figures["movement.wood_across_mm"].Value != 0 {
		t.Error("resin lies where nobody saw it")
	}
	river := [][][2]float64{{{0, 200}, {1000, 200}, {1000, 300}, {0, 300}}}
	if r, err = Build(p, nil, Options{Words: words(t), Plan: plan, PlanResinShare: &share, PlanResin: river}); err != nil {
		t.Fatal(err)
	}
	if len(r.Drawing.Resin) != 1 || math.Abs(r.Figures["movement.wood_across_mm"].Value-400) > 0.1 {
		t.Errorf("drawn resin %v, wood across %v, want the river and 400 mm", r.Drawing.Resin, r.Figures["movement.wood_across_mm"])
	}
	r2 := build(t, parse(t, "testdata/console.yaml"), nil)
	if r2.Drawing.Resin != nil {
		t.Error("an outline that is no photo's has resin drawn")
	}
}

// In English the maker's own units come first, those of the piece before those of the
// workshop; elsewhere metric ones do, in the short texts too, which have room for one
// system; what the command line asks for goes before all of it.
func TestWhatIsPrintedFirstInALanguage(t *testing.T) {
	src, err := os.ReadFile("testdata/console.yaml")
	if err != nil {
		t.Fatal(err)
	}
	without := strings.Replace(string(src), "units: in\n", "", 1)
	metric := strings.Replace(string(src), "units: in\n", "units: mm\n", 1)
	for _, c := range []struct {
		lang, text, shop string
		flag             units.System
		want             units.System
		short            string
	}{
		{"en", string(src), "units: cm\n", "", units.Inches, "54 × 16"},
		{"en", without, "units: in\n", "", units.Inches, "54 × 16"},
		{"de", string(src), "units: in\n", "", units.Centimetres, "137,2 × 40,6"},
		{"fr", without, "units: in\n", "", units.Centimetres, "137,2 × 40,6"},
		{"nl", metric, "units: in\n", "", units.Millimetres, "137,2 × 40,6"},
		{"es", string(src), "units: in\n", units.Inches, units.Inches, "54 × 16"},
	} {
		w, findings := piece.ParseWorkshop("workshop.yaml", []byte(c.shop))
		if len(findings) > 0 {
			t.Fatal(findings)
		}
		p, _ := piece.ParsePiece("piece.yaml", []byte(c.text), w.Defaults())
		spoken, err := templates.Open(c.lang)
		if err != nil {
			t.Fatal(err)
		}
		r, err := Build(p, w, Options{Words: spoken, Lang: c.lang, Prefer: c.flag})
		if err != nil {
			t.Fatal(err)
		}
		if r.Prefer != c.want {
			t.Errorf("%s, workshop %q, flag %q: %s is first, want %s", c.lang, c.shop, c.flag, r.Prefer, c.want)
		}
		if d := r.Public.Texts.Descriptions.Upto160; !strings.Contains(d, c.short) {
			t.Errorf("%s, workshop %q, flag %q: %q does not hold %s", c.lang, c.shop, c.flag, d, c.short)
		}
	}
}

// Lengths of the same piece in the order that the maker, or the flag, prefers.
func TestWhatIsPrintedFirst(t *testing.T) {
	p := parse(t, "testdata/console.yaml")
	for _, c := range []struct {
		prefer units.System
		want   string
	}{{units.Inches, "69.2 lb (31.4 kg)"}, {units.Centimetres, "31.4 kg (69.2 lb)"}, {units.Millimetres, "31.4 kg (69.2 lb)"}} {
		r, err := Build(p, nil, Options{Words: words(t), Prefer: c.prefer})
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, x := range r.Public.Cautions {
			found = found || strings.Contains(x.Text, c.want)
		}
		if !found || r.Prefer != c.prefer {
			t.Errorf("%s: no caution says %q", c.prefer, c.want)
		}
		if r.Public.Dimensions.Text.In != "54 × 16 × 30 in" {
			t.Errorf("%s: the inches are %q", c.prefer, r.Public.Dimensions.Text.In)
		}
	}
}

func TestDrawing(t *testing.T) {
	d := build(t, parse(t, "testdata/console.yaml"), nil).Drawing
	near := func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }
	if len(d.Outline) != 4 || !near(d.Length, 1371.6) || !near(d.Width, 406.4) || !near(d.Height, 762) || !near(d.BaseHeight, 720.725) ||
		!near(d.Footprint[0], 1117.6) || d.Grain != "along length" || !near(d.ResinShare, 0.18) || len(d.Parts) != 1 || !near(d.Parts[0].BelowTop, 95.25) {
		t.Errorf("%+v", d)
	}
}

func TestNamesForPeople(t *testing.T) {
	for _, c := range []struct{ said, want string }{
		{"wych-elm", "Wych elm"}, {"Ulmus glabra", "Wych elm"}, {"Old barn elm", "Old barn elm"}, {"black-walnut", "Black walnut"}} {
		p := parse(t, "testdata/console.yaml")
		p.Top.Wood[0].Species = piece.Of(c.said)
		if got := build(t, p, nil).Public.Materials[0].Name; got != c.want {
			t.Errorf("a wood said as %q is called %q, want %q", c.said, got, c.want)
		}
	}
	for _, c := range []struct{ said, want string }{
		{"steel", "steel"}, {"steel-carbon", "steel"}, {"black-walnut", "black walnut"}, {"American walnut", "American walnut"}, {"a cartwheel", "a cartwheel"}, {"bog-iron", "bog iron"}} {
		p := parse(t, "testdata/console.yaml")
		p.Base.Material = piece.Of(c.said)
		if got := build(t, p, nil).Public.Base.Material; got != c.want {
			t.Errorf("a base of %q is called %q, want %q", c.said, got, c.want)
		}
	}
}

func TestALogSaysWhenThePieceLeft(t *testing.T) {
	for did, want := range map[string]bool{"Packed in a crate": true, "sent by carrier": true, "Collected, by the buyer": true, "presented at a show": false, "oiled again": false, "": false} {
		if got := saysItLeft(did); got != want {
			t.Errorf("leaves(%q) = %v", did, got)
		}
	}
}

// Nobody asks who lifts a coaster.
func TestNoLiftOfNextToNothing(t *testing.T) {
	small := "serial: C-1\ntitle: Coaster\nkind: other\nfinished: 2026-11-05\ntop: {outline: {diameter: %s}, thickness: 10 mm, wood: [{species: european-beech}]}\n"
	for diameter, want := range map[string]bool{"10 cm": false, "60 cm": true} {
		r, err := Build(spec(t, fmt.Sprintf(small, diameter)), nil, Options{Words: words(t)})
		if err != nil {
			t.Fatal(err)
		}
		text := ""
		if s := r.Public.Shipping; s != nil {
			text = s.Text
		}
		counted := r.Public.Shipping != nil && r.Public.Shipping.PeopleToLift > 0
		if said := strings.Contains(text, "can lift"); said != want || counted != want {
			t.Errorf("%s across: %q, counted %v", diameter, text, counted)
		}
	}
}

// What is said to be "up to about" is never less than what was reckoned, but
// for a twentieth of the step that is printed.
func TestSmallLengthsRoundUp(t *testing.T) {
	b := &builder{words: words(t), r: &Report{Prefer: units.Millimetres}}
	for mm, want := range map[float64]string{3.4: "4 mm (3⁄16 in)", 3.04: "3 mm (⅛ in)", 2.1: "3 mm (⅛ in)", 2.02: "2 mm (⅛ in)", 0.1: "1 mm (1⁄16 in)"} {
		if got := b.smallLength(mm); got != want {
			t.Errorf("%g mm is written %q, want %q", mm, got, want)
		}
	}
}

// Words beside a wood's name are kept as its description, and its figures are
// those of the wood.
func TestQualityOfAWoodIsKept(t *testing.T) {
	for said, want := range map[string][2]string{"spalted-european-beech": {"European beech", "spalted"}, "Wych elm burl": {"Wych elm burl", ""}, "wych-elm": {"Wych elm", ""}} {
		p := parse(t, "testdata/console.yaml")
		p.Top.Wood[0].Species, p.Top.Wood[0].Cut, p.Top.Wood[0].Grain = piece.Of(said), piece.Value[string]{}, piece.Value[string]{}
		m := build(t, p, nil).Public.Materials[0]
		if m.Name != want[0] || m.Detail != want[1] || m.Botanical == "" {
			t.Errorf("%q: %+v, want %v", said, m, want)
		}
	}
}

// Photos that would be described alike say which they are; others are left alone.
func TestAltTextsTellPhotosApart(t *testing.T) {
	pub := &Public{Kind: "console table"}
	photos := []Pictured{{"detail", ""}, {"front", ""}, {"detail", ""}, {"detail", "The staple"}, {"", ""}, {"", ""}, {"detail", strings.Repeat("long ", 80)}, {"detail", strings.Repeat("long ", 80)}}
	alts := AltTexts(words(t), pub, photos)
	seen := map[string]bool{}
	for i, a := range alts {
		if seen[a] {
			t.Errorf("photo %d is described like another: %q", i+1, a)
		}
		seen[a] = true
		if n := len([]rune(a)); n > 250 || n == 0 {
			t.Errorf("photo %d has a description of %d characters", i+1, n)
		}
	}
	if alts[1] != altText(words(t), pub, "front", "") {
		t.Errorf("the only front is described as %q", alts[1])
	}
}
