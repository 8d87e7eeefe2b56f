package report

import (
	_ "embed" // rules.csv
	"errors"
	"sync"

	"slabfolio/listing/assembly"
	"slabfolio/listing/care"
	"slabfolio/listing/shipping"
	"slabfolio/listing/table"
	"slabfolio/listing/weight"
	"slabfolio/listing/wood"
)

//go:embed rules.csv
var rulesCSV string

// Tables are the reference values of the calculators. The workshop's own entries
// go before them.
type Tables struct {
	Wood      *wood.Table
	Materials *weight.Materials
	Assembly  assembly.Tables
	Care      care.Tables
	Shipping  shipping.Tables
	Rules     map[string]table.Rule // what findings hang on
}

// loadTables returns the embedded tables. They are read once and never
// changed: what a workshop adds goes into a copy.
var loadTables = sync.OnceValues(func() (*Tables, error) {
	var t Tables
	var errs [6]error
	t.Wood, errs[0] = wood.Load()
	t.Assembly, errs[1] = assembly.Load()
	t.Care, errs[2] = care.Load()
	t.Shipping, errs[3] = shipping.Load()
	t.Materials, errs[4] = weight.Load()
	t.Rules, errs[5] = table.Rules("rules.csv", rulesCSV)
	return &t, errors.Join(errs[:]...)
})
