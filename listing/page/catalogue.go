package page

import (
	"bytes"
	"cmp"
	"encoding/csv"
	"encoding/json"
	"errors"
	"strconv"
	"strings"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// A Catalogue is the collection in several forms, each made of public values only.
type Catalogue struct {
	HTML, CSV, JSON []byte

	// Made where it is known at which address the pieces will stand; else nil.
	Web     []byte // the page as it stands at that address, its pieces in folders below it
	Feed    []byte // of the new pieces, Atom (RFC 4287)
	Sitemap []byte // of the page and all pieces on offer (sitemaps.org, protocol 0.9)
}

// NewCatalogue makes the catalogue. CSV and JSON hold every piece; page, feed and
// sitemap leave out what is sold or not for sale.
func NewCatalogue(entries []Entry, o *Options) (*Catalogue, error) {
	shop := shopOf(entries, o)
	c := &Catalogue{}
	var err error
	if c.HTML, err = shop.page(onDisk); err != nil {
		return nil, err
	}
	if shop.URL != "" {
		var err1, err2, err3 error
		c.Web, err1 = shop.page(onTheWeb)
		c.Feed, err2 = shop.feed()
		c.Sitemap, err3 = shop.sitemap()
		if err := errors.Join(err1, err2, err3); err != nil {
			return nil, err
		}
	}
	table, err := catalogueCSV(entries, o)
	if err != nil {
		return nil, err
	}
	public := make([]report.Public, 0, len(entries))
	for _, e := range entries {
		p := e.Report.Public
		p.Texts, p.Languages = nil, nil // they stand in the piece's own listing.json
		public = append(public, p)
	}
	data, err := json.MarshalIndent(public, "", "  ")
	if err != nil {
		return nil, err
	}
	c.CSV, c.JSON = table, append(data, '\n')
	return c, nil
}

// catalogueCSV follows RFC 4180: a header line, CRLF, quotes where needed. The mark
// at its beginning tells a spreadsheet that it is UTF-8; numbers have a decimal point.
func catalogueCSV(entries []Entry, o *Options) ([]byte, error) {
	b := bytes.NewBufferString("\ufeff")
	w := csv.NewWriter(b)
	w.UseCRLF = true
	rows := [][]string{{
		"serial", "title", "kind", "finished", "quantity", "length_mm", "width_mm", "height_mm",
		"weight_kg", "weight_low_kg", "weight_high_kg", "woods", "resin", "finish", "price", "currency", "availability", "photos", "page",
	}}
	for _, e := range entries {
		rows = append(rows, csvRow(e, o))
	}
	for _, row := range rows {
		for i, cell := range row {
			row[i] = harmless(cell)
		}
		if err := w.Write(row); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return b.Bytes(), w.Error()
}

func csvRow(e Entry, o *Options) []string {
	p := &e.Report.Public
	row := []string{p.Serial, p.Title, p.Kind, p.Finished, strconv.Itoa(p.Quantity)}
	var d report.Dimensions
	if p.Dimensions != nil {
		d = *p.Dimensions
	}
	row = append(row, optional(d.Length), optional(d.Width), optional(d.Height))
	if w := p.Weight; w != nil {
		low, high := short(w.Low), short(w.High)
		if w.Weighed != nil {
			low, high = "", "" // what a scale said has no range for a buyer
		}
		row = append(row, short(w.Shown()), low, high)
	} else {
		row = append(row, "", "", "")
	}
	var woods, resins []string
	for _, m := range p.Materials {
		switch m.Role {
		case "wood":
			woods = append(woods, m.Name)
		case "resin":
			resins = append(resins, spelling.Commas(m.Name, m.Detail))
		}
	}
	finish, price, currency := "", "", ""
	if p.Finish != nil {
		finish = p.Finish.Called()
	}
	if p.Price != nil {
		price, currency = strconv.FormatFloat(p.Price.Amount, 'f', units.CentDigits(p.Price.Currency), 64), p.Price.Currency
	}
	return append(row, strings.Join(woods, "; "), strings.Join(resins, "; "), finish, price, currency,
		p.Available, strconv.Itoa(len(p.Photos)), pageOf(e, o))
}

// pageOf is where the page of a piece stands: its address on the web where that is
// known, else its place beside the table; "" where there is none yet.
func pageOf(e Entry, o *Options) string {
	if e.Unlisted {
		return ""
	}
	return cmp.Or(report.WebAddress(o.BaseURL, e.Report.Public.Serial, "/"), e.Folder+"/listing/index.html")
}

func optional(v *float64) string {
	if v == nil {
		return ""
	}
	return short(*v)
}

func short(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// harmless keeps a spreadsheet from taking a cell for a formula.
func harmless(cell string) string {
	if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
		if _, err := strconv.ParseFloat(cell, 64); err != nil {
			return "'" + cell
		}
	}
	return cell
}

func sizeText(pub *report.Public, o *Options) string {
	if pub.Dimensions == nil {
		return ""
	}
	if o.Prefer.Metric() {
		return pub.Dimensions.Text.Cm
	}
	return pub.Dimensions.Text.In
}

func counted(n int, id string, o *Options) string {
	switch n {
	case 0:
		return o.Words.Say(id+".none", nil)
	case 1:
		return o.Words.Say(id+".one", nil)
	}
	return o.Words.Say(id+".many", map[string]any{"N": n})
}
