package listing

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"slabfolio/listing/page"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/sheet"
	"slabfolio/listing/stage"
)

// addPages writes what a buyer sees on the web, and the words to paste.
func (w *work) addPages(context.Context) error {
	o := &page.Options{Words: w.words, Prefer: w.opts.Units}
	html, err1 := page.Listing(w.report, o)
	text, err2 := page.Text(w.report, o)
	data, err3 := report.PublicJSON(w.report)
	if err := errors.Join(err1, err2, err3); err != nil {
		return w.named("listing", err)
	}
	return errors.Join(
		w.folder.Write("listing/index.html", html),
		w.folder.Write("listing/listing.txt", text),
		w.folder.Write("listing/listing.json", data),
	)
}

// addDocuments makes the PDFs.
func (w *work) addDocuments(ctx context.Context) error {
	pictures, err := w.pictures(ctx)
	if err != nil {
		return err
	}
	o := &sheet.Options{Words: w.words, Paper: w.opts.Paper, Prefer: w.opts.Units, Accent: parseAccent(w.forDocuments.Accent), Pictures: pictures, Version: w.opts.Version, Card: cardOf(w.job.Workshop)}
	return w.eachDocument(ctx, len(documents), func(i int) error {
		d := documents[i]
		data, err := d.make(w.forDocuments, o)
		if err != nil {
			return w.named(d.name, err)
		}
		return w.folder.Write(d.name, data)
	})
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
	name string
	make func(*report.Report, *sheet.Options) ([]byte, error)
}{
	{"sheet.pdf", sheet.Sheet},
	{"care.pdf", sheet.Care},
	{"label.pdf", sheet.Label},
	{"certificate.pdf", sheet.Certificate},
	{"shipping.pdf", sheet.Shipping},
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
	case strings.HasPrefix(rel, "listing/photos/"), strings.HasPrefix(rel, "listing/upload/"), strings.HasPrefix(rel, "overview/"):
		return OnlyPhotos
	case strings.HasPrefix(rel, "listing/"), rel == "listing.zip":
		return OnlyListing
	}
	for _, d := range documents {
		if rel == d.name {
			return OnlyDocuments
		}
	}
	return ""
}

func parseAccent(hex string) (rgb [3]uint8) {
	if _, err := fmt.Sscanf(hex, "#%02x%02x%02x", &rgb[0], &rgb[1], &rgb[2]); err != nil {
		return [3]uint8{}
	}
	return rgb
}

// unprintable says which letters the documents cannot show.
func unprintable(r *report.Report) []piece.Finding {
	letters := sheet.Unprintable(r)
	if len(letters) == 0 {
		return nil
	}
	shown, more := letters[:min(len(letters), 8)], ""
	if n := len(letters) - len(shown); n > 0 {
		more = fmt.Sprintf(" and %d more", n)
	}
	return []piece.Finding{{
		Rank: piece.Doubt, Code: "sheet.letters",
		Message: fmt.Sprintf("the fonts of the documents lack %s%s; a replacement sign is printed instead", strings.Join(strings.Split(string(shown), ""), " "), more),
		Remedy:  "write it in Latin, Greek or Cyrillic letters; the listing page shows it as it is",
	}}
}
