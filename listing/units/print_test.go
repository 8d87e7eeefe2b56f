package units

import (
	"math"
	"testing"
)

// Fractions to the nearest sixteenth, in lowest terms, plain and set.
func TestFractions(t *testing.T) {
	for _, c := range []struct {
		inches     float64
		plain, set string
	}{
		{54, "54", "54"}, {1.75, "1 3/4", "1¾"}, {0.5, "1/2", "½"}, {0, "0", "0"}, {28.375, "28 3/8", "28⅜"}, {1.0625, "1 1/16", "1\u00a01⁄16"}, {0.1875, "3/16", "3⁄16"},
		{1.03, "1", "1"}, {1.04, "1 1/16", "1\u00a01⁄16"}, {0.97, "1", "1"}, {15.99, "16", "16"}, {15.875, "15 7/8", "15⅞"}, {0.03, "0", "0"}, {0.032, "1/16", "1⁄16"}, {-1.75, "-1 3/4", "−1¾"},
	} {
		l := Length(c.inches * MillimetresPerInch)
		if got := l.fraction(); got != c.plain {
			t.Errorf("%v in prints as %q, want %q", c.inches, got, c.plain)
		}
		if got := l.fractionSet(); got != c.set {
			t.Errorf("%v in is set as %q, want %q", c.inches, got, c.set)
		}
	}
}

// Rounding to a sixteenth is never off by more than half of one.
func TestFractionIsTheNearest(t *testing.T) {
	for mm := 0.0; mm < 3000; mm += 0.7 {
		l := Length(mm)
		again, err := ParseLength(l.Plain(Inches), Inches)
		if err != nil {
			t.Fatal(err)
		}
		if d := math.Abs(float64(again - l)); d > MillimetresPerInch/32+1e-9 {
			t.Errorf("%v mm prints as %s, %v mm off", mm, l.Plain(Inches), d)
		}
	}
}

func TestTexts(t *testing.T) {
	l := Length(54 * MillimetresPerInch)
	for got, want := range map[string]string{
		l.Text(Inches):                    "54 in",
		l.Text(Centimetres):               "137.2 cm",
		l.Text(Millimetres):               "1372 mm",
		l.Both(Inches):                    "54 in (137.2 cm)",
		l.Both(Millimetres):               "1372 mm (54 in)",
		Length(400).Both(Centimetres):     "40 cm (15¾ in)",
		Sizes(Inches, l, 406.4, 762):      "54 × 16 × 30 in",
		Sizes(Centimetres, l, 406.4, 762): "137.2 × 40.6 × 76.2 cm",
		Mass(31.4).TextKg():               "31 kg",
		Mass(31.4).TextLb():               "69 lb",
		Mass(31.4).Text(Inches):           "69 lb",
		Mass(31.4).Text(Millimetres):      "31 kg",
		Mass(3.44).TextKg():               "3.4 kg",
		Mass(0.846).TextKg():              "850 g",
		Mass(0.0793).TextKg():             "79 g",
		Mass(0.996).TextKg():              "1 kg",
		Mass(0.1).TextLb():                "3.5 oz",
		Mass(3.5).TextLb():                "7.7 lb",
		Percent(8).Text():                 "8 %",
		Percent(7.54).Text():              "7.5 %",
		Celsius(20).TextC():               "20 °C",
		Celsius(20).TextF():               "68 °F",
		Celsius(-0.3).TextC():             "0 °C",
		Length(math.NaN()).fraction():     "?",
		Length(math.Inf(1)).Text(Inches):  "? in",
		Length(0).Text(Inches):            "0 in",
	} {
		if got != want {
			t.Errorf("printed %q, want %q", got, want)
		}
	}
}

// The ends of a range stand with the decimals and in the unit of the value: 21.6 kg is
// printed 22, so its range is no 19.8.
func TestEndsLikeTheValue(t *testing.T) {
	for _, c := range []struct {
		m, low, high Mass
		kg, lb       [2]string
	}{
		{21.6, 19.8, 24.3, [2]string{"20", "24"}, [2]string{"44", "54"}},
		{19.2, 17.7, 21.3, [2]string{"17.7", "21.3"}, [2]string{"39", "47"}},
		{1.5, 1.3, 2.1, [2]string{"1.3", "2.1"}, [2]string{"2.9", "4.6"}},
		{0.4, 0.3, 0.5, [2]string{"300", "500"}, [2]string{"10.6", "17.6"}}, // 14.1 oz
	} {
		var kg, lb [2]string
		kg[0], kg[1] = c.m.LikeKg(c.low, c.high)
		lb[0], lb[1] = c.m.LikeLb(c.low, c.high)
		if kg != c.kg || lb != c.lb {
			t.Errorf("%v: %v and %v, want %v and %v", c.m, kg, lb, c.kg, c.lb)
		}
	}
}

// Exact conversions both ways (UN/ECE Recommendation 20, rev. 11e).
func TestConversions(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"1372 mm in inches", Length(1371.6).Inches(), 54}, {"1371.6 mm in cm", Length(1371.6).Centimetres(), 137.16}, {"0.45359237 kg in lb", Mass(0.45359237).Pounds(), 1},
		{"100 C in F", Celsius(100).Fahrenheit(), 212},
	} {
		if math.Abs(c.got-c.want) > 1e-12*math.Abs(c.want) {
			t.Errorf("%s = %v, want %v", c.name, c.got, c.want)
		}
	}
	if l, err := ParseLength("54 in", Inches); err != nil || l != 1371.6 {
		t.Errorf("54 in = %v, %v; want 1371.6 mm to the last bit", float64(l), err)
	}
}

// What is printed exactly is read again as the same value.
func TestExactRoundTrip(t *testing.T) {
	for _, v := range []float64{0, 0.1, 44.449999999999996, 1371.6, 1.0 / 3, 9999.125} {
		if l, err := ParseLength(Length(v).Exact(), Inches); err != nil || float64(l) != v {
			t.Errorf("length %v: %v, %v", v, float64(l), err)
		}
		if m, err := ParseMass(Mass(v).Exact()); err != nil || float64(m) != v {
			t.Errorf("mass %v: %v, %v", v, float64(m), err)
		}
		if x, err := ParseVolume(Volume(v).Exact()); err != nil || float64(x) != v {
			t.Errorf("volume %v: %v, %v", v, float64(x), err)
		}
		if d, err := ParseDensity(Density(v).Exact()); err != nil || float64(d) != v {
			t.Errorf("density %v: %v, %v", v, float64(d), err)
		}
		if p, err := ParsePercent(Percent(v).Exact()); err != nil || float64(p) != v {
			t.Errorf("share %v: %v, %v", v, float64(p), err)
		}
	}
}

// What stands on a page adds up, in either system (1 lb is 0.45359237 kg).
func TestTogetherIsTheSumOfWhatIsShown(t *testing.T) {
	for _, c := range []struct {
		parts  []Mass
		kg, lb string
	}{
		{[]Mass{32.6, 21.7}, "54.3 kg", "119.7 lb"}, // 71.9 and 47.8
		{[]Mass{24.5, 24.5}, "49.0 kg", "108.0 lb"},
		{[]Mass{33.4, 4.24}, "37.6 kg", "82.9 lb"}, // 33.4 and 4.2, 73.6 and 9.3
		{[]Mass{0.05, 0.05, 0.05}, "0.3 kg", "0.3 lb"},
	} {
		if kg, lb := Together(c.parts...); kg != c.kg || lb != c.lb {
			t.Errorf("%v: %s, %s; want %s, %s", c.parts, kg, lb, c.kg, c.lb)
		}
	}
}
