// Package wood knows the woods: their names, their density at a moisture
// content, the moisture that they come to in a room, and how much they move
// with it. The tables are data files with a source to every line; a Table is
// an argument of every sum here, since a workshop may add to it. It knows
// nothing of weight, and nothing of how a figure is printed.
package wood

import (
	"cmp"
	_ "embed" // the tables
	"errors"
	"strings"

	"slabfolio/listing/spelling"
	"slabfolio/listing/table"
)

//go:embed wood.csv
var woodCSV string // as published in the reference, byte for byte

//go:embed wood-added.csv
var addedCSV string // woods that the reference lacks, and corrections of it

//go:embed wood-more.csv
var moreCSV string

//go:embed other-woods.csv
var othersCSV string // names of woods that the table does not hold, so that none is taken for a slip of the pen

//go:embed qualities.csv
var qualitiesCSV string

//go:embed listed.csv
var listedCSV string

//go:embed rules.csv
var rulesCSV string

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
	ElasticFrom string  // source of Elastic, or that none is published as far as we know

	Source, Confidence, ReadFields, Notes string

	Qualities []string // words beside its name that describe it: burl, spalted, figured
	ReadFrom  string   // the name in another language that it was read from; empty for an English one
}

// A Table is a set of woods with the rules of the trade that go with them. It
// is never changed; WithEntries returns a new one.
type Table struct {
	species   []Species
	byID      map[string]int
	names     map[string][]int // every spelling of a name to the woods that bear it
	nouns     map[string][]int // "walnut" to all walnuts
	called    [][]string       // names and nouns of each wood
	words     map[string]bool  // every word of every name
	squeezed  map[string][]int // every name without its spaces
	others    map[string]bool  // names of woods that are not here
	qualities []quality
	listed    []listing
	rules     map[string]table.Rule
	meters    []meter
	bolts     []bolt
	own       map[string]bool // the ids that a workshop has entries for
	home      string          // the workshop's country, in capitals; "" when it is not known
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
	t := &Table{others: map[string]bool{}}
	var err error
	if t.rules, err = table.Rules("rules.csv", rulesCSV); err != nil {
		return nil, err
	}
	err = errors.Join(
		t.readSpecies(),
		table.Each("qualities.csv", qualitiesCSV, func(r table.Row) {
			t.qualities = append(t.qualities, quality{r.Words("words"), r.Number("density_cov_pct")})
		}),
		table.Each("other-woods.csv", othersCSV, func(r table.Row) {
			for _, n := range r.Words("names") {
				t.others[spelling.Plain(n)] = true
			}
		}),
		table.Each("meters.csv", metersCSV, func(r table.Row) {
			t.meters = append(t.meters, meter{r.Text("meter"), r.Words("words"), r.Number("doubt_pct"), r.Text("source")})
		}),
		table.Each("bolts.csv", boltsCSV, func(r table.Row) {
			t.bolts = append(t.bolts, bolt{r.Text("bolt"), r.Number("diameter_mm"), r.Number("clearance_hole_mm")})
		}),
		table.Each("listed.csv", listedCSV, func(r table.Row) {
			t.listed = append(t.listed, listing{genus: r.Text("genus"), species: r.Text("species"), appendix: r.Text("appendix"), scope: r.Text("scope"), annotation: r.Text("annotation"),
				finished: r.Text("finished") == "yes", exemptKg: r.Number("exempt_kg"), names: r.Words("trade_names"), source: r.Text("source")})
		}))
	t.index()
	return t, err
}

// readSpecies reads the reference, then what we add to it and correct of it,
// then what stands beside both.
func (t *Table) readSpecies() error {
	if err := table.Each("wood.csv", woodCSV, func(r table.Row) { t.species = append(t.species, t.speciesOf(r)) }); err != nil {
		return err
	}
	at := map[string]int{}
	for i, s := range t.species {
		at[s.ID] = i
	}
	if err := table.Each("wood-added.csv", addedCSV, func(r table.Row) {
		s := t.speciesOf(r)
		if i, ok := at[s.ID]; ok {
			t.species[i] = t.species[i].corrected(s)
			return
		}
		at[s.ID] = len(t.species)
		t.species = append(t.species, s)
	}); err != nil {
		return err
	}
	if err := t.readChecked(at); err != nil {
		return err
	}
	return table.Each("wood-more.csv", moreCSV, func(r table.Row) {
		i, ok := at[r.Text("id")]
		if !ok {
			return // a test holds the files together
		}
		s := &t.species[i]
		s.Aliases = r.Words("aliases")
		s.FSP = r.NumberOr("fibre_saturation_pct", s.FSP)
		s.Elastic, s.ElasticFrom = r.Number("elastic_gpa"), r.Text("elastic_source")
		s.DensityCov = r.NumberOr("density_cov_pct", s.DensityCov)
	})
}

// speciesOf returns the wood of one line of the table.
func (t *Table) speciesOf(r table.Row) Species {
	return Species{
		ID: r.Text("id"), Name: r.Text("common_name"), Botanical: r.Text("scientific_name"),
		BasicSG: r.Number("sg_green_basic"), SG12: r.Number("sg_12"),
		Radial: r.Number("shrink_radial_pct"), Tangential: r.Number("shrink_tangential_pct"), Volumetric: r.Number("shrink_volumetric_pct"),
		CoefR: r.Number("coef_radial"), CoefT: r.Number("coef_tangential"),
		DensityCov: t.rule("density_cov"), FSP: t.rule("fibre_saturation"),
		Source: r.Text("source"), Confidence: r.Text("confidence"), ReadFields: r.Text("read_fields"), Notes: r.Text("notes"),
	}
}

// corrected returns s with every cell of a correction that is not empty.
func (s Species) corrected(by Species) Species {
	s.Name, s.Botanical = cmp.Or(by.Name, s.Name), cmp.Or(by.Botanical, s.Botanical)
	s.BasicSG, s.SG12 = cmp.Or(by.BasicSG, s.BasicSG), cmp.Or(by.SG12, s.SG12)
	s.Radial, s.Tangential, s.Volumetric = cmp.Or(by.Radial, s.Radial), cmp.Or(by.Tangential, s.Tangential), cmp.Or(by.Volumetric, s.Volumetric)
	s.CoefR, s.CoefT = cmp.Or(by.CoefR, s.CoefR), cmp.Or(by.CoefT, s.CoefT)
	s.Source = by.Source + "; what it does not give: " + s.Source
	s.Confidence, s.ReadFields = by.Confidence, by.ReadFields
	s.Notes = strings.TrimPrefix(s.Notes+"; "+by.Notes, "; ")
	s.Notes = strings.TrimSuffix(s.Notes, "; ")
	return s
}

// rule returns a number of rules.csv; a test reads every key that is used.
func (t *Table) rule(key string) float64 { return t.rules[key].Value }

func (t *Table) ruleSource(key string) string { return t.rules[key].Source }
