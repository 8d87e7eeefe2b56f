package units

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// notANumber stands for what has no value; it never reaches a buyer, since what
// is not known is absent.
const notANumber = "?"

// Inches returns the length in inches.
func (l Length) Inches() float64 { return float64(l) / MillimetresPerInch }

// Centimetres returns the length in centimetres.
func (l Length) Centimetres() float64 { return float64(l) / 10 }

// Pounds returns the mass in pounds.
func (m Mass) Pounds() float64 { return float64(m) / KilogramsPerPound }

// Fahrenheit returns the temperature in degrees Fahrenheit.
func (c Celsius) Fahrenheit() float64 { return float64(c)*9/5 + 32 }

// glyphs are the fractions that text fonts carry; sixteenths are written with
// the fraction slash.
var glyphs = map[[2]int]string{{1, 2}: "½", {1, 4}: "¼", {3, 4}: "¾", {1, 8}: "⅛", {3, 8}: "⅜", {5, 8}: "⅝", {7, 8}: "⅞"}

// sixteenths splits a length into whole inches and a fraction in lowest terms,
// to the nearest 1/16 inch. den is 0 when there is no fraction; ok is false for
// what is no length at all.
func sixteenths(l Length) (negative bool, whole, num, den int, ok bool) {
	n := math.Round(l.Inches() * 16)
	if math.IsNaN(n) || math.Abs(n) > 1e12 {
		return false, 0, 0, 0, false
	}
	k := int(n)
	if k < 0 {
		negative, k = true, -k
	}
	whole, num, den = k/16, k%16, 16
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	if num == 0 {
		den = 0
	}
	return negative, whole, num, den, true
}

// fraction returns the length in inches to the nearest 1/16, without a unit, in
// plain letters: "1 3/4".
func (l Length) fraction() string {
	negative, whole, num, den, ok := sixteenths(l)
	if !ok {
		return notANumber
	}
	s := strconv.Itoa(whole)
	switch {
	case den != 0 && whole != 0:
		s = fmt.Sprintf("%d %d/%d", whole, num, den)
	case den != 0:
		s = fmt.Sprintf("%d/%d", num, den)
	}
	if negative {
		s = "-" + s
	}
	return s
}

// fractionSet returns the length in inches to the nearest 1/16, without a unit,
// as a printer sets it: "1¾", "1 3⁄16".
func (l Length) fractionSet() string {
	negative, whole, num, den, ok := sixteenths(l)
	if !ok {
		return notANumber
	}
	s := strconv.Itoa(whole)
	if den != 0 {
		f, ok := glyphs[[2]int{num, den}]
		gap := ""
		if !ok {
			f, gap = fmt.Sprintf("%d\u2044%d", num, den), "\u00a0"
		}
		if whole == 0 {
			s = f
		} else {
			s += gap + f
		}
	}
	if negative {
		s = "−" + s
	}
	return s
}

// Number returns the length in the system, without the unit: inches as a set
// fraction, centimetres with one decimal where it is not .0, millimetres whole.
func (l Length) Number(s System) string {
	switch s {
	case Centimetres:
		return decimals(l.Centimetres(), 1)
	case Millimetres:
		return decimals(float64(l), 0)
	}
	return l.fractionSet()
}

// Text returns the length in the system with its unit: "1¾ in", "137.2 cm",
// "1372 mm".
func (l Length) Text(s System) string { return l.Number(s) + " " + s.unit() }

// Plain is Text in plain letters: "1 3/4 in".
func (l Length) Plain(s System) string {
	if s == Centimetres || s == Millimetres {
		return l.Text(s)
	}
	return l.fraction() + " in"
}

// Both returns the length in both systems, the given one first: "54 in
// (137.2 cm)". Beside inches stand centimetres.
func (l Length) Both(first System) string {
	if first == Centimetres || first == Millimetres {
		return l.Text(first) + " (" + l.Text(Inches) + ")"
	}
	return l.Text(Inches) + " (" + l.Text(Centimetres) + ")"
}

// Exact returns the length in a form that ParseLength reads back as the very
// same value.
func (l Length) Exact() string { return strconv.FormatFloat(float64(l), 'f', -1, 64) + " mm" }

// Sizes returns sizes in one go: "54 × 16 × 30 in".
func Sizes(s System, sizes ...Length) string {
	texts := make([]string, len(sizes))
	for i, l := range sizes {
		texts[i] = l.Number(s)
	}
	return strings.Join(texts, " × ") + " " + s.unit()
}

func (s System) unit() string {
	if s == Centimetres || s == Millimetres {
		return string(s)
	}
	return string(Inches)
}

// Metric reports whether the system is a metric one.
func (s System) Metric() bool { return s == Centimetres || s == Millimetres }

// TextKg returns the mass in kilograms with as many digits as make sense: whole
// from 20 kg up, one decimal from 2 kg up, two below; under one kilogram in grams, by tens
// from 100 g up.
func (m Mass) TextKg() string {
	if m.Grams() {
		return m.numberLike(m) + " g"
	}
	return m.NumberKg() + " kg"
}

// Grams reports whether TextKg is in grams.
func (m Mass) Grams() bool { k := math.Abs(float64(m)); return k > 0 && math.Round(k*100) < 100 }

// numberLike returns the number of another mass in grams, with the step of m.
func (m Mass) numberLike(other Mass) string {
	g, step := float64(other)*1000, 1.0
	if math.Abs(float64(m)) >= 0.1 {
		step = 10
	}
	return decimals(math.Round(g/step)*step, 0)
}

// NumberKg is the number of kilograms as TextKg has it from one kilogram up.
func (m Mass) NumberKg() string { return decimals(float64(m), m.decimalsKg()) }

// decimalsKg is how many decimals TextKg has at most.
func (m Mass) decimalsKg() int {
	switch k := math.Abs(float64(m)); {
	case k >= 20:
		return 0
	case k >= 2:
		return 1
	default:
		return 2
	}
}

// TextLb returns the mass in pounds: whole from 20 lb up, with a decimal below,
// in ounces under one pound.
func (m Mass) TextLb() string {
	if m.ounces() {
		return m.numberOz() + " oz"
	}
	return m.NumberLb() + " lb"
}

// numberOz returns the ounces without the unit, with one decimal.
func (m Mass) numberOz() string { return decimals(m.Pounds()*16, 1) }

// ounces reports whether TextLb is in ounces.
func (m Mass) ounces() bool { p := math.Abs(m.Pounds()); return p < 1 && p > 0 }

// NumberLb returns the pounds without the unit: whole from 20 lb up, with one
// decimal below.
func (m Mass) NumberLb() string { return decimals(m.Pounds(), m.decimalsLb()) }

// decimalsLb is how many decimals NumberLb has at most.
func (m Mass) decimalsLb() int {
	if math.Abs(m.Pounds()) >= 20 {
		return 0
	}
	return 1
}

// LikeKg returns masses without the unit, in the unit and with the decimals that TextKg
// gives m: the ends of a range beside the value.
func (m Mass) LikeKg(low, high Mass) (lowNumber, highNumber string) {
	if m.Grams() {
		return m.numberLike(low), m.numberLike(high)
	}
	n := m.decimalsKg()
	return decimals(float64(low), n), decimals(float64(high), n)
}

// LikeLb returns masses without the unit, in the unit and with the decimals that
// TextLb gives m: pounds, or ounces under one pound.
func (m Mass) LikeLb(low, high Mass) (lowNumber, highNumber string) {
	if m.ounces() {
		return low.numberOz(), high.numberOz()
	}
	n := m.decimalsLb()
	return decimals(low.Pounds(), n), decimals(high.Pounds(), n)
}

// Tenths returns the mass in kilograms and pounds with a decimal and without the unit: what
// stands beside the sum of several, which whole numbers do not add up to.
func (m Mass) Tenths() (kg, lb string) { return fixed(float64(m)), fixed(m.Pounds()) }

// Together returns the sum of masses as Tenths shows each of them, so that whoever adds
// up what stands on a page comes to the same in either system.
func Together(masses ...Mass) (kg, lb string) {
	sumKg, sumLb := 0.0, 0.0
	for _, m := range masses {
		sumKg += math.Round(float64(m)*10) / 10
		sumLb += math.Round(m.Pounds()*10) / 10
	}
	return fixed(sumKg) + " kg", fixed(sumLb) + " lb"
}

// fixed writes a number with one decimal, a nought too, rounded half up as Together adds.
func fixed(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', 1, 64) }

// Text returns the mass in the system's own unit: pounds with inches, kilograms
// with the metric ones.
func (m Mass) Text(s System) string {
	if s.Metric() {
		return m.TextKg()
	}
	return m.TextLb()
}

// Exact returns the mass in a form that ParseMass reads back as the same value.
func (m Mass) Exact() string { return strconv.FormatFloat(float64(m), 'f', -1, 64) + " kg" }

// Exact returns the volume in a form that ParseVolume reads back as the same
// value.
func (v Volume) Exact() string { return strconv.FormatFloat(float64(v), 'f', -1, 64) + " l" }

// Exact returns the density in a form that ParseDensity reads back as the same
// value.
func (d Density) Exact() string { return strconv.FormatFloat(float64(d), 'f', -1, 64) + " kg/m3" }

// Text returns the share with at most one decimal: "8 %", "7.5 %".
func (p Percent) Text() string { return decimals(float64(p), 1) + " %" }

// Exact returns the share in a form that ParsePercent reads back as the same
// value.
func (p Percent) Exact() string { return strconv.FormatFloat(float64(p), 'f', -1, 64) + " %" }

// TextC returns the temperature in whole degrees Celsius: "20 °C".
func (c Celsius) TextC() string { return decimals(float64(c), 0) + " °C" }

// TextF returns the temperature in whole degrees Fahrenheit: "68 °F".
func (c Celsius) TextF() string { return decimals(c.Fahrenheit(), 0) + " °F" }

// decimals writes a number with at most n decimals, without trailing zeros and
// without a minus before nought.
func decimals(v float64, n int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return notANumber
	}
	s := strconv.FormatFloat(v, 'f', n, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}
