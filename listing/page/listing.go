package page

import (
	"bytes"
	"fmt"
	"html/template"
	"net/url"
	"slices"
	"strconv"
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
	Lang, Title, Serial, Kind, Description, URL string
	Languages                                   []pageLanguage // none where there is but one
	MakersLang                                  string         // of the story, where it is not the page's
	FinishedLong, Rights                        string
	Long                                        bool // the title needs more than a few lines
	Accent, AccentDark                          template.CSS
	JSONLD                                      template.JS
	Maker                                       *makerLines
	MainPhoto                                   *picture
	Photos                                      []picture
	Measures                                    []measure
	Facts                                       []fact
	Products                                    []string // where they are too many for a fact
	Price                                       *priceLine
	Story                                       []string
	Drawing                                     *figure
	Care                                        []careGroup
	Cautions                                    []report.Paragraph
	Terms                                       []fact
}

type makerLines struct {
	Name, Email, Phone, Web string
	Tel                     string
	WebURL                  string
	Address                 []string
}

type picture struct {
	Src, SrcSet, WebP, Alt, Caption string
	Width, Height                   int
	Ratio                           template.CSS // width to height
}

type priceLine struct{ Text, Note string }

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
		Lang: o.Words.Lang, Title: pub.Title, Serial: pub.Serial, Kind: spelling.Capital(o.Words.Called("kind", pub.Kind)),
		Long: utf8.RuneCountInString(pub.Title) > longTitle,
		URL:  pageURL(r, o), Rights: r.Rights, FinishedLong: o.Words.Day(pub.Finished),
		Accent: colour(r.Accent, "#111"), AccentDark: colour(r.AccentDark, "#f2efe9"),
		Maker: makerOf(pub.Maker), Measures: measures(r, o), Facts: facts(r, o),
		Story: paragraphs(pub.Story), Drawing: drawPiece(r, o), Care: careGroups(pub.Care, o),
		Cautions: pub.Cautions, Terms: terms(r, o),
	}
	p.Description = description(p, pub, o)
	products := o.Words.Say("page.fact.products", nil)
	if i := slices.IndexFunc(p.Facts, func(f fact) bool { return f.Name == products && len(f.Values) > mostProducts }); i >= 0 {
		p.Products = p.Facts[i].Values
		p.Facts = slices.Delete(p.Facts, i, i+1)
	}
	if pub.Price != nil {
		p.Price = &priceLine{priceAsked(pub, o), commaJoined(o.Words.Called("available", pub.Available), pub.Price.Note)}
	}
	for i := range pub.Photos {
		pic := pictureOf(&pub.Photos[i])
		if i == 0 {
			p.MainPhoto = &pic
		} else {
			p.Photos = append(p.Photos, pic)
		}
	}
	if p.JSONLD, err = jsonLD(r); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := t.Execute(&b, p); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// A pageLanguage is one of the languages that the page can be read in.
type pageLanguage struct {
	Tag, Name, Href string
	Here            bool // it is the page's own
}

// pageLanguages lead to the page in each language: by its address where that is
// known, else by the folders.
func pageLanguages(r *report.Report, o *Options) []pageLanguage {
	var all []pageLanguage
	for _, l := range o.Languages {
		href := l.Folder + "index.html"
		switch {
		case r.BaseURL != "":
			href = listingURL(r) + l.Folder
		case o.Folder != "":
			href = "../" + href
		}
		all = append(all, pageLanguage{Tag: l.Tag, Name: l.Name, Href: href, Here: l.Folder == o.Folder})
	}
	return all
}

// listingURL is where the page will stand, or "" when the workshop says no
// base_url.
func listingURL(r *report.Report) string {
	if r.BaseURL == "" {
		return ""
	}
	return strings.TrimRight(r.BaseURL, "/") + "/" + url.PathEscape(r.Public.Serial) + "/"
}

// pageURL is listingURL for a page in any language, which stands in its folder.
func pageURL(r *report.Report, o *Options) string {
	if u := listingURL(r); u != "" {
		return u + o.Folder
	}
	return ""
}

// fileURL is where a file of the listing will stand; without a base_url it is the
// file as the page names it.
func fileURL(r *report.Report, file string) string {
	if u := listingURL(r); u != "" {
		return u + strings.TrimPrefix(file, "../")
	}
	return file
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
		s += ": " + strings.Join(parts, ", ")
	}
	if d := pub.Dimensions; d != nil && d.Text.In != "" {
		s += "; " + d.Text.In + " (" + d.Text.Cm + ")"
	}
	if p.Maker != nil && p.Maker.Name != "" {
		s += "; " + p.Maker.Name
	}
	return s + "."
}

// pictureOf chooses the files of a photo: a middling one to start with, every
// width of its own shape to choose from.
func pictureOf(p *report.Photo) picture {
	pic := picture{Src: p.File, Width: p.Width, Height: p.Height, Alt: p.Alt, Caption: p.Caption}
	var set, webp []string
	seen := map[int]bool{}
	for _, r := range p.Renditions {
		if !sameShape(r, p) {
			continue
		}
		entry := fmt.Sprintf("%s %dw", r.File, r.Width)
		if r.Format == "webp" {
			webp = append(webp, entry)
		} else if !seen[r.Width] {
			seen[r.Width] = true
			set = append(set, entry)
			if r.Width >= 1000 && r.Width < pic.Width {
				pic.Src, pic.Width, pic.Height = r.File, r.Width, r.Height
			}
		}
	}
	pic.SrcSet = strings.Join(set, ", ")
	if p.Width > 0 && p.Height > 0 {
		pic.Ratio = template.CSS(strconv.FormatFloat(float64(p.Width)/float64(p.Height), 'f', 3, 64))
	} else {
		pic.Ratio = "1"
	}
	if len(set) < 2 {
		pic.WebP = strings.Join(webp, ", ")
	}
	return pic
}

func sameShape(r report.Rendition, p *report.Photo) bool {
	if p.Height == 0 || r.Height == 0 {
		return false
	}
	a, b := float64(r.Width)/float64(r.Height), float64(p.Width)/float64(p.Height)
	return a/b > 0.985 && a/b < 1.015
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
