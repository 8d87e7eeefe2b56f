package weight

import (
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
	"slabfolio/listing/wood"
)

// Input, value, low and high of every way that a part is weighed, by hand from the
// tables: relative doubts of independent causes by root sum square, each side for
// itself.
func TestRangesByHand(t *testing.T) {
	base := func(b piece.Base) func(*piece.Piece) {
		return func(p *piece.Piece) { b.Material = piece.Of("steel"); p.Base = &b }
	}
	ply := func(count int) func(*piece.Piece) {
		return func(p *piece.Piece) {
			p.Parts = []piece.Part{{Name: piece.Of("panel"), Material: piece.Of("plywood-birch"), Count: piece.Of(count), Size: []piece.Value[units.Length]{length(300), length(200), length(18)}}}
		}
	}
	for _, c := range []struct {
		name             string
		role             Role
		change           func(*piece.Piece)
		value, low, high float64
	}{
		// a scale: 1 %, at least 0.1 kg, but no more than 5 %
		{"base of 20 kg on the scale", RoleBase, base(piece.Base{Weight: piece.Of[units.Mass](20)}), 20, 19.8, 20.2},
		{"base of 5 kg on the scale", RoleBase, base(piece.Base{Weight: piece.Of[units.Mass](5)}), 5, 4.9, 5.1},
		{"base of 1 kg on the scale", RoleBase, base(piece.Base{Weight: piece.Of[units.Mass](1)}), 1, 0.95, 1.05},
		// 2 l of steel, 7850 kg/m3 (7750 to 7870), volume to 4 %: 15.7 kg; below root(4^2 + 1.274^2) = 4.198 %, above root(4^2 + 0.255^2) = 4.008 %
		{"base by its volume", RoleBase, base(piece.Base{Volume: piece.Of[units.Volume](2)}), 15.7, 15.0409, 16.3293},
		// 40 x 40 x 2 mm box, 304 mm2, 1 m: 2.3864 kg; rolling 6 %, 1000 mm to 2 mm; below root(6^2 + 0.2^2 + 1.274^2) = 6.137 %, above root(6^2 + 0.2^2 + 0.255^2) = 6.009 %
		{"base by its sections", RoleBase, base(piece.Base{Sections: []piece.Section{{Form: "box", Sizes: []units.Length{40, 40, 2}, Length: length(1000)}}}), 2.3864, 2.23995, 2.52979},
		// 300 x 200 x 18 mm of birch plywood at 680 (630 to 750): 0.7344 kg; 2 mm, 2 mm and 0.5 mm: below root(0.667^2 + 1 + 2.778^2 + 7.353^2) = 7.951 %, above root(... + 10.294^2) = 10.730 %
		{"one panel", RolePart, ply(1), 0.7344, 0.67601, 0.8132},
		{"three panels", RolePart, ply(3), 2.2032, 2.02802, 2.43961},
	} {
		p := board()
		p.Finish = nil
		c.change(p)
		var got *Part
		for _, x := range estimate(t, p).Parts {
			if x.Role == c.role {
				got = &x
			}
		}
		if got == nil {
			t.Errorf("%s: nothing weighed", c.name)
			continue
		}
		near(t, c.name+", value", got.Kg, c.value, 1e-4)
		near(t, c.name+", low", got.Low, c.low, 1e-4)
		near(t, c.name+", high", got.High, c.high, 1e-4)
	}
}

// A film of hardwax oil on 1000 x 500 x 20 mm: both faces and the edge, 1.06 m2,
// two coats of 25 g (15 to 40): 53 g, below by 40 %, above by 60 %; the sizes
// hardly count. Where the coats are not said they are one to three. It lies on the
// top and weighs in it.
func TestRangeOfAFilm(t *testing.T) {
	for coats, want := range map[int][3]float64{2: {0.053, 0.0318, 0.0848}, 1: {0.0265, 0.0159, 0.0424}} {
		p := board()
		p.Top.Outline, p.Top.Thickness = piece.Outline{Length: length(1000), Width: length(500)}, length(20)
		bare := estimate(t, p)
		p.Finish = &piece.Finish{Family: piece.Of("hardwax-oil"), Coats: piece.Of(coats)}
		e := estimate(t, p)
		film := e.Parts[len(e.Parts)-1]
		near(t, "value", film.Kg, want[0], 1e-6)
		near(t, "low", film.Low, want[1], 1e-5)
		near(t, "high", film.High, want[2], 1e-5)
		near(t, "in the top", e.Top.Value-bare.Top.Value, want[0], 1e-9)
		near(t, "in the whole", e.Total.Value-e.Top.Value, 0, 1e-9)
		p.Top.Weighed = piece.Of[units.Mass](8) // with its finish on
		near(t, "a weighed top has it on", estimate(t, p).Top.Value, 8, 1e-9)
	}
}

// A base of the wood that is also in the top is as wet as the top was read; of any
// other it is taken at the assumed moisture.
func TestBaseOfAWoodOfTheTop(t *testing.T) {
	density := func(species, of string) float64 {
		p := board()
		p.Top.Wood = []piece.Wood{{Species: piece.Of(species), Moisture: &piece.Moisture{Reading: piece.Of[units.Percent](14)}}}
		p.Base = &piece.Base{Material: piece.Of(of), Volume: piece.Of[units.Volume](10)}
		for _, x := range estimate(t, p).Parts {
			if x.Role == RoleBase {
				return x.Density
			}
		}
		return 0
	}
	oak, _ := woods(t).Lookup("white-oak")
	at := func(mc float64) float64 { return wood.DensityAt(oak.BasicSG, oak.Volumetric, oak.FSP, mc) }
	near(t, "of the top's wood", density("white-oak", "white-oak"), at(14), 1e-9)
	near(t, "of another", density("black-walnut", "white-oak"), at(8), 1e-9)
}

// One resin is the resin; several have numbers.
func TestResinsHaveNumbersWhereThereAreSeveral(t *testing.T) {
	for n, want := range map[int][]string{1: {"resin"}, 2: {"resin 1", "resin 2"}} {
		p := board()
		for range n {
			p.Top.Resin = append(p.Top.Resin, piece.Resin{Area: piece.Of[units.Percent](10)})
		}
		var got []string
		for _, x := range estimate(t, p).Parts {
			if x.Role == RoleResin {
				got = append(got, x.Name)
			}
		}
		if len(got) != n || got[0] != want[0] || got[n-1] != want[n-1] {
			t.Errorf("%d: %v", n, got)
		}
	}
}

// An area and a volume of one resin are held against each other from both sides of
// twice the doubt of an area (10 %); either alone contradicts nothing.
func TestResinSaidTwice(t *testing.T) {
	const top = 54 * 16 * 1.625 * inch * inch * inch / 1e6 // litres
	for volume, want := range map[float64]bool{0: false, 0.18 * top: false, 0.18 * top * 1.19: false, 0.18 * top * 1.21: true, 0.18 * top * 0.79: true, 0.18 * top * 0.81: false} {
		p := board()
		p.Top.Resin = []piece.Resin{{Area: piece.Of[units.Percent](18)}}
		if volume > 0 {
			p.Top.Resin[0].Volume = piece.Of(units.Volume(volume))
		}
		if got := has(estimate(t, p), piece.Doubt, "weight.resin-contradicts"); got != want {
			t.Errorf("18 %% of %.1f l and %.2f l: %v", top, volume, got)
		}
	}
	p := board()
	p.Top.Resin = []piece.Resin{{Volume: piece.Of[units.Volume](2)}}
	if has(estimate(t, p), piece.Doubt, "weight.resin-contradicts") {
		t.Error("a volume alone contradicts")
	}
}
