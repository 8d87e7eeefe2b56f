package report

import (
	"math"
	"strconv"
	"strings"

	"slabfolio/listing/units"
)

// massText writes a mass in the system that is printed first.
func (b *builder) massText(kg float64) string {
	return b.words.Number(units.Mass(kg).Text(b.r.Prefer))
}

// massOther writes a mass in the other system.
func (b *builder) massOther(kg float64) string {
	if b.r.Prefer.Metric() {
		return b.words.Number(units.Mass(kg).TextLb())
	}
	return b.words.Number(units.Mass(kg).TextKg())
}

// massBoth writes a mass in both systems, each from the same kilograms.
func (b *builder) massBoth(kg float64) string {
	return b.words.Say("figures.both", map[string]any{"First": b.massText(kg), "Second": b.massOther(kg)})
}

// scaleTexts writes what a scale said in both systems, each from what it said: with
// a scale's own decimal, where an estimate has none.
func (b *builder) scaleTexts(kg float64) TextWeights {
	m := units.Mass(kg)
	t := TextWeights{Lb: m.TextLb(), Kg: m.TextKg()}
	switch {
	case m.Grams():
		t.Kg = strconv.FormatFloat(math.Round(kg*1000), 'f', -1, 64) + " g"
	case kg >= 10:
		t = TextWeights{Lb: trim(m.Pounds()) + " lb", Kg: trim(kg) + " kg"}
	}
	return TextWeights{Lb: b.words.Number(t.Lb), Kg: b.words.Number(t.Kg)}
}

// weightBoth is the weight as it stands everywhere, without its range: "about" it
// where it was not weighed.
func (b *builder) weightBoth(w *Weight) string {
	first, second := w.Text.Values()
	if b.r.Prefer.Metric() {
		first, second = second, first
	}
	both := b.words.Say("figures.both", map[string]any{"First": first, "Second": second})
	if w.Weighed == nil {
		return b.words.Say("paste.about", map[string]any{"Weight": both})
	}
	return both
}

// smallLength writes a few millimetres in both systems, as finely as such an
// estimate deserves: to 1 mm and to 1/16 in. It stands behind "up to about", so it
// rounds up.
func (b *builder) smallLength(mm float64) string {
	return b.words.Number(units.Length(mm).FineUp(b.r.Prefer))
}

// weightTexts writes a weight with its range in both systems: whole kilograms
// from 10 and whole pounds from 20 upwards, and no hundredths where the range is
// wider than a fifth of a kilogram, and by five grams under 100, since nobody would bet on less.
func (b *builder) weightTexts(kg, low, high float64) TextWeights {
	to := func(step float64) func(float64) units.Mass {
		return func(v float64) units.Mass { return units.Mass(math.Round(v/step) * step) }
	}
	near := func(v float64) units.Mass { return units.Mass(v) }
	switch {
	case kg >= 10:
		near = to(1)
	case kg >= 0.2 && high-low >= 0.2:
		near = to(0.1)
	case kg < 0.1 && high-low >= 0.02:
		near = to(0.005)
	}
	m, l, h := near(kg), near(low), near(high)
	p, pl, ph := units.Mass(kg), units.Mass(low), units.Mass(high)
	if p.Pounds() >= 20 {
		whole := func(v units.Mass) units.Mass { return units.Mass(math.Round(v.Pounds()) * units.KilogramsPerPound) }
		p, pl, ph = whole(p), whole(pl), whole(ph)
	}
	lowLb, highLb := pl.NumberLb(), ph.NumberLb()
	if p.Pounds() < 1 { // in ounces, and in pounds where the range reaches so far
		lowLb, highLb = pl.TextLb(), ph.TextLb()
		if ph.Pounds() < 1 {
			lowLb, highLb = strings.TrimSuffix(lowLb, " oz"), strings.TrimSuffix(highLb, " oz")
		}
	}
	lowKg, highKg := l.NumberKg(), h.NumberKg()
	if m.Grams() {
		lowKg, highKg = m.LikeKg(l, h)
	}
	if lowLb == highLb || lowKg == highKg { // in neither, where it rounds to the value itself in one
		return TextWeights{Lb: b.words.Number(p.TextLb()), Kg: b.words.Number(m.TextKg())}
	}
	return TextWeights{Lb: b.rangeText(p.TextLb(), lowLb, highLb), Kg: b.rangeText(m.TextKg(), lowKg, highKg)}
}

// rangeText writes a weight with its range.
func (b *builder) rangeText(value, lowNumber, highNumber string) string {
	n := b.words.Number
	return b.words.Say("figures.weight", map[string]any{"Value": n(value), "Low": n(lowNumber), "High": n(highNumber)})
}
