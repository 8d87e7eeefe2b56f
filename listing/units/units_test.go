package units

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// Every spelling of the spec. 1 in = 25.4 mm exactly (international yard and
// pound agreement, 1959).
func TestLengthSpellings(t *testing.T) {
	for _, c := range []struct {
		text string
		bare System
		want float64 // mm
	}{
		{"54 in", Inches, 1371.6}, {"1 3/4 in", Inches, 44.45}, {"1-3/4\"", Inches, 44.45}, {"1¾ in", Inches, 44.45}, {"1.75", Inches, 44.45},
		{"1 3/4", Inches, 44.45}, {"1-3/4", Inches, 44.45}, {"1¾", Inches, 44.45}, {"3/4", Inches, 19.05}, {"¾″", Inches, 19.05}, {"1 ¾”", Inches, 44.45},
		{"4 ft 6 in", Inches, 1371.6}, {"4' 6 1/2\"", Inches, 1384.3}, {"4’ 6 ½”", Inches, 1384.3}, {"4′6½″", Inches, 1384.3}, {"4'-6\"", Inches, 1371.6}, {"4' 6", Centimetres, 1371.6},
		{"137.2 cm", Inches, 1372}, {"1372 mm", Inches, 1372}, {"1.4 m", Inches, 1400}, {"137.2cm", Inches, 1372}, {"137.2\u00a0cm", Inches, 1372},
		{"40.5", Centimetres, 405}, {"405", Millimetres, 405}, {"1 m 37 cm", Inches, 1370}, {"28 3⁄8 in", Inches, 720.725}, {"1 ¹³⁄₁₆ in", Inches, 46.0375}, {"1¹³⁄₁₆ in", Inches, 46.0375},
		{"54 inches", Inches, 1371.6}, {"54 In.", Inches, 1371.6}, {"0 in", Inches, 0}, {".5 in", Inches, 12.7}, {"1 3/4''", Inches, 44.45}, {"0.5", Inches, 12.7}, {"1‑3/4 in", Inches, 44.45},
	} {
		got, err := ParseLength(c.text, c.bare)
		if err != nil {
			t.Errorf("ParseLength(%q, %s): %v", c.text, c.bare, err)
			continue
		}
		if math.Abs(float64(got)-c.want) > 1e-9 {
			t.Errorf("ParseLength(%q, %s) = %v mm, want %v mm", c.text, c.bare, float64(got), c.want)
		}
	}
}

func TestWrongLengths(t *testing.T) {
	for _, text := range []string{"", " ", "in", "-5 in", "−5 in", "NaN", "inf", ".inf", "1e3", "0x10", "1_000", "137,2 cm", "1,234 mm", "54 inchs", "54 yd", "1 2 in", "1 3/0 in", "1 5/4 in", "1.5 3/4 in", "1.5/2",
		"4 in 6 ft", "4 ft 14 in", "4 ft 6 cm", "1 m 6 in", "1..2", "1.2.3 in", "54 in in", "five in", "54 x 16 in", "+5 in", "4' 6' in", "1 ft 2 in 3 mm 4 mm", "9999999999999999999999/2 in", "∞"} {
		got, err := ParseLength(text, Inches)
		if err == nil {
			t.Errorf("ParseLength(%q) = %v mm, want an error", text, float64(got))
			continue
		}
		wellSaid(t, text, err)
	}
}

// wellSaid checks that an error is of the type that it should be and helps.
func wellSaid(t *testing.T, text string, err error) {
	t.Helper()
	var e *Error
	if !errors.As(err, &e) || e.Message == "" || e.Remedy == "" || strings.HasSuffix(e.Message, ".") || strings.HasSuffix(e.Remedy, ".") {
		t.Errorf("the error for %q is not well said: %#v", text, err)
	}
}

// Masses, volumes, densities, shares, temperatures and times. The conversions are
// exact: 1 lb = 0.45359237 kg, 1 US gal = 3.785411784 l (231 in³), 1 lb/ft³ =
// 16.01846337 kg/m³ (UN/ECE Recommendation 20, rev. 11e).
func TestQuantitySpellings(t *testing.T) {
	mass := func(s string) (float64, error) { v, err := ParseMass(s); return float64(v), err }
	volume := func(s string) (float64, error) { v, err := ParseVolume(s); return float64(v), err }
	density := func(s string) (float64, error) { v, err := ParseDensity(s); return float64(v), err }
	percent := func(s string) (float64, error) { v, err := ParsePercent(s); return float64(v), err }
	temperature := func(s string) (float64, error) { v, err := ParseTemperature(s); return float64(v), err }
	days := func(s string) (float64, error) { v, err := ParseDays(s); return float64(v), err }
	for _, c := range []struct {
		name  string
		parse func(string) (float64, error)
		text  string
		want  float64
	}{
		{"mass", mass, "31.4 kg", 31.4}, {"mass", mass, "850 g", 0.85}, {"mass", mass, "69 lb", 31.29787353}, {"mass", mass, "12 lb 4 oz", 12.25 * 0.45359237},
		{"mass", mass, "69lbs", 31.29787353}, {"mass", mass, "4 oz", 0.11339809250}, {"mass", mass, "12 ½ lb", 12.5 * 0.45359237}, {"mass", mass, "1 kg 200 g", 1.2}, {"mass", mass, "2 Pounds", 0.90718474},
		{"volume", volume, "4.2 l", 4.2}, {"volume", volume, "4.2 L", 4.2}, {"volume", volume, "900 ml", 0.9}, {"volume", volume, "1.1 gal", 4.1639529624}, {"volume", volume, "32 fl oz", 0.946352946}, {"volume", volume, "1.5 qt", 1.419529419},
		{"volume", volume, "0 l", 0}, {"volume", volume, "231 in3", 3.785411784}, {"volume", volume, "500 cm³", 0.5}, {"volume", volume, "1 ft3", 28.316846592}, {"volume", volume, "1 gal 1 qt", 4.73176473}, {"volume", volume, "32 fl. oz", 0.946352946},
		{"density", density, "1.10 kg/l", 1100}, {"density", density, "1.10 g/cm3", 1100}, {"density", density, "1.10 g/cm³", 1100}, {"density", density, "1100 kg/m3", 1100}, {"density", density, "9.2 lb/gal", 9.2 * 0.45359237 / 3.785411784 * 1000},
		{"density", density, "1 lb/ft3", 16.01846337}, {"density", density, "1.1 kg / l", 1100}, {"density", density, "1.1 kg per l", 1100},
		{"share", percent, "8 %", 8}, {"share", percent, "8%", 8}, {"share", percent, "12.5 percent", 12.5}, {"share", percent, "7½ %", 7.5},
		{"temperature", temperature, "20 C", 20}, {"temperature", temperature, "20 °C", 20}, {"temperature", temperature, "68 F", 20}, {"temperature", temperature, "68°F", 20}, {"temperature", temperature, "-5 C", -5}, {"temperature", temperature, "20 degrees C", 20}, {"temperature", temperature, "20 ºC", 20},
		{"time", days, "3 days", 3}, {"time", days, "2 weeks", 14}, {"time", days, "10", 10}, {"time", days, "1 day", 1},
	} {
		got, err := c.parse(c.text)
		if err != nil || math.Abs(got-c.want) > 1e-8*max(1, c.want) {
			t.Errorf("%s %q = %v, %v; want %v", c.name, c.text, got, err, c.want)
		}
	}
	for _, c := range []struct {
		name  string
		parse func(string) (float64, error)
		texts []string
	}{
		{"mass", mass, []string{"", "31.4", "kg", "-1 kg", "31,4 kg", "4 oz 12 lb", "12 lb 20 oz", "1 l", "31.4 kgs4", "NaN kg", "1e3 kg", "5 stone"}},
		{"volume", volume, []string{"4", "4 kg", "1,5 l", "-1 l", "1 pint", "2 l 3 l", ".inf"}},
		{"density", density, []string{"1.1", "1.1 kg", "1 kg/l 2 kg/l", "heavy", "0,9 kg/l"}},
		{"share", percent, []string{"8", "eight %", "-8 %", "8 % 9 %", "8 pc"}},
		{"temperature", temperature, []string{"20", "20 K", "-300 C", "warm", "20 C 3 F"}},
		{"time", days, []string{"soon", "1.5 days", "-1 day", "2 months", "1 week 2 days", "99999999 days"}},
	} {
		for _, text := range c.texts {
			got, err := c.parse(text)
			if err == nil {
				t.Errorf("%s %q = %v, want an error", c.name, text, got)
				continue
			}
			wellSaid(t, text, err)
		}
	}
}

// Sections as they are bought: the last unit counts for all.
func TestSizes(t *testing.T) {
	for _, c := range []struct {
		text string
		want []float64 // mm
	}{
		{"80 x 40 x 3 mm", []float64{80, 40, 3}}, {"1 1/2 x 1/2 x 1/8 in", []float64{38.1, 12.7, 3.175}}, {"48.3×3.2 mm", []float64{48.3, 3.2}}, {"12 mm", []float64{12}},
		{"2 in x 5 mm", []float64{50.8, 5}}, {"2x1", []float64{50.8, 25.4}}, {"80x40x3mm", []float64{80, 40, 3}}, {"1½ x ½ x ⅛ in", []float64{38.1, 12.7, 3.175}}, {"80 * 40 mm", []float64{80, 40}},
	} {
		got, err := ParseSizes(c.text, Inches)
		if err != nil || len(got) != len(c.want) {
			t.Errorf("ParseSizes(%q) = %v, %v; want %v", c.text, got, err, c.want)
			continue
		}
		for i := range got {
			if math.Abs(float64(got[i])-c.want[i]) > 1e-9 {
				t.Errorf("ParseSizes(%q) = %v, want %v mm", c.text, got, c.want)
			}
		}
	}
	for _, text := range []string{"", "x", "80 x", "80 x x 3 mm", "1 x 2 x 3 x 4 x 5 mm", "80 x forty mm", "-1 x 2 mm"} {
		if got, err := ParseSizes(text, Inches); err == nil {
			t.Errorf("ParseSizes(%q) = %v, want an error", text, got)
		} else {
			wellSaid(t, text, err)
		}
	}
}

// What to write is said where only one thing can be meant.
func TestRemedies(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"137,2 cm", "write 137.2 cm"}, {"1,234 mm", "write 1234 mm or 1.234 mm"}, {"1,234,567 mm", "with nothing between the thousands"}, {"54 inchs", "use in, ft, mm, cm or m"}, {"-5 in", "without the minus sign"},
	} {
		_, err := ParseLength(c.text, Inches)
		var e *Error
		if !errors.As(err, &e) || !strings.Contains(e.Remedy, c.want) {
			t.Errorf("the remedy for %q is %v, want it to say %q", c.text, err, c.want)
		}
	}
}

// FuzzLength: no panic; what is read is finite and not negative, and printed
// exactly it is read again as the same; printed to the sixteenth and read again,
// it prints the same.
func FuzzLength(f *testing.F) {
	for _, s := range []string{"54 in", "1 3/4 in", "1-3/4\"", "1¾ in", "4' 6 1/2\"", "4 ft 6 in", "137.2 cm", "1 ¹³⁄₁₆ in", "137,2 cm", "1e3", "80 x 40 x 3 mm", "12 lb 4 oz", "-1", "8 %", "20 °C"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, bare := range []System{Inches, Centimetres, Millimetres} {
			l, err := ParseLength(text, bare)
			if err != nil {
				wellSaid(t, text, err)
				continue
			}
			if l < 0 || math.IsNaN(float64(l)) || math.IsInf(float64(l), 0) {
				t.Fatalf("%q is %v mm", text, float64(l))
			}
			if len(l.Exact()) <= maxText {
				if again, err := ParseLength(l.Exact(), bare); err != nil || again != l {
					t.Fatalf("%q is %v, printed %q, read again %v, %v", text, float64(l), l.Exact(), float64(again), err)
				}
			}
			if l < 1e9 {
				for _, s := range []System{Inches, Centimetres, Millimetres} {
					for _, printed := range []string{l.Text(s), l.Plain(s)} {
						again, err := ParseLength(printed, bare)
						if err != nil || again.Text(s) != l.Text(s) {
							t.Fatalf("%q prints as %q, which reads as %v, %v", text, printed, again.Text(s), err)
						}
					}
				}
			}
		}
		for _, parse := range []func(string) error{
			func(s string) error { _, err := ParseMass(s); return err }, func(s string) error { _, err := ParseVolume(s); return err },
			func(s string) error { _, err := ParseDensity(s); return err }, func(s string) error { _, err := ParsePercent(s); return err },
			func(s string) error { _, err := ParseTemperature(s); return err }, func(s string) error { _, err := ParseDays(s); return err },
			func(s string) error { _, err := ParseSizes(s, Inches); return err }, func(s string) error { _, err := ParseSystem(s); return err },
		} {
			if err := parse(text); err != nil {
				wellSaid(t, text, err)
			}
		}
	})
}

// A fraction behind a whole number is less than one, has something above and
// below its line, and stands alone: whoever writes it otherwise means something
// else than what a sum would make of it. (Rules of arithmetic as schools teach
// them: a mixed number is a whole number and a proper fraction.)
func TestOddFractions(t *testing.T) {
	for text, remedy := range map[string]string{
		"1 4/4 in": "write 2 in", "1-4/4 in": "write 2 in", "1 5/4 in": "write 2 1/4 in", "3 16/8\"": "write 5\"", "1⁴⁄₄ in": "write 2 in", "0 5/4 in": "",
		"4' 6 7/7\"": "write 4' 7\"", "1 9/8": "write 2 1/8", "2 32/16 in": "write 4 in",
		"1 -1/2 in": "write 1 1/2 in", "1 - 1/2 in": "write 1 1/2 in", "3/0 in": "1 3/4 in", "1 3/0 in": "1 3/4 in", "0/4 in": "1 3/4 in", "1 0/2 in": "1 3/4 in",
		"1/ in": "1 3/4 in", "/2 in": "1 3/4 in", "1/-2 in": "1 3/4 in", "1/2/3 in": "1 3/4 in", "1 1/2 1/2 in": "1 3/4 in", "½½ in": "1 3/4 in", "1½ 1/2 in": "1 3/4 in", "1½½ in": "1 3/4 in",
		"1 3/4 3/8 in": "1 3/4 in", "1 1/2.5 in": "1 3/4 in", "1.5 1/2 in": "1 3/4 in", "1. 3/4 in": "1 3/4 in", "1--1/2 in": "1 3/4 in", "00012/00016 in": "1 3/4 in", "1 2 3/4 in": "1 3/4 in",
		"-1/2 in": "1 3/4 in", "1+3/4 in": "1 3/4 in", "1 and 3/4 in": "1 3/4 in", "1.3/4 in": "1 3/4 in", "1 1/2/4 in": "1 3/4 in",
	} {
		v, err := ParseLength(text, Inches)
		if remedy == "" { // nought and a fraction is the fraction
			if err != nil || v != 1.25*25.4 {
				t.Errorf("%q: %v, %v", text, v, err)
			}
			continue
		}
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("%q is read as %v mm", text, v)
			continue
		}
		if !strings.Contains(e.Remedy, remedy) {
			t.Errorf("%q: the remedy is %q, want %q in it", text, e.Remedy, remedy)
		}
	}
	for text, want := range map[string]Length{"1 3/4 in": 44.45, "3/4 in": 19.05, "5/4 in": 31.75, "1 1 /2 in": 38.1, "1 / 2 in": 12.7, "1½ in": 38.1, "4 ft 6 1/2 in": 1384.3, "4'-6 1/2\"": 1384.3, "4 ft 1/2 in": 1231.9} {
		if v, err := ParseLength(text, Inches); err != nil || math.Abs(float64(v-want)) > 1e-9 {
			t.Errorf("%q: %v, %v, want %v mm", text, v, err, want)
		}
	}
}
