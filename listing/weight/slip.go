package weight

import (
	"fmt"

	"slabfolio/listing/units"
)

// FarOff reports whether a scale's figure is so far from what the parts can come to, by
// a third as much again, that no density explains it: pounds for kilograms (2.2) are.
func FarOff(kg, low, high float64) bool { return kg < low/1.33 || kg > high*1.33 }

// slip says what to look at first where a scale's figure is far off what the parts can
// come to: the unit, the point, the number of pieces that stood on it.
func (e *estimator) slip(kg, low, high float64) string {
	fits := func(v float64) bool { return v >= low && v <= high }
	n := float64(max(1, e.p.Quantity.V))
	plain := func(v float64) string { return fmt.Sprintf("%.4g", v) }
	switch {
	case n > 1 && fits(kg/n):
		return fmt.Sprintf("weighed is of one piece: write %s if all %.0f stood on the scale", e.kilos(kg/n), n)
	case fits(kg * units.KilogramsPerPound):
		return "write " + plain(kg) + " lb if the scale shows pounds"
	case fits(kg / units.KilogramsPerPound):
		return "write " + plain(kg/units.KilogramsPerPound) + " kg if the scale shows kilograms"
	case fits(kg / 1000), fits(kg * 1000):
		return "look at its unit, kilograms or grams"
	case fits(kg / 10), fits(kg * 10):
		return "look at its point: it fits by a factor of ten"
	}
	return "look at the figure and its unit first, then at the sizes in the spec"
}
