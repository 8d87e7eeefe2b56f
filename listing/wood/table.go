// Package wood knows the woods: their names, their density at a moisture
// content, the moisture that they come to in a room, and how much they move
// with it. The tables are data files with a source to every line; a Table is
// an argument of every sum here, since a workshop may add to it. It knows
// nothing of weight, and nothing of how a figure is printed.
package wood

import (
	_ "embed" // the tables
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"
)

//go:embed wood.csv
var woodCSV string // as published in the reference, byte for byte

//go:embed wood-more.csv
var moreCSV string

//go:embed listed.csv
var listedCSV string

//go:embed practice.csv
var practiceCSV string

//go:embed meters.csv
var metersCSV string

//go:embed bolts.csv
var boltsCSV string

// A Species is one line of the table of woods. A number that is not known is 0.
type Species struct {
	ID, Name, Botanical string
	Aliases             []string

	BasicSG    float64 // oven-dry mass over green volume, relative to water
	SG12       float64 // oven-dry mass over volume at 12 % moisture
	Radial     float64 // shrinkage green to oven-dry, %
	Tangential float64 // %
	Volumetric float64 // %
	CoefR      float64 // change of size for 1 % moisture, radial, between 6 and 14 %
	CoefT      float64 // the same, tangential

	DensityAsIs float64 // kg/m³ as it stands, given by the maker instead of a specific gravity
	DensityCov  float64 // coefficient of variation of density between trees, %
	FSP         float64 // fibre saturation point, % moisture
	Elastic     float64 // modulus of elasticity along the grain at 12 %, GPa
	ElasticFrom string  // source of Elastic

	Source, Confidence, ReadFields, Notes string
}

// A Table is a set of woods with the rules of practice that go with them. It
// is never changed; WithEntries returns a new one.
type Table struct {
	species  []Species
	byID     map[string]int
	names    map[string][]int // every spelling of a name to the woods that bear it
	nouns    map[string][]int // "walnut" to all walnuts
	listed   []listing
	practice map[string]rule
	meters   []meter
	bolts    []bolt
}

type rule struct {
	value  float64
	source string
}

type meter struct {
	name   string
	words  []string
	doubt  float64
	source string
}

type bolt struct {
	name            string
	diameter, clear float64
}

// Load returns the table that is built in.
func Load() (*Table, error) {
	t := &Table{practice: map[string]rule{}}
	if err := t.readSpecies(); err != nil {
		return nil, err
	}
	err := eachRow("practice.csv", practiceCSV, func(r record) {
		t.practice[r.text("key")] = rule{r.number("value"), r.text("source")}
	})
	if err != nil {
		return nil, err
	}
	err = eachRow("meters.csv", metersCSV, func(r record) {
		m := meter{r.text("meter"), strings.Split(r.text("words"), "|"), r.number("doubt_pct"), r.text("source")}
		t.meters = append(t.meters, m)
	})
	if err != nil {
		return nil, err
	}
	err = eachRow("bolts.csv", boltsCSV, func(r record) {
		t.bolts = append(t.bolts, bolt{r.text("bolt"), r.number("diameter_mm"), r.number("clearance_hole_mm")})
	})
	if err != nil {
		return nil, err
	}
	err = eachRow("listed.csv", listedCSV, func(r record) {
		t.listed = append(t.listed, listing{r.text("genus"), r.text("species"), r.text("appendix"), r.text("scope"), r.text("source"), strings.Split(r.text("trade_names"), "|")})
	})
	t.index()
	return t, err
}

func (t *Table) readSpecies() error {
	cov := 0.0
	if err := eachRow("practice.csv", practiceCSV, func(r record) {
		if r.text("key") == "density_cov" {
			cov = r.number("value")
		}
	}); err != nil {
		return err
	}
	if err := eachRow("wood.csv", woodCSV, func(r record) {
		t.species = append(t.species, Species{
			ID: r.text("id"), Name: r.text("common_name"), Botanical: r.text("scientific_name"),
			BasicSG: r.number("sg_green_basic"), SG12: r.number("sg_12"),
			Radial: r.number("shrink_radial_pct"), Tangential: r.number("shrink_tangential_pct"), Volumetric: r.number("shrink_volumetric_pct"),
			CoefR: r.number("coef_radial"), CoefT: r.number("coef_tangential"),
			DensityCov: cov, FSP: 30,
			Source: r.text("source"), Confidence: r.text("confidence"), ReadFields: r.text("read_fields"), Notes: r.text("notes"),
		})
	}); err != nil {
		return err
	}
	at := map[string]*Species{}
	for i := range t.species {
		at[t.species[i].ID] = &t.species[i]
	}
	return eachRow("wood-more.csv", moreCSV, func(r record) {
		s := at[r.text("id")]
		if s == nil {
			return // a test holds the two files together
		}
		if a := r.text("aliases"); a != "" {
			s.Aliases = strings.Split(a, "|")
		}
		s.FSP = r.number("fibre_saturation_pct")
		s.Elastic, s.ElasticFrom = r.number("elastic_gpa"), r.text("elastic_source")
		if c := r.number("density_cov_pct"); c > 0 {
			s.DensityCov = c
		}
	})
}

// All returns every wood of the table, in its order.
func (t *Table) All() []Species { return append([]Species(nil), t.species...) }

// rule returns a number of practice.csv; a test reads every key that is used.
func (t *Table) rule(key string) float64 { return t.practice[key].value }

func (t *Table) ruleSource(key string) string { return t.practice[key].source }

// A record is one line of a table with the names of its columns.
type record struct {
	cells map[string]string
}

func (r record) text(column string) string { return r.cells[column] }

// number returns a number of the line, 0 where the cell is empty or no number.
func (r record) number(column string) float64 {
	v, err := strconv.ParseFloat(r.cells[column], 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return v
}

// eachRow calls f for every line of an embedded table.
func eachRow(name, text string, f func(record)) error {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		return fmt.Errorf("read the table %s: %w", name, err)
	}
	if len(rows) < 2 {
		return fmt.Errorf("the table %s is empty", name)
	}
	for _, row := range rows[1:] {
		cells := make(map[string]string, len(row))
		for i, c := range row {
			cells[rows[0][i]] = c
		}
		f(record{cells})
	}
	return nil
}
