package wood

import (
	"encoding/csv"
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"slabfolio/listing/internal/reference"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.6g, want %.6g within %g", what, got, want, tol)
	}
}

func load(t testing.TB) *Table {
	t.Helper()
	tab, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	return tab
}

func TestTableIsTheReferenceByteForByte(t *testing.T) {
	if ref := string(reference.Read(t, "reference/wood.csv")); ref != woodCSV {
		t.Error("wood.csv differs from the reference")
	}
}

func TestEveryCellOfTheTableSurvives(t *testing.T) {
	rows, err := csv.NewReader(strings.NewReader(woodCSV)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	tab := load(t)
	if len(tab.species) != len(rows)-1 || len(rows) != 100 {
		t.Fatalf("%d woods from %d lines", len(tab.species), len(rows))
	}
	for i, s := range tab.species {
		r := rows[i+1]
		texts := []string{s.ID, s.Name, s.Botanical, s.Source, s.Confidence, s.ReadFields, s.Notes}
		for k, col := range []int{0, 1, 2, 10, 11, 12, 13} {
			if texts[k] != r[col] {
				t.Errorf("%s: column %s is %q, want %q", s.ID, rows[0][col], texts[k], r[col])
			}
		}
		for k, v := range []float64{s.BasicSG, s.SG12, s.Radial, s.Tangential, s.Volumetric, s.CoefR, s.CoefT} {
			want, err := strconv.ParseFloat(r[3+k], 64)
			if (r[3+k] != "") != (err == nil) || v != want {
				t.Errorf("%s: %s is %v, want %q", s.ID, rows[0][3+k], v, r[3+k])
			}
		}
	}
}

func TestTheTablesBelongTogether(t *testing.T) {
	tab := load(t)
	seen := map[string]bool{}
	rows, _ := csv.NewReader(strings.NewReader(moreCSV)).ReadAll()
	for _, r := range rows[1:] {
		seen[r[0]] = true
	}
	for _, s := range tab.species {
		if !seen[s.ID] {
			t.Errorf("%s has no line in wood-more.csv", s.ID)
		}
		if s.FSP != 30 != strings.Contains(s.Notes, "22%") {
			t.Errorf("%s: fibre saturation %v does not go with its note %q", s.ID, s.FSP, s.Notes)
		}
		if (s.Elastic > 0) != (s.ElasticFrom != "") || s.Elastic != 0 && (s.Elastic < 4 || s.Elastic > 20) {
			t.Errorf("%s: modulus %v from %q", s.ID, s.Elastic, s.ElasticFrom)
		}
		if strings.Contains(s.Notes, "CITES") {
			if _, ok := tab.Listed(s.Botanical); !ok {
				t.Errorf("%s is listed by its note and not by listed.csv", s.ID)
			}
		}
	}
	if len(seen) != len(tab.species) {
		t.Error("wood-more.csv has lines that wood.csv has not")
	}
	for _, k := range []string{"density_cov", "elastic_cov", "shrinkage_cov", "assumed_mc", "assumed_mc_doubt", "emc_doubt", "heating_rh", "summer_rh", "temperature",
		"longitudinal_low", "longitudinal_high", "fibre_saturation", "cross_elastic_ratio", "resin_elastic", "gravity", "sag_limit"} {
		if tab.rule(k) <= 0 || tab.ruleSource(k) == "" {
			t.Errorf("rules.csv: %s is %v from %q", k, tab.rule(k), tab.ruleSource(k))
		}
	}
}

func TestEveryWoodIsFoundByItsNames(t *testing.T) {
	tab := load(t)
	for _, s := range tab.species {
		for _, n := range []string{s.ID, s.Name, strings.ToUpper(s.Name), strings.ReplaceAll(s.ID, "-", " ")} {
			got, err := tab.Lookup(n)
			if err != nil || got.ID != s.ID {
				t.Errorf("Lookup(%q) = %s, %v; want %s", n, got.ID, err, s.ID)
			}
		}
		for _, n := range append(s.Aliases, s.Botanical) {
			got, err := tab.Lookup(n)
			var a *AmbiguousError
			if errors.As(err, &a) && strings.HasPrefix(n, "Sequoia") {
				continue // two lines of one species
			}
			if err != nil || got.ID != s.ID {
				t.Errorf("Lookup(%q) = %s, %v; want %s", n, got.ID, err, s.ID)
			}
		}
	}
	for name, want := range map[string]string{
		"Quercus petraea": "european-oak", "quercus robur": "european-oak", "Q. petraea": "european-oak", "Khaya": "african-mahogany",
		"sugar maple": "hard-maple", "suar": "monkeypod", "Rain  Tree": "monkeypod", "Ulmus glabra": "wych-elm", "shagbark hickory": "hickory",
		"wild cherry": "european-cherry", "guanacaste": "parota", "Douglas fir": "douglas-fir", "heart pine": "longleaf-pine", "tulipwood": "yellow-poplar",
	} {
		if got, err := tab.Lookup(name); err != nil || got.ID != want {
			t.Errorf("Lookup(%q) = %s, %v; want %s", name, got.ID, err, want)
		}
	}
}

func TestNamesThatManyWoodsBear(t *testing.T) {
	tab := load(t)
	for name, among := range map[string][]string{
		"walnut": {"black-walnut", "european-walnut"}, "Oak": {"white-oak", "european-oak"}, "redwood": {"redwood-old-growth", "redwood-young-growth"},
		"maple": {"hard-maple", "sycamore-maple"}, "mahogany": {"true-mahogany"}, "cherry": {"black-cherry", "european-cherry"}, "Sequoia sempervirens": {"redwood-old-growth"},
		"soft maple": {"red-maple", "silver-maple"}, "elm": {"wych-elm"},
	} {
		_, err := tab.Lookup(name)
		var a *AmbiguousError
		if !errors.As(err, &a) {
			t.Errorf("Lookup(%q): %v", name, err)
			continue
		}
		for _, w := range among {
			if !strings.Contains(strings.Join(a.Among, " "), w) {
				t.Errorf("Lookup(%q) among %v, lacks %s", name, a.Among, w)
			}
		}
	}
}

func TestDidYouMean(t *testing.T) {
	tab := load(t)
	for name, want := range map[string]string{
		"wlanut": "black-walnut", "black wallnut": "black-walnut", "wych-elmm": "wych-elm", "Quercus albba": "white-oak", "sapelle": "sapele", "beach": "american-beech",
		"white oak burl": "white-oak", "monkypod": "monkeypod",
	} {
		_, err := tab.Lookup(name)
		var u *UnknownError
		if !errors.As(err, &u) || !strings.Contains(strings.Join(u.Suggestions, " "), want) {
			t.Errorf("Lookup(%q): %v, want a word of %s", name, err, want)
		}
	}
	for _, name := range []string{"", "qzxv", strings.Repeat("walnut", 100000)} {
		_, err := tab.Lookup(name)
		var u *UnknownError
		if !errors.As(err, &u) || len(u.Suggestions) > 0 {
			t.Errorf("Lookup(%.10q): %v", name, err)
		}
	}
}

func TestListedWoods(t *testing.T) {
	tab := load(t)
	for b, want := range map[string]string{
		"Dalbergia nigra": "I", "Dalbergia latifolia": "II", "Swietenia macrophylla": "II", "Cedrela odorata": "II", "Guibourtia tessmannii": "II", "Khaya spp.": "II",
		"Juglans nigra": "", "Diospyros virginiana": "", "Guibourtia coleosperma": "", "": "",
	} {
		l, ok := tab.Listed(b)
		if l.Appendix != want || ok != (want != "") {
			t.Errorf("Listed(%q) = %+v, %v; want %q", b, l, ok, want)
		}
	}
}

func TestListedWoodsThatAreNotInTheTable(t *testing.T) {
	tab := load(t)
	for name, want := range map[string]string{
		"Cocobolo": "Dalbergia retusa", "ipe": "Handroanthus spp.", "Dalbergia cochinchinensis": "Dalbergia cochinchinensis", "rosewood": "Dalbergia spp.", "medlar": "", "": "",
	} {
		s, err := tab.Resolve(piece.Wood{Species: piece.Of(name), Density: piece.Of[units.Density](900)})
		if err != nil || s.Botanical != want {
			t.Errorf("%q: %q, %v; want %q", name, s.Botanical, err, want)
			continue
		}
		if _, ok := tab.Listed(s.Botanical); ok != (want != "") {
			t.Errorf("%q: listed %v", name, ok)
		}
	}
}

func TestWorkshopWoodsOverride(t *testing.T) {
	tab := load(t)
	own, found := tab.WithEntries([]piece.WoodEntry{
		{ID: piece.Of("black-walnut"), SpecificGravity: piece.Of(0.60), Source: piece.Of("weighed at the yard")},
		{Name: piece.Of("Medlar"), Density: piece.Of[units.Density](800)},
		{ID: piece.Of("rowan"), Density: piece.Of[units.Density](720), At12: true, Tangential: piece.Of[units.Percent](8), Radial: piece.Of[units.Percent](5)},
		{},
		{ID: piece.Of("ghost")},
	})
	if len(found) != 2 {
		t.Errorf("findings %+v", found)
	}
	w, _ := own.Lookup("black walnut")
	if w.BasicSG != 0.60 || w.Volumetric != 12.8 || !strings.HasPrefix(w.Source, "workshop.yaml: weighed at the yard; what it does not give: Gb: USFS") {
		t.Errorf("walnut %+v", w)
	}
	if old, _ := tab.Lookup("black walnut"); old.BasicSG != 0.51 {
		t.Error("the built-in table was changed")
	}
	renamed, _ := tab.WithEntries([]piece.WoodEntry{{ID: piece.Of("black-walnut"), Name: piece.Of("Yard walnut")}})
	if r, _ := renamed.Lookup("yard walnut"); r.BasicSG != 0.51 || strings.Contains(r.Source, "workshop.yaml") {
		t.Errorf("a name alone changes no figure: %+v", r)
	}
	m, err := own.Lookup("medlar")
	if err != nil || m.DensityAsIs != 800 {
		t.Errorf("medlar %+v, %v", m, err)
	}
	r, _ := own.Lookup("rowan")
	near(t, "rowan at 12 %", DensityAt(r.BasicSG, r.Volumetric, r.FSP, 12), 720, 1e-9)
	near(t, "rowan's coefficient", Coefficient(r.Tangential, r.FSP), 8.0/(3000-160), 1e-12)
}

func TestSpecDensityBeatsTheTable(t *testing.T) {
	tab := load(t)
	s, err := tab.Resolve(piece.Wood{Species: piece.Of("bog oak, five thousand years"), SpecificGravity: piece.Of(0.62)})
	if err != nil || s.BasicSG != 0.62 || s.ID != "bog-oak-five-thousand-years" {
		t.Errorf("%+v, %v", s, err)
	}
	s, err = tab.Resolve(piece.Wood{Species: piece.Of("walnut"), Density: piece.Of[units.Density](640)})
	if err != nil || s.DensityAsIs != 640 {
		t.Errorf("%+v, %v", s, err)
	}
	s, err = tab.Resolve(piece.Wood{Species: piece.Of("wych elm"), Density: piece.Of[units.Density](640)})
	if err != nil || s.DensityAsIs != 640 || s.Botanical != "Ulmus glabra" || s.BasicSG != 0 || !strings.HasPrefix(s.Source, "piece.yaml; what it does not give: ") {
		t.Errorf("%+v, %v", s, err)
	}
	if _, err = tab.Resolve(piece.Wood{Species: piece.Of("bog oak")}); err == nil {
		t.Error("a wood without density was resolved")
	}
}
