package shipping

import (
	"math"
	"testing"
)

// Worked by hand from DHHS (NIOSH) 94-110: 23 x HM x VM x DM x CM, with H of the
// manual (25 cm and half the depth below 25 cm, 20 cm and half above), and for two
// people twice 0.85 (EN 1005-2) at the ends, where H is 25 cm.
func TestPeopleToLift(t *testing.T) {
	carton := Burden{Width: 600, Long: true} // 23 x .4545 x .775 x .88 x .90 = 6.417
	narrow := Burden{Width: 300}             // 23 x .625 x .775 x .88 x .95 = 9.314
	desk := Burden{Width: 700, Grip: 720}    // 23 x .4545 x .991 x 1 x .95 = 9.842; two: 2 x .85 x 21.653 = 36.811
	stool := Burden{Width: 300, Grip: 410}   // 23 x .7143 x .898 x .95235 x .95 = 13.35
	panel := Burden{Width: 40, Flat: true}   // 23 x .9259 x .775 x .88 x .90 = 13.072
	crate := Burden{Width: 900, Long: true}  // one: out of reach beyond 63 cm; two, with a fair grip at its ends: 2 x .85 x 14.902 = 25.333
	for _, c := range []struct {
		name   string
		load   Burden
		kg     float64
		step   string
		people int
	}{
		{"a light carton", carton, 6.4, One, 1}, {"the same at 10 kg, which anybody takes", carton, 10, One, 1}, {"just above", carton, 10.1, Two, 2},
		{"10.1 kg of a narrow one, with care", narrow, 10.1, OneCare, 1},
		{"a wide carton of 17 kg is no load for one", carton, 17, Two, 2},
		{"a narrow one", narrow, 9.3, One, 1}, {"with care", narrow, 13.9, OneCare, 1}, {"for two", narrow, 14, Two, 2},
		{"a desk of 39 kg is carried by two", desk, 39, Two, 2}, {"55 kg still", desk, 55, Two, 2}, {"56 kg no more", desk, 56, More, 3},
		{"a stool of 6 kg", stool, 6, One, 1}, {"a heavy stool", stool, 15, OneCare, 1},
		{"a panel held to the body", panel, 13, One, 1}, {"a heavy one", panel, 20, Two, 2},
		{"a crate of 38 kg at its ends", crate, 37.9, Two, 2}, {"of 39 kg", crate, 39, More, 3},
		{"76 kg: a count at 25 kg each", crate, 76, More, 4}, {"the last that hands carry", crate, 150, More, 6}, {"no hands", crate, 150.1, Machine, 0},
	} {
		c.load.Kg = c.kg
		l := tables(t).PeopleToLift(c.load)
		if l.Step != c.step || l.People != c.people {
			t.Errorf("%s, %g kg: %s, %d people, want %s, %d (%+v)", c.name, c.kg, l.Step, l.People, c.step, c.people, l)
		}
	}
	near(t, "wide carton", tables(t).PeopleToLift(Burden{Kg: 17, Width: 600, Long: true}).OneKg, 6.417, 0.001)
	near(t, "each of two at a desk", tables(t).PeopleToLift(Burden{Kg: 39, Width: 700, Grip: 720}).EachKg, 18.405, 0.001)
	for _, kg := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		if l := tables(t).PeopleToLift(Burden{Kg: kg, Width: 500}); l.Step != "" || l.People != 0 {
			t.Errorf("%g kg: %+v", kg, l)
		}
	}
}

// A container is easy to hold up to 16 in (40 cm) of length and 12 in (30 cm) of
// height: DHHS (NIOSH) 94-110, table 6 and its notes (from
// memory).
func TestWhatIsTooLongToHold(t *testing.T) {
	for _, c := range []struct {
		l, w, h float64
		long    bool
	}{
		{400, 300, 300, false}, {400.5, 300, 300, true}, {300, 400.5, 300, true}, {400, 300, 300.5, true}, {200, 100, 50, false},
	} {
		b := BurdenOf(Package{LengthMM: c.l, WidthMM: c.w, HeightMM: c.h, HighKg: 12})
		if b.Long != c.long || b.Width != math.Min(c.l, c.w) || b.Kg != 12 {
			t.Errorf("%+v: %+v", c, b)
		}
	}
}

// More weight never needs fewer people, and no count is above six.
func TestLiftsGrowWithTheLoad(t *testing.T) {
	tab, rank := tables(t), map[string]int{One: 1, OneCare: 2, Two: 3, More: 4, Machine: 5}
	for _, b := range []Burden{{}, {Width: 200}, {Width: 1200, Long: true}, {Width: 900, Grip: 730}, {Width: 30, Flat: true}} {
		last, people := 0, 0
		for kg := 0.1; kg < 900; kg *= 1.02 {
			b.Kg = kg
			l := tab.PeopleToLift(b)
			if rank[l.Step] < last || l.People > 6 || l.Step == Machine && l.People != 0 || l.Step != Machine && l.People < people {
				t.Fatalf("%+v: %+v after %d", b, l, last)
			}
			last, people = rank[l.Step], l.People
		}
		if last != 5 {
			t.Errorf("%+v: 900 kg is still lifted by hand", b)
		}
	}
}

// figures are rules that enter a sum and are no threshold: sizes, weights per
// metre, shares. A rule that is neither here nor met from both sides fails.
var figures = map[string]bool{
	"clearance_crate": true, "clearance_carton": true, "clearance_blanket": true, "blanket": true, "panel_thickness": true, "frame_side": true, "frame": true,
	"skid_height": true, "skid_runner": true, "skid_width": true, "skid_gap": true, "fill": true, "carton_board": true, "carton_wall": true, "carton_overlap": true,
	"foam_fill": true, "foam_pe": true, "loading_width": true, "pallet_us_length": true, "pallet_us_width": true, "pallet_eur_length": true, "pallet_eur_width": true,
	"doorway_less": true, "lift_reach_low": true, "lift_reach_high": true, "lift_width": true, "team_two": true, "hands_each": true,
	"hse_floor_men": true, "hse_floor_women": true, "hse_waist_men": true, "hse_waist_women": true, "iso_most": true, "iso_less": true,
	"batten_panel": true, "batten": true, "batten_side": true, "leg_flat": true,
	"carton_most": true, "batten_most": true, // held by the findings of package report
}

// Every threshold of the table, met from both sides: just below and just above
// the rule's own figure the answer differs.
func TestEveryThresholdFromBothSides(t *testing.T) {
	tab := tables(t)
	rule := func(id string) float64 { return tab.Rules[id].Value }
	clear := func(id string) float64 { return rule(id) - rule("doorway_less") }
	table := Burden{Width: 700, Grip: 720}
	one := tab.PeopleToLift(Burden{Kg: 1, Width: 700, Grip: 720}).OneKg
	met := map[string]struct {
		at   float64
		says func(v float64) any
	}{
		"ceiling":        {rule("ceiling"), func(v float64) any { return tab.Passes(v, 300, 0, true).UnderRoof }},
		"doorway_us":     {clear("doorway_us"), func(v float64) any { return tab.Passes(2000, 900, v, true).ByDoor }},
		"doorway_europe": {clear("doorway_europe"), func(v float64) any { return tab.Passes(2000, 900, v, false).ByDoor }},
		"ispm_thickness": {rule("ispm_thickness"), func(v float64) any { return tab.NeedsISPM15([]Package{{SolidMM: v}}, true) }},
		"one_plain":      {rule("one_plain"), func(v float64) any { return tab.PeopleToLift(Burden{Kg: v, Width: 460, Long: true}).Step }},
		"hands_most":     {rule("hands_most") * rule("hands_each"), func(v float64) any { table.Kg = v; return tab.PeopleToLift(table).Step }},
		"lift_index":     {rule("lift_index") * one, func(v float64) any { table.Kg = v; return tab.PeopleToLift(table).Step }},
		"lift_reach_turn": {10 * rule("lift_reach_turn"), func(v float64) any {
			return tab.PeopleToLift(Burden{Kg: 1, Width: 300, Grip: v}).OneKg > 11.3 // by hand, 23 x .85 x .91 x .95 times .625 and .7143: 10.6 and 12.1
		}},
	}
	for id := range tab.Rules {
		m, ok := met[id]
		switch {
		case !ok && !figures[id]:
			t.Errorf("the rule %s is met by no test", id)
		case ok && m.says(m.at-1e-3) == m.says(m.at+1e-3):
			t.Errorf("%s: %v on both sides of %g", id, m.says(m.at-1e-3), m.at)
		}
	}
	for _, l := range tab.Limits {
		step := 10.0
		if l.Inches {
			step = mmPerInch
		}
		if l.overLength(Package{LengthMM: l.OverMM}) || !l.overLength(Package{LengthMM: l.OverMM + 0.1*step}) {
			t.Errorf("%s: over-length is not told from %g mm on", l.Region, l.OverMM)
		}
	}
}

// By hand: inside 1000 x 500 x 300 with 50 mm clearance, 6 mm ply: 1112 x 612 x
// 412 mm outside the panels, 2.7817 m2 x 0.006 x 500 = 8.345 kg; battens 4 x 2.136
// m x 0.6 = 5.126 kg; with 7.5 %: 14.48 kg, where the heavy crate weighs 40.2.
func TestCrateOfBattens(t *testing.T) {
	p, err := tables(t).Pack(Contents{Length: 1000, Width: 500, Height: 300, Kg: 30, LowKg: 27, HighKg: 33}, How{Way: Crate, Clearance: 50, Panel: ply, Battens: true})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "packing", p.PackingKg, 14.48, 0.01)
	near(t, "length", p.LengthMM, 1112+50, 1e-9)
	if p.SolidMM != 25 || !(p.LowKg < p.GrossKg && p.GrossKg < p.HighKg) {
		t.Errorf("%+v", p)
	}
}

// The two ways of saying how much floor freight takes never contradict each
// other: a EUR pallet is 0.4 loading metres, the trade's own figure.
func TestFloorAndLoadingMetresAgree(t *testing.T) {
	tab := tables(t)
	for l := 150.0; l < 4000; l += 37 {
		for _, w := range []float64{120, 433, 800, 1010, 1377} {
			m, n := tab.loadingMetres(l, w), tab.palletPlaces("eur", Package{LengthMM: l, WidthMM: w})
			if float64(n)*0.4 < m-1e-9 || float64(n-1)*0.4 > m {
				t.Fatalf("%g x %g mm: %.3f loading metres and %d pallets of 0.4", l, w, m, n)
			}
		}
	}
}

// Input, value, low, high of each way of packing, worked outside this program: each
// doubt of the table moved alone to its edges, the moves squared, added and rooted
// (GUM, JCGM 100:2008, 5.1.2). Crate and battens: 1000 x 500 x 300 mm with 50 mm
// clearance and 30 kg (27 to 33) inside, ply of 500 kg/m3 (450 to 600); blankets on the
// same; a carton of 12 kg (11 to 13).
func TestRangesOfPacking(t *testing.T) {
	box := Contents{Length: 1000, Width: 500, Height: 300, Kg: 30, LowKg: 27, HighKg: 33}
	light := box
	light.Kg, light.LowKg, light.HighKg = 12, 11, 13
	for _, c := range []struct {
		name             string
		load             Contents
		how              How
		value, low, high float64
	}{
		{"crate", box, How{Way: Crate, Clearance: 50, Panel: ply}, 70.1625, 63.8450, 77.9269},
		{"crate of battens", box, How{Way: Crate, Clearance: 50, Panel: ply, Battens: true}, 44.4817, 40.0429, 50.4672},
		{"blankets", box, How{Way: Blanket}, 31.9093, 28.8425, 35.0913},
		{"carton", light, How{Way: Carton}, 17.0525, 15.5648, 19.0896},
	} {
		p, err := tables(t).Pack(c.load, c.how)
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.name, p.GrossKg, c.value, 0.001)
		near(t, c.name+", low", p.LowKg, c.low, 0.001)
		near(t, c.name+", high", p.HighKg, c.high, 0.001)
	}
}
