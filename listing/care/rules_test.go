package care

import (
	"maps"
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// Every rule of rules.csv either enters a sentence as a figure or is a threshold;
// each threshold is met from both sides at the table's own figure, and each figure
// is seen to move with the table. A rule that is neither fails.
func TestEveryRuleFromBothSides(t *testing.T) {
	tab, w := tables(t), texts(t)
	said := func(tab Tables, in Input, id string) (text string, ok bool) {
		care, cautions := tab.Write(in, w)
		p, ok := ids(append(care, cautions...))[id]
		return p.Text, ok
	}
	f, _ := tab.Family("hardwax-oil")
	done := day(2026, 9, 16)
	thresholds := map[string]func(v float64) bool{
		"lift_mention": func(v float64) bool {
			_, ok := said(tab, Input{Kind: "stool", WeightKg: v, WeightText: "so much", Lift: "one"}, "caution.lift.one")
			return ok
		},
	}
	figures := map[string]struct {
		in Input
		id string
	}{
		"humidity":   {Input{Kind: "desk"}, "care.climate"},
		"resin_heat": {Input{Kind: "desk", Resin: true, ResinEpoxy: true}, "caution.heat.resin"},
		"resin_cure": {Input{Kind: "desk", Resin: true, ResinEpoxy: true, ResinBy: day(2026, 10, 16), Finished: done}, "care.resin-cure"},
		"cure_room":  {Input{Kind: "desk", Family: &f, Finished: done, Dates: DatesFor(f, nil, done)}, "care.first-weeks.curing"},
	}
	for id, rule := range tab.Rules {
		if says, ok := thresholds[id]; ok {
			if below, above := says(rule.Value-0.001), says(rule.Value+0.001); below == above {
				t.Errorf("%s: %v on both sides of %g", id, below, rule.Value)
			}
			continue
		}
		c, ok := figures[id]
		if !ok {
			t.Errorf("the rule %s is met by no test", id)
			continue
		}
		other := tab
		other.Rules = maps.Clone(tab.Rules)
		moved := rule
		moved.Value, moved.Low, moved.High = rule.Value+7, rule.Low+7, rule.High+7
		other.Rules[id] = moved
		before, ok := said(tab, c.in, c.id)
		after, _ := said(other, c.in, c.id)
		if !ok || before == after {
			t.Errorf("%s: %q whatever the table says", id, before)
		}
	}
}

// The days of every family, met from both sides: a finish is still hardening on the
// day before the last of its days and has hardened on that day; where nothing
// hardens, there is no day at all. The days are the table's own.
func TestDaysOfEveryFamilyFromBothSides(t *testing.T) {
	tab, w := tables(t), texts(t)
	last := day(2026, 3, 1)
	for _, f := range tab.Families {
		dates := DatesFor(f, nil, last)
		if f.Cure.To == 0 {
			if dates.CureTo != (piece.Date{}) {
				t.Errorf("%s never hardens, and has a day: %s", f.ID, ISO(dates.CureTo))
			}
			continue
		}
		for off, hard := range map[int]bool{-1: false, 0: true, 1: true} {
			in := Input{Kind: "desk", Family: &f, Dates: dates, Finished: AddDays(last, f.Cure.To+off)}
			care, _ := tab.Write(in, w)
			p, cured := ids(care)["care.first-weeks.cured"]
			if cured != hard {
				t.Errorf("%s, finished %d days after its last coat: cured %v", f.ID, f.Cure.To+off, cured)
			}
			if f.Care == "wax" && strings.Contains(p.Text, "hard") {
				t.Errorf("wax is called hard: %q", p.Text)
			}
		}
		light := Input{Kind: "desk", Family: &f, Dates: dates, Finished: last}
		care, _ := tab.Write(light, w)
		if p := ids(care)["care.first-weeks.curing"]; f.Light.To < f.Cure.To != strings.Contains(p.Text, "not before "+w.Day(ISO(AddDays(last, f.Light.To)))) {
			t.Errorf("%s: %q, light use after %d days", f.ID, p.Text, f.Light.To)
		}
	}
}

// Every line of the tables says where it is from: what was read, what a standard
// or a sheet has from memory, or that it is common practice.
func TestEveryLineNamesItsSource(t *testing.T) {
	tab := tables(t)
	ok := func(source string) bool {
		for _, w := range []string{"from memory", "read", "common practice"} {
			if strings.Contains(source, w) {
				return true
			}
		}
		return false
	}
	for id, r := range tab.Rules {
		if !ok(r.Source) {
			t.Errorf("rule %s: %q", id, r.Source)
		}
	}
	for _, f := range tab.Families {
		if !ok(f.Source) {
			t.Errorf("family %s: %q", f.ID, f.Source)
		}
	}
	for _, o := range tab.Oils {
		if !ok(o.Source) {
			t.Errorf("oil %s: %q", o.Name, o.Source)
		}
	}
	for _, line := range strings.Split(strings.TrimSpace(irritantsCSV), "\n")[1:] {
		if !ok(line) {
			t.Errorf("irritant %q", line)
		}
	}
}
