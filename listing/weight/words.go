package weight

import (
	"errors"
	"fmt"

	"slabfolio/listing/units"
)

// litresPerGallon is the US gallon of 231 cubic inches, exactly.
const litresPerGallon = 3.785411784

// kilos writes a mass as the maker reads it, with one decimal: "69.2 lb (31.4
// kg)".
func (e *estimator) kilos(kg float64) string {
	metric, pounds := fmt.Sprintf("%.1f kg", kg), fmt.Sprintf("%.1f lb", units.Mass(kg).Pounds())
	if e.in.First.Metric() {
		return metric + " (" + pounds + ")"
	}
	return pounds + " (" + metric + ")"
}

// inLitres writes a volume as the maker reads it: "4.2 l (1.1 gal)", and two
// decimals, or fluid ounces, for little.
func (e *estimator) inLitres(l float64) string {
	metric, us := fmt.Sprintf("%.1f l", l), fmt.Sprintf("%.1f gal", l/litresPerGallon)
	if l < 1 {
		metric = fmt.Sprintf("%.2f l", l)
	}
	if l < litresPerGallon/4 {
		us = fmt.Sprintf("%.0f fl oz", l/litresPerGallon*128)
	}
	if e.in.First.Metric() {
		return metric + " (" + us + ")"
	}
	return us + " (" + metric + ")"
}

// A sizesError tells of sizes that cannot be: words with a %s for each length.
type sizesError struct {
	words string
	mm    []float64
}

// Error writes the lengths in millimetres.
func (e *sizesError) Error() string { return e.inUnits(units.Millimetres) }

// inUnits writes the lengths as the maker reads them.
func (e *sizesError) inUnits(first units.System) string {
	args := make([]any, len(e.mm))
	for i, v := range e.mm {
		args[i] = fmt.Sprintf("%.4g mm", v)
		if !first.Metric() {
			args[i] = units.Length(v).Plain(units.Inches)
		}
	}
	return fmt.Sprintf(e.words, args...)
}

// sayError writes an error as the maker reads it.
func (e *estimator) sayError(err error) string {
	var s *sizesError
	if errors.As(err, &s) {
		return s.inUnits(e.in.First)
	}
	return err.Error()
}
