package care

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
	"slabfolio/templates"
	"slabfolio/testdata/beside"
)

func tables(t *testing.T) Tables {
	t.Helper()
	tab, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	return tab
}

func TestEveryFamilyOfTheSpecIsInTheTable(t *testing.T) {
	tab := tables(t)
	for _, id := range piece.FinishFamilies {
		f, ok := tab.Family(id)
		if !ok {
			t.Errorf("%s is not in the table", id)
			continue
		}
		if f.Source == "" || f.Confidence == "" {
			t.Errorf("%s has no source", id)
		}
		if f.Light.From > f.Light.To || f.Cure.From > f.Cure.To || f.Cure.To > 0 && f.Cure.To < f.Light.From {
			t.Errorf("%s: days out of order: %+v %+v", id, f.Light, f.Cure)
		}
	}
	if len(tab.Families) != len(piece.FinishFamilies) {
		t.Errorf("%d families in the table, %d in the spec", len(tab.Families), len(piece.FinishFamilies))
	}
}

// The published table of finish families, row by row: days to light use and to
// full cure, resistances, and the usual renewal.
func TestTableAgreesWithTheReference(t *testing.T) {
	names := map[string]string{
		"hardwax oil (oil + wax, 1K)": "hardwax-oil", "hardwax oil with isocyanate/other accelerator (2K)": "hardwax-oil-2k",
		"linseed oil, raw": "linseed-oil-raw", `linseed oil, "boiled" (driers)`: "linseed-oil-boiled", "tung oil, pure": "tung-oil",
		`oil-varnish blend (wiping, "Danish" type)`: "oil-varnish-blend", "alkyd/polyurethane varnish, oil based": "varnish",
		"waterborne polyurethane/acrylic, 1K": "polyurethane-waterborne", "polyurethane, 2K (solvent or water)": "polyurethane-2k",
		"conversion varnish (acid-cured)": "conversion-varnish", "nitrocellulose lacquer": "nitrocellulose-lacquer", "shellac": "shellac",
		"wax over bare wood or over finish": "wax", "soap finish (soap flakes)": "soap", "epoxy flood/top coat": "epoxy-topcoat",
	}
	tab, seen := tables(t), 0
	for _, line := range strings.Split(string(beside.Read(t, "reference/finishes.md")), "\n") {
		c := strings.Split(line, "|")
		if len(c) != 15 || names[strings.TrimSpace(c[1])] == "" {
			continue
		}
		for i := range c {
			c[i] = strings.TrimSpace(c[i])
		}
		seen++
		f, _ := tab.Family(names[c[1]])
		if got, want := f.Light, days(c[5]); got != want {
			t.Errorf("%s: light use %v, want %v from %q", f.ID, got, want, c[5])
		}
		if got, want := f.Cure, days(c[6]); got != want {
			t.Errorf("%s: full cure %v, want %v from %q", f.ID, got, want, c[6])
		}
		for i, got := range map[int]string{7: f.Water, 9: f.Alcohol, 10: f.Alkali} {
			if want := firstWords(c[i]); got != want {
				t.Errorf("%s: column %d is %q, want %q", f.ID, i, got, want)
			}
		}
		if got, want := f.Renew, months(c[13]); got != want {
			t.Errorf("%s: renewal %v months, want %v from %q", f.ID, got, want, c[13])
		}
	}
	if seen != len(names) {
		t.Errorf("%d of %d rows were found in the reference", seen, len(names))
	}
}

var number = regexp.MustCompile(`\d+`)

// span reads "2-3 d", "4-10 wk", "1 d", "2 wk" in the smaller unit.
func span(s string, unit int) Span {
	n := number.FindAllString(s, 2)
	if len(n) == 0 {
		return Span{}
	}
	a, _ := strconv.Atoi(n[0])
	b, _ := strconv.Atoi(n[len(n)-1])
	return Span{a * unit, b * unit}
}

func days(s string) Span {
	if strings.Contains(s, "none") {
		return Span{}
	}
	if strings.Contains(s, "wk") {
		return span(s, 7)
	}
	return span(s, 1)
}

func months(s string) Span {
	m := span(s, 1)
	if strings.Contains(s, "y") && !strings.Contains(s, "mo") {
		m = span(strings.Split(s, ", or")[0], 12)
	}
	if strings.Contains(s, "y+") {
		m.To = 0
	}
	return m
}

// firstWords drops what stands in brackets or behind a comma.
func firstWords(s string) string {
	return strings.TrimSpace(strings.Split(strings.Split(s, "(")[0], ",")[0])
}

func day(y, m, d int) piece.Date { return piece.Date{Year: y, Month: m, Day: d} }

func TestDates(t *testing.T) {
	tab := tables(t)
	for _, c := range []struct {
		name, family string
		last         piece.Date
		product      *piece.FinishProduct
		light        string
		from, to     string
	}{
		// hardwax oil: 2-3 d, 10-28 d
		{"the contract's example", "hardwax-oil", day(2026, 9, 16), nil, "2026-09-19", "2026-09-26", "2026-10-14"},
		{"over a leap day", "hardwax-oil", day(2028, 2, 27), nil, "2028-03-01", "2028-03-08", "2028-03-26"},
		{"over the year's end", "linseed-oil-raw", day(2026, 12, 20), nil, "2027-01-03", "2027-01-17", "2027-02-28"},
		{"soap never hardens", "soap", day(2026, 1, 1), nil, "2026-01-03", "", ""},
		{"board oil never hardens", "board-oil", day(2026, 1, 1), nil, "2026-01-02", "", ""},
		{"bare wood is ready as it is", "bare", day(2026, 1, 1), nil, "", "", ""},
		{"the product's own sheet wins", "hardwax-oil", day(2026, 1, 1),
			&piece.FinishProduct{LightUseDays: piece.Of(1), CureDaysFrom: piece.Of(5), CureDaysTo: piece.Of(7)}, "2026-01-02", "2026-01-06", "2026-01-08"},
		{"one figure of the sheet", "hardwax-oil", day(2026, 1, 1), &piece.FinishProduct{CureDaysTo: piece.Of(7)}, "2026-01-04", "2026-01-08", "2026-01-08"},
		{"no date", "hardwax-oil", piece.Date{}, nil, "", "", ""},
	} {
		f, _ := tab.Family(c.family)
		d := DatesFor(f, c.product, c.last)
		if ISO(d.LightUse) != c.light || ISO(d.CureFrom) != c.from || ISO(d.CureTo) != c.to {
			t.Errorf("%s: got %s, %s, %s; want %s, %s, %s", c.name, ISO(d.LightUse), ISO(d.CureFrom), ISO(d.CureTo), c.light, c.from, c.to)
		}
	}
}

// A product's own days: where its sheet has both ends the wrong way round the later
// one counts, where it has one end the family's other end gives way.
func TestAProductsDaysNeverCross(t *testing.T) {
	f := Family{Light: Span{From: 1, To: 3}, Cure: Span{From: 14, To: 28}}
	days := func(n int) piece.Value[int] {
		if n == 0 {
			return piece.Value[int]{}
		}
		return piece.Of(n)
	}
	for _, c := range []struct{ from, to, wantFrom, wantTo int }{
		{0, 0, 14, 28}, {20, 0, 20, 28}, {40, 0, 40, 40}, {0, 20, 14, 20}, {0, 7, 7, 7}, {5, 7, 5, 7}, {20, 10, 20, 20},
	} {
		last := day(2026, 9, 1)
		d := DatesFor(f, &piece.FinishProduct{CureDaysFrom: days(c.from), CureDaysTo: days(c.to)}, last)
		if from, to := Days(last, d.CureFrom), Days(last, d.CureTo); from != c.wantFrom || to != c.wantTo {
			t.Errorf("its sheet says %d to %d days: cured from day %d to %d, want %d to %d", c.from, c.to, from, to, c.wantFrom, c.wantTo)
		}
	}
}

// Go's own calendar is the outside check: 4000 days on, one at a time.
func TestAddDaysAgreesWithTheCalendar(t *testing.T) {
	at := time.Date(1996, 2, 27, 12, 0, 0, 0, time.UTC)
	for n := range 4000 {
		want := at.Add(time.Duration(n) * 24 * time.Hour).Format("2006-01-02")
		got := AddDays(day(1996, 2, 27), n)
		if ISO(got) != want || Days(day(1996, 2, 27), got) != n {
			t.Fatalf("%d days on: %s, want %s", n, ISO(got), want)
		}
	}
}

func texts(t *testing.T) *templates.Words {
	t.Helper()
	w, err := templates.Open("en")
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func ids(list []Paragraph) map[string]Paragraph {
	m := map[string]Paragraph{}
	for _, p := range list {
		m[p.ID] = p
	}
	return m
}

// lifts are the steps of package shipping.
var lifts = []string{"one", "one-with-care", "two", "more", "machine"}

// written is one input and what is said of it.
type written struct {
	in             Input
	care, cautions []Paragraph
}

var all []written

// every runs Write over every kind and family, each in a third of all conditions,
// and does something with each.
func every(t *testing.T, do func(Input, []Paragraph, []Paragraph)) {
	t.Helper()
	if all == nil {
		writeAll(t)
	}
	for _, w := range all {
		do(w.in, w.care, w.cautions)
	}
}

func writeAll(t *testing.T) {
	tab, w := tables(t), texts(t)
	for _, kind := range piece.Kinds {
		for _, id := range append([]string{""}, piece.FinishFamilies...) {
			for bits := range 128 {
				if (7*bits+bits/5+len(kind)+len(id))%3 != 0 {
					continue
				}
				in := Input{Kind: kind, WeightText: "31 kg (69 lb)", HasBase: bits&1 != 0, Drawer: bits&2 != 0, Glass: bits&2 != 0, Finished: day(2026, 9, 18), FixingsMove: bits&32 != 0}
				in.Sheen = []string{"", "gloss", "matt", "semi-gloss"}[bits>>1&3]
				in.Materials = [][]string{nil, {"leather", "glass"}, {"fabric", "stone"}, {"cord", "cane"}}[bits&3]
				in.Product = []string{"", "a tin", "walnut oil", "cold-pressed nut oil"}[bits>>3&3]
				if f, ok := tab.Family(id); ok {
					f = tab.Of(f, in.Product)
					in.Family, in.Dates = &f, DatesFor(f, nil, day(2026, 9, 16))
				}
				if bits&72 == 72 { // finished long after the last coat
					in.Finished = day(2027, 5, 1)
				}
				if bits&4 != 0 {
					in.Resin, in.ResinEpoxy, in.AllResin = true, bits&8 != 0, bits&35 == 35
					in.ResinBy = day(2026, 10, 16)
				}
				if bits&8 != 0 {
					in.WoodMoves, in.Tips, in.Topples = "3 mm (⅛ in)", true, bits&16 != 0
					if bits&16 != 0 {
						in.Settles, in.Reading = "12 mm (½ in)", "14.5 %"
					}
					in.Protected = []Protected{{"Dalbergia nigra", "I"}, {"Dalbergia latifolia", "II"}}
					in.Irritant = []string{"iroko", "yew"}[:1+bits>>4&1]
					in.Composite, in.Compliant = []string{"plywood"}, bits&16 != 0
					in.OldCoat = bits&32 != 0
				}
				if bits&48 == 48 {
					in.Sheet = &piece.FinishProduct{Clean: piece.Of("dust"), Avoid: piece.Of("rain"), Renew: piece.Of("never"), FoodContact: piece.Of("EU 1935/2004")}
					in.ResinHeat, in.Food, in.ResinFood = 52, "EU 1935/2004", []string{"", "EU 10/2011"}[bits&1]
				}
				in.WeightKg = []float64{2, 12, 31, 80}[bits>>5&3]
				in.Lift, in.LiftOff = lifts[(bits+len(id))%5], append(lifts, "")[(bits/5+len(id))%6]
				care, cautions := tab.Write(in, w)
				all = append(all, written{in, care, cautions})
			}
		}
	}
}

func TestEveryPhraseIsWholeAndEveryOneIsUsed(t *testing.T) {
	used := map[string]bool{}
	every(t, func(in Input, care, cautions []Paragraph) {
		for _, p := range append(append([]Paragraph{}, care...), cautions...) {
			used[p.ID] = true
			if p.Head == "" || len(p.Text) < 5 || strings.Contains(p.Text, "<no value>") || strings.Contains(p.Text, "  ") || strings.Contains(p.Text, "{{") {
				t.Fatalf("%s of a %s: head %q, text %q", p.ID, in.Kind, p.Head, p.Text)
			}
		}
		if len(cautions) > 0 && cautions[len(cautions)-1].ID != "caution.rules" {
			t.Fatalf("%+v: the cautions do not end with what holds for all of them", in)
		}
	})
	parts := regexp.MustCompile(`^(care|caution)\.(head|month|number|family|often|day$|day-of-year$|plain)`)
	for _, id := range texts(t).IDs() {
		if (strings.HasPrefix(id, "care.") || strings.HasPrefix(id, "caution.")) && !parts.MatchString(id) && !used[id] {
			t.Errorf("nobody ever reads the phrase %s", id)
		}
	}
}

// finishes.md, safety facts: rags wet with drying oils heat by themselves; a
// non-drying board oil, films and waxes do not. Walnut and other nut oils dry
// (iodine value above 130, common knowledge), whatever they are filed under.
func TestOilyRagsForDryingOilsOnly(t *testing.T) {
	drying := map[string]bool{"hardwax-oil": true, "hardwax-oil-2k": true, "linseed-oil-raw": true, "linseed-oil-boiled": true, "tung-oil": true, "oil-varnish-blend": true}
	every(t, func(in Input, care, cautions []Paragraph) {
		_, got := ids(cautions)["caution.rags"]
		nut := strings.Contains(in.Product, "nut oil") && familyOf(in) != "bare"
		if want := in.Family != nil && (drying[in.Family.ID] || nut); got != want {
			t.Fatalf("%s with %q: rags %v, want %v", familyOf(in), in.Product, got, want)
		}
		if _, ready := ids(care)["care.first-weeks.ready"]; ready && nut {
			t.Fatalf("%s with %q: nothing has to harden", familyOf(in), in.Product)
		}
	})
}

// What names an oil, and what only sounds like one.
func TestOilsInProductNames(t *testing.T) {
	tab := tables(t)
	for product, want := range map[string]string{"Walnut oil, heat-treated": "walnut oil", "walnut-oil": "walnut oil", "Dark walnut stain": "", "Pure TUNG": "tung oil", "tungsten grey lacquer": "",
		"cold-pressed nut oil": "nut oil", "coconut oil, fractionated": "mineral oil", "mineral oil and beeswax": "mineral oil", "boiled linseed": "linseed oil", "": "", "hardwax oil, clear": ""} {
		o, ok := tab.OilIn(product)
		if ok != (want != "") || o.Name != want {
			t.Errorf("%q: %q, want %q", product, o.Name, want)
		}
	}
	board, _ := tab.Family("board-oil")
	if f := tab.Of(board, "walnut oil"); !f.DryingOil || !f.hardens() || f.Light.To != 0 || f.Cure.To != 0 {
		t.Errorf("walnut oil under board-oil: %+v", f)
	}
	if f := tab.Of(board, "mineral oil"); f.DryingOil || f.hardens() {
		t.Errorf("mineral oil under board-oil: %+v", f)
	}
}

func familyOf(in Input) string {
	if in.Family == nil {
		return "no finish"
	}
	return in.Family.ID
}

func TestServingBoards(t *testing.T) {
	every(t, func(in Input, care, cautions []Paragraph) {
		m := ids(cautions)
		food := 0
		for id, p := range m {
			if !strings.HasPrefix(id, "caution.food") {
				continue
			}
			food++
			if !strings.Contains(id, "documented") && !strings.Contains(p.Text, "not certified for direct food contact") {
				t.Fatalf("%s: %q", id, p.Text)
			}
			if strings.Contains(id, "documented") && in.Food == "" && in.ResinFood == "" {
				t.Fatal("documented by nobody")
			}
		}
		_, dish := m["caution.dishwasher"]
		want := 0
		if in.Kind == "serving board" {
			want = 1
			if in.Resin {
				want = 2 // the resin has a word of its own
			}
		}
		if food != want || dish != (want > 0) {
			t.Fatalf("%s in %s: %d words on food, dishwasher %v", in.Kind, familyOf(in), food, dish)
		}
	})
}

// A wood that was read wet is told of beside its movement, and nowhere else.
func TestTheFirstWinterGoesWithTheSeasons(t *testing.T) {
	every(t, func(in Input, care, _ []Paragraph) {
		m := ids(care)
		_, got := m["care.settling"]
		if want := in.Settles != "" && in.Kind != "serving board"; got != want {
			t.Fatalf("%s in %s: %v, want %v", in.Kind, familyOf(in), got, want)
		}
	})
}

// A panel of wood that is fixed all over splits: whoever hangs it is told how far
// it moves. Common practice.
func TestHangingLetsAPanelMove(t *testing.T) {
	every(t, func(in Input, _, cautions []Paragraph) {
		hang, ok := ids(cautions)["caution.hang"]
		if told := strings.Contains(hang.Text, "let the wood grow and shrink by up to about"); ok && told != (in.Kind == "wall panel" && in.WoodMoves != "") {
			t.Fatalf("%s that moves %q: %q", in.Kind, in.WoodMoves, hang.Text)
		}
	})
}

func TestWhoIsWarnedOfWhat(t *testing.T) {
	every(t, func(in Input, _, cautions []Paragraph) {
		m := ids(cautions)
		check := func(id string, want bool) {
			t.Helper()
			if _, got := m[id]; got != want {
				t.Fatalf("%s in %s (%+v): %s %v, want %v", in.Kind, familyOf(in), in, id, got, want)
			}
		}
		flat := in.Kind == "wall panel" || in.Kind == "serving board"
		table := in.Tips && in.HasBase && in.Kind != "bench" && in.Kind != "stool" && in.Kind != "shelf" && !flat
		check("caution.tip.table", table)
		check("caution.tip.wall", in.Topples && in.HasBase && !flat)
		check("caution.tip.seat", in.Tips && (in.Kind == "bench" || in.Kind == "stool"))
		check("caution.cites.first", len(in.Protected) > 0)
		check("caution.allergy.tung", familyOf(in) == "tung-oil" && !strings.Contains(in.Product, "nut oil"))
		check("caution.allergy.walnut", in.Product == "walnut oil")
		check("caution.glass", in.Glass)
		check("caution.heat.resin-sheet", in.Resin && in.ResinHeat > 0 && in.Kind != "wall panel")
		check("caution.old-coat", in.OldCoat)
		check("caution.composite", len(in.Composite) > 0)
		check("caution.dust", in.Resin || len(in.Irritant) > 0 || in.Family != nil && (in.Family.Care == "oil" || in.Family.Care == "bare") || in.Kind == "serving board" && strings.Contains("board-oil wax soap", familyOf(in)))
		check("caution.airing", familyOf(in) == "conversion-varnish")
		// A table of wood and resin is warned of heat for both, the wood first.
		if in.Resin && !in.AllResin && strings.HasSuffix(in.Kind, "table") && familyOf(in) != "epoxy-topcoat" {
			check("caution.heat.wood", true)
			order := ""
			for _, p := range cautions {
				if p.Group == "heat" {
					order += p.ID + " "
				}
			}
			if !strings.HasPrefix(order, "caution.heat.wood caution.heat.resin") {
				t.Fatalf("%s: heat in the order %s", in.Kind, order)
			}
		}
	})
}

// The lifting words go by the step; from lift_mention on, met from both sides.
func TestWhoLifts(t *testing.T) {
	tab, w := tables(t), texts(t)
	said := func(in Input) string {
		_, cautions := tab.Write(in, w)
		for _, p := range cautions {
			if p.Group == "lift" {
				return p.ID + ": " + p.Text
			}
		}
		return ""
	}
	for _, c := range []struct {
		name, lift, off string
		base            bool
		want            string
	}{
		{"a stool", "one", "", true, "caution.lift.one:"}, {"a desk of 39 kg", "two", "one", true, "caution.lift.two:"}, {"a panel", "two", "", false, "caution.lift.two-flat:"},
		{"a table whose base comes off", "more", "two", true, "caution.lift.off-two:"}, {"one whose base does not", "more", "", true, "caution.lift.more:"},
		{"a boulder", "machine", "", true, "caution.lift.machine:"}, {"a boulder on a base", "machine", "more", true, "caution.lift.off-more:"}, {"a slab", "machine", "", false, "caution.lift.machine:"},
	} {
		got := said(Input{Kind: "desk", HasBase: c.base, WeightKg: 40, WeightText: "40 kg", Lift: c.lift, LiftOff: c.off})
		if !strings.HasPrefix(got, c.want) {
			t.Errorf("%s: %q, want %s", c.name, got, c.want)
		}
	}
	if got := said(Input{Kind: "shelf", HasBase: true, WeightKg: 21, WeightText: "21 kg", Lift: "two"}); !strings.HasPrefix(got, "caution.lift.two-flat:") {
		t.Errorf("a shelf on its brackets: %q", got)
	}
	edge := tab.Rules["lift_mention"].Value
	if a, b := said(Input{Kind: "stool", WeightKg: edge - 0.01, WeightText: "9 kg", Lift: "one"}), said(Input{Kind: "stool", WeightKg: edge, WeightText: "10 kg", Lift: "one"}); a != "" || b == "" {
		t.Errorf("at the edge of %g kg: %q and %q", edge, a, b)
	}
}

// No hands are counted beyond two in public, and none at all for what no hands
// carry.
func TestNoCountsBeyondTwo(t *testing.T) {
	count := regexp.MustCompile(`\b(three|four|five|six|seven|eight|nine|ten|[3-9]|[1-9][0-9]+) (people|persons|hands)\b`)
	every(t, func(in Input, _, cautions []Paragraph) {
		for _, p := range cautions {
			if p.Group == "lift" && (count.MatchString(p.Text) || in.Lift == "machine" && in.LiftOff == "" && strings.Contains(p.Text, "people")) {
				t.Fatalf("%s, %s: %q", in.Kind, in.Lift, p.Text)
			}
		}
	})
}

// Every rule of the table is met by a test that names it.
func TestEveryRuleIsMet(t *testing.T) {
	met := []string{"humidity", "resin_heat", "lift_mention", "resin_cure", "cure_room"}
	for id := range tables(t).Rules {
		if !slices.Contains(met, id) {
			t.Errorf("the rule %s is met by no test", id)
		}
	}
}

// finishes.md, epoxy casting facts: heat deflection 40-60 °C; moisture.md and
// handling.md: 35-55 % RH.
func TestFiguresInTheTexts(t *testing.T) {
	tab, w := tables(t), texts(t)
	care, cautions := tab.Write(Input{Kind: "coffee table", HasBase: true, Resin: true, ResinEpoxy: true, ResinBy: day(2026, 10, 16), WoodMoves: "3 mm"}, w)
	if s := ids(cautions)["caution.heat.resin"].Text; !strings.Contains(s, "40 and 60 °C (104 to 140 °F)") {
		t.Errorf("heat: %q", s)
	}
	if s := ids(care)["care.climate"].Text; !strings.Contains(s, "35 to 55%") {
		t.Errorf("climate: %q", s)
	}
	if s := ids(care)["care.movement.wood-and-resin"].Text; !strings.Contains(s, "up to about 3 mm") {
		t.Errorf("movement: %q", s)
	}
	_, cautions = tab.Write(Input{Kind: "coffee table", Resin: true, ResinEpoxy: true, ResinHeat: 52}, w)
	if s := ids(cautions)["caution.heat.resin-sheet"].Text; !strings.Contains(s, "52 °C (126 °F)") {
		t.Errorf("heat by the sheet: %q", s)
	}
	us, err := templates.Open("en-US")
	if err != nil {
		t.Fatal(err)
	}
	for heat, want := range map[units.Celsius]string{0: "104 and 140 °F (40 to 60 °C)", 52: "126 °F (52 °C)"} {
		_, cautions = tab.Write(Input{Kind: "coffee table", Resin: true, ResinEpoxy: true, ResinHeat: heat}, us)
		if !slices.ContainsFunc(cautions, func(p Paragraph) bool { return strings.Contains(p.Text, want) }) {
			t.Errorf("heat in the United States: no %q in %v", want, cautions)
		}
	}
	if s := ids(care)["care.resin-cure"].Text; !strings.Contains(s, "up to 30 days from the pour") || !strings.Contains(s, "by 16\u00a0October 2026") {
		t.Errorf("resin: %q", s)
	}
	f, _ := tab.Family("hardwax-oil")
	for last, want := range map[piece.Date]string{
		day(2026, 9, 16):  "about 20 °C (68 °F) the finish is fully hard by 14\u00a0October 2026. Until that day use the piece gently, and not before 19\u00a0September 2026",
		day(2026, 12, 15): "fully hard by 12\u00a0January 2027",
	} {
		care, _ := tab.Write(Input{Kind: "desk", Family: &f, Finished: last, Dates: DatesFor(f, nil, last)}, w)
		if s := ids(care)["care.first-weeks.curing"].Text; !strings.Contains(s, want) {
			t.Errorf("first weeks: %q lacks %q", s, want)
		}
	}
	// The day of the cure is the first on which it "has been" hard.
	dates := DatesFor(f, nil, day(2026, 9, 16))
	for done, want := range map[piece.Date]string{day(2026, 10, 13): "care.first-weeks.curing", day(2026, 10, 14): "care.first-weeks.cured"} {
		care, _ := tab.Write(Input{Kind: "desk", Family: &f, Finished: done, Dates: dates}, w)
		if _, ok := ids(care)[want]; !ok {
			t.Errorf("finished on %s: no %s", ISO(done), want)
		}
	}
	us, err = templates.Open("en-US")
	if err != nil {
		t.Fatal(err)
	}
	if got := Day(us, day(2026, 9, 6)); got != "September\u00a06, 2026" {
		t.Errorf("date for the United States: %q", got)
	}
	if got := Day(w, day(2026, 9, 6)); got != "6\u00a0September 2026" {
		t.Errorf("date in words: %q", got)
	}
}

// article is the wrong article before a vowel: "a oil and varnish blend".
var article = regexp.MustCompile(`\ba [aeio]`)

// finishes.md: plastic polish is for epoxy and hard glossy films; a matt or oiled
// surface is told nothing of it.
func TestNoPolishOnMattOrOil(t *testing.T) {
	every(t, func(in Input, care, _ []Paragraph) {
		for _, p := range care {
			shines := in.Sheen == "gloss" || in.Sheen == "" && familyOf(in) == "epoxy-topcoat"
			hard := in.Family != nil && (in.Family.Care == "film" || in.Family.Care == "epoxy")
			if strings.Contains(p.Text, "come out with a plastic polish") && !(shines && hard && in.Kind != "serving board") {
				t.Fatalf("%s in %s, %q: %q", in.Kind, familyOf(in), in.Sheen, p.Text)
			}
		}
	})
}

// Boards in what running water spoils are never told to be washed under it, and
// a board that must be kept from knives is never told where to cut.
func TestBoardsAreToldOneThing(t *testing.T) {
	every(t, func(in Input, care, cautions []Paragraph) {
		if in.Kind != "serving board" {
			return
		}
		all := ""
		for _, p := range append(append([]Paragraph{}, care...), cautions...) {
			all += p.ID + ": " + p.Text + "\n"
		}
		f := familyOf(in)
		if strings.Contains(all, "warm water") && !strings.Contains(all, "soap flakes") && (f == "wax" || f == "shellac" || f == "nitrocellulose-lacquer") {
			t.Fatalf("%s is washed:\n%s", f, all)
		}
		if strings.Contains(all, "you cut on it") && (strings.Contains(all, "for serving") || strings.Contains(all, "Keep knives")) {
			t.Fatalf("%s: where to cut beside no knives:\n%s", f, all)
		}
		for _, w := range []string{"coating", "the finish", "treat it", "renew"} {
			if f == "no finish" && strings.Contains(all, w) {
				t.Fatalf("a board whose finish is not told reads %q:\n%s", w, all)
			}
		}
		if in.Family != nil && !in.Family.hardens() && (strings.Contains(all, "product when fully cured") || strings.Contains(all, "the finish is fully hard")) {
			t.Fatalf("%s does not cure:\n%s", f, all)
		}
	})
}

// Fixings are spoken of where there are fixings that let the wood move.
func TestFixingsOnlyWhereTheyAre(t *testing.T) {
	every(t, func(in Input, care, _ []Paragraph) {
		for _, p := range care {
			if strings.Contains(p.Text, "fixings") && !(in.FixingsMove && in.HasBase) {
				t.Fatalf("%s: %q", in.Kind, p.Text)
			}
		}
	})
}

// No piece is told what makes sense for another kind only: a board holds no
// candles, nothing stands on a panel for months, and what has no base is not
// lifted by one.
func TestWordsFitTheKind(t *testing.T) {
	unfit := map[string][]string{
		"serving board": {"candle", "blind at midday", "plastic polish", "stands on it now and then", "felt under", "cloths off it", "table"},
		"wall panel":    {"stands on it now and then", "rubber feet", "standing on it", "saucer", "felt under", " sit ", "by the base", "table"},
		"bench":         {"rubber feet", "stands on it now and then", "felt under", "table"},
		"stool":         {"rubber feet", "stands on it now and then", "felt under", "table"},
		"other":         {"Use coasters", "felt under", "rubber feet", "cloths off it", "stands on it now and then", "table"}, // a chair or a cabinet, say
	}
	every(t, func(in Input, care, cautions []Paragraph) {
		words := unfit[in.Kind]
		if in.Kind == "other" && !in.HasBase { // a coaster, say
			words = append([]string{"lift the piece", "lift it when you move it"}, words...)
		}
		if !in.HasBase {
			words = append([]string{"by the base"}, words...)
		}
		for _, p := range append(append([]Paragraph{}, care...), cautions...) {
			for _, w := range words {
				if strings.Contains(p.Text, w) {
					t.Fatalf("%s to a %s (base: %v): %q", p.ID, in.Kind, in.HasBase, p.Text)
				}
			}
		}
	})
}

func TestRenewalNamesTheProduct(t *testing.T) {
	tab, w := tables(t), texts(t)
	for _, id := range piece.FinishFamilies {
		if id == "bare" {
			continue
		}
		f, _ := tab.Family(id)
		care, _ := tab.Write(Input{Kind: "desk", Family: &f, Product: "Tin of Something"}, w)
		text := ""
		for _, p := range care {
			if p.Group == "renew" {
				text = p.Text
			}
		}
		if !strings.Contains(text, "Tin of Something") {
			t.Errorf("%s: %q", id, text)
		}
		care, _ = tab.Write(Input{Kind: "desk", Family: &f}, w)
		for _, p := range care {
			if p.Group == "renew" && (!strings.Contains(p.Text, strings.TrimSuffix(FamilyName(w, id), " finish")) || article.MatchString(p.Text)) {
				t.Errorf("%s without a product: %q", id, p.Text)
			}
		}
	}
}

func TestSentence(t *testing.T) {
	for in, want := range map[string]string{"damp cloth": "Damp cloth.", " éponge! ": "Éponge!", "": "", "…": "….", "Done.": "Done."} {
		if got := sentence(in); got != want {
			t.Errorf("sentence(%q) = %q, want %q", in, got, want)
		}
	}
}
