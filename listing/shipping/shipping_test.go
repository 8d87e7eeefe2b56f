package shipping

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"slabfolio/listing/units"

	"slabfolio/testdata/beside"
)

// The international pound and inch, UN/ECE Recommendation 20.
const kgPerLb, mmPerInch = 0.45359237, 25.4

func tables(t *testing.T) Tables {
	t.Helper()
	tab, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	return tab
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tol {
		t.Errorf("%s = %.4f, want %.4f, within %g", what, got, want, tol)
	}
}

// handling.md section 1: the 13-tier scale of NMFC Docket 2025-1, on both sides
// of every threshold.
func TestClassOnBothSidesOfEveryThreshold(t *testing.T) {
	tab := tables(t)
	if len(tab.Tiers) != 13 {
		t.Fatalf("%d tiers", len(tab.Tiers))
	}
	edges := []struct {
		at           float64
		below, above string
	}{{1, "400", "300"}, {2, "300", "250"}, {4, "250", "175"}, {6, "175", "125"}, {8, "125", "100"}, {10, "100", "92.5"},
		{12, "92.5", "85"}, {15, "85", "70"}, {22.5, "70", "65"}, {30, "65", "60"}, {35, "60", "55"}, {50, "55", "50"}}
	for _, e := range edges {
		for d, want := range map[float64]string{e.at - 1e-9: e.below, e.at: e.above, e.at + 1e-9: e.above} {
			if got := tab.Class(d).Class; got != want {
				t.Errorf("%.10g lb/ft3: class %s, want %s", d, got, want)
			}
		}
	}
	if got := tab.Class(0.01).Class; got != "400" {
		t.Errorf("lightest: class %s", got)
	}
}

// The published scale, read from the reference beside the repository.
func TestScaleAgreesWithTheReference(t *testing.T) {
	data := beside.Read(t, "reference/handling.md")
	tab, rows := tables(t), 0
	row := regexp.MustCompile(`^\| (?:(<|>=) )?([\d.]+)(?: - ([\d.]+))? \| [\d.]+ \| ([\d.]+) \|$`)
	for _, line := range strings.Split(string(data), "\n") {
		m := row.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		rows++
		at, _ := strconv.ParseFloat(m[2], 64)
		if m[1] == "<" {
			at /= 2
		}
		if got := tab.Class(at).Class; got != m[4] {
			t.Errorf("%g lb/ft3: class %s, the reference says %s", at, got, m[4])
		}
	}
	if rows != 13 {
		t.Errorf("%d rows of the scale were found in the reference", rows)
	}
}

// The density is what is printed divided by what is printed: 23 x 17 x 6 in and 10.6 lb are
// 7.81 lb/ft3, which is under the step at 8.
func TestDensityIsOfWhatIsPrinted(t *testing.T) {
	tab := tables(t)
	box := Package{LengthMM: 23 * 25.4, WidthMM: 17 * 25.4, HeightMM: 6 * 25.4, GrossKg: 4.79}
	q := tab.Quote([]Package{box})
	near(t, "density", q.DensityLbFt3, 10.6/(23.0*17*6/1728), 1e-9)
	if q.Class.Class != "125" {
		t.Errorf("class %s", q.Class.Class)
	}
	for kg := 0.3; kg < 40; kg += 0.37 {
		box.GrossKg = kg
		printed, _ := strconv.ParseFloat(units.Mass(math.Round(kg*10)/10).NumberLb(), 64)
		near(t, "alone", tab.Quote([]Package{box}).DensityLbFt3, printed/(23.0*17*6/1728), 1e-9)
	}
}

// handling.md section 1, derived test values.
func TestDensityExamples(t *testing.T) {
	for _, c := range []struct {
		l, w, h, lb, density float64
		class                string
	}{{84, 44, 12, 320, 12.468, "85"}, {60, 40, 48, 500, 7.50, "125"}, {40, 30, 4, 105, 37.8, "55"}} {
		q := tables(t).Quote([]Package{{LengthMM: c.l * 25.4, WidthMM: c.w * 25.4, HeightMM: c.h * 25.4, GrossKg: c.lb * units.KilogramsPerPound}})
		d := q.DensityLbFt3
		near(t, "density", d, c.density, 0.0006)
		if got := tables(t).Class(d).Class; got != c.class {
			t.Errorf("%g lb/ft3: class %s, want %s", d, got, c.class)
		}
	}
}

// handling.md section 2, worked examples (read in carriers' pages).
func TestVolumetricExamples(t *testing.T) {
	by := map[string]Divisor{}
	for _, d := range tables(t).Divisors {
		by[d.ID] = d
	}
	near(t, "30.4 x 19.6 x 19.5 in by 139, whole inches 30 x 20 x 20 as printed",
		by["in3-139"].volumetric(30*25.4, 20*25.4, 20*25.4)/kgPerLb, 87, 1e-9)
	near(t, "the same rounded up, as carriers do since 2025: 31 x 20 x 20",
		by["in3-139"].volumetric(30.4*25.4, 19.6*25.4, 19.5*25.4)/kgPerLb, math.Ceil(31*20*20/139.), 1e-9)
	near(t, "1.40 x 1.00 x 0.90 m by 6000", by["cm3-6000"].volumetric(1400, 1000, 900), 210, 1e-9)
	near(t, "30 x 24 x 22 in by 166", by["in3-166"].volumetric(30*25.4, 24*25.4, 22*25.4)/kgPerLb, 96, 1e-9)
	for id, kgM3 := range map[string]float64{"in3-139": 199.1, "in3-166": 166.7, "cm3-5000": 200.0, "cm3-6000": 166.7} {
		d := by[id]
		got := 1e6 / d.Divisor // per cubic metre
		if d.Unit == "in3/lb" {
			got = 1e9 / (mmPerInch * mmPerInch * mmPerInch) / d.Divisor * kgPerLb
		}
		near(t, id+" as kg/m3", got, kgM3, 0.05)
	}
}

func TestRoundingUpIsFreeOfArithmeticDust(t *testing.T) {
	near(t, "54 in", UpInches(54*25.4), 54, 0)
	near(t, "54.01 in", UpInches(54.01*25.4), 55, 0)
	near(t, "137.16 cm", UpCentimetres(1371.6), 138, 0)
	near(t, "0.1+0.2 m", UpCentimetres((0.1+0.2)*1000), 30, 0)
}

// handling.md section 2: 150 lb, 108 in, 165 in length and girth; and the usual
// European limits, from memory. Both sides of each edge.
func TestParcelLimits(t *testing.T) {
	by := map[string]Limit{}
	for _, l := range tables(t).Limits {
		by[l.Region] = l
	}
	const in = 25.4
	for _, c := range []struct {
		region      string
		l, w, h, kg float64
		ok          bool
		over        string
	}{
		{"US", 60 * in, 20 * in, 10 * in, 150 * kgPerLb, true, ""},
		{"US", 60 * in, 20 * in, 10 * in, 150.1 * kgPerLb, false, "weight"},
		{"US", 107.9 * in, 10 * in, 10 * in, 20, true, ""},
		{"US", 108.1 * in, 10 * in, 10 * in, 20, false, "length"},
		{"US", 64.9 * in, 30 * in, 20 * in, 20, true, ""},
		{"US", 65.1 * in, 30 * in, 20 * in, 20, false, "girth"},
		{"Europe", 1000, 500, 400, 31.5, true, ""},
		{"Europe", 1000, 500, 400, 31.6, false, "weight"},
		{"Europe", 2001, 100, 100, 5, false, "length"},
		{"Europe", 1201, 500, 400, 5, false, "girth"},
	} {
		if ok, over := by[c.region].parcel(c.l, c.w, c.h, c.kg); ok != c.ok || over != c.over {
			t.Errorf("%+v: got %v %q", c, ok, over)
		}
	}
}

// handling.md section 3: the manual's first example, exact arithmetic (10/23, not
// the printed 0.44): 16.02 and 14.15 lb with the US constants. The metric ones (23
// kg, 25 cm, 0.003) are rounded on their own and are no conversions of 51 lb, 10
// in, 0.0075, so half a pound is allowed.
func TestNIOSHExample(t *testing.T) {
	const cm, lb = 2.54, kgPerLb
	origin := Task{H: 23 * cm, V: 15 * cm, D: 49 * cm, F: 1, C: 0.95}.recommendedKg()
	near(t, "origin", origin/lb, 16.02, 0.5)
	dest := Task{H: 23 * cm, V: 64 * cm, D: 49 * cm, F: 1, C: 1}.recommendedKg()
	near(t, "destination", dest/lb, 14.15, 0.5)
	near(t, "lifting index at the destination, 44 lb over 14.15", 44*lb/dest, 3.1, 0.15)
	near(t, "ideal lift", Task{H: 25, V: 75, D: 25, F: 1, C: 1}.recommendedKg(), 23, 1e-9)
	near(t, "out of reach", Task{H: 64, V: 75, D: 25, F: 1, C: 1}.recommendedKg(), 0, 0)
}

// DHHS (NIOSH) 94-110, tables 1 to 4 (from memory): each multiplier is nought
// beyond its limit (hands farther out than 63 cm or higher than 175 cm, carried up
// more than 175 cm, turned by more than 135 degrees), and is not on it.
func TestNIOSHLimits(t *testing.T) {
	ideal := Task{H: 25, V: 75, D: 25, F: 1, C: 1}
	for name, set := range map[string]func(task *Task, over float64){
		"hands out":  func(task *Task, over float64) { task.H = 63 + over },
		"hands up":   func(task *Task, over float64) { task.V = 175 + over },
		"below":      func(task *Task, over float64) { task.V = -over },
		"carried up": func(task *Task, over float64) { task.D = 175 + over },
		"turned":     func(task *Task, over float64) { task.A = 135 + over },
	} {
		on, over := ideal, ideal
		set(&on, 0)
		set(&over, 0.5)
		if kg := on.recommendedKg(); kg < 5 || kg > 23 {
			t.Errorf("%s, on the limit: %g kg", name, kg)
		}
		if kg := over.recommendedKg(); kg != 0 {
			t.Errorf("%s, over the limit: %g kg, want none", name, kg)
		}
	}
}

// By hand: sqrt(54^2 + 1.625^2) in = 54.024 in; 2.4 m and 762 mm from handling.md
// section 4 and the issue.
func TestPassage(t *testing.T) {
	p := tables(t).Passes(1371.6, 406.4, 41.275, true)
	near(t, "stood on end", p.StandMM, 25.4*math.Hypot(54, 1.625), 1e-9)
	if !p.UnderRoof || !p.ByDoor {
		t.Errorf("%+v", p)
	}
	long := tables(t).Passes(2399, 1000, 60, false)
	if !long.UnderRoof {
		t.Errorf("2399 x 60: needs %g mm", long.StandMM)
	}
	if p := tables(t).Passes(2400, 1000, 60, false); p.UnderRoof {
		t.Errorf("2400 x 60 stands under 2.4 m: %g mm", p.StandMM)
	}
	// handling.md section 4: leaves from 762 mm in the US and 726 mm in the UK, the
	// clear opening about 50 mm less.
	for _, c := range []struct {
		narrow   float64
		american bool
		want     bool
	}{{712, true, true}, {713, true, false}, {676, false, true}, {677, false, false}, {750, true, false}} {
		if p := tables(t).Passes(1500, 900, c.narrow, c.american); p.ByDoor != c.want {
			t.Errorf("%g mm through a clear opening of %g mm: %v", c.narrow, p.DoorwayMM, p.ByDoor)
		}
	}
}

func TestLoadingMetresAndPallets(t *testing.T) {
	tab := tables(t)
	near(t, "EUR pallet", tab.loadingMetres(1200, 800), 0.4, 1e-12) // the trade's own check: 0.4 loading metres
	for _, c := range []struct {
		l, w    float64
		eur, us int
	}{{1200, 800, 1, 1}, {800, 1200, 1, 1}, {1201, 800, 2, 1}, {2400, 800, 2, 2}, {1219, 1016, 2, 1}} {
		p := Package{LengthMM: c.l, WidthMM: c.w}
		if e, u := tab.palletPlaces("eur", p), tab.palletPlaces("us", p); e != c.eur || u != c.us {
			t.Errorf("%g x %g: %d EUR, %d US, want %d, %d", c.l, c.w, e, u, c.eur, c.us)
		}
	}
}

var ply = Panel{Name: "softwood plywood", KgM3: 500, LowKgM3: 450, HighKgM3: 600}

// A crate by hand: inside 1000 x 500 x 300 with 50 mm clearance = 1100 x 600 x
// 400; panels outside at 15 mm: 1130 x 630 x 430, 2.9374 m2 x 0.015 x 500 = 22.03
// kg; frame 4 x 2.19 m x 1.75 = 15.33 kg; with 7.5 %: 40.2 kg.
func TestCrateFromItsOwnGeometry(t *testing.T) {
	p, err := tables(t).Pack(Contents{Length: 1000, Width: 500, Height: 300, Kg: 30, LowKg: 27, HighKg: 33}, How{Way: Crate, Clearance: 50, Panel: ply})
	if err != nil {
		t.Fatal(err)
	}
	area := 2 * (1.130*0.630 + 1.130*0.430 + 0.630*0.430)
	near(t, "packing", p.PackingKg, (area*0.015*500+4*2.19*1.75)*1.075, 1e-9)
	near(t, "packing", p.PackingKg, 40.2, 0.05)
	near(t, "length", p.LengthMM, 1130+76, 1e-9)
	near(t, "gross", p.GrossKg, 30+p.PackingKg, 1e-9)
	if !(p.LowKg < p.GrossKg && p.GrossKg < p.HighKg) {
		t.Errorf("range out of order: %+v", p)
	}
	s, err := tables(t).Pack(Contents{Length: 1000, Width: 500, Height: 300, Kg: 30, LowKg: 27, HighKg: 33}, How{Way: OnSkid, Clearance: 50, Panel: ply})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "runners lift it", s.HeightMM-p.HeightMM, 100, 1e-9)
	near(t, "runners weigh", s.PackingKg-p.PackingKg, 2*1.206*3.8, 1e-9)
	tab := tables(t)
	// ISPM 15 (2018), section 2.1: wood of 6 mm or less is exempt; a crate's frame
	// is 38 mm thick, a skid's runners 89.
	for mm, want := range map[float64]bool{0: false, 3: false, 6: false, 6.1: true, 38: true} {
		if got := tab.NeedsISPM15([]Package{{SolidMM: mm}}, true); got != want {
			t.Errorf("solid wood of %g mm: %v, want %v", mm, got, want)
		}
	}
	if tab.NeedsISPM15([]Package{p}, false) || !tab.NeedsISPM15([]Package{p}, true) {
		t.Error("solid wood across a border needs the mark, at home it does not")
	}
}

func TestPackRefusesWhatIsNotKnown(t *testing.T) {
	tab := tables(t)
	full := Contents{Length: 1, Width: 1, Height: 1, Kg: 1, LowKg: 1, HighKg: 1}
	for name, c := range map[string]struct {
		l Contents
		h How
	}{
		"no size":   {Contents{Kg: 1}, How{Way: Carton}},
		"no weight": {Contents{Length: 1, Width: 1, Height: 1}, How{Way: Carton}},
		"no way":    {full, How{Way: "by pigeon"}},
		"no panels": {full, How{Way: Crate}},
		"NaN":       {Contents{Length: 1, Width: 1, Height: math.NaN(), Kg: 1}, How{Way: Carton}},
	} {
		if p, err := tab.Pack(c.l, c.h); err == nil {
			t.Errorf("%s: packed all the same: %+v", name, p)
		}
	}
}

func TestQuoteAddsPackages(t *testing.T) {
	tab := tables(t)
	var ps []Package
	for range 2 {
		p, err := tab.Pack(Contents{Length: 800, Width: 400, Height: 200, Kg: 12, LowKg: 11, HighKg: 13}, How{Way: Carton})
		if err != nil {
			t.Fatal(err)
		}
		ps = append(ps, p)
	}
	one, two := tab.Quote(ps[:1]), tab.Quote(ps)
	near(t, "gross", two.GrossKg, 2*one.GrossKg, 1e-9)
	near(t, "density", two.DensityLbFt3, one.DensityLbFt3, 0.5/20*one.DensityLbFt3) // one alone is printed in whole pounds, two with a decimal
	near(t, "volumetric", two.Volumetric["cm3-5000"], 2*one.Volumetric["cm3-5000"], 1e-9)
	if tab.Quote(nil) != nil {
		t.Error("a quote for nothing")
	}
	if !one.Mode["US"].Parcel || !one.Mode["Europe"].Parcel {
		t.Errorf("a 12 kg carton goes as a parcel: %+v", one.Mode)
	}
}

// Whatever the size, packing adds room and weight, a skid adds more, and no
// figure is negative or not a number.
func TestPackingProperties(t *testing.T) {
	tab := tables(t)
	for _, l := range []float64{20, 300, 1500, 5000} {
		for _, kg := range []float64{0.05, 3, 60, 900} {
			load := Contents{Length: l, Width: l / 3, Height: l / 7, Kg: kg, LowKg: kg * .8, HighKg: kg * 1.3}
			for _, way := range []string{Blanket, Carton, Crate, OnSkid} {
				p, err := tab.Pack(load, How{Way: way, Panel: ply})
				if err != nil {
					t.Fatal(err)
				}
				if !(p.PackingKg > 0 && p.LowKg > 0 && p.LowKg <= p.GrossKg && p.GrossKg <= p.HighKg && p.LengthMM > load.Length && p.HeightMM > load.Height) {
					t.Errorf("%s of %+v: %+v", way, load, p)
				}
			}
		}
	}
}

// A carrier weighs what it gets: the upper end of the range decides, met from
// both sides of every region's limit of weight.
func TestParcelIsJudgedByTheHighEnd(t *testing.T) {
	tab := tables(t)
	for _, l := range tab.Limits {
		p := Package{LengthMM: 500, WidthMM: 400, HeightMM: 300, GrossKg: l.Kg - 2, LowKg: l.Kg - 4, HighKg: l.Kg - 0.01}
		if m := tab.Quote([]Package{p}).Mode[l.Region]; !m.Parcel {
			t.Errorf("%s: at most %.2f kg is no parcel, and the limit is %.2f", l.Region, p.HighKg, l.Kg)
		}
		p.HighKg = l.Kg + 0.01
		if m := tab.Quote([]Package{p}).Mode[l.Region]; m.Parcel || m.Over != "weight" {
			t.Errorf("%s: up to %.2f kg is a parcel of at most %.2f", l.Region, p.HighKg, l.Kg)
		}
	}
}

// Every limit of length and of length and girth, met from both sides. Sides
// count as they are printed, up to the next whole inch or centimetre: 107.2 in
// is printed as 108, and 108.2 as 109.
func TestParcelLimitsOfSize(t *testing.T) {
	for _, l := range tables(t).Limits {
		step := 10.0
		if l.Inches {
			step = mmPerInch
		}
		quarter := (l.GirthMM - l.LongestMM + 8*step) / 4
		for _, c := range []struct {
			long, side float64
			over       string
		}{
			{l.LongestMM, 10, ""}, {l.LongestMM - 0.8*step, 10, ""}, {l.LongestMM + 0.2*step, 10, "length"},
			{l.LongestMM - 8*step, math.Floor(quarter/step) * step, ""}, {l.LongestMM - 8*step, math.Floor(quarter/step)*step + 0.2*step, ""},
			{l.LongestMM - 8*step, math.Floor(quarter/step)*step + 1.2*step, "girth"},
		} {
			x := math.Ceil(c.side/step-1e-9) * step // by hand: what is printed
			if girth := math.Ceil(c.long/step-1e-9)*step + 4*x; c.over == "" && girth > l.GirthMM+1e-6 {
				c.over = "girth"
			}
			if ok, over := l.parcel(c.side, c.long, c.side, 1); ok != (c.over == "") || over != c.over {
				t.Errorf("%s: %.1f x %.1f mm: %v, over %q, want %q", l.Region, c.long, c.side, ok, over, c.over)
			}
		}
	}
}

// Runners of 89 mm with a gap of 690 mm between them: two span up to 2 x 868
// mm, where a third leaves gaps of (1736 - 3 x 89)/2 = 734 mm. What a skid adds
// is its runners: 3.8 kg/m times the length of the crate.
func TestRunnersOfASkid(t *testing.T) {
	tab := tables(t)
	for _, c := range []struct{ width, runners float64 }{{800, 2}, {1700, 2}, {1735, 2}, {1737, 3}, {2600, 3}, {2606, 4}} {
		l := Contents{Length: 1000, Width: c.width - 206, Height: 300, Kg: 30, LowKg: 27, HighKg: 33} // 50 of foam, 15 of panel, 38 of frame a side
		plain, err := tab.Pack(l, How{Way: Crate, Clearance: 50, Panel: ply})
		if err != nil {
			t.Fatal(err)
		}
		skid, err := tab.Pack(l, How{Way: OnSkid, Clearance: 50, Panel: ply})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "width", skid.WidthMM, c.width, 1e-9)
		near(t, "weight of the runners", skid.GrossKg-plain.GrossKg, c.runners*3.8*1.206, 1e-9)
	}
}
