package report

import (
	"bytes"
	_ "embed" // practice.csv
	"encoding/csv"
	"errors"
	"fmt"
	"strconv"
	"sync"

	"slabfolio/listing/assembly"
	"slabfolio/listing/care"
	"slabfolio/listing/shipping"
	"slabfolio/listing/weight"
	"slabfolio/listing/wood"
)

//go:embed practice.csv
var practiceCSV []byte

// A Practice is one figure of the trade that a finding hangs on.
type Practice struct {
	Value        float64
	Unit, Source string
}

// Tables are the reference values of the calculators. The workshop's own entries
// go before them.
type Tables struct {
	Wood      *wood.Table
	Materials *weight.Materials
	Assembly  assembly.Tables
	Care      care.Tables
	Shipping  shipping.Tables
	Practice  map[string]Practice
}

// DefaultTables returns the embedded tables. They are read once and never
// changed: what a workshop adds goes into a copy.
func DefaultTables() (*Tables, error) { return defaultTables() }

var defaultTables = sync.OnceValues(func() (*Tables, error) {
	var t Tables
	var errs [6]error
	t.Wood, errs[0] = wood.Load()
	t.Assembly, errs[1] = assembly.Defaults()
	t.Care, errs[2] = care.Defaults()
	t.Shipping, errs[3] = shipping.Defaults()
	t.Materials, errs[4] = weight.Load()
	t.Practice, errs[5] = readPractice()
	return &t, errors.Join(errs[:]...)
})

func readPractice() (map[string]Practice, error) {
	rows, err := csv.NewReader(bytes.NewReader(practiceCSV)).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("practice.csv: %w", err)
	}
	m := map[string]Practice{}
	for _, r := range rows[1:] {
		v, err := strconv.ParseFloat(r[1], 64)
		if err != nil {
			return nil, fmt.Errorf("practice.csv: %s: %w", r[0], err)
		}
		m[r[0]] = Practice{v, r[2], r[3]}
	}
	return m, nil
}
