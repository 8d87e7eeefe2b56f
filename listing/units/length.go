package units

import (
	"fmt"
	"slices"
	"strings"
)

// Exact conversions (international yard and pound agreement of 1959; the same
// figures as in UN/ECE Recommendation 20).
const (
	MillimetresPerInch = 25.4
	KilogramsPerPound  = 0.45359237
	litresPerGallon    = 3.785411784 // US liquid gallon, 231 cubic inches
)

// A lengthUnit is one spelling of a unit of length.
type lengthUnit struct {
	name  string  // the spelling that messages use
	num   float64 // millimetres = value × num / den, kept apart so that 54 in is exact
	den   float64
	order int // larger units first; feet and inches, metres and centimetres may follow each other
	group string
}

var (
	inch       = lengthUnit{"in", 254, 10, 1, "in"}
	foot       = lengthUnit{"ft", 3048, 10, 2, "in"}
	millimetre = lengthUnit{"mm", 1, 1, 1, "mm"}
	centimetre = lengthUnit{"cm", 10, 1, 2, "mm"}
	metre      = lengthUnit{"m", 1000, 1, 3, "mm"}
)

var lengthUnits = map[string]lengthUnit{
	"in": inch, "inch": inch, "inches": inch, "\"": inch, "ins": inch,
	"ft": foot, "foot": foot, "feet": foot, "'": foot,
	"mm": millimetre, "millimetre": millimetre, "millimetres": millimetre, "millimeter": millimetre, "millimeters": millimetre,
	"cm": centimetre, "centimetre": centimetre, "centimetres": centimetre, "centimeter": centimetre, "centimeters": centimetre,
	"m": metre, "metre": metre, "metres": metre, "meter": metre, "meters": metre,
}

// LengthExample is a right length, for messages.
const LengthExample = "1 3/4 in, 4 ft 6 in, 137.2 cm or 1372 mm"

// exampleOf is a right length for whoever measures in a system: in that first.
func exampleOf(bare System) string {
	if bare.Metric() {
		return "137.2 cm, 1372 mm, 1.4 m or 54 in"
	}
	return LengthExample
}

// ParseLength reads a length in any spelling of the spec: 1 3/4 in, 1-3/4",
// 1¾ in, 4 ft 6 in, 4' 6 1/2", 137.2 cm, 1372 mm, 1.4 m. A bare number is in the
// system bare. A comma is not read, since 1,250 is a different length on either
// side of the sea. The error is an *Error.
func ParseLength(text string, bare System) (Length, error) {
	parts, fault := scan(text, "length", exampleOf(bare))
	if fault != nil {
		return 0, fault
	}
	var sum float64
	var last lengthUnit
	for i, p := range parts {
		u, err := lengthUnitOf(p.unit, text, bare, last, i > 0)
		if err != nil {
			return 0, err
		}
		if i > 0 && (u.group != last.group || u.order >= last.order) {
			return 0, &Error{text, fmt.Sprintf("%q puts %s behind %s", text, u.name, last.name), "write one unit, or feet and then inches, like this: " + exampleOf(bare)}
		}
		if i > 0 && p.value*u.num/u.den >= last.num/last.den {
			return 0, &Error{text, fmt.Sprintf("%q has %s or more behind its %s, and that is one %s more", text, wholeOf[last.name], last.name, last.name), "write the whole length in one unit, or carry over: " + exampleOf(bare)}
		}
		sum += p.value * u.num / u.den
		last = u
	}
	return Length(sum), nil
}

// wholeOf is how many of the next smaller units make a larger one.
var wholeOf = map[string]string{"ft": "12 in", "m": "100 cm", "cm": "10 mm"}

func lengthUnitOf(unit, text string, bare System, last lengthUnit, later bool) (lengthUnit, error) {
	if unit == "" {
		if later && last.name == "ft" {
			return inch, nil // 4' 6
		}
		if later {
			return lengthUnit{}, &Error{text, fmt.Sprintf("%q has a number without a unit behind %s", text, last.name), "write the length like this: " + exampleOf(bare)}
		}
		switch bare {
		case Centimetres:
			return centimetre, nil
		case Millimetres:
			return millimetre, nil
		}
		return inch, nil
	}
	if u, ok := lengthUnits[unit]; ok {
		return u, nil
	}
	return lengthUnit{}, unknownUnit(text, unit, "length", "in, ft, mm, cm or m", exampleOf(bare))
}

func unknownUnit(text, unit, what, known, example string) *Error {
	if strings.ContainsAny(unit, "0123456789") || unit == "e" || unit == "_" || len(unit) > 12 {
		return &Error{text, fmt.Sprintf("%q is not a %s", cut(text), what), "write the " + what + " like this: " + example}
	}
	return &Error{text, fmt.Sprintf("%q has a unit that is not known here: %q", cut(text), unit), "use " + known + ", like this: " + example}
}

// ParseSizes reads sizes that are written in one go, such as 80 x 40 x 3 mm or
// 1 1/2 x 1/2 x 1/8 in. The last unit counts for those before it that have
// none. The error is an *Error.
func ParseSizes(text string, bare System) ([]Length, error) {
	if len(text) > maxText {
		return nil, &Error{text, fmt.Sprintf("%q is too long for sizes", cut(text)), "write them like this: 80 x 40 x 3 mm"}
	}
	fields := strings.Split(strings.ReplaceAll(strings.ToLower(plain(text)), "*", "x"), "x")
	if len(fields) > 4 || slices.ContainsFunc(fields, func(f string) bool { return strings.TrimSpace(f) == "" }) {
		return nil, &Error{text, fmt.Sprintf("%q is not a list of sizes", text), "write them like this: 80 x 40 x 3 mm"}
	}
	tail := ""
	if parts, fault := scan(fields[len(fields)-1], "size", "80 x 40 x 3 mm"); fault == nil && len(parts) == 1 {
		tail = parts[0].unit
	}
	sizes := make([]Length, len(fields))
	for i, f := range fields {
		f = strings.TrimSpace(f)
		if parts, fault := scan(f, "size", "80 x 40 x 3 mm"); fault == nil && len(parts) == 1 && parts[0].unit == "" && tail != "" {
			f += " " + tail
		}
		l, err := ParseLength(f, bare)
		if err != nil {
			e := *err.(*Error)
			e.Text, e.Message = text, fmt.Sprintf("%q cannot be read: %s", text, e.Message)
			e.Remedy = "write the sizes like this: 80 x 40 x 3 mm"
			return nil, &e
		}
		sizes[i] = l
	}
	return sizes, nil
}

// ParseSystem reads the word of a system of units: in, cm or mm. The error is
// an *Error.
func ParseSystem(text string) (System, error) {
	switch s := System(strings.ToLower(strings.TrimSpace(text))); s {
	case Inches, Centimetres, Millimetres:
		return s, nil
	}
	return "", &Error{text, fmt.Sprintf("%q is not one of the units for bare lengths", cut(text)), systemRemedy(text)}
}

// systemNames are what people call the units of bare lengths, in the languages of the
// papers (from memory).
var systemNames = map[System][]string{
	Inches:      {"inch", "inches", "ins", "\"", "”", "″", "zoll", "pouce", "pouces", "pulgada", "pulgadas", "duim"},
	Centimetres: {"centimetre", "centimetres", "centimeter", "centimeters", "zentimeter", "centimètre", "centimètres", "centímetro", "centímetros", "cms"},
	Millimetres: {"millimetre", "millimetres", "millimeter", "millimeters", "millimètre", "millimètres", "milímetro", "milímetros", "mms"},
}

// What says which system of measures it is, and not which unit.
var (
	metricNames   = []string{"metric", "si", "metrisch", "métrique", "metrique", "métrico", "metrico", "m", "metre", "metres", "meter", "meters", "mètre", "mètres", "metro", "metros"}
	imperialNames = []string{"imperial", "us", "usa", "english", "american", "customary", "ft", "foot", "feet", "'", "fuß", "zöllig"}
)

// SystemMeant is what a maker means who writes another word for in, cm or mm;
// millimetres for "metric", which can be centimetres too; "" for no such word.
func SystemMeant(text string) System {
	said := strings.ToLower(strings.Trim(strings.TrimSpace(text), "."))
	for s, names := range systemNames {
		if said == string(s) || slices.Contains(names, said) {
			return s
		}
	}
	switch {
	case slices.Contains(metricNames, said):
		return Millimetres
	case slices.Contains(imperialNames, said):
		return Inches
	}
	return ""
}

// SystemNamed is SystemMeant for a word that means one unit alone: sure is false for
// metric ones, which are two, and for no such word.
func SystemNamed(text string) (s System, sure bool) {
	s = SystemMeant(text)
	return s, s != "" && !slices.Contains(metricNames, strings.ToLower(strings.Trim(strings.TrimSpace(text), ".")))
}

// systemRemedy says which of the three to write.
func systemRemedy(text string) string {
	meant := SystemMeant(text)
	said := strings.ToLower(strings.Trim(strings.TrimSpace(text), "."))
	switch {
	case slices.Contains(metricNames, said):
		return "write mm if you write 1372 for a length, cm if you write 137.2; one in metres says so itself: 1.4 m"
	case slices.Contains(imperialNames, said):
		return "write in; a length in feet says so itself: 4 ft 6 in"
	case meant != "":
		return "write " + string(meant)
	}
	return "write in, cm or mm"
}
