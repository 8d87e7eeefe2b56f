package page

import (
	"cmp"
	"encoding/xml"
	"slices"
	"strings"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
)

// mostFed is how many pieces stand in the feed.
const mostFed = 50

// The elements of an Atom feed, RFC 4287, as far as they are written.
type (
	atomFeed struct {
		XMLName  xml.Name    `xml:"http://www.w3.org/2005/Atom feed"`
		Lang     string      `xml:"xml:lang,attr"`
		ID       string      `xml:"id"`
		Title    string      `xml:"title"`
		Subtitle string      `xml:"subtitle,omitempty"`
		Updated  string      `xml:"updated"`
		Author   atomPerson  `xml:"author"`
		Links    []atomLink  `xml:"link"`
		Entries  []atomEntry `xml:"entry"`
	}
	atomPerson struct {
		Name string `xml:"name"`
	}
	atomLink struct {
		Rel  string `xml:"rel,attr"`
		Type string `xml:"type,attr,omitempty"`
		Href string `xml:"href,attr"`
	}
	atomEntry struct {
		ID       string        `xml:"id"`
		Title    string        `xml:"title"`
		Updated  string        `xml:"updated"`
		Links    []atomLink    `xml:"link"`
		Category *atomCategory `xml:"category"`
		Summary  string        `xml:"summary"`
	}
	atomCategory struct {
		Term  string `xml:"term,attr"`
		Label string `xml:"label,attr"`
	}
)

// noDay is the day of a feed with nothing in it: the first that a computer's clock knows.
const noDay = "1970-01-01"

// feed tells of the new pieces, the latest first. A piece is of the day it was
// finished: the spec knows no other, and no clock is asked.
func (s *shop) feed() ([]byte, error) {
	f := atomFeed{Lang: s.Lang, ID: s.URL, Title: s.Title, Subtitle: s.Description, Author: atomPerson{cmp.Or(s.Maker, s.Title)},
		Links: []atomLink{{"self", "application/atom+xml", s.URL + "feed.xml"}, {"alternate", "text/html", s.URL}}}
	latest := s.latestFirst()
	f.Updated = moment(noDay)
	for i, e := range latest[:min(len(latest), mostFed)] {
		entry := s.atomEntry(e)
		if i == 0 {
			f.Updated = entry.Updated
		}
		f.Entries = append(f.Entries, entry)
	}
	return document(f)
}

// latestFirst are the pieces by the day they were finished.
func (s *shop) latestFirst() []Entry {
	out := slices.Clone(s.entries)
	slices.SortStableFunc(out, func(a, b Entry) int { return strings.Compare(b.Report.Public.Finished, a.Report.Public.Finished) })
	return out
}

// moment is the beginning of a day, as RFC 3339 writes it.
func moment(day string) string { return day + "T00:00:00Z" }

func (s *shop) atomEntry(e Entry) atomEntry {
	pub := &e.Report.Public
	below, files := onTheWeb(e)
	entry := atomEntry{
		ID: s.URL + below, Title: pub.Title, Updated: moment(cmp.Or(pub.Finished, noDay)),
		Links:   []atomLink{{"alternate", "text/html", s.URL + below}},
		Summary: s.summary(pub),
	}
	if kind := pub.KindIn(s.o.Words); kind != "" {
		entry.Category = &atomCategory{pub.Kind, kind}
	}
	if len(pub.Photos) > 0 {
		entry.Links = append(entry.Links, atomLink{"enclosure", "image/jpeg", s.URL + files + pub.Photos[0].File})
	}
	return entry
}

// summary is a piece in one line: what, of what, how large, how much.
func (s *shop) summary(pub *report.Public) string {
	price := ""
	if pub.Price != nil {
		price = priceAsked(pub, s.o)
	}
	return s.o.Words.Apart(present(spelling.Capital(pub.KindIn(s.o.Words)), madeOf(pub, s.o), sizeText(pub, s.o), spelling.Commas(price, s.o.Words.Called("available", pub.Available))))
}

// The elements of a sitemap, protocol 0.9 of sitemaps.org.
type (
	siteMap struct {
		XMLName xml.Name  `xml:"http://www.sitemaps.org/schemas/sitemap/0.9 urlset"`
		URLs    []siteURL `xml:"url"`
	}
	siteURL struct {
		Loc     string `xml:"loc"`
		LastMod string `xml:"lastmod,omitempty"`
	}
)

// mostMapped is how many addresses a sitemap may have, by its protocol.
const mostMapped = 50_000

// sitemap lists the catalogue and the pages of all pieces on offer.
func (s *shop) sitemap() ([]byte, error) {
	latest := s.latestFirst()
	front := siteURL{Loc: s.URL}
	if len(latest) > 0 {
		front.LastMod = latest[0].Report.Public.Finished
	}
	m := siteMap{URLs: []siteURL{front}}
	for _, e := range latest[:min(len(latest), mostMapped-1)] {
		below, _ := onTheWeb(e)
		m.URLs = append(m.URLs, siteURL{s.URL + below, e.Report.Public.Finished})
	}
	return document(m)
}

// document writes a value as an XML file.
func document(v any) ([]byte, error) {
	data, err := xml.MarshalIndent(v, "", "  ")
	return append(append([]byte(xml.Header), data...), '\n'), err
}
