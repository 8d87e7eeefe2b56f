// Package shipping packs a finished piece and says what a carrier asks: packages
// with size and gross weight, density scale, volumetric weights, how many people
// lift it, and whether it goes through the door. Everything is an estimate that
// the carrier's own rules overrule.
package shipping

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
)

//go:embed classes.csv
var classesCSV []byte

//go:embed divisors.csv
var divisorsCSV []byte

//go:embed limits.csv
var limitsCSV []byte

//go:embed practice.csv
var practiceCSV []byte

// A Tier is one step of the density scale: from this density, in pounds per
// cubic foot, the class holds.
type Tier struct {
	AtLeast float64
	Class   string
	Source  string
}

// A Divisor turns a volume into a weight.
type Divisor struct {
	ID      string // "cm3-5000"
	Divisor float64
	Unit    string // in3/lb or cm3/kg
	Use     string
	Source  string
}

// A Limit is the largest parcel that is commonly taken in a region; above it
// goes as freight.
type Limit struct {
	Region    string
	Kg        float64
	LongestMM float64
	GirthMM   float64           // longest side plus girth, 2W + 2H
	Says      map[string]string // weight, length, girth -> the limit as carriers say it
	Source    string
}

// A Practice is one figure of the trade with its range; without a range Low and
// High equal Value.
type Practice struct {
	Value, Low, High float64
	Unit, Source     string
}

// Tables are the reference values of this package.
type Tables struct {
	Tiers    []Tier // densest first
	Divisors []Divisor
	Limits   []Limit
	Practice map[string]Practice
}

// Defaults returns the embedded tables.
func Defaults() (Tables, error) {
	t := Tables{Practice: map[string]Practice{}}
	for _, f := range []struct {
		name   string
		data   []byte
		fields int
		row    func(r []string, n []float64)
		nums   []int
	}{
		{"classes.csv", classesCSV, 3, func(r []string, n []float64) {
			t.Tiers = append(t.Tiers, Tier{n[0], r[1], r[2]})
		}, []int{0}},
		{"divisors.csv", divisorsCSV, 5, func(r []string, n []float64) {
			t.Divisors = append(t.Divisors, Divisor{r[0], n[0], r[2], r[3], r[4]})
		}, []int{1}},
		{"limits.csv", limitsCSV, 8, func(r []string, n []float64) {
			t.Limits = append(t.Limits, Limit{r[0], n[0], n[1], n[2], map[string]string{"weight": r[4], "length": r[5], "girth": r[6]}, r[7]})
		}, []int{1, 2, 3}},
		{"practice.csv", practiceCSV, 6, func(r []string, n []float64) {
			p := Practice{n[0], n[1], n[2], r[4], r[5]}
			if r[2] == "" {
				p.Low, p.High = p.Value, p.Value
			}
			t.Practice[r[0]] = p
		}, []int{1, 2, 3}},
	} {
		if err := each(f.data, f.fields, f.nums, f.row); err != nil {
			return t, fmt.Errorf("%s: %w", f.name, err)
		}
	}
	return t, nil
}

func each(data []byte, fields int, nums []int, row func([]string, []float64)) error {
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord = fields
	rows, err := r.ReadAll()
	if err != nil {
		return err
	}
	for _, rec := range rows[1:] {
		n := make([]float64, len(nums))
		for i, col := range nums {
			if rec[col] == "" {
				continue
			}
			if n[i], err = strconv.ParseFloat(rec[col], 64); err != nil {
				return err
			}
		}
		row(rec, n)
	}
	return nil
}

func (t Tables) val(id string) float64 { return t.Practice[id].Value }
