package piece

import (
	"strings"

	"slabfolio/listing/units"
)

// oneReading writes a value as a spec has it where people write it otherwise and mean
// one thing only: 52,5 kg, 24.11.2026. What can be meant in two ways stays as it is,
// and is asked back; so does everything in a file, where the rule of the spec holds.
func oneReading(text string, k *Key) string {
	if k.Many != one {
		return text
	}
	switch k.Type {
	case typeDate:
		if _, problem, remedy := parseDate(text); problem != "" {
			if day, ok := strings.CutPrefix(remedy, "write "); ok {
				if _, still, _ := parseDate(day); still == "" {
					return day
				}
			}
		}
	case typeNumber:
		if amount, currency, ok := money(text); ok && currency == "" && continental().MatchString(text) && strings.Contains(text, ",") {
			return amount
		}
		read, _ := units.WithPoints(text)
		return read
	case typeLength, typeMass, typeVolume, typeAmount, typeDensity, typePercent, typeTemp, typeDays, typeSizes:
		read, _ := units.WithPoints(text)
		return read
	}
	return text
}
