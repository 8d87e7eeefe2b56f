package listing

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"golang.org/x/sync/errgroup"

	"slabfolio/listing/page"
	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/sheet"
	"slabfolio/listing/stage"
	"slabfolio/listing/units"
	"slabfolio/templates"
)

// reportName is the file of a piece's outputs that all is told in.
const reportName = "report.json"

// readReport reads the report.json of a prepared piece; nil when there is none
// or it is not ours.
func readReport(folder string) *report.Report {
	data, err := stage.ReadOrdinary(filepath.Join(folder, reportName))
	if err != nil {
		return nil
	}
	r := new(report.Report)
	if json.Unmarshal(data, r) != nil || r.Public.Serial == "" {
		return nil
	}
	return r
}

// unread is a part of a report.json that is passed over.
type unread struct{}

// UnmarshalJSON passes over it.
func (unread) UnmarshalJSON([]byte) error { return nil }

// shortReport is readReport without what nothing over all pieces tells of: more than
// half of the file, and with a thousand pieces most of a run in which nothing changed.
func shortReport(folder string) *report.Report {
	data, err := stage.ReadOrdinary(filepath.Join(folder, reportName))
	if err != nil {
		return nil
	}
	short := struct {
		*report.Report
		Figures     unread `json:"figures"`
		WeightParts unread `json:"weight_parts"`
		Movement    unread `json:"movement"`
		Absent      unread `json:"absent"`
		Photos      []struct {
			Name  string `json:"name"`
			After string `json:"after"`
		} `json:"photos"`
	}{Report: new(report.Report)}
	if json.Unmarshal(data, &short) != nil || short.Public.Serial == "" {
		return nil
	}
	for _, p := range short.Photos {
		short.Report.Photos = append(short.Report.Photos, report.PhotoRecord{Name: p.Name, After: p.After})
	}
	return short.Report
}

// publicFolder is the folder in OUT for the pages over all pieces that anybody may
// see.
const publicFolder = "catalogue"

// collectionLock is held by the run that writes what covers all pieces.
const collectionLock = ".catalogue" + stage.LockSuffix

// writeCollection writes what covers every prepared piece found in OUT, not only
// this run's: the overview, the catalogue as a page, CSV and JSON.
func (b *Batch) writeCollection(ctx context.Context) (err error) {
	lock, err := stage.WaitLock(ctx, filepath.Join(b.opts.Out, collectionLock))
	if err != nil {
		return fmt.Errorf("overview and catalogue: %w", err)
	}
	defer func() { err = errors.Join(err, lock.Release()) }()
	from, err := b.collectionFrom()
	if err != nil || b.collectionStands(from) {
		return err
	}
	entries, err := b.entries()
	if err != nil {
		return err
	}
	entries, copies := b.ownPlaces(entries)
	entries, gone, err := b.tidy(entries)
	if err != nil {
		return err
	}
	gone = append(copies, gone...)
	if len(b.jobs) == 0 && len(entries) > 0 {
		b.addFindings(gone) // what stands covers these pieces, and was made by a run that knew their workshop
		return nil
	}
	words, err1 := b.words(b.collectionLanguage())
	english, err2 := b.words(b.plainEnglish())
	if err := errors.Join(err1, err2); err != nil {
		return err
	}
	o := &page.Options{Words: english, Prefer: b.unitsIn(english.Lang), BaseURL: b.baseURL()} // the maker's side is in English
	overview, err := page.Overview(entries, b.leftOut(), o)
	if err != nil {
		return err
	}
	o.Words, o.Prefer = words, b.unitsIn(words.Lang)
	catalogue, err := page.NewCatalogue(entries, o)
	if err != nil {
		return err
	}
	labels, prices, doubts, err := b.collectionPapers(entries, words)
	if err != nil {
		return err
	}
	gone = append(gone, doubts...)
	files := map[string][]byte{"index.html": overview, "labels.pdf": labels, "pricelist.pdf": prices}
	if err := addCatalogue(files, catalogue); err != nil {
		return err
	}
	aside, err := stage.ReplaceAll(b.opts.Out, publicFolder, files)
	for _, a := range aside {
		gone = append(gone, keptFinding(b.opts.Out, a))
	}
	b.addFindings(gone)
	if err == nil {
		b.noteStanding(from, files, gone)
	}
	return err
}

// addCatalogue puts the catalogue among the files of OUT. What stands at an address is
// also packed as it is to stand there, since the pieces lie elsewhere beside it.
func addCatalogue(files map[string][]byte, c *page.Catalogue) error {
	files["catalogue.csv"], files["catalogue.json"], files["catalogue/index.html"] = c.CSV, c.JSON, c.HTML
	if c.Web == nil {
		return nil
	}
	files["catalogue/feed.xml"], files["catalogue/sitemap.xml"] = c.Feed, c.Sitemap
	packed, err := stage.ZipFiles(map[string][]byte{"index.html": c.Web, "feed.xml": c.Feed, "sitemap.xml": c.Sitemap}, publicFolder)
	if err != nil {
		return fmt.Errorf("pack the catalogue: %w", err)
	}
	files["catalogue.zip"] = packed
	return nil
}

// baseURL is where the pieces of the collection will stand; "" when nobody says.
func (b *Batch) baseURL() string {
	if w := b.collectionWorkshop(); w != nil {
		return w.BaseURL.V
	}
	return ""
}

// collectionPapers makes the labels of all that is in stock, and the price list.
func (b *Batch) collectionPapers(entries []page.Entry, words *templates.Words) (labels, prices []byte, doubts []piece.Finding, err error) {
	w := b.collectionWorkshop()
	opts := b.opts.withDefaults(w)
	var all []*report.Report
	for _, e := range entries {
		if w != nil {
			e.Report.BaseURL = w.BaseURL.V
		}
		all = append(all, e.Report)
	}
	o := &sheet.Options{Words: words, Paper: opts.Paper, Prefer: b.unitsIn(words.Lang), Version: opts.Version}
	grid := labelGrid(w)
	if !grid.Fits(opts.Paper) {
		doubts = append(doubts, piece.Finding{
			Rank: piece.Doubt, Code: "label.paper", File: piece.WorkshopName,
			Message: fmt.Sprintf("the sheet of labels does not fit on %s; labels.pdf has eight to a page instead, to be cut", opts.Paper),
			Remedy:  "put in the paper that the labels come on, or write its rows, columns and margins anew under `label`",
		})
		grid = sheet.LabelGrid{}
	}
	labels, err1 := sheet.Labels(all, grid, o)
	prices, err2 := sheet.PriceList(all, o)
	return labels, prices, doubts, errors.Join(err1, err2)
}

// labelGrid is the maker's sheet of labels; empty where none is told.
func labelGrid(w *piece.Workshop) sheet.LabelGrid {
	if w == nil {
		return sheet.LabelGrid{}
	}
	l := w.Label
	return sheet.LabelGrid{
		Rows: l.Rows.V, Columns: l.Columns.V, Width: float64(l.Width.V), Height: float64(l.Height.V),
		Left: float64(l.Left.V), Top: float64(l.Top.V), GapAcross: float64(l.GapAcross.V), GapDown: float64(l.GapDown.V),
	}
}

// collectionWorkshop is the workshop of the run's first piece that could be read; nil
// where there is none.
func (b *Batch) collectionWorkshop() *piece.Workshop {
	for _, j := range b.jobs {
		if j.Workshop != nil {
			return j.Workshop
		}
	}
	return nil
}

// collectionLanguage is what the catalogue and the papers of the collection are in.
func (b *Batch) collectionLanguage() string {
	shop := b.collectionWorkshop()
	tags, _ := languages(b.opts.Langs, nil, shop, b.opts.withDefaults(shop).Paper)
	return tags[0]
}

// plainEnglish is the English that the maker reads.
func (b *Batch) plainEnglish() string {
	shop := b.collectionWorkshop()
	return plainEnglish("en", nil, shop, b.opts.withDefaults(shop).Paper)
}

// unitsIn are the units that what covers all pieces has first in a language.
func (b *Batch) unitsIn(lang string) units.System {
	return cmp.Or(b.opts.Units, report.PrintedFirst(lang, b.opts.withDefaults(b.collectionWorkshop()).Units))
}

// entries lists the prepared pieces of OUT, by folder name.
func (b *Batch) entries() ([]page.Entry, error) {
	folders, err := os.ReadDir(b.opts.Out)
	if err != nil {
		return nil, err
	}
	entries := make([]page.Entry, len(folders))
	var g errgroup.Group
	g.SetLimit(b.opts.Jobs)
	for i, f := range folders {
		if !f.IsDir() || strings.HasPrefix(f.Name(), ".") {
			continue
		}
		g.Go(func() error {
			if r := shortReport(filepath.Join(b.opts.Out, f.Name())); r != nil {
				_, err := os.Stat(filepath.Join(b.opts.Out, f.Name(), filepath.FromSlash(page.PieceOverviewName)))
				_, none := os.Stat(filepath.Join(b.opts.Out, f.Name(), "listing", "index.html"))
				entries[i] = page.Entry{Folder: f.Name(), Report: r, Unpaged: err != nil, Unlisted: none != nil}
			}
			return nil
		})
	}
	_ = g.Wait() // what cannot be read is no entry
	return slices.DeleteFunc(entries, func(e page.Entry) bool { return e.Report == nil }), nil
}

// codeBusy is the finding on a piece that another run is preparing.
const codeBusy = "run.busy"

// leftOut lists the pieces of this run that could not be prepared. One that
// another run prepares is in good hands.
func (b *Batch) leftOut() []page.LeftOut {
	var out []page.LeftOut
	busy := func(f piece.Finding) bool { return f.Code == codeBusy }
	for _, r := range b.results {
		if r.Outcome == LeftOut && r.Dir != "" && !slices.ContainsFunc(r.Findings, busy) {
			out = append(out, page.LeftOut{Dir: filepath.ToSlash(filepath.Base(r.Dir)), Serial: r.Serial, Findings: r.Findings})
		}
	}
	return out
}
