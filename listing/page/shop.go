package page

import (
	"bytes"
	"cmp"
	"encoding/json"
	"html/template"
	"net/url"
	"slices"
	"strings"

	"golang.org/x/text/collate"
	"golang.org/x/text/language"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
)

// A shop is the public side of a collection: the pieces that are on offer.
type shop struct {
	o           *Options
	Lang        string
	Title       string
	Maker       string // empty when not known
	Contact     *makerLines
	Count       string
	Description string
	URL         string // where the page stands, with a slash at its end; empty when not known
	entries     []Entry

	// Of one page.
	Rows   []shopRow
	Groups []filterGroup
	Rules  template.CSS
	JSONLD template.JS
	Image  string // absolute address of the first photo
	Fit    string // what stands behind the number of pieces that fit
}

// shopRow is one piece of the public page.
type shopRow struct {
	Href, Title, Kind, Serial, Size, Woods, Price, Available string
	Photo                                                    *shopPhoto
	Classes                                                  string
}

// A shopPhoto is a photo of the shape that all have.
type shopPhoto struct {
	Src, SrcSet, WebP, Alt string
	Width, Height          int
}

// onSale reports whether a piece stands in the catalogue.
func onSale(pub *report.Public) bool { return pub.ForSale() && pub.Sized() }

// taken is 1 for a piece that is kept for somebody, 0 for one that can be had.
func taken(pub *report.Public) int {
	if pub.Available == "reserved" || pub.Available == "commission" {
		return 1
	}
	return 0
}

// shopOf gathers what is on offer: what can be had first, the latest first.
func shopOf(entries []Entry, o *Options) *shop {
	s := &shop{o: o, Lang: o.Words.Lang, Title: o.Words.Say("catalogue.title", nil)}
	s.URL = report.WebAddress(o.BaseURL)
	for _, e := range entries {
		if onSale(&e.Report.Public) && !e.Unlisted {
			s.entries = append(s.entries, e)
		}
	}
	for _, e := range slices.Concat(s.entries, entries) { // where nothing is on offer, the maker can be asked all the same
		if m := e.Report.Public.Maker; s.Maker == "" && m != nil && m.Name != "" {
			s.Maker, s.Contact = m.Name, makerOf(m)
			s.Title = o.Words.Say("catalogue.of", map[string]any{"Maker": s.Maker})
		}
	}
	slices.SortStableFunc(s.entries, func(a, b Entry) int {
		x, y := &a.Report.Public, &b.Report.Public
		return cmp.Or(cmp.Compare(taken(x), taken(y)), strings.Compare(y.Finished, x.Finished))
	})
	s.Count = counted(len(s.entries), "catalogue", o)
	s.Description = s.describe()
	return s
}

// describe says in a sentence what there is, for search engines and previews.
func (s *shop) describe() string {
	var kinds, woods []string
	for _, e := range s.entries {
		pub := &e.Report.Public
		kinds = append(kinds, present(pub.KindIn(s.o.Words))...)
		woods = append(woods, woodsOf(pub)...)
	}
	parts := present(s.o.Words.List(each(kinds, s.Lang)), s.o.Words.List(each(woods, s.Lang)))
	if len(parts) == 0 {
		return s.Count
	}
	return shortened(s.o.Words.Labelled(s.Title, s.o.Words.Apart(parts)), 300)
}

// each returns the values once, sorted as dictionaries of the language do: É beside E
// (Unicode Technical Standard 10, with CLDR's rules for the language).
func each(values []string, lang string) []string {
	out := slices.Clone(values)
	order := collate.New(language.Make(lang))
	slices.SortFunc(out, func(a, b string) int { return cmp.Or(order.CompareString(a, b), strings.Compare(a, b)) })
	return slices.Compact(out)
}

func woodsOf(pub *report.Public) (names []string) {
	for _, m := range pub.Materials {
		if m.Role == "wood" {
			names = append(names, m.Name)
		}
	}
	return names
}

// A layout says where the page finds a piece: its listing, and the files of it.
type layout func(e Entry) (listing, files string)

// onDisk is how the pieces lie beside the page in OUT, onTheWeb how they stand below
// it at their address.
func onDisk(e Entry) (listing, files string) {
	files = "../" + url.PathEscape(e.Folder) + "/listing/"
	return files + "index.html", files
}

func onTheWeb(e Entry) (listing, files string) {
	files = url.PathEscape(e.Report.Public.Serial) + "/"
	return files, files
}

// page makes the public page.
func (s *shop) page(at layout) ([]byte, error) {
	t, err := s.o.Words.Page("catalogue.html", nil)
	if err != nil {
		return nil, err
	}
	data := *s
	data.Groups, data.Rules = s.filters()
	data.Fit = s.o.Words.Say("catalogue.fit", map[string]any{"All": len(s.entries)})
	for i, e := range s.entries {
		row := s.row(e, at)
		for _, g := range data.Groups {
			row.Classes = strings.TrimSpace(row.Classes + " " + g.classes[i])
		}
		data.Rows = append(data.Rows, row)
		if data.Image == "" && s.URL != "" && row.Photo != nil {
			_, files := onTheWeb(e)
			data.Image = s.URL + files + e.Report.Public.Photos[0].File
		}
	}
	if data.JSONLD, err = s.itemList(); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = t.Execute(&b, &data)
	return setForScreen(b.Bytes()), err
}

func (s *shop) row(e Entry, at layout) shopRow {
	pub := &e.Report.Public
	listing, files := at(e)
	row := shopRow{
		Href: listing, Title: pub.Title, Kind: spelling.Capital(pub.KindIn(s.o.Words)), Serial: pub.Serial,
		Available: s.o.Words.Called("available", pub.Available), Size: sizeText(pub, s.o), Woods: madeOf(pub, s.o),
	}
	if pub.Price != nil {
		row.Price = priceAsked(pub, s.o)
	}
	if len(pub.Photos) > 0 {
		row.Photo = shopPhotoOf(&pub.Photos[0], files)
	}
	return row
}

// leastShown is how many pixels across a photo of the catalogue has at least, where
// there are so many: it is 270 to 440 CSS pixels wide.
const leastShown = 500

// shopPhotoOf takes the square renditions of a photo, which never cut the piece. A
// workshop that makes none has the photo in its own shape, within the same square.
func shopPhotoOf(p *report.Photo, files string) *shopPhoto {
	fits := func(r report.Rendition) bool { return r.Width == r.Height }
	if !slices.ContainsFunc(p.Renditions, func(r report.Rendition) bool { return fits(r) && r.Format != "webp" }) {
		fits = func(r report.Rendition) bool { return sameShape(r, p) }
	}
	out := &shopPhoto{Src: files + p.File, Width: p.Width, Height: p.Height, Alt: p.Alt}
	sets, least := map[bool][]report.Rendition{}, leastShown
	if widest := widestOf(p.Renditions, fits); widest > 0 {
		least = min(least, widest) // of a small photo, what there is
	}
	for _, r := range p.Renditions {
		same := func(o report.Rendition) bool { return o.Width == r.Width }
		if webp := r.Format == "webp"; fits(r) && r.Width >= least && !slices.ContainsFunc(sets[webp], same) {
			sets[webp] = append(sets[webp], r)
		}
	}
	for _, set := range sets {
		slices.SortFunc(set, func(a, b report.Rendition) int { return cmp.Compare(a.Width, b.Width) })
	}
	if jpegs := sets[false]; len(jpegs) > 0 {
		out.Src, out.Width, out.Height = files+jpegs[0].File, jpegs[0].Width, jpegs[0].Height
	}
	out.SrcSet, out.WebP = widths(sets[false], files), ""
	if len(sets[true]) > 0 && len(sets[false]) > 0 && sets[true][0].Width <= sets[false][0].Width {
		out.WebP = widths(sets[true], files)
	}
	return out
}

// widestOf is the width of the widest JPEG among files; 0 where there is none.
func widestOf(files []report.Rendition, fits func(report.Rendition) bool) int {
	widest := 0
	for _, r := range files {
		if r.Format != "webp" && fits(r) {
			widest = max(widest, r.Width)
		}
	}
	return widest
}

// widths is a srcset of files of one shape.
func widths(set []report.Rendition, files string) string {
	var out []string
	for _, r := range set {
		out = append(out, files+r.File+" "+short(float64(r.Width))+"w")
	}
	return strings.Join(out, ", ")
}

// itemList says in the words of schema.org, release 30.0, which pieces there are.
func (s *shop) itemList() (template.JS, error) {
	items := []any{}
	for i, e := range s.entries {
		item := map[string]any{"@type": "ListItem", "position": i + 1, "name": e.Report.Public.Title}
		if s.URL != "" {
			below, _ := onTheWeb(e)
			item["url"] = s.URL + below
		}
		items = append(items, item)
	}
	list := map[string]any{"@context": "https://schema.org", "@type": "ItemList", "name": s.Title, "numberOfItems": len(items), "itemListElement": items}
	if s.URL != "" {
		list["url"] = s.URL
	}
	var b bytes.Buffer
	err := json.NewEncoder(&b).Encode(list) // escapes <, > and &, so that no title can end the script
	return template.JS(bytes.TrimSpace(b.Bytes())), err
}
