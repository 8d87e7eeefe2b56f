package units

// UsualIn is what furniture is measured in where a country is, by its two letters:
// inches in North America, millimetres in the building trades of Britain and those that
// follow it, else centimetres (common practice, no source); "" where no country is told.
func UsualIn(country string) System {
	switch country {
	case "":
		return ""
	case "US", "CA", "PR":
		return Inches
	case "GB", "IE", "AU", "NZ", "ZA":
		return Millimetres
	}
	return Centimetres
}

// UnitIn is the unit that a length is written in: inches for feet too, centimetres for
// metres; "" for a number alone, or for what is no length.
func UnitIn(text string) System {
	inches, errA := ParseLength(text, Inches)
	other, errB := ParseLength(text, Millimetres)
	if errA != nil || errB != nil || inches != other {
		return ""
	}
	parts, fault := scan(text, "length", LengthExample)
	if fault != nil || len(parts) == 0 {
		return ""
	}
	switch u := lengthUnits[parts[0].unit]; {
	case u.group == "in":
		return Inches
	case u.name == "mm":
		return Millimetres
	}
	return Centimetres
}

// In is a length as a figure of a system.
func (l Length) In(s System) float64 {
	switch s {
	case Centimetres:
		return l.Centimetres()
	case Millimetres:
		return float64(l)
	}
	return l.Inches()
}
