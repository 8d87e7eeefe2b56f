package assembly

import (
	_ "embed" // the tables
	"errors"
	"math"
	"slices"

	"slabfolio/listing/table"
)

//go:embed customary.csv
var customaryCSV string

//go:embed access.csv
var accessCSV string

//go:embed rules.csv
var rulesCSV string

// A Range is a published or customary range for one quantity of some kinds of
// piece, in millimetres; Low is 0 or High is infinite where there is none.
type Range struct {
	ID        string   // of a published one
	Kinds     []string // of piece
	Quantity  string   // height, knee, length, width, thickness
	Low, High float64
	Says      string // what the standard says, of a published one
	Source    string
}

// holds reports whether the range holds a value in millimetres.
func (r Range) holds(mm float64) bool { return mm >= r.Low && mm <= r.High }

// Tables are the reference values of this package.
type Tables struct {
	Customary []Range
	Access    []Range // figures of accessibility and office standards: for information
	Rules     map[string]table.Rule
}

// Load returns the embedded tables.
func Load() (Tables, error) {
	var t Tables
	rules, err := table.Rules("rules.csv", rulesCSV)
	t.Rules = rules
	return t, errors.Join(err,
		table.Each("customary.csv", customaryCSV, func(r table.Row) {
			t.Customary = append(t.Customary, rangeOf(r))
		}),
		table.Each("access.csv", accessCSV, func(r table.Row) {
			a := rangeOf(r)
			a.ID, a.Says = r.Text("id"), r.Text("says")
			t.Access = append(t.Access, a)
		}))
}

func rangeOf(r table.Row) Range {
	return Range{Kinds: r.Words("kinds"), Quantity: r.Text("quantity"), Low: r.Number("low_mm"), High: r.NumberOr("high_mm", math.Inf(1)), Source: r.Text("source")}
}

// Usual returns the customary range of a quantity ("height", "knee", "length") for a
// kind of piece.
func (t Tables) Usual(kind, quantity string) (Range, bool) {
	for _, r := range t.Customary {
		if slices.Contains(r.Kinds, kind) && r.Quantity == quantity {
			return r, true
		}
	}
	return Range{}, false
}

// An Odd is a size outside what is customary for its kind.
type Odd struct {
	Quantity string // "height", "knee", "length", "width", "thickness"
	MM       float64
	Range    Range
}

// Check compares a piece with what is customary for its kind. The length is the
// longer side of the top, the width the shorter; thicknessMM is the top's, 0 where it is not known.
func (t Tables) Check(kind string, s Size, thicknessMM float64) []Odd {
	var odd []Odd
	for _, q := range []struct {
		name string
		mm   float64
	}{{"height", s.Height}, {"knee", s.Knee}, {"length", max(s.TopLength, s.TopWidth)}, {"width", min(s.TopLength, s.TopWidth)}, {"thickness", thicknessMM}} {
		if r, ok := t.Usual(kind, q.name); ok && q.mm > 0 && !r.holds(q.mm) {
			odd = append(odd, Odd{q.name, q.mm, r})
		}
	}
	return odd
}

// An Access is one figure of a standard beside the same figure of the piece: for
// information only, since a standard asks for more than can be computed here.
type Access struct {
	Range  Range
	MM     float64
	Within bool
}

// Accessible lists the published figures for a kind that the piece has a value for.
func (t Tables) Accessible(kind string, s Size, thicknessMM float64) []Access {
	var list []Access
	for _, r := range t.Access {
		if !slices.Contains(r.Kinds, kind) {
			continue
		}
		mm := map[string]float64{"height": s.Height, "knee": s.Knee, "thickness": thicknessMM}[r.Quantity]
		if mm > 0 {
			list = append(list, Access{r, mm, r.holds(mm)})
		}
	}
	return list
}
