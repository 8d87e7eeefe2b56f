package report

import (
	"fmt"
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// Each threshold of rules.csv, met from both sides by pieces worked by hand.
//
// Tipping: 24 kg on feet L long under a top of 1400 mm tip at an end with 24 x L /
// (1400 - L) kg. L = 537: 14.9 kg, 540: 15.1 kg (easy_tip is 15); L = 1206: 149.2 kg,
// 1208: 151.0 kg (tip_mention is 150).
func TestTippingThresholds(t *testing.T) {
	for feet, want := range map[int][2]bool{537: {true, true}, 540: {false, true}, 1206: {false, true}, 1208: {false, false}} {
		r := build(t, spec(t, strings.Replace(packed, "length: 1200, width: 360", fmt.Sprintf("length: %d, width: 360", feet), 1)), nil)
		_, easy := found(r, "stability.easily-tipped")
		if got := [2]bool{easy, caution("caution.tip.table")(r)}; got != want {
			t.Errorf("feet of %d mm, %.1f kg: maker told %v, buyer told %v; want %v", feet, r.Stability.TipLoad, got[0], got[1], want)
		}
	}
}

// Feet of 1200 under 1400 leave 100 mm at each end; 20 mm more or less may be the
// tape's (overhang_differs).
func TestOverhangThreshold(t *testing.T) {
	for said, want := range map[int]bool{79: true, 81: false, 119: false, 121: true} {
		r := build(t, spec(t, strings.Replace(packed, "thickness: 40,", fmt.Sprintf("thickness: 40, overhang: %d,", said), 1)), nil)
		if f, ok := found(r, "top.overhang"); ok != want {
			t.Errorf("%d mm: %v %q", said, ok, f.Message)
		}
	}
}

// Coefficients by S/(3000 - 20 S) (moisture.md, section 3): radial 4 % gives
// 0.0013699; 4.92 % 0.0016956, 1.238 times as much; 5.01 % 0.0017277, 1.261 times
// (unlike_woods is 1.25).
func TestUnlikeWoodsThreshold(t *testing.T) {
	for radial, want := range map[string]bool{"4.92 %": false, "5.01 %": true} {
		shop := workshop(t, "woods: [{id: one, specific_gravity: 0.5, radial: 4 %, tangential: 8 %}, {id: two, specific_gravity: 0.5, radial: "+radial+", tangential: 8 %}]\n")
		text := strings.Replace(packed, "wood: {species: european-oak, moisture: 9 %}", "wood: [{species: one, share: 50 %, moisture: 9 %, cut: flat-sawn}, {species: two, share: 50 %, moisture: 9 %, cut: flat-sawn}]", 1)
		r := build(t, spec(t, text), shop)
		if f, ok := found(r, "movement.two-woods"); ok != want {
			t.Errorf("radial %s: %v %q", radial, ok, f.Message)
		}
	}
}

// Flat-sawn European oak, 0.0036 (DIN 68100) over 30 to 55 % at 20 C, 3.913 % by
// the equation of moisture.md: 0.014087 mm a millimetre, and 1.3554 times that at
// the upper end (15 % of shrinkage at 90 %, 1 % of moisture in 3.913). 26 mm: 0.496
// mm; 27 mm: 0.516 mm (movement_mention is 0.5).
func TestMovementThreshold(t *testing.T) {
	for width, want := range map[int]bool{26: false, 27: true} {
		r := build(t, spec(t, fmt.Sprintf("serial: OY-0505\ntitle: Strip\nkind: other\nfinished: 2026-06-01\nunits: mm\ntop: {outline: {length: 600, width: %d}, thickness: 20, wood: {species: european-oak, moisture: 9 %%, cut: flat-sawn}}\n", width)), &piece.Workshop{})
		if got := r.Public.Movement != nil; got != want {
			t.Errorf("%d mm wide, %+v: told %v", width, r.Figures["movement.across_mm"], got)
		}
	}
}

// A level push F at 740 mm tips 24 kg over feet w deep when F x 740 = 24 x 9.80665 x
// w/2: 44.37 N for 279 mm, 44.69 N for 281 mm (push_force is 44.5).
func TestPushThreshold(t *testing.T) {
	for deep, want := range map[int]bool{279: true, 281: false} {
		r := build(t, spec(t, strings.Replace(packed, "length: 1200, width: 360", fmt.Sprintf("length: 1200, width: %d", deep), 1)), nil)
		_, told := found(r, "stability.push")
		if told != want || caution("caution.tip.wall")(r) != want {
			t.Errorf("%d mm deep, %g N: maker told %v, buyer told %v", deep, r.Figures["stability.push_n"].Value, told, caution("caution.tip.wall")(r))
		}
	}
}

// A crate of no told walls is of battens up to 60 kg (batten_most), and one of
// battens is doubted above it.
func TestBattenThreshold(t *testing.T) {
	for kg, light := range map[string]bool{"59.8": true, "60.2": false} {
		r := build(t, spec(t, packed+"weighed: "+kg+" kg\npacking: {how: crate, legs: \"on\"}\n"), nil)
		if rule := r.Figures["shipping.packages.1.gross_kg"].Rule; strings.Contains(rule, "battens") != light {
			t.Errorf("%s kg: %s", kg, rule)
		}
		r = build(t, spec(t, packed+"weighed: "+kg+" kg\npacking: {how: crate, crate: battens, legs: \"on\"}\n"), nil)
		if _, ok := found(r, "packing.heavy-battens"); ok == light {
			t.Errorf("%s kg in battens: doubted %v", kg, ok)
		}
	}
}
