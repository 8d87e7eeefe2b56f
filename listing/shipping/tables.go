// Package shipping packs a finished piece and says what a carrier asks: packages
// with size and gross weight, density scale, volumetric weights, how many people
// lift it, and whether it goes through the door. Everything is an estimate that
// the carrier's own rules overrule.
package shipping

import (
	_ "embed" // the tables
	"errors"

	"slabfolio/listing/table"
)

//go:embed classes.csv
var classesCSV string

//go:embed divisors.csv
var divisorsCSV string

//go:embed limits.csv
var limitsCSV string

//go:embed rules.csv
var rulesCSV string

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
	Inches    bool // sides are rounded up to whole inches, else to whole centimetres
	Kg        float64
	LongestMM float64
	GirthMM   float64           // longest side plus girth, 2W + 2H
	Says      map[string]string // weight, length, girth -> the limit as carriers say it
	OverMM    float64           // freight longer than this is usually charged for its length
	SaysOver  string
	Source    string
}

// Tables are the reference values of this package.
type Tables struct {
	Tiers    []Tier // densest first
	Divisors []Divisor
	Limits   []Limit
	Rules    map[string]table.Rule
}

// Load returns the embedded tables.
func Load() (Tables, error) {
	var t Tables
	rules, err := table.Rules("rules.csv", rulesCSV)
	t.Rules = rules
	return t, errors.Join(err,
		table.Each("classes.csv", classesCSV, func(r table.Row) {
			t.Tiers = append(t.Tiers, Tier{r.Number("at_least_lb_ft3"), r.Text("class"), r.Text("source")})
		}),
		table.Each("divisors.csv", divisorsCSV, func(r table.Row) {
			t.Divisors = append(t.Divisors, Divisor{r.Text("id"), r.Number("divisor"), r.Text("unit"), r.Text("use"), r.Text("source")})
		}),
		table.Each("limits.csv", limitsCSV, func(r table.Row) {
			says := map[string]string{"weight": r.Text("says_weight"), "length": r.Text("says_length"), "girth": r.Text("says_girth")}
			t.Limits = append(t.Limits, Limit{r.Text("region"), r.Text("round") == "in", r.Number("kg"), r.Number("longest_mm"), r.Number("girth_mm"), says, r.Number("over_length_mm"), r.Text("says_over_length"), r.Text("source")})
		}))
}

func (t Tables) rule(id string) float64 { return t.Rules[id].Value }
