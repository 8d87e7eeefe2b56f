// Package care knows the finish families: when they can be used, when they are
// cured, and how a piece in them is looked after. It chooses which paragraphs a
// piece needs; their words are phrases of templates/.
package care

import (
	_ "embed" // the tables
	"errors"
	"fmt"
	"time"

	"slabfolio/listing/piece"
	"slabfolio/listing/table"
)

//go:embed finishes.csv
var finishesCSV string

//go:embed oils.csv
var oilsCSV string

//go:embed irritants.csv
var irritantsCSV string

//go:embed rules.csv
var rulesCSV string

// A Family is one finish family. Days and months are of ordinary products at
// about 20 °C and 50 % humidity; the product's own sheet wins. Resistances are
// H, M and L for high, medium and low.
type Family struct {
	ID         string
	Kind       string // penetrating, thin film, film, thick film, none
	Care       string // which texts it takes: oil, board-oil, film, lacquer, wax, soap, epoxy, bare
	Light      Span   // days until light use
	Cure       Span   // days until full cure; zero when nothing cures
	Renew      Span   // months; To is 0 for "or more"
	DryingOil  bool   // rags wet with it can heat by themselves
	Undated    bool   // it hardens, and in how many days is not known
	Water      string
	Heat       string
	Alcohol    string
	Alkali     string
	Abrasion   string
	Repair     string
	Source     string
	Confidence string
}

// A Span is a range of whole days or months.
type Span struct{ From, To int }

// Tables are the reference values of this package.
type Tables struct {
	Families  []Family
	Oils      []Oil
	Irritants []string // genera whose dust irritates
	Rules     map[string]table.Rule
}

// Family returns a family by its id.
func (t Tables) Family(id string) (Family, bool) {
	for _, f := range t.Families {
		if f.ID == id {
			return f, true
		}
	}
	return Family{}, false
}

// Load returns the embedded tables.
func Load() (Tables, error) {
	var t Tables
	rules, err := table.Rules("rules.csv", rulesCSV)
	t.Rules = rules
	err = errors.Join(err, table.Each("oils.csv", oilsCSV, func(r table.Row) {
		t.Oils = append(t.Oils, Oil{Name: r.Text("oil"), Words: r.Words("words"), Dries: r.Text("dries") == "yes", Nut: r.Text("nut"), Source: r.Text("source")})
	}), table.Each("irritants.csv", irritantsCSV, func(r table.Row) { t.Irritants = append(t.Irritants, r.Text("genus")) }))
	return t, errors.Join(err, table.Each("finishes.csv", finishesCSV, func(r table.Row) {
		span := func(name, unit string) Span {
			return Span{r.Whole(name + "_from_" + unit), r.Whole(name + "_to_" + unit)}
		}
		t.Families = append(t.Families, Family{
			ID: r.Text("id"), Kind: r.Text("kind"), Care: r.Text("care"),
			Light: span("light", "d"), Cure: span("cure", "d"), Renew: span("renew", "mo"), DryingOil: r.Text("drying_oil") == "yes",
			Water: r.Text("water"), Heat: r.Text("heat"), Alcohol: r.Text("alcohol"), Alkali: r.Text("alkali"), Abrasion: r.Text("abrasion"),
			Repair: r.Text("repair"), Source: r.Text("source"), Confidence: r.Text("confidence"),
		})
	}))
}

// Dates is from when a finish can be used. A zero date is not known, or does
// not come (soap and board oil never harden).
type Dates struct {
	LightUse         piece.Date
	CureFrom, CureTo piece.Date
	Source           string
}

// DatesFor counts from the last coat. Light use begins at the late end of the
// family's range, to be on the safe side. What a product of the workshop says
// goes before the family's range, figure by figure.
func DatesFor(f Family, product *piece.FinishProduct, lastCoat piece.Date) Dates {
	light, cure := f.Light.To, f.Cure
	source := f.Source
	if product != nil {
		own := false
		for _, o := range []struct {
			v  piece.Value[int]
			to *int
		}{{product.LightUseDays, &light}, {product.CureDaysFrom, &cure.From}, {product.CureDaysTo, &cure.To}} {
			if o.v.Set() {
				*o.to, own = o.v.V, true
			}
		}
		if own {
			source = "workshop.yaml, the product's own sheet"
		}
		// One end alone moves the other where they would cross.
		switch {
		case product.CureDaysTo.Set() && !product.CureDaysFrom.Set():
			cure.From = min(cure.From, cure.To)
		default:
			cure.To = max(cure.From, cure.To)
		}
	}
	d := Dates{Source: source}
	if lastCoat == (piece.Date{}) {
		return d
	}
	if light > 0 {
		d.LightUse = AddDays(lastCoat, light)
	}
	if cure.To > 0 {
		d.CureFrom, d.CureTo = AddDays(lastCoat, cure.From), AddDays(lastCoat, cure.To)
	}
	return d
}

// AddDays returns the calendar day n days later.
func AddDays(d piece.Date, n int) piece.Date {
	y, m, day := time.Date(d.Year, time.Month(d.Month), d.Day+n, 0, 0, 0, 0, time.UTC).Date()
	return piece.Date{Year: y, Month: int(m), Day: day}
}

// ISO returns a day as YYYY-MM-DD, and nothing for the zero day.
func ISO(d piece.Date) string {
	if d == (piece.Date{}) {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day)
}

// Days returns how many days lie between two days.
func Days(from, to piece.Date) int {
	at := func(d piece.Date) time.Time {
		return time.Date(d.Year, time.Month(d.Month), d.Day, 0, 0, 0, 0, time.UTC)
	}
	return int(at(to).Sub(at(from)).Hours() / 24)
}
