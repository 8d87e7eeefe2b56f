package wood

import (
	_ "embed" // the table
	"slices"
	"strings"

	"slabfolio/listing/table"
)

// readCSV holds what was read of published tables since the woods were first
// written down: a line for each wood and source, with the figures as they stand
// there. A test holds them against ours.
//
//go:embed wood-read.csv
var readCSV string

// readGroups are the figures of a wood by the name that ReadFields has for them.
var readGroups = []struct {
	name, says string
	columns    []string
}{
	{"sg_green_basic", "Gb", []string{"sg_green_basic"}},
	{"sg_12", "G12", []string{"sg_12"}},
	{"shrink", "shrinkage", []string{"shrink_radial_pct", "shrink_tangential_pct"}},
	{"coef", "coef", []string{"coef_radial", "coef_tangential"}},
}

// readChecked notes of each wood which of its figures were read in a published
// table, and where. A wood is as good as read when all that it gives was.
func (t *Table) readChecked(at map[string]int) error {
	told := map[int]*checked{}
	err := table.Each("wood-read.csv", readCSV, func(r table.Row) {
		i, ok := at[r.Text("id")]
		if !ok {
			return // a test holds the files together
		}
		if told[i] == nil {
			told[i] = &checked{}
		}
		for _, g := range readGroups {
			if !slices.ContainsFunc(g.columns, func(c string) bool { return r.Text(c) == "" }) {
				told[i].add(g.name, g.says, r.Text("source"))
			}
		}
	})
	for i, c := range told {
		t.species[i].readIn(*c)
	}
	return err
}

// A checked is what was read of a wood: which figures, and where.
type checked struct{ names, says, sources []string }

// add notes a group of figures by its first source.
func (c *checked) add(name, says, source string) {
	if slices.Contains(c.names, name) {
		return
	}
	c.names = append(c.names, name)
	if k := slices.Index(c.sources, source); k >= 0 {
		c.says[k] += ", " + says
		return
	}
	c.says, c.sources = append(c.says, says), append(c.sources, source)
}

// readIn lets a wood say where its figures were read, before the source that it
// has for the others.
func (s *Species) readIn(c checked) {
	var from []string
	for k, source := range c.sources {
		from = append(from, c.says[k]+": "+source)
	}
	before := strings.Split(s.ReadFields, "+")
	s.ReadFields = strings.Join(c.names, "+")
	whole := s.readWhole()
	for _, name := range before {
		if name != "" && !slices.Contains(c.names, name) {
			s.ReadFields = strings.Trim(s.ReadFields+"+"+name, "+")
		}
	}
	if len(from) > 0 && !whole {
		from = append(from, "what these do not give: "+s.Source)
	}
	if len(from) > 0 {
		s.Source = strings.Join(from, "; ")
	}
	if s.readWhole() {
		s.Confidence = "read"
	}
}

// readWhole reports whether every figure that the wood gives was read.
func (s Species) readWhole() bool {
	read := strings.Split(s.ReadFields, "+")
	for name, value := range map[string]float64{"sg_green_basic": s.BasicSG, "sg_12": s.SG12, "shrink": s.Tangential + s.Radial, "coef": s.CoefT + s.CoefR} {
		if value > 0 && !slices.Contains(read, name) {
			return false
		}
	}
	return true
}
