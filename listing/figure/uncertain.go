package figure

import (
	"math"
	"sort"
)

// Z90 is the number of standard deviations on either side of the mean that
// hold 90 % of a normal distribution.
const Z90 = 1.6448536269514722

// A Contribution is how far a value moves when one named cause moves from its best
// guess to the lower and to the upper edge of its own 90 % range. Both are
// signed: a value that falls when the cause rises has a negative Up.
type Contribution struct {
	Cause    string
	Down, Up float64
}

// A Uncertain is a value with everything that makes it doubtful, by cause. Sums
// and products keep the causes, so that what two parts have in common (the
// density of one slab, one thickness) adds straight and what they do not have
// in common adds by root sum square. It is a first-order model: right while
// each cause moves the value by little, checked by Monte Carlo in the weight
// package.
type Uncertain struct {
	Value         float64
	Contributions []Contribution // sorted by cause, one each
}

// Sure returns a value without doubt.
func Sure(v float64) Uncertain { return Uncertain{Value: v} }

// Within returns a value whose one cause of doubt moves it to low and to high,
// the edges of the 90 % range.
func Within(v, low, high float64, cause string) Uncertain {
	if low == v && high == v {
		return Sure(v)
	}
	return Uncertain{Value: v, Contributions: []Contribution{{cause, low - v, high - v}}}
}

// PlusMinus returns v within plus or minus half, for one cause.
func PlusMinus(v, half float64, cause string) Uncertain { return Within(v, v-half, v+half, cause) }

// Plus returns the sum; equal causes add straight.
func (d Uncertain) Plus(e Uncertain) Uncertain {
	return Uncertain{d.Value + e.Value, merge(d.Contributions, 1, e.Contributions, 1)}
}

// Minus returns the difference; equal causes cancel.
func (d Uncertain) Minus(e Uncertain) Uncertain {
	return Uncertain{d.Value - e.Value, merge(d.Contributions, 1, e.Contributions, -1)}
}

// Times returns the product, to first order.
func (d Uncertain) Times(e Uncertain) Uncertain {
	return Uncertain{d.Value * e.Value, merge(d.Contributions, e.Value, e.Contributions, d.Value)}
}

// Over returns the quotient, to first order; e must not be zero.
func (d Uncertain) Over(e Uncertain) Uncertain {
	return Uncertain{d.Value / e.Value, merge(d.Contributions, 1/e.Value, e.Contributions, -d.Value/(e.Value*e.Value))}
}

// Scale returns k times d, for a k without doubt.
func (d Uncertain) Scale(k float64) Uncertain {
	return Uncertain{d.Value * k, merge(d.Contributions, k, nil, 0)}
}

// Range returns the edges of the 90 % range: each cause's ups and downs apart,
// the causes by root sum square.
func (d Uncertain) Range() (low, high float64) {
	var down, up float64
	for _, s := range d.Contributions {
		up = math.Hypot(up, math.Max(0, math.Max(s.Down, s.Up)))
		down = math.Hypot(down, math.Max(0, math.Max(-s.Down, -s.Up)))
	}
	return d.Value - down, d.Value + up
}

// Largest returns up to n causes, the one that moves the value most first.
func (d Uncertain) Largest(n int) []string {
	s := append([]Contribution(nil), d.Contributions...)
	sort.SliceStable(s, func(i, j int) bool { return s[i].size() > s[j].size() })
	var names []string
	for _, w := range s[:min(n, len(s))] {
		if w.size() > 0 {
			names = append(names, w.Cause)
		}
	}
	return names
}

// Figure returns d as a Figure that is never below zero.
func (d Uncertain) Figure(unit, rule, source string, inputs ...string) Figure {
	low, high := d.Range()
	return Figure{Value: d.Value, Unit: unit, Low: math.Min(d.Value, math.Max(0, low)), High: high, Rule: rule, Source: source, Inputs: inputs}
}

// Exact returns a figure without doubt.
func Exact(v float64, unit, rule, source string, inputs ...string) Figure {
	return Figure{Value: v, Unit: unit, Low: v, High: v, Rule: rule, Source: source, Inputs: inputs}
}

func (s Contribution) size() float64 { return math.Max(math.Abs(s.Down), math.Abs(s.Up)) }

// merge adds two sorted lists of contributions, each scaled. A negative scale keeps
// the edge of the cause: Up still says what the cause's upper edge does.
func merge(a []Contribution, ka float64, b []Contribution, kb float64) []Contribution {
	out := make([]Contribution, 0, len(a)+len(b))
	for len(a) > 0 || len(b) > 0 {
		switch {
		case len(b) == 0 || len(a) > 0 && a[0].Cause < b[0].Cause:
			out = append(out, Contribution{a[0].Cause, ka * a[0].Down, ka * a[0].Up})
			a = a[1:]
		case len(a) == 0 || b[0].Cause < a[0].Cause:
			out = append(out, Contribution{b[0].Cause, kb * b[0].Down, kb * b[0].Up})
			b = b[1:]
		default:
			out = append(out, Contribution{a[0].Cause, ka*a[0].Down + kb*b[0].Down, ka*a[0].Up + kb*b[0].Up})
			a, b = a[1:], b[1:]
		}
	}
	return out
}
