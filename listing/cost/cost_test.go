package cost

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > 1e-9*math.Max(1, math.Abs(want)) {
		t.Errorf("%s = %g, want %g", what, got, want)
	}
}

// The contract's own example: 46 h at 32, slab 260, resin 118, price 1450.
func TestCostOfTheExample(t *testing.T) {
	s := Of(Input{Hours: 46, Rate: 32, Items: []Item{{"slab", 260}, {"resin", 118}}, Price: 1450})
	near(t, "labour", s.Labour, 1472)
	near(t, "items", s.Items, 378)
	near(t, "floor", s.Floor, 1850)
	near(t, "margin", s.Margin, -400)
	near(t, "margin, %", s.MarginPct, -100*400/1450.)
	if s.YieldPct != 0 || s.BoardFeet != 0 {
		t.Errorf("figures from nothing: %+v", s)
	}
}

// The trade's definition: a board foot is 12 x 12 x 1 in; so 8 ft x 6 in x 2 in
// is 8 board feet.
func TestBoardFeetAndYield(t *testing.T) {
	const in = 25.4
	s := Of(Input{Slabs: []Slab{{96 * in, 6 * in, 2 * in, 1}}, WoodAreaMM2: 96 * 3 * in * in, WoodVolumeMM3: 96 * 3 * 1 * in * in * in})
	near(t, "board feet", s.BoardFeet, 8)
	near(t, "yield by face", s.YieldPct, 50)
	near(t, "yield by volume", s.YieldVolumePct, 25)
	near(t, "one board foot", Of(Input{Slabs: []Slab{{12 * in, 12 * in, in, 0}}}).BoardFeet, 1)
}

func TestABatchSharesItsCosts(t *testing.T) {
	s := Of(Input{Hours: 10, Rate: 30, Items: []Item{{"wood", 50}}, Price: 60, Quantity: 10})
	near(t, "floor for one", s.Floor, 35)
	near(t, "margin for one", s.Margin, 25)
	if s := Of(Input{Price: 10}); s.Floor != 0 || s.Margin != 10 || !s.Priced {
		t.Errorf("no cost noted: %+v", s)
	}
}

// Ten boards of 0.1 m2 of wood from slabs of 2 m2: half of what was bought.
func TestYieldCountsEveryPieceOfABatch(t *testing.T) {
	s := Of(Input{Quantity: 10, Slabs: []Slab{{2000, 500, 30, 2}}, WoodAreaMM2: 1e5, WoodVolumeMM3: 2e6})
	near(t, "by face", s.YieldPct, 50)
	near(t, "by volume", s.YieldVolumePct, 100*10*2e6/60e6)
}

// Without the slab's sizes or without the wood in the top no yield is known.
func TestYieldIsKnownFromBothSidesOnly(t *testing.T) {
	for name, in := range map[string]Input{
		"no slab":           {WoodAreaMM2: 1e6, WoodVolumeMM3: 4e7},
		"a slab of no size": {WoodAreaMM2: 1e6, WoodVolumeMM3: 4e7, Slabs: []Slab{{Count: 1}}},
		"no wood":           {Slabs: []Slab{{Length: 2000, Width: 500, Thickness: 50, Count: 1}}},
	} {
		if s := Of(in); s.YieldPct != 0 || s.YieldVolumePct != 0 {
			t.Errorf("%s: yield %v %% and %v %%", name, s.YieldPct, s.YieldVolumePct)
		}
	}
}
