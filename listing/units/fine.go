package units

import (
	"fmt"
	"math"
)

// Fine returns a few millimetres in both systems, the given one first, as finely
// as a maker sets a slot: to 1/16 in and to 1 mm, and never as nothing: "3/16 in
// (5 mm)".
func (l Length) Fine(first System) string {
	if first.Metric() {
		l = Length(wholeMillimetres(l, math.Round))
		return fineMillimetres(l, math.Round) + " (" + fineInches(l, math.Round) + ")"
	}
	l = Length(sixteenth * wholeSixteenths(l, math.Round))
	return fineInches(l, math.Round) + " (" + fineMillimetres(l, math.Round) + ")"
}

// FineUp is like Fine rounded up, for what stands behind "at least" or "up to": each
// system to its own next step and no further, so that it says the same whichever is first.
// A twentieth of a step over a mark does not count.
func (l Length) FineUp(first System) string {
	up := func(v float64) float64 { return math.Ceil(v - 0.05) }
	if first.Metric() {
		return fineMillimetres(l, up) + " (" + fineInches(l, up) + ")"
	}
	return fineInches(l, up) + " (" + fineMillimetres(l, up) + ")"
}

const sixteenth = MillimetresPerInch / 16

// wholeSixteenths and wholeMillimetres are a small length in steps, one at least.
func wholeSixteenths(l Length, round func(float64) float64) float64 {
	return math.Max(1, round(float64(l)/sixteenth))
}

func wholeMillimetres(l Length, round func(float64) float64) float64 {
	return math.Max(1, round(float64(l)))
}

func fineInches(l Length, round func(float64) float64) string {
	return Length(sixteenth * wholeSixteenths(l, round)).Text(Inches)
}

func fineMillimetres(l Length, round func(float64) float64) string {
	return fmt.Sprintf("%.0f mm", wholeMillimetres(l, round))
}
