package page

import (
	"bytes"
	"cmp"
	"html/template"
	"slices"
	"strings"
	"unicode/utf8"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
)

// longTitle is how many letters a title has at most that is set large: about
// three lines beside the photo.
const longTitle = 48

// mostProducts stand among the facts; more have a section of their own.
const mostProducts = 6

// listingPage is what listing.html is filled with.
type listingPage struct {
	Lang, Locale, Title, Serial, Kind, Description, URL string
	Image                                               string         // the main photo's address, for previews
	Languages                                           []pageLanguage // none where there is but one
	MakersLang                                          string         // of the story, where it is not the page's
	FinishedLong, Rights                                string
	Long                                                bool // the title needs more than a few lines
	Accent, AccentDark                                  template.CSS
	JSONLD                                              template.JS
	Maker                                               *makerLines
	By                                                  string // the workshop, for a piece that others made; empty for its own
	MainPhoto                                           *picture
	Rows                                                []row // the other photos
	Measures                                            []measure
	Facts                                               []fact
	Products                                            []string // where they are too many for a fact
	Price                                               *priceLine
	Ask                                                 *ask
	Others                                              string // where the other pieces stand, on the page of one that is gone
	Story                                               []string
	Drawing                                             *figure
	Care                                                []careGroup
	Cautions                                            []report.Paragraph
	Terms                                               []fact
	TermsHead                                           string
}

type makerLines struct {
	Name, Email, Phone, Web string
	Tel                     string
	WebURL                  string
	Address                 []string
}

type careGroup struct {
	Head  string
	Texts []string
	Open  bool
}

// Listing makes the public page of a piece: it opens from disk, needs no script
// and asks for nothing outside its folder.
func Listing(r *report.Report, o *Options) ([]byte, error) {
	t, err := o.Words.Page("listing.html", nil)
	if err != nil {
		return nil, err
	}
	pub := &r.Public
	p := &listingPage{
		Languages: pageLanguages(r, o), MakersLang: o.MakersLang,
		Lang: o.Words.Lang, Title: pub.Title, Serial: pub.Serial, Kind: spelling.Capital(pub.What(o.Words)),
		Long: utf8.RuneCountInString(pub.Title) > longTitle,
		URL:  pageURL(r, o), Locale: locale(o.Words.Lang), Rights: r.Rights, FinishedLong: o.Words.Day(pub.Finished),
		Accent: colour(r.Accent, "#111"), AccentDark: colour(r.AccentDark, "#f2efe9"),
		Maker: makerOf(pub.Maker), By: pub.WorkBy(o.Words), Measures: measures(r, o), Facts: facts(r, o),
		Story: paragraphs(pub.Story), Drawing: drawPiece(r, o), Care: careGroups(pub.Care, o),
		Cautions: pub.Cautions, Ask: askOf(pub, o), Others: others(r),
	}
	p.Description = description(p, pub, o)
	products := o.Words.Say("page.fact.products", nil)
	if i := slices.IndexFunc(p.Facts, func(f fact) bool { return f.Name == products && len(f.Values) > mostProducts }); i >= 0 {
		p.Products = p.Facts[i].Values
		p.Facts = slices.Delete(p.Facts, i, i+1)
	}
	p.Price = priceOf(pub, o)
	p.Terms, p.TermsHead = terms(r, o)
	var pics []picture
	for i := range pub.Photos {
		pics = append(pics, pictureOf(&pub.Photos[i]))
	}
	if len(pics) > 0 {
		p.MainPhoto, p.Rows = &pics[0], rowsOf(pics[1:])
		p.MainPhoto.main()
		p.Image = fileURL(r, p.MainPhoto.Src)
	}
	if p.JSONLD, err = jsonLD(r, o); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := t.Execute(&b, p); err != nil {
		return nil, err
	}
	return setForScreen(b.Bytes()), nil
}

// locale is a language as Open Graph has it, with a country: "en_GB".
func locale(lang string) string {
	lang, country, ok := strings.Cut(lang, "-")
	switch {
	case ok:
		return lang + "_" + strings.ToUpper(country)
	case lang == "en":
		return "en_GB" // that of the United States has its own name
	}
	return lang + "_" + strings.ToUpper(lang)
}

// A pageLanguage is one of the languages that the page can be read in.
type pageLanguage struct {
	Tag, Name string
	Href      string // from this page, so that it leads there on a disk too
	Address   string // on the web, where that is known; else as Href
	Here      bool   // it is the page's own
}

// pageLanguages lead to the page in each language.
func pageLanguages(r *report.Report, o *Options) []pageLanguage {
	var all []pageLanguage
	for _, l := range o.Languages {
		href := l.Folder + "index.html"
		if o.Folder != "" {
			href = "../" + href
		}
		all = append(all, pageLanguage{Tag: l.Tag, Name: l.Name, Href: href, Address: cmp.Or(r.Address(l.Folder), href), Here: l.Folder == o.Folder})
	}
	return all
}

// pageURL is the address of a page in any language, which stands in its folder; ""
// when the workshop says no base_url.
func pageURL(r *report.Report, o *Options) string { return r.Address(o.Folder) }

// fileURL is where a file of the listing will stand; without a base_url it is the
// file as the page names it.
func fileURL(r *report.Report, file string) string {
	return cmp.Or(r.Address(strings.TrimPrefix(file, "../")), file)
}

// description is one sentence for search engines and previews.
func description(p *listingPage, pub *report.Public, o *Options) string {
	var parts []string
	for _, m := range pub.Materials {
		if m.Role == "wood" || m.Role == "resin" {
			parts = append(parts, o.Words.Inside(m.Name))
		}
	}
	s := p.Kind
	if len(parts) > 0 {
		s = o.Words.Labelled(s, o.Words.List(parts))
	}
	if d := pub.Dimensions; d != nil && d.Text.In != "" {
		s = o.Words.Apart([]string{s, bothSizes(d.Text, o)})
	}
	if p.Maker != nil && p.Maker.Name != "" {
		s = o.Words.Apart([]string{s, p.Maker.Name})
	}
	return s + "."
}

func makerOf(m *report.Maker) *makerLines {
	if m == nil || m.Name == "" {
		return nil
	}
	l := &makerLines{Name: m.Name, Email: m.Email, Phone: m.Phone, Web: m.Web, Tel: dialled(m.Phone), WebURL: m.Web}
	for _, line := range strings.FieldsFunc(m.Address, func(r rune) bool { return r == '\n' || r == ',' }) {
		if line = strings.TrimSpace(line); line != "" {
			l.Address = append(l.Address, line)
		}
	}
	if m.Web != "" && !strings.Contains(m.Web, "://") {
		l.WebURL = "https://" + m.Web
	}
	return l
}

// dialled keeps of a phone number what a phone dials.
func dialled(phone string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' || r == '+' {
			return r
		}
		return -1
	}, phone)
}

// careGroups puts the care paragraphs under their heads, in the order of use.
func careGroups(care []report.Paragraph, o *Options) []careGroup {
	var groups []careGroup
	for i, g := range []string{"first-weeks", "daily", "clean", "avoid", "renew", "climate", "other"} {
		group := careGroup{Head: o.Words.Say("page.care."+g, nil), Open: i < 4}
		for _, p := range care {
			if p.Group == g || g == "other" && !knownCare(p.Group) {
				group.Texts = append(group.Texts, p.Text)
			}
		}
		if len(group.Texts) > 0 {
			groups = append(groups, group)
		}
	}
	return groups
}

func knownCare(group string) bool {
	switch group {
	case "first-weeks", "daily", "clean", "avoid", "renew", "climate":
		return true
	}
	return false
}

// colour lets only a plain #rrggbb into a style sheet.
func colour(hex, fallback string) template.CSS {
	if len(hex) == 7 && hex[0] == '#' && strings.Trim(hex[1:], "0123456789abcdef") == "" {
		return template.CSS(hex)
	}
	return template.CSS(fallback)
}

// paragraphs are those of a story. A story without a blank line may have one in
// every line.
func paragraphs(text string) []string {
	out := spelling.Paragraphs(text)
	if len(out) != 1 {
		return out
	}
	var lines []string
	for line := range strings.SplitSeq(text, "\n") {
		lines = append(lines, spelling.Paragraphs(line)...)
	}
	if len(lines) > 1 && looksLikeParagraphs(lines) {
		return lines
	}
	return out
}

// looksLikeParagraphs tells lines that end sentences from lines that were only
// wrapped in the file.
func looksLikeParagraphs(lines []string) bool {
	for _, l := range lines {
		if !strings.ContainsAny(l[len(l)-1:], ".!?\"") {
			return false
		}
	}
	return true
}
