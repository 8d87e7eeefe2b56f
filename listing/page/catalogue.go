package page

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"strconv"
	"strings"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
)

// A Catalogue is the collection in three forms, each made of public values only.
type Catalogue struct{ HTML, CSV, JSON []byte }

// NewCatalogue makes the catalogue. CSV and JSON hold every piece; the page
// leaves out what is sold or not for sale.
func NewCatalogue(entries []Entry, o *Options) (*Catalogue, error) {
	html, err := catalogueHTML(entries, o)
	if err != nil {
		return nil, err
	}
	table, err := catalogueCSV(entries)
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
	return &Catalogue{HTML: html, CSV: table, JSON: append(data, '\n')}, nil
}

// catalogueCSV follows RFC 4180: a header line, CRLF, quotes where needed.
func catalogueCSV(entries []Entry) ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	rows := [][]string{{
		"serial", "title", "kind", "finished", "quantity", "length_mm", "width_mm", "height_mm",
		"weight_kg", "weight_low_kg", "weight_high_kg", "woods", "resin", "finish", "price", "currency", "availability", "photos", "page",
	}}
	for _, e := range entries {
		rows = append(rows, csvRow(e))
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

func csvRow(e Entry) []string {
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
			resins = append(resins, commaJoined(m.Name, m.Detail))
		}
	}
	finish, price, currency := "", "", ""
	if p.Finish != nil {
		finish = p.Finish.Called()
	}
	if p.Price != nil {
		price, currency = strconv.FormatFloat(p.Price.Amount, 'f', 2, 64), p.Price.Currency
	}
	return append(row, strings.Join(woods, "; "), strings.Join(resins, "; "), finish, price, currency,
		p.Available, strconv.Itoa(len(p.Photos)), e.Folder+"/listing/index.html")
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

// catalogueRow is one piece of the public page.
type catalogueRow struct {
	Href, Title, Kind, Serial, Size, Woods, Price, Available string
	Photo                                                    *picture
}

func catalogueHTML(entries []Entry, o *Options) ([]byte, error) {
	t, err := o.Words.Page("catalogue.html", nil)
	if err != nil {
		return nil, err
	}
	data := struct {
		Lang, Title, Count string
		Rows               []catalogueRow
	}{Lang: o.Words.Lang, Title: o.Words.Say("catalogue.title", nil)}
	for _, e := range entries {
		pub := &e.Report.Public
		if pub.Available == "sold" || pub.Available == "not for sale" {
			continue
		}
		if pub.Maker != nil && pub.Maker.Name != "" {
			data.Title = o.Words.Say("catalogue.of", map[string]any{"Maker": pub.Maker.Name})
		}
		data.Rows = append(data.Rows, catalogueRowOf(e, o))
	}
	data.Count = counted(len(data.Rows), "catalogue", o)
	var b bytes.Buffer
	err = t.Execute(&b, data)
	return b.Bytes(), err
}

func catalogueRowOf(e Entry, o *Options) catalogueRow {
	pub := &e.Report.Public
	row := catalogueRow{
		Href: "../" + e.Folder + "/listing/index.html", Title: pub.Title, Kind: spelling.Capital(o.Words.Called("kind", pub.Kind)), Serial: pub.Serial, Available: o.Words.Called("available", pub.Available),
		Size: sizeText(pub, o),
	}
	var woods []string
	for _, m := range pub.Materials {
		if m.Role == "wood" || m.Role == "resin" {
			woods = append(woods, m.Name)
		}
	}
	row.Woods = strings.Join(woods, ", ")
	if pub.Price != nil {
		row.Price = priceAsked(pub, o)
	}
	if len(pub.Photos) > 0 {
		row.Photo = smallPicture(&pub.Photos[0], "../"+e.Folder+"/listing/")
	}
	return row
}

// smallPicture is the smallest rendition of a photo's own shape that is at least
// 500 pixels wide, or the photo itself.
func smallPicture(p *report.Photo, prefix string) *picture {
	pic := &picture{Src: prefix + p.File, Width: p.Width, Height: p.Height, Alt: p.Alt}
	for _, r := range p.Renditions {
		if r.Format != "webp" && sameShape(r, p) && r.Width >= 500 && r.Width < pic.Width {
			pic.Src, pic.Width, pic.Height = prefix+r.File, r.Width, r.Height
		}
	}
	return pic
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
