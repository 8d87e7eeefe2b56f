package wood

import (
	"fmt"
	"maps"
	"math"
	"testing"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// withRule returns the table with one rule at another value.
func withRule(t *testing.T, tab *Table, id string, v float64) *Table {
	t.Helper()
	n := *tab
	n.rules = maps.Clone(tab.rules)
	r := n.rules[id]
	r.Value = v
	n.rules[id] = r
	own, found := n.WithEntries([]piece.WoodEntry{{ID: piece.Of("yard-elm"), SpecificGravity: piece.Of(0.5), Radial: piece.Of[units.Percent](4), Tangential: piece.Of[units.Percent](8), Stiffness: piece.Of(10.0)}})
	if len(found) > 0 {
		t.Fatalf("%+v", found)
	}
	return own
}

// Every rule of rules.csv is a threshold that is met from both sides at the table's
// own figure, or a figure that moves what is reckoned with it, up and down. A rule
// that is neither fails.
func TestEveryWoodRuleFromBothSides(t *testing.T) {
	tab := load(t)
	span := func(f figure.Uncertain) float64 { low, high := f.Range(); return high - low }
	room := Season{FromMC: 6, ToMC: 10}
	yard := func(t *Table) Species { s, _ := t.Lookup("yard-elm"); return s }
	moved := func(n *Table) Movement {
		m, err := n.Movement(yard(n), "flat-sawn", "", 1400, 400, 40, room)
		if err != nil {
			t.Fatal(err)
		}
		return m
	}
	beam := func(n *Table, grain string, resin, kg float64) Beam {
		b, err := n.TopBeam([]piece.Wood{{Species: piece.Of("yard-elm"), Grain: piece.Of(grain)}}, 1000, 400, 20, 0, kg, resin)
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	sag := func(n *Table, grain string, resin float64) float64 {
		f, _, err := beam(n, grain, resin, 40).Sag()
		if err != nil {
			t.Fatal(err)
		}
		return f.Value
	}
	figures := map[string]func(*Table) float64{
		"density_cov":         func(n *Table) float64 { return yard(n).DensityCov },
		"elastic_cov":         func(n *Table) float64 { return span(beam(n, "", 0, 40).Elastic) },
		"shrinkage_cov":       func(n *Table) float64 { return span(moved(n).Across) },
		"fibre_saturation":    func(n *Table) float64 { return yard(n).FSP },
		"assumed_mc":          func(n *Table) float64 { return n.MoistureOf(nil, "w").Percent },
		"assumed_mc_doubt":    func(n *Table) float64 { m := n.MoistureOf(nil, "w"); return m.High - m.Low },
		"emc_doubt":           func(n *Table) float64 { return span(moved(n).Across) },
		"heating_rh":          func(n *Table) float64 { return n.ClimateOf(piece.Region{}).HeatingRH },
		"summer_rh":           func(n *Table) float64 { return n.ClimateOf(piece.Region{}).SummerRH },
		"temperature":         func(n *Table) float64 { return n.ClimateOf(piece.Region{}).Celsius },
		"longitudinal_low":    func(n *Table) float64 { return moved(n).Along.Value },
		"longitudinal_high":   func(n *Table) float64 { return moved(n).Along.Value },
		"cross_elastic_ratio": func(n *Table) float64 { return -sag(n, "along width", 0) },
		"resin_elastic":       func(n *Table) float64 { return -sag(n, "", 0.5) },
		"gravity":             func(n *Table) float64 { return sag(n, "", 0) },
	}
	ei := 10000 * 400 * math.Pow(20, 3) / 12
	thresholds := map[string]func(v float64) bool{
		// A load in the middle that bends 1000 mm by 1000/v: P = 48 EI / (v L^2).
		"sag_limit": func(v float64) bool {
			_, over, _ := beam(withRule(t, tab, "gravity", tab.rule("gravity")), "", 0, 48*ei/(v*1e6)/tab.rule("gravity")).Sag()
			return over
		},
	}
	for id, r := range tab.rules {
		if over, ok := thresholds[id]; ok {
			if a, b := over(r.Value*0.999), over(r.Value*1.001); a == b {
				t.Errorf("%s: %v on both sides of %g", id, a, r.Value)
			}
			continue
		}
		of, ok := figures[id]
		if !ok {
			t.Errorf("the rule %s is met by no test", id)
			continue
		}
		low, at, high := of(withRule(t, tab, id, r.Value*0.9)), of(withRule(t, tab, id, r.Value)), of(withRule(t, tab, id, r.Value*1.1))
		if !(low < at && at < high) {
			t.Errorf("%s: %g, %g, %g at 0.9, 1 and 1.1 of it", id, low, at, high)
		}
	}
}

// Every bolt of the table, its slot met from both sides: with 3.4 mm of movement at
// most a slot of the bolt and 3 mm is tight, of the bolt and 4 mm wide enough; a
// round hole gives what the table's clearance hole leaves.
func TestEveryBoltFromBothSides(t *testing.T) {
	tab := load(t)
	for _, b := range tab.bolts {
		for slack, want := range map[float64]string{3: "fixing.slot-tight", 3.39: "fixing.slot-tight", 3.41: "", 4: ""} {
			f := piece.Fixing{Bolt: piece.Of(b.name), Holes: piece.Of("slotted"), Slot: piece.Of(units.Length(b.diameter + slack)), Across: piece.Of(units.Length(100))}
			a, _ := tab.fixing(f, figure.Sure(0.034), stretch{whole: 100, wood: 100}, "rule", "source")
			got, _ := a.finding(piece.Place{}, "over the year", units.Millimetres)
			if slack < 2.9 || got.Code != want {
				t.Errorf("%s, slot %g mm over: %q, want %q", b.name, slack, got.Code, want)
			}
		}
		round := piece.Fixing{Bolt: piece.Of(b.name), Holes: piece.Of("round"), Across: piece.Of(units.Length(100))}
		for mm, doubted := range map[float64]bool{b.clear - b.diameter + minMovement - 0.01: false, b.clear - b.diameter + minMovement + 0.01: true} {
			a, _ := tab.fixing(round, figure.Sure(mm/100), stretch{whole: 100, wood: 100}, "rule", "source")
			f, _ := a.finding(piece.Place{}, "over the year", units.Millimetres)
			if (f.Code == "fixing.rigid-across-grain") != doubted {
				t.Errorf("%s, round, %g mm: %q", b.name, mm, f.Code)
			}
		}
	}
}

// Every meter of the table widens the doubt of a reading by its own figure.
func TestEveryMeterIsTaken(t *testing.T) {
	tab := load(t)
	for _, m := range tab.meters {
		word := ""
		if len(m.words) > 0 {
			word = m.words[0]
		}
		got := tab.MoistureOf(&piece.Moisture{Reading: piece.Of[units.Percent](9), Meter: piece.Of(word)}, "w")
		if fmt.Sprintf("%.3f %.3f", got.Low, got.High) != fmt.Sprintf("%.3f %.3f", 9-m.doubt, 9+m.doubt) {
			t.Errorf("%s: %g to %g, doubt %g", m.name, got.Low, got.High, m.doubt)
		}
	}
}
