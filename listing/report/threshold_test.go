package report

import (
	"cmp"
	"maps"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/table"
	"slabfolio/listing/units"
)

// A threshold is a rule of the tables that a finding or a sentence hangs on.
type threshold struct {
	value  func(*Report) float64 // of the quantity that is held against it
	over   bool                  // said where the piece has more than the rule; else where it has less
	rough  bool                  // the quantity is known from rounded figures
	said   func(*Report) bool
	change func(*piece.Piece)
}

func finding(code string) func(*Report) bool {
	return func(r *Report) bool {
		for _, f := range r.Findings {
			if f.Code == code {
				return true
			}
		}
		return false
	}
}

func caution(id string) func(*Report) bool {
	return func(r *Report) bool {
		for _, p := range r.Public.Cautions {
			if p.ID == id {
				return true
			}
		}
		return false
	}
}

func figureValue(name string) func(*Report) float64 {
	return func(r *Report) float64 { return r.Figures[name].Value }
}

func tipLoad(r *Report) float64 { return min(r.Stability.Cases["end"], r.Stability.Cases["corner"]) }

// gross is the weight of all packages, or of the piece where nothing is packed.
func gross(r *Report) float64 {
	sum := 0.0
	for _, p := range r.Public.Shipping.Packages {
		sum += p.Gross
	}
	return cmp.Or(sum, r.Public.Weight.Shown())
}

// thresholds are, by table and id, all rules that something hangs on.
var thresholds = map[string]threshold{
	"report/easy_tip":    {value: tipLoad, said: finding("stability.easily-tipped"), change: func(p *piece.Piece) {}},
	"report/tip_mention": {value: tipLoad, said: caution("caution.tip.table"), change: func(p *piece.Piece) {}},
	"report/lift_unsaid": {value: gross, over: true, said: func(r *Report) bool { return strings.Contains(r.Public.Shipping.Text, "two people") }, change: func(p *piece.Piece) {}},
	"report/overhang_differs": {value: func(*Report) float64 { return 10 }, over: true, said: finding("top.overhang"),
		change: func(p *piece.Piece) { p.Top.Overhang.V += 10 }},
	"report/base_wider": {value: func(*Report) float64 { return 30 }, over: true, said: finding("base.wider"), // 54 in are 1371.6 mm
		change: func(p *piece.Piece) { p.Base.FootprintLength.V = 1371.6 + 30 }},
	"report/wet_wood": {value: func(*Report) float64 { return 14.5 }, over: true, said: finding("wood.wet"),
		change: func(p *piece.Piece) { p.Top.Wood[0].Moisture.Reading = piece.Of[units.Percent](14.5) }},
	"report/movement_mention": {value: func(r *Report) float64 { return r.Figures["movement.across_mm"].High }, over: true,
		said: func(r *Report) bool { return r.Public.Movement != nil }, change: func(p *piece.Piece) {}},
	"report/unlike_woods": {value: func(r *Report) float64 { return unlike(r) }, over: true, rough: true, said: finding("movement.two-woods"),
		change: func(p *piece.Piece) {
			second := p.Top.Wood[0]
			second.Species, p.Top.Wood[0].Share = piece.Of("african-mahogany"), piece.Of[units.Percent](50)
			second.Share = piece.Of[units.Percent](50)
			p.Top.Wood = append(p.Top.Wood, second)
		}},
	"assembly/sag_load_seat": {value: tipLoad, said: finding("stability.easily-tipped"), change: func(p *piece.Piece) { p.Kind = piece.Of("bench") }},
	"assembly/push_force":    {value: figureValue("stability.push_n"), said: finding("stability.push"), change: func(p *piece.Piece) {}},
	"assembly/tall":          {value: func(*Report) float64 { return 762 }, over: true, said: func(r *Report) bool { return r.Figures["stability.push_n"].Value > 0 }, change: func(p *piece.Piece) {}},
	"assembly/narrow":        {value: func(*Report) float64 { return 762 / 330.2 }, over: true, said: func(r *Report) bool { return r.Figures["stability.push_n"].Value > 0 }, change: func(p *piece.Piece) {}},
	"assembly/very_narrow":   {value: func(*Report) float64 { return 762 / 330.2 }, over: true, said: caution("caution.tip.wall"), change: func(p *piece.Piece) {}},
}

func unlike(r *Report) float64 { return r.Movement[0].Thickness / r.Movement[1].Thickness }

// noThresholds are the other rules: sizes and loads that go into sums.
var noThresholds = map[string]bool{
	"assembly/place_width": true, "assembly/place_depth": true, "assembly/bench_place": true, "assembly/place_corner": true, "assembly/chair_width": true, "assembly/chair_under": true,
	"assembly/drawer_load": true, "assembly/sag_load": true, "assembly/book_row": true, "assembly/push_height": true, "assembly/gravity": true,
}

// Every rule of the two tables is either a sum's or a threshold, and each
// threshold is met from both sides: with the rule a little below what the
// piece has and a little above it, what hangs on it is said once and not the
// other time.
func TestEveryThresholdFromBothSides(t *testing.T) {
	base, err := loadTables()
	if err != nil {
		t.Fatal(err)
	}
	for name, rules := range map[string]map[string]table.Rule{"report": base.Rules, "assembly": base.Assembly.Rules} {
		for id := range rules {
			key := name + "/" + id
			c, ok := thresholds[key]
			if !ok {
				if !noThresholds[key] {
					t.Errorf("%s: neither a threshold nor known as none", key)
				}
				continue
			}
			p := parse(t, "testdata/console.yaml")
			c.change(p)
			with := func(v float64) *Report {
				tab := *base
				tab.Rules, tab.Assembly.Rules = maps.Clone(base.Rules), maps.Clone(base.Assembly.Rules)
				of := tab.Rules
				if name == "assembly" {
					of = tab.Assembly.Rules
				}
				rule := of[id]
				rule.Value = v
				of[id] = rule
				r, err := Build(p, nil, Options{Words: words(t), Tables: &tab})
				if err != nil {
					t.Fatal(err)
				}
				return r
			}
			q := c.value(with(rules[id].Value))
			if !(q > 0) {
				t.Errorf("%s: nothing to hold against it", key)
				continue
			}
			by := 0.005
			if c.rough {
				by = 0.05
			}
			if low, high := c.said(with(q*(1-by))), c.said(with(q*(1+by))); low != c.over || high == c.over {
				t.Errorf("%s at %g: said %v with the rule below it, %v with the rule above", key, q, low, high)
			}
		}
	}
}
