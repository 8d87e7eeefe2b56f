package units

import (
	"fmt"
	"math"
)

// Fine returns a few millimetres in both systems, the given one first, as finely
// as a maker sets a slot: to 1/16 in and to 1 mm, and never as nothing: "3/16 in
// (5 mm)".
func (l Length) Fine(first System) string { return l.fine(first, math.Round) }

// FineUp is Fine rounded up, for what stands behind "at least" or "up to". A
// twentieth of a step over a mark does not count.
func (l Length) FineUp(first System) string {
	return l.fine(first, func(v float64) float64 { return math.Ceil(v - 0.05) })
}

// fine rounds in the first system and converts what it shows, so that the two
// sides agree.
func (l Length) fine(first System, round func(float64) float64) string {
	const step = MillimetresPerInch / 16
	inches := func(l Length) string { return Length(step * math.Max(1, math.Round(float64(l)/step))).Text(Inches) }
	metric := func(l Length) string { return fmt.Sprintf("%.0f mm", math.Max(1, math.Round(float64(l)))) }
	if first.Metric() {
		l = Length(math.Max(1, round(float64(l))))
		return metric(l) + " (" + inches(l) + ")"
	}
	l = Length(step * math.Max(1, round(float64(l)/step)))
	return inches(l) + " (" + metric(l) + ")"
}
