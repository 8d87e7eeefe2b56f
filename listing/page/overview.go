package page

import (
	"bytes"
	"cmp"
	"fmt"
	"html/template"
	"net/url"
	"slices"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/units"
)

// pieceRow is one piece of the maker's overview.
type pieceRow struct {
	Folder, Serial, Title, Kind, Size, Weight, Price, Cost, Available, Finished string
	Thumb                                                                       string
	Faults, Doubts                                                              int
	Needs, Notable                                                              string // "1 fault, 2 doubts"; "3 notes"
	ToSee, ToKnow                                                               []findingRow
	Photos                                                                      []photoRow
	Refused                                                                     []photoRow
	HasListing, HasDocuments                                                    bool
}

type findingRow struct{ Rank, Where, Message, Remedy string }

type photoRow struct {
	Source, View, Before, After, Refused string
	Done                                 string
	Tones                                template.HTML
	Findings                             []findingRow
}

type leftRow struct {
	Dir, Serial string
	Findings    []findingRow
}

// Overview makes the maker's own page over everything prepared in OUT: what
// needs the maker first, then the rest by serial. It is private.
func Overview(entries []Entry, leftOut []LeftOut, o *Options) ([]byte, error) {
	t, err := o.Words.Page("overview.html", template.FuncMap{"esc": url.PathEscape})
	if err != nil {
		return nil, err
	}
	data := struct {
		Lang, Title, Lead string
		LeftOut           []leftRow
		Rows              []pieceRow
	}{Lang: o.Words.Lang, Title: o.Words.Say("overview.title", nil)}
	data.Lead = o.Words.Say("overview.lead", map[string]any{"Pieces": counted(len(entries), "overview", o)})
	for _, l := range leftOut {
		data.LeftOut = append(data.LeftOut, leftRow{l.Dir, l.Serial, findingRows(l.Findings)})
	}
	for _, e := range entries {
		data.Rows = append(data.Rows, pieceRowOf(e, o))
	}
	slices.SortStableFunc(data.Rows, func(a, b pieceRow) int {
		return cmp.Or(cmp.Compare(b.Faults, a.Faults), cmp.Compare(b.Doubts, a.Doubts), strings.Compare(a.Serial, b.Serial))
	})
	var b bytes.Buffer
	err = t.Execute(&b, data)
	return b.Bytes(), err
}

func pieceRowOf(e Entry, o *Options) pieceRow {
	r := e.Report
	pub := &r.Public
	row := pieceRow{
		Folder: e.Folder, Serial: pub.Serial, Title: pub.Title, Kind: pub.Kind, Size: sizeText(pub, o), Available: pub.Available,
		Finished: o.Words.Day(pub.Finished), HasListing: len(pub.Photos) > 0, HasDocuments: true,
	}
	if pub.Weight != nil {
		row.Weight = pub.Weight.Text.Lb
		if o.Prefer.Metric() {
			row.Weight = pub.Weight.Text.Kg
		}
	}
	if pub.Price != nil {
		row.Price = priceAsked(pub, o)
	}
	if c := r.Costs; c != nil && c.Floor > 0 {
		row.Cost = o.Words.Say("overview.floor", nil) + " " + units.Money(c.Floor, c.Currency)
		if pub.Price != nil {
			row.Cost += ", " + o.Words.Say("overview.margin", nil) + " " + units.Money(c.Margin, c.Currency)
		}
	}
	notes := 0
	for _, f := range r.Findings {
		switch f.Rank {
		case piece.Fault:
			row.Faults++
		case piece.Doubt:
			row.Doubts++
		default:
			notes++
			row.ToKnow = append(row.ToKnow, findingRowOf(f))
			continue
		}
		row.ToSee = append(row.ToSee, findingRowOf(f))
	}
	row.Needs, row.Notable = counts(row.Faults, row.Doubts, 0), counts(0, 0, notes)
	for _, p := range r.Photos {
		pr := photoRowOf(e, p, o)
		if p.Before == "" {
			row.Refused = append(row.Refused, pr)
			continue
		}
		if row.Thumb == "" && p.Name != "" {
			row.Thumb = pr.After
		}
		row.Photos = append(row.Photos, pr)
	}
	return row
}

func photoRowOf(e Entry, p report.PhotoRecord, o *Options) photoRow {
	pr := photoRow{Source: p.Source, View: p.View, Refused: p.Refused, Done: strings.Join(p.Done, ", "), Tones: tones(p.Tones, o)}
	if p.Before != "" {
		pr.Before, pr.After = e.Folder+"/"+p.Before, e.Folder+"/"+p.After
	}
	if pr.Done == "" {
		pr.Done = o.Words.Say("overview.as-it-was", nil)
	}
	for _, f := range e.Report.Findings {
		if f.File == p.Source && f.Line == 0 {
			pr.Findings = append(pr.Findings, findingRowOf(f))
		}
	}
	return pr
}

func findingRows(findings []piece.Finding) []findingRow {
	var rows []findingRow
	for _, f := range findings {
		rows = append(rows, findingRowOf(f))
	}
	return rows
}

func findingRowOf(f piece.Finding) findingRow {
	where := f.File
	if f.Line > 0 {
		where = fmt.Sprintf("%s, line %d", f.File, f.Line)
	}
	return findingRow{string(f.Rank), where, f.Message, f.Remedy}
}

func counts(faults, doubts, notes int) string {
	var parts []string
	for _, c := range []struct {
		n    int
		word string
	}{{faults, "fault"}, {doubts, "doubt"}, {notes, "note"}} {
		switch {
		case c.n == 1:
			parts = append(parts, "1 "+c.word)
		case c.n > 1:
			parts = append(parts, fmt.Sprintf("%d %ss", c.n, c.word))
		}
	}
	return strings.Join(parts, ", ")
}

// tones draws a histogram: lightness before as a line, after as an area.
func tones(t *report.Tones, o *Options) template.HTML {
	if t == nil || len(t.Before) == 0 || len(t.After) == 0 {
		return ""
	}
	top := 1
	for _, v := range append(slices.Clone(t.Before), t.After...) {
		top = max(top, v)
	}
	top = min(top, 1500) // a plain backdrop would flatten all the rest
	level := func(v int) int { return 40 - 40*min(v, top)/top }
	// Steps from point to point: a page of many pieces holds many of these.
	steps := func(values []int) string {
		var b strings.Builder
		for i := 1; i < len(values); i++ {
			fmt.Fprintf(&b, "l2 %d", level(values[i])-level(values[i-1]))
		}
		return b.String()
	}
	label := template.HTMLEscapeString(o.Words.Say("overview.tones", nil))
	return template.HTML(fmt.Sprintf(`<svg class="tones" viewBox="0 -1 %d 42" role="img" aria-label="%s" preserveAspectRatio="none">`+
		`<path d="M0 40V%d%sV40z" fill="currentColor" fill-opacity=".28"/>`+
		`<path d="M0 %d%s" fill="none" stroke="currentColor" vector-effect="non-scaling-stroke"/></svg>`,
		2*max(len(t.Before), len(t.After), 2)-2, label, level(t.After[0]), steps(t.After), level(t.Before[0]), steps(t.Before)))
}
