package weight

import (
	_ "embed" // the tables
	"errors"
	"strings"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/table"
)

//go:embed materials.csv
var materialsCSV string // as published in the reference, byte for byte

//go:embed materials-more.csv
var moreCSV string

//go:embed rules.csv
var rulesCSV string

//go:embed films.csv
var filmsCSV string

// A Material is one line of the table of materials.
type Material struct {
	ID, Name           string
	Aliases            []string
	Density, Low, High float64 // kg/m³; Low and High are the 90 % range
	Source, Confidence string
	Family             string  // resin, metal, panel, stone, packing, other
	PourDepth          float64 // mm, the deepest layer of a resin; 0 where not known or no resin
	PourSource         string
	LiquidDensity      float64 // kg/m³ of a mixed resin before it sets; 0 for no resin
	LiquidLow          float64
	LiquidHigh         float64
	HeatC              float64 // heat deflection temperature from the product's sheet; 0 where not known
	Own                bool    // a product of workshop.yaml
	ReadFrom           string  // the name in another language that it was read from; empty for an English one
}

// Materials is a set of materials with the rules of the trade that go with
// them. It is never changed; WithResins returns a new one.
type Materials struct {
	all   []Material
	rules map[string]table.Rule
	films map[string]film
}

// A film is what a finish leaves on a surface.
type film struct {
	gm2, low, high float64 // for one coat
	faces          string  // all, upper
	source         string
}

// Load returns the table that is built in.
func Load() (*Materials, error) {
	m := &Materials{films: map[string]film{}}
	var err error
	m.rules, err = table.Rules("rules.csv", rulesCSV)
	return m, errors.Join(err, m.readMaterials(),
		table.Each("films.csv", filmsCSV, func(r table.Row) {
			m.films[r.Text("family")] = film{r.Number("g_m2_coat"), r.Number("low"), r.Number("high"), r.Text("faces"), r.Text("source")}
		}))
}

func (m *Materials) readMaterials() error {
	if err := table.Each("materials.csv", materialsCSV, func(r table.Row) {
		m.all = append(m.all, Material{
			ID: r.Text("id"), Name: r.Text("name"), Density: r.Number("density_kg_m3"), Low: r.Number("low"), High: r.Number("high"),
			Source: r.Text("source"), Confidence: r.Text("confidence"),
		})
	}); err != nil {
		return err
	}
	at := map[string]*Material{}
	for i := range m.all {
		at[m.all[i].ID] = &m.all[i]
	}
	if err := table.Each("materials-more.csv", moreCSV, func(r table.Row) {
		if x := at[r.Text("id")]; x != nil {
			x.Family, x.PourDepth, x.PourSource, x.Aliases = r.Text("family"), r.Number("pour_depth_mm"), r.Text("pour_source"), r.Words("aliases")
		}
	}); err != nil {
		return err
	}
	liquid := at["epoxy-liquid-mixed"]
	for i := range m.all {
		if x := &m.all[i]; x.Family == "resin" && liquid != nil {
			// Only epoxy's liquid density is in the table; the other resins
			// shrink more, so theirs is a little lower against the cured one.
			k := liquid.Density / at["epoxy-casting"].Density
			x.LiquidDensity, x.LiquidLow, x.LiquidHigh = x.Density*k, x.Low*k, x.High*k
		}
	}
	return nil
}

// densityUncertain returns the density in kg/m³; the doubt is named by the
// material, so that all of one material in a piece has the same.
func (x Material) densityUncertain() figure.Uncertain {
	return figure.Within(x.Density, x.Low, x.High, "density of "+x.ID)
}

// WithResins returns the table with a workshop's own resins, each findable by
// its product's name. One without a density takes that of its chemistry.
func (m *Materials) WithResins(products []piece.ResinProduct) *Materials {
	if len(products) == 0 {
		return m
	}
	n := *m
	n.all = append([]Material(nil), m.all...)
	for _, p := range products {
		name := strings.TrimSpace(p.Product.V)
		if name == "" {
			continue
		}
		x, err := m.Lookup(p.Chemistry.V)
		if err != nil || x.Family != "resin" {
			x, _ = m.Lookup(defaultResin)
		}
		x.ID, x.Name, x.Aliases, x.Own = strings.ReplaceAll(spelling.Plain(name), " ", "-"), name, nil, true
		if p.Density.Set() {
			x = x.withDensity(float64(p.Density.V), m.rules["stated_density"], "workshop.yaml: "+name)
		}
		if p.PourDepth.Set() {
			x.PourDepth, x.PourSource = float64(p.PourDepth.V), "workshop.yaml: "+name
		}
		if p.Heat.Set() {
			x.HeatC = float64(p.Heat.V)
		}
		n.all = append([]Material{x}, n.all...) // the maker's own come first
	}
	return &n
}

// defaultResin is the resin of a casting whose material is not said.
const defaultResin = "epoxy-casting"

// withDensity returns x with a stated cured density and the doubt of one.
func (x Material) withDensity(v float64, p table.Rule, source string) Material {
	if x.Density > 0 && x.LiquidDensity > 0 {
		k := v / x.Density
		x.LiquidDensity, x.LiquidLow, x.LiquidHigh = x.LiquidDensity*k, x.LiquidLow*k, x.LiquidHigh*k
	}
	x.Density, x.Low, x.High, x.Source = v, v*p.Low, v*p.High, source
	return x
}
