package listing

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"slabfolio/listing/page"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/sheet"
	"slabfolio/listing/stage"
	"slabfolio/templates"
)

// addPages writes what a buyer sees on the web, and the words to paste.
func (w *work) addPages(context.Context) error {
	o := &page.Options{Words: w.words, Prefer: w.report.Prefer}
	o.Languages = w.pageLanguages()
	html, err1 := page.Listing(w.report, o)
	text, err2 := page.Text(w.report, o)
	data, err3 := report.PublicJSON(w.report)
	if err := errors.Join(err1, err2, err3); err != nil {
		return w.named("listing", err)
	}
	err := errors.Join(
		w.folder.Write("listing/index.html", html),
		w.folder.Write("listing/listing.txt", text),
		w.folder.Write("listing/listing.json", data),
	)
	for _, t := range w.tongues {
		err = errors.Join(err, w.addPageIn(t, o))
	}
	return err
}

// addPageIn writes the page and its text in a further language, in a folder below
// the page; the photos are those of the page.
func (w *work) addPageIn(t *tongue, of *page.Options) error {
	r := t.withPhotos(t.report, w.report, w.captionsIn(t.tag()))
	o := *of
	o.Words, o.Prefer, o.Folder, o.MakersLang = t.words, r.Prefer, t.tag()+"/", w.makersLang(t.tag())
	fromBelow(r.Public.Photos)
	html, err1 := page.Listing(r, &o)
	text, err2 := page.Text(r, &o)
	if err := errors.Join(err1, err2); err != nil {
		return w.named("listing/"+t.tag(), err)
	}
	return errors.Join(
		w.folder.Write("listing/"+t.tag()+"/index.html", html),
		w.folder.Write("listing/"+t.tag()+"/listing.txt", text),
		w.folder.Write("listing/upload/alt."+t.tag()+".txt", page.AltTexts(r)),
	)
}

// fromBelow makes the files of photos those that a page in a folder below names.
func fromBelow(all []report.Photo) {
	for i := range all {
		p := &all[i]
		p.File = "../" + p.File
		p.Renditions = slices.Clone(p.Renditions)
		for k := range p.Renditions {
			p.Renditions[k].File = "../" + p.Renditions[k].File
		}
	}
}

// pageLanguages are the languages of the page, the default first; none when there
// is but one.
func (w *work) pageLanguages() []page.Language {
	if len(w.tongues) == 0 {
		return nil
	}
	all := []page.Language{{Tag: w.words.Lang, Name: w.words.Say("name.language", nil)}}
	for _, t := range w.tongues {
		all = append(all, page.Language{Tag: t.tag(), Name: t.words.Say("name.language", nil), Folder: t.tag() + "/"})
	}
	return all
}

// makersLang is the language of what the maker wrote and gave no translation of:
// that of the default page. It is empty where all is translated into the tag.
func (w *work) makersLang(tag string) string {
	if w.job.Piece.In(tag).Story != w.job.Piece.Story {
		return ""
	}
	return w.words.Lang
}

// addDocuments makes the PDFs.
func (w *work) addDocuments(ctx context.Context) error {
	pictures, err := w.pictures(ctx)
	if err != nil {
		return err
	}
	o := &sheet.Options{Words: w.words, Paper: w.opts.Paper, Accent: parseAccent(w.forDocuments.Accent), Pictures: pictures, Version: w.opts.Version, Card: cardOf(w.job.Workshop)}
	all := w.documents()
	return w.eachDocument(ctx, len(all), func(i int) error {
		d := all[i]
		own := *o
		own.Words = d.words
		own.Pictures = d.captioned(o.Pictures)
		data, err := d.make(d.of, &own)
		if err != nil {
			return w.named(d.name, err)
		}
		return w.folder.Write(d.name, data)
	})
}

// A paper is a document in a language.
type paper struct {
	name  string
	make  func(*report.Report, *sheet.Options) ([]byte, error)
	of    *report.Report
	words *templates.Words
}

// documents are the PDFs of the piece, in every language of its papers. What only
// the maker and a carrier read is in the default one alone.
func (w *work) documents() []paper {
	var all []paper
	for _, d := range documents {
		all = append(all, paper{d.name, d.make, w.forDocuments, w.words})
		if d.private {
			continue
		}
		for _, t := range w.tongues {
			all = append(all, paper{inLanguage(d.name, t.tag()), d.make, t.forDocuments, t.words})
		}
	}
	return all
}

// inLanguage names a document in a further language: sheet.de.pdf.
func inLanguage(name, tag string) string {
	return strings.TrimSuffix(name, ".pdf") + "." + tag + ".pdf"
}

// captioned gives the pictures of the documents their texts in the document's
// language.
func (p *paper) captioned(pictures []sheet.Picture) []sheet.Picture {
	own := slices.Clone(pictures)
	for i := range own {
		for _, photo := range p.of.Public.Photos {
			if photo.Upload == own[i].Name {
				own[i].Alt, own[i].Caption = photo.Alt, photo.Caption
			}
		}
	}
	return own
}

// cardOf is how the maker has the care card printed.
func cardOf(w *piece.Workshop) sheet.Card {
	if w == nil {
		return sheet.Card{}
	}
	return sheet.Card{Size: w.CareCard.Size.V, Sheet: w.CareCard.Sheet.V}
}

// documents are the PDFs of a piece.
var documents = []struct {
	name    string
	make    func(*report.Report, *sheet.Options) ([]byte, error)
	private bool // for the maker and a carrier
}{
	{"sheet.pdf", sheet.Sheet, false},
	{"care.pdf", sheet.Care, false},
	{"label.pdf", sheet.Label, false},
	{"certificate.pdf", sheet.Certificate, false},
	{"shipping.pdf", sheet.Shipping, true},
}

// addReport writes report.json, after taking over the outputs that this run does
// not make.
func (w *work) addReport(context.Context) error {
	if only := w.made; only != "" {
		err := w.folder.Keep(func(rel string) bool { g := groupOf(rel); return g != "" && g != only })
		if err != nil {
			return err
		}
	}
	data, err := report.JSON(w.report)
	if err != nil {
		return w.named(reportName, err)
	}
	return w.folder.Write(reportName, data)
}

func (w *work) addZip(context.Context) error {
	data, err := stage.Zip(os.DirFS(filepath.Join(w.folder.Dir, "listing")), w.report.Public.Serial)
	if err != nil {
		return w.named("listing.zip", err)
	}
	return w.folder.Write("listing.zip", data)
}

// named says which output of which piece an error is about.
func (w *work) named(output string, err error) error {
	return fmt.Errorf("%s: %s: %w", filepath.ToSlash(w.job.Dir), output, err)
}

// groupOf says which group a file of the output folder belongs to; "" for one
// that belongs to none.
func groupOf(rel string) string {
	switch {
	case rel == page.PieceOverviewName: // every run makes it
		return ""
	case strings.HasPrefix(rel, "listing/photos/"), strings.HasPrefix(rel, "listing/upload/"), strings.HasPrefix(rel, "overview/"):
		return OnlyPhotos
	case strings.HasPrefix(rel, "listing/"), rel == "listing.zip":
		return OnlyListing
	}
	for _, d := range documents {
		if inAnyLanguage(rel, d.name) {
			return OnlyDocuments
		}
	}
	return ""
}

// inAnyLanguage reports whether a file is that document, in whatever language:
// sheet.pdf, sheet.de.pdf.
func inAnyLanguage(rel, document string) bool {
	return strings.HasPrefix(rel, strings.TrimSuffix(document, "pdf")) && strings.HasSuffix(rel, ".pdf") && !strings.Contains(rel, "/")
}

// Public reports whether a file of a piece's output folder, with forward slashes,
// is for the buyer. What is not known to be is not.
func Public(rel string) bool {
	if strings.HasPrefix(rel, "listing/") {
		return true
	}
	for _, d := range documents {
		if !d.private && inAnyLanguage(rel, d.name) {
			return true
		}
	}
	return false
}

func parseAccent(hex string) (rgb [3]uint8) {
	if _, err := fmt.Sscanf(hex, "#%02x%02x%02x", &rgb[0], &rgb[1], &rgb[2]); err != nil {
		return [3]uint8{}
	}
	return rgb
}

// unprintable says which letters and pictures the documents cannot show.
func unprintable(r *report.Report) (found []piece.Finding) {
	letters, pictures := sheet.Unprintable(r)
	for _, c := range []struct {
		rank            piece.Rank
		signs           []rune
		instead, remedy string
	}{
		{piece.Doubt, letters, "a replacement sign is printed instead", "write it in Latin, Greek or Cyrillic letters; the listing page shows it as it is"},
		{piece.Note, pictures, "they are left out there", "nothing is to be done; the listing page shows them as they are"},
	} {
		if len(c.signs) == 0 {
			continue
		}
		shown, more := c.signs[:min(len(c.signs), 8)], ""
		if n := len(c.signs) - len(shown); n > 0 {
			more = fmt.Sprintf(" and %d more", n)
		}
		found = append(found, piece.Finding{Rank: c.rank, Code: "sheet.letters",
			Message: fmt.Sprintf("the fonts of the documents lack %s%s; %s", strings.Join(strings.Split(string(shown), ""), " "), more, c.instead), Remedy: c.remedy})
	}
	return found
}
