package report

import (
	_ "embed" // practice.csv
	"errors"
	"sync"

	"slabfolio/listing/assembly"
	"slabfolio/listing/care"
	"slabfolio/listing/shipping"
	"slabfolio/listing/table"
	"slabfolio/listing/weight"
	"slabfolio/listing/wood"
)

//go:embed practice.csv
var practiceCSV string

// Tables are the reference values of the calculators. The workshop's own entries
// go before them.
type Tables struct {
	Wood      *wood.Table
	Materials *weight.Materials
	Assembly  assembly.Tables
	Care      care.Tables
	Shipping  shipping.Tables
	Practice  map[string]table.Practice // what findings hang on
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
	t.Practice, errs[5] = table.Practices("practice.csv", practiceCSV)
	return &t, errors.Join(errs[:]...)
})
