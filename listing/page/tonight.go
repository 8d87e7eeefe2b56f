package page

import (
	"cmp"
	"path/filepath"
	"slices"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
)

// tonightRow is one thing to do, for one piece or for all that it is the matter with.
type tonightRow struct {
	findingRow
	Pieces []tonightPiece
	More   int // pieces that are not named

	first piece.Finding
	count int
	files []string // the photos of the first piece that it is the matter with
	alike bool     // every piece is told the same
	gone  bool     // all of the pieces are sold
}

type tonightPiece struct {
	Href, Serial string
	Title        string // where few are named
}

// What fits on one screen: things to do, and pieces named with each.
const (
	mostTonight = 6
	mostNamed   = 6
	fewNamed    = 2 // that many are named by their titles too

	longestTonight = 240 // letters of a finding
)

// tonight gathers what to do over all pieces, the most urgent first; what is alike
// in many pieces is one thing. What is told of sold pieces alone stands behind.
func tonight(entries []Entry, o *Options) []*tonightRow {
	byCode := map[string]*tonightRow{}
	var rows []*tonightRow
	for _, e := range entries {
		sold := e.Report.Public.Available == "sold"
		said := map[string]*tonightRow{} // once for a piece
		for _, f := range report.ByUrgency(e.Report.Findings) {
			if report.UrgencyOf(f) >= report.Known || sold && report.Moot(f) {
				continue
			}
			if row := said[f.Code]; row != nil {
				row.another(f)
				continue
			}
			row := byCode[f.Code]
			if row == nil {
				row = &tonightRow{findingRow: tonightFinding(f), first: f, files: photoOf(f), alike: true, gone: true}
				byCode[f.Code], rows = row, append(rows, row)
			}
			said[f.Code] = row
			row.add(e, f, sold)
		}
	}
	slices.SortStableFunc(rows, func(a, b *tonightRow) int {
		return cmp.Or(cmp.Compare(a.last(), b.last()), report.CompareUrgency(a.first, b.first), cmp.Compare(b.count, a.count))
	})
	rows = rows[:min(len(rows), mostTonight)]
	for _, row := range rows {
		row.place(o)
	}
	return rows
}

// last is 1 for what stands behind the rest: what is told of sold pieces alone and
// can hurt nobody; a fault does not wait.
func (row *tonightRow) last() int {
	if row.gone && row.first.Rank != piece.Fault && report.UrgencyOf(row.first) > report.Harm {
		return 1
	}
	return 0
}

// add puts a piece to those that a thing is the matter with. What is not the same
// in all of them is told as that of the first.
func (row *tonightRow) add(e Entry, f piece.Finding, sold bool) {
	row.count++
	row.gone = row.gone && sold
	row.alike = row.alike && f.Message == row.first.Message && f.Remedy == row.first.Remedy
	if len(row.Pieces) < mostNamed {
		row.Pieces = append(row.Pieces, tonightPiece{pieceHref(e), e.Report.Public.Serial, e.Report.Public.Title})
	} else {
		row.More++
	}
}

// another keeps the photo of one more finding of a kind on the same piece.
func (row *tonightRow) another(f piece.Finding) {
	if row.count != 1 {
		return
	}
	for _, file := range photoOf(f) {
		if !slices.Contains(row.files, file) {
			row.files = append(row.files, file)
		}
	}
}

// photoOf is the file of the photo that a finding is about; nothing where it is
// about none.
func photoOf(f piece.Finding) []string {
	if !strings.HasPrefix(f.Code, "photo.") || f.File == "" || f.Line > 0 {
		return nil
	}
	return []string{filepath.Base(f.File)}
}

// place says which piece and which photo a thing is told of: that of the first,
// where it is not the same in all.
func (row *tonightRow) place(o *Options) {
	photo := ""
	if len(row.files) > 0 {
		photo = row.files[0]
	}
	if n := len(row.files) - 1; n > 0 {
		photo += " " + o.Words.Say("overview.and-more", map[string]any{"N": n})
	}
	switch {
	case row.count == 1:
		row.Where = photo
	case !row.alike:
		row.Where = spelling.Commas(row.Pieces[0].Serial, photo)
	}
	for i := range row.Pieces {
		if len(row.Pieces) > fewNamed {
			row.Pieces[i].Title = ""
		}
	}
}

// tonightFinding is a finding as it stands among those of other pieces.
func tonightFinding(f piece.Finding) findingRow {
	return findingRow{Rank: string(f.Rank), Message: shortened(f.Message, longestTonight), Remedy: shortened(f.Remedy, longestTonight)}
}

// pieceHref leads from the overview to what is told of a piece.
func pieceHref(e Entry) string {
	if e.Unpaged {
		return e.Folder + "/report.json"
	}
	return e.Folder + "/" + PieceOverviewName
}
