package units

import (
	"fmt"
	"math"
	"strings"
)

// Examples of right quantities, for messages.
const (
	MassExample        = "31.4 kg, 850 g, 69 lb or 12 lb 4 oz"
	VolumeExample      = "4.2 l, 900 ml, 1.1 gal, 1.5 qt or 32 fl oz"
	DensityExample     = "1.10 kg/l, 1.10 g/cm3, 1100 kg/m3 or 9.2 lb/gal"
	PercentExample     = "8 %"
	TemperatureExample = "20 C or 68 F"
	DaysExample        = "3 days or 2 weeks"
)

const (
	kilogramsPerOunce     = KilogramsPerPound / 16
	litresPerFluidOunce   = litresPerGallon / 128 // US
	litresPerCubicInch    = 0.016387064           // 2.54³ / 1000
	kgPerM3PerPoundGallon = KilogramsPerPound / litresPerGallon * 1000
	kgPerM3PerPoundFoot3  = KilogramsPerPound / (1728 * litresPerCubicInch) * 1000
)

// massUnits are in kilograms.
var massUnits = map[string]float64{
	"kg": 1, "kilo": 1, "kilos": 1, "kilogram": 1, "kilograms": 1, "g": 0.001, "gram": 0.001, "grams": 0.001, "t": 1000,
	"lb": KilogramsPerPound, "lbs": KilogramsPerPound, "pound": KilogramsPerPound, "pounds": KilogramsPerPound,
	"oz": kilogramsPerOunce, "ounce": kilogramsPerOunce, "ounces": kilogramsPerOunce,
}

// volumeUnits are in litres; gallons, quarts and fluid ounces are the US ones.
var volumeUnits = map[string]float64{
	"l": 1, "litre": 1, "litres": 1, "liter": 1, "liters": 1, "dm3": 1, "ml": 0.001, "cc": 0.001, "cm3": 0.001, "cl": 0.01, "dl": 0.1, "m3": 1000,
	"gal": litresPerGallon, "gallon": litresPerGallon, "gallons": litresPerGallon,
	"qt": litresPerGallon / 4, "quart": litresPerGallon / 4, "quarts": litresPerGallon / 4,
	"fl oz": litresPerFluidOunce, "floz": litresPerFluidOunce, "fl. oz": litresPerFluidOunce,
	"in3": litresPerCubicInch, "cu in": litresPerCubicInch, "ft3": 1728 * litresPerCubicInch, "cu ft": 1728 * litresPerCubicInch,
}

// densityUnits are in kilograms per cubic metre.
var densityUnits = map[string]float64{
	"kg/l": 1000, "g/cm3": 1000, "g/ml": 1000, "g/cc": 1000, "kg/dm3": 1000, "kg/m3": 1,
	"lb/gal": kgPerM3PerPoundGallon, "lbs/gal": kgPerM3PerPoundGallon, "lb/ft3": kgPerM3PerPoundFoot3, "lbs/ft3": kgPerM3PerPoundFoot3,
}

// A measure is what the quantities of one kind are written in.
type measure struct {
	what, units, example string             // for messages
	per                  map[string]float64 // SI units to one of each unit
	parts                bool               // a larger unit may be followed by smaller ones: 12 lb 4 oz
}

var (
	mass    = measure{"mass", "kg, g, lb or oz", MassExample, massUnits, true}
	volume  = measure{"volume", "l, ml, gal, qt or fl oz", VolumeExample, volumeUnits, true}
	density = measure{"density", "kg/l, g/cm3, kg/m3 or lb/gal", DensityExample, densityUnits, false}
	share   = measure{"share", "%", PercentExample, map[string]float64{"%": 1, "percent": 1, "per cent": 1, "pct": 1}, false}
	days    = measure{"time", "days or weeks", DaysExample, map[string]float64{"": 1, "d": 1, "day": 1, "days": 1, "week": 7, "weeks": 7, "wk": 7, "wks": 7}, false}
)

// ParseMass reads a mass with its unit: 31.4 kg, 69 lb, 12 lb 4 oz, 850 g. The
// error is an *Error.
func ParseMass(text string) (Mass, error) {
	v, err := mass.parse(text)
	return Mass(v), err
}

// ParseVolume reads a volume with its unit: 4.2 l, 900 ml, and the US gal, qt
// and fl oz. The error is an *Error.
func ParseVolume(text string) (Volume, error) {
	v, err := volume.parse(text)
	return Volume(v), err
}

// ParseDensity reads a density with its unit: 1.10 kg/l, 1.10 g/cm3, 1100
// kg/m3, 9.2 lb/gal. The error is an *Error.
func ParseDensity(text string) (Density, error) {
	v, err := density.parse(text)
	return Density(v), err
}

// ParsePercent reads a share with its sign: 8 %, 8%, 8 percent. A bare number is
// an error, since 0.08 and 8 could both be meant. The error is an *Error.
func ParsePercent(text string) (Percent, error) {
	v, err := share.parse(text)
	return Percent(v), err
}

// ParseTemperature reads a temperature: 20 C, 20 °C, 68 F. The error is an
// *Error.
func ParseTemperature(text string) (Celsius, error) {
	s, sign := plain(text), 1.0
	if strings.HasPrefix(s, "-") { // below freezing is no mistake
		s, sign = s[1:], -1
	}
	parts, fault := scan(s, "temperature", TemperatureExample)
	if fault != nil {
		fault.Text = text
		return 0, fault
	}
	v := sign * parts[0].value
	unit := strings.ReplaceAll(parts[0].unit, " ", "")
	switch strings.TrimPrefix(strings.TrimPrefix(unit, "degrees"), "°") {
	case "c", "celsius":
	case "f", "fahrenheit":
		v = (v - 32) * 5 / 9
	default:
		return 0, &Error{text, fmt.Sprintf("%q does not say celsius or fahrenheit", cut(text)), "write C or F behind the number: " + TemperatureExample}
	}
	if len(parts) > 1 || v < -273.15 {
		return 0, &Error{text, fmt.Sprintf("%q is not a temperature", cut(text)), "write it like this: " + TemperatureExample}
	}
	return Celsius(v), nil
}

// ParseDays reads a time in days: 3 days, 2 weeks, 1 day; a bare number is in
// days. The error is an *Error.
func ParseDays(text string) (int, error) {
	v, err := days.parse(text)
	if err != nil {
		return 0, err
	}
	if v != math.Trunc(v) || v > 36525 {
		return 0, &Error{text, fmt.Sprintf("%q is not a whole number of days", cut(text)), "write it like this: " + DaysExample}
	}
	return int(v), nil
}

// parse reads "12 lb 4 oz" and its like: numbers with units, larger ones first.
func (m measure) parse(text string) (float64, error) {
	parts, fault := scan(text, m.what, m.example)
	if fault != nil {
		return 0, fault
	}
	like := "write the " + m.what + " like this: " + m.example
	total, last := 0.0, math.Inf(1)
	for i, p := range parts {
		per, ok := m.per[spaces(p.unit)]
		first, _, several := strings.Cut(m.units, " or ")
		first, _, _ = strings.Cut(first, ", ")
		bare := strings.TrimSpace(cut(text))
		switch {
		case !ok && p.unit == "" && !several:
			return 0, &Error{text, fmt.Sprintf("%q has no %s behind it", cut(text), first), fmt.Sprintf("write %s %s", bare, first)}
		case !ok && p.unit == "":
			return 0, &Error{text, fmt.Sprintf("%q has no unit", cut(text)), fmt.Sprintf("write the unit behind it: %s %s; %s are known", bare, first, m.units)}
		case !ok:
			return 0, unknownUnit(text, p.unit, m.what, m.units, m.example)
		case per >= last || i > 0 && (!m.parts || p.value*per >= last):
			return 0, &Error{text, fmt.Sprintf("%q has two numbers that do not go together", cut(text)), like}
		}
		total += p.value * per
		last = per
	}
	if math.IsInf(total, 0) || math.IsNaN(total) {
		return 0, &Error{text, fmt.Sprintf("%q is not a %s that makes sense", cut(text), m.what), like}
	}
	return total, nil
}

// spaces makes every run of spaces one, and takes those round a slash away.
func spaces(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	s = strings.ReplaceAll(s, " per ", "/")
	return strings.ReplaceAll(strings.ReplaceAll(s, " /", "/"), "/ ", "/")
}
