package page

import (
	"cmp"
	"slices"

	"slabfolio/listing/piece"
	"slabfolio/listing/report"
)

// tonightRow is one thing to do, for one piece or for all that it is the matter with.
type tonightRow struct {
	findingRow
	Pieces []tonightPiece
	More   int // pieces that are not named

	first piece.Finding
	count int
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
// in many pieces is one thing. Photos of what is sold are nobody's business any more.
func tonight(entries []Entry) []*tonightRow {
	byCode := map[string]*tonightRow{}
	var rows []*tonightRow
	for _, e := range entries {
		said := map[string]bool{} // once for a piece
		for _, f := range report.ByUrgency(e.Report.Findings) {
			u := report.UrgencyOf(f)
			if said[f.Code] || u >= report.Known || e.Report.Public.Available == "sold" && u > report.Harm {
				continue
			}
			said[f.Code] = true
			row := byCode[f.Code]
			if row == nil {
				row = &tonightRow{findingRow: tonightFinding(f), first: f}
				byCode[f.Code], rows = row, append(rows, row)
			}
			row.add(e, f)
		}
	}
	slices.SortStableFunc(rows, func(a, b *tonightRow) int {
		return cmp.Or(report.CompareUrgency(a.first, b.first), cmp.Compare(b.count, a.count))
	})
	rows = rows[:min(len(rows), mostTonight)]
	for _, row := range rows {
		for i := range row.Pieces {
			if len(row.Pieces) > fewNamed {
				row.Pieces[i].Title = ""
			}
		}
	}
	return rows
}

// add puts a piece to those that a thing is the matter with. What is not the same
// in all of them is told as that of the first.
func (row *tonightRow) add(e Entry, f piece.Finding) {
	row.count++
	if f.Message != row.first.Message && row.Where == "" {
		row.Where = row.Pieces[0].Serial
	}
	if len(row.Pieces) < mostNamed {
		row.Pieces = append(row.Pieces, tonightPiece{pieceHref(e), e.Report.Public.Serial, e.Report.Public.Title})
	} else {
		row.More++
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
