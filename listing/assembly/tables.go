package assembly

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
)

//go:embed customary.csv
var customaryCSV []byte

//go:embed access.csv
var accessCSV []byte

//go:embed practice.csv
var practiceCSV []byte

// A Range is a published or customary range for one quantity of one kind of
// piece, in millimetres; Low is 0 or High is infinite where there is none.
type Range struct {
	ID, Kind, Quantity string
	Low, High          float64
	Says               string
	Source             string
}

// Holds reports whether the range holds a value in millimetres.
func (r Range) Holds(mm float64) bool { return mm >= r.Low && mm <= r.High }

// A Practice is one figure of the trade.
type Practice struct {
	Value  float64
	Unit   string
	Source string
}

// Tables are the reference values of this package.
type Tables struct {
	Customary []Range
	Access    []Range // figures of accessibility and office standards: for information
	Practice  map[string]Practice
}

// Defaults returns the embedded tables.
func Defaults() (Tables, error) {
	t := Tables{Practice: map[string]Practice{}}
	rows, err := rowsOf(customaryCSV, 5)
	if err != nil {
		return t, fmt.Errorf("customary.csv: %w", err)
	}
	for _, r := range rows {
		lo, hi, err := limits(r[2], r[3])
		if err != nil {
			return t, fmt.Errorf("customary.csv: %w", err)
		}
		t.Customary = append(t.Customary, Range{Kind: r[0], Quantity: r[1], Low: lo, High: hi, Source: r[4]})
	}
	if rows, err = rowsOf(accessCSV, 7); err != nil {
		return t, fmt.Errorf("access.csv: %w", err)
	}
	for _, r := range rows {
		lo, hi, err := limits(r[3], r[4])
		if err != nil {
			return t, fmt.Errorf("access.csv: %w", err)
		}
		t.Access = append(t.Access, Range{ID: r[0], Kind: r[1], Quantity: r[2], Low: lo, High: hi, Says: r[5], Source: r[6]})
	}
	if rows, err = rowsOf(practiceCSV, 4); err != nil {
		return t, fmt.Errorf("practice.csv: %w", err)
	}
	for _, r := range rows {
		v, err := strconv.ParseFloat(r[1], 64)
		if err != nil {
			return t, fmt.Errorf("practice.csv: %w", err)
		}
		t.Practice[r[0]] = Practice{v, r[2], r[3]}
	}
	return t, nil
}

func rowsOf(data []byte, fields int) ([][]string, error) {
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord = fields
	rows, err := r.ReadAll()
	if err != nil {
		return nil, err
	}
	return rows[1:], nil
}

func limits(low, high string) (lo, hi float64, err error) {
	hi = math.Inf(1)
	if low != "" {
		if lo, err = strconv.ParseFloat(low, 64); err != nil {
			return
		}
	}
	if high != "" {
		hi, err = strconv.ParseFloat(high, 64)
	}
	return
}

// Customary returns the customary range of a quantity ("height", "knee") for a
// kind of piece.
func (t Tables) customary(kind, quantity string) (Range, bool) {
	for _, r := range t.Customary {
		if r.Kind == kind && r.Quantity == quantity {
			return r, true
		}
	}
	return Range{}, false
}

// An Odd is a size outside what is customary for its kind.
type Odd struct {
	Quantity string // "height", "knee"
	MM       float64
	Range    Range
}

// Check compares a piece with what is customary for its kind.
func (t Tables) Check(kind string, s Size) []Odd {
	var odd []Odd
	for _, q := range []struct {
		name string
		mm   float64
	}{{"height", s.Height}, {"knee", s.Knee}} {
		if r, ok := t.customary(kind, q.name); ok && q.mm > 0 && !r.Holds(q.mm) {
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
		if !contains(strings.Split(r.Kind, "|"), kind) {
			continue
		}
		mm := map[string]float64{"height": s.Height, "knee": s.Knee, "thickness": thicknessMM}[r.Quantity]
		if mm > 0 {
			list = append(list, Access{r, mm, r.Holds(mm)})
		}
	}
	return list
}

func contains(list []string, s string) bool {
	for _, v := range list {
		if v == s {
			return true
		}
	}
	return false
}
