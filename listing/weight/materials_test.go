package weight

import (
	"encoding/csv"
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"slabfolio/listing/piece"
	"slabfolio/listing/units"
	"slabfolio/testdata/beside"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.6g, want %.6g within %g", what, got, want, tol)
	}
}

func materials(t testing.TB) *Materials {
	t.Helper()
	m, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func TestTableIsTheReferenceByteForByte(t *testing.T) {
	if string(beside.Read(t, "reference/materials.csv")) != materialsCSV {
		t.Error("materials.csv differs from the reference")
	}
}

// number reads a cell of the reference as it stands.
func number(t *testing.T, cell string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(cell, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestEveryMaterialSurvivesAndIsOrdered(t *testing.T) {
	rows, err := csv.NewReader(strings.NewReader(materialsCSV)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	m := materials(t)
	if len(m.all) != len(rows)-1 {
		t.Fatalf("%d materials from %d lines", len(m.all), len(rows))
	}
	for i, x := range m.all {
		r := rows[i+1]
		if x.ID != r[0] || x.Name != r[1] || x.Source != r[5] || x.Confidence != r[6] || number(t, r[2]) != x.Density || number(t, r[3]) != x.Low || number(t, r[4]) != x.High {
			t.Errorf("%+v is not %q", x, r)
		}
		if !(x.Low > 0 && x.Low <= x.Density && x.Density <= x.High) || x.Family == "" {
			t.Errorf("%s: %v %v %v %q", x.ID, x.Low, x.Density, x.High, x.Family)
		}
		for _, n := range append(x.Aliases, x.ID, x.Name) {
			if got, err := m.Lookup(n); err != nil || got.ID != x.ID {
				t.Errorf("Lookup(%q) = %s, %v; want %s", n, got.ID, err, x.ID)
			}
		}
	}
}

func TestTheTablesAreWhole(t *testing.T) {
	m := materials(t)
	for _, k := range []string{"resin_kept", "resin_area", "resin_volume", "resin_mixed", "stated_density", "voids", "volume", "section", "scale", "scale_small", "coats"} {
		p, ok := m.rules[k]
		if !ok || !(0 < p.Low && p.Low <= p.Value && p.Value <= p.High) || p.Source == "" {
			t.Errorf("rules.csv: %s is %+v", k, p)
		}
	}
	if m.rules["scale_kg"].Value <= 0 {
		t.Error("rules.csv: scale_kg")
	}
	// The finish families of the contract.
	for _, f := range strings.Fields("hardwax-oil hardwax-oil-2k linseed-oil-raw linseed-oil-boiled tung-oil board-oil oil-varnish-blend varnish polyurethane-waterborne polyurethane-2k conversion-varnish nitrocellulose-lacquer shellac wax soap epoxy-topcoat bare") {
		p, ok := m.films[f]
		if !ok || p.low > p.gm2 || p.gm2 > p.high || p.faces == "" || p.source == "" {
			t.Errorf("films.csv: %s is %+v", f, p)
		}
	}
	n := 0
	for _, x := range m.all {
		if x.Family == "resin" {
			n++
			if x.LiquidDensity <= 0 || x.LiquidDensity >= x.Density*1.0001 {
				t.Errorf("%s: liquid %v, cured %v", x.ID, x.LiquidDensity, x.Density)
			}
		}
	}
	if n != 5 {
		t.Errorf("%d resins", n)
	}
}

func TestEverydayNames(t *testing.T) {
	m := materials(t)
	for name, want := range map[string]string{
		"steel": "steel-carbon", "Mild Steel": "steel-carbon", "aluminium": "aluminium-6061", "aluminum": "aluminium-6061", "glass": "glass-float",
		"stainless steel": "steel-stainless-304", "cast iron": "cast-iron-grey", "epoxy": "epoxy-casting", "MDF": "mdf", "chipboard": "particleboard", "Brass": "brass", "Birch plywood": "plywood-birch",
	} {
		if got, err := m.Lookup(name); err != nil || got.ID != want {
			t.Errorf("Lookup(%q) = %s, %v; want %s", name, got.ID, err, want)
		}
	}
	for name, want := range map[string]string{"steal": "steel-carbon", "alumnium": "aluminium-6061", "glasss": "glass-float", "steel tube": "steel-carbon"} {
		_, err := m.Lookup(name)
		var u *UnknownError
		if !errors.As(err, &u) || !strings.Contains(strings.Join(u.Suggestions, " "), want) {
			t.Errorf("Lookup(%q): %v", name, err)
		}
	}
	if _, err := m.Lookup(""); err == nil {
		t.Error("a name of nothing was found")
	}
}

func TestWorkshopResins(t *testing.T) {
	m := materials(t)
	own := m.WithResins([]piece.ResinProduct{
		{Product: piece.Of("River Cast 100"), Chemistry: piece.Of("epoxy"), Density: piece.Of[units.Density](1090), PourDepth: piece.Of[units.Length](100), Heat: piece.Of[units.Celsius](54)},
		{Product: piece.Of("Quick Pour"), Chemistry: piece.Of("polyester")},
		{},
	})
	x, err := own.Lookup("river cast 100")
	if err != nil || x.Density != 1090 || x.PourDepth != 100 || x.HeatC != 54 || !x.Own || x.Low >= 1090 || x.High <= 1090 || x.LiquidDensity >= 1090 || x.Low < 1070 {
		t.Errorf("%+v, %v", x, err)
	}
	if x, err = own.Lookup("Quick Pour"); err != nil || x.Density != 1200 {
		t.Errorf("%+v, %v", x, err)
	}
	if _, err := m.Lookup("river cast 100"); err == nil {
		t.Error("the built-in table was changed")
	}
}

// Masses for a metre from the dealers' tables of the named standards, from
// memory. Hollow sections have rounded corners there and sharp ones here: the
// tables' mass has to lie in the range that is stated for it.
func TestSectionsAgainstPublishedTables(t *testing.T) {
	m := materials(t)
	mm := func(v ...float64) []units.Length {
		out := make([]units.Length, len(v))
		for i := range v {
			out[i] = units.Length(v[i])
		}
		return out
	}
	steel, _ := m.Lookup("steel")
	roll := m.rules["section"]
	for _, c := range []struct {
		form  string
		sizes []units.Length
		kg    float64
		tol   float64 // relative; 0: inside the rolling range
		from  string
	}{
		{"box", mm(80, 40, 3), 5.19, 0, "EN 10219-2"},
		{"box", mm(50, 50, 3), 4.25, 0, "EN 10219-2"},
		{"box", mm(100, 50, 4), 8.59, 0, "EN 10219-2"},
		{"tube", mm(42.4, 3.2), 3.09, 0.003, "EN 10255"},
		{"tube", mm(60.3, 3.6), 5.03, 0.003, "EN 10255"},
		{"bar", mm(12), 0.888, 0.001, "EN 10060"},
		{"bar", mm(40, 5), 1.57, 0.001, "EN 10058"},
		{"angle", mm(50, 50, 5), 3.77, 0.015, "EN 10056-1"},
	} {
		v, _, err := sectionVolume(piece.Section{Form: c.form, Sizes: c.sizes, Length: piece.Of[units.Length](1000)}, "x")
		if err != nil {
			t.Errorf("%s %v: %v", c.form, c.sizes, err)
			continue
		}
		kg := v.Value * 1e-9 * steel.Density
		if c.tol > 0 {
			near(t, c.form+" "+c.from, kg, c.kg, c.kg*c.tol)
		} else if c.kg < kg*roll.Low || c.kg > kg*roll.High {
			t.Errorf("%s %v: %.3f kg/m, table %.3f", c.form, c.sizes, kg, c.kg)
		}
	}
	// 6 mm plate weighs 47.1 kg/m2.
	v, _, err := sectionVolume(piece.Section{Form: "plate", Sizes: mm(1000, 1000, 6)}, "x")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "plate", v.Value*1e-9*steel.Density, 47.1, 0.01)
	// A channel is its box less the hollow and the open side.
	v, _, err = sectionVolume(piece.Section{Form: "channel", Sizes: mm(38.1, 12.7, 3.175), Length: piece.Of[units.Length](1)}, "x")
	if err != nil {
		t.Fatal(err)
	}
	near(t, "channel", v.Value, 38.1*12.7-(38.1-2*3.175)*(12.7-3.175), 1e-9)
}

func TestSectionsThatCannotBe(t *testing.T) {
	for name, s := range map[string]piece.Section{
		"wall too thick": {Form: "box", Sizes: []units.Length{20, 20, 11}, Length: piece.Of[units.Length](100)},
		"tube":           {Form: "tube", Sizes: []units.Length{20, 11}, Length: piece.Of[units.Length](100)},
		"no length":      {Form: "bar", Sizes: []units.Length{20}},
		"two sizes":      {Form: "box", Sizes: []units.Length{20, 20}, Length: piece.Of[units.Length](100)},
		"unknown":        {Form: "star", Sizes: []units.Length{20, 20}, Length: piece.Of[units.Length](100)},
		"nought":         {Form: "bar", Sizes: []units.Length{0}, Length: piece.Of[units.Length](100)},
		"nan":            {Form: "bar", Sizes: []units.Length{units.Length(math.NaN())}, Length: piece.Of[units.Length](100)},
		"plate of two":   {Form: "plate", Sizes: []units.Length{20, 20}},
		"angle":          {Form: "angle", Sizes: []units.Length{20, 20, 30}, Length: piece.Of[units.Length](100)},
		"channel":        {Form: "channel", Sizes: []units.Length{20, 5, 8}, Length: piece.Of[units.Length](100)},
	} {
		if v, _, err := sectionVolume(s, "x"); err == nil {
			t.Errorf("%s: %v", name, v)
		}
	}
}

func TestBoxVolume(t *testing.T) {
	v, err := boxVolume(508, 304.8, 88.9, 12.7) // 20 x 12 x 3 1/2 in, 1/2 in walls
	if err != nil {
		t.Fatal(err)
	}
	// Bottom and four sides, added one by one.
	want := 508*304.8*12.7 + (88.9-12.7)*12.7*(2*508+2*(304.8-2*12.7))
	near(t, "drawer", v, want, 1e-6)
	if _, err := boxVolume(20, 20, 20, 11); err == nil {
		t.Error("walls thicker than the box")
	}
}

// Liquid resin shrinks as it cures, by the same share for each, and nothing else in
// the table is ever liquid.
func TestOnlyResinsAreLiquidFirst(t *testing.T) {
	m := materials(t)
	epoxy := 0.0
	for _, x := range m.all {
		if x.ID == "epoxy-casting" {
			epoxy = x.LiquidDensity / x.Density
		}
	}
	if epoxy < 0.9 || epoxy >= 1 {
		t.Fatalf("liquid casting epoxy has %.3f of its cured density", epoxy)
	}
	for _, x := range m.all {
		switch {
		case x.Family != "resin" && (x.LiquidDensity != 0 || x.LiquidLow != 0 || x.LiquidHigh != 0):
			t.Errorf("%s is no resin and has a liquid density of %.0f", x.ID, x.LiquidDensity)
		case x.Family == "resin":
			near(t, x.ID+" liquid", x.LiquidDensity, epoxy*x.Density, 1e-9*x.Density)
			if !(x.LiquidLow <= x.LiquidDensity && x.LiquidDensity <= x.LiquidHigh) {
				t.Errorf("%s: liquid %.0f to %.0f about %.0f", x.ID, x.LiquidLow, x.LiquidHigh, x.LiquidDensity)
			}
		}
	}
}
