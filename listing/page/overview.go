package page

import (
	"bytes"
	"cmp"
	"fmt"
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// PieceOverviewName is where the maker's page over one piece lies in its output
// folder.
const PieceOverviewName = "overview/index.html"

// boardRow is one piece of the maker's overview: as little as tells whether to
// open it.
type boardRow struct {
	Href, Thumb                              string
	Serial, Title, What, Price, Margin, Date string
	State                                    string // its availability
	Loses                                    bool   // the price is below the cost
	First                                    *findingRow
	More                                     string // how many findings there are beside the first
	Attention                                bool   // a fault, a doubt, or money lost
	SortPrice, SortMargin                    string
	Finished                                 string // YYYY-MM-DD
	urgent                                   *piece.Finding
}

type findingRow struct{ Rank, Where, Message, Remedy string }

type leftRow struct {
	Dir, Serial string
	Findings    []findingRow
	More        int // findings that are not shown
}

// boardPage is what overview.html is filled with.
type boardPage struct {
	Lang, Title, Lead string
	Script            template.JS
	Policy            string
	LeftOut           []leftRow
	Tonight           []*tonightRow
	Rows, Sold        []boardRow
	Count             int
	Web               bool // the catalogue is packed for its address
	States            []string
	Months            []monthRow
	Totals            []monthRow
}

// mostLeft is how many findings of a piece that was left out stand on the overview.
const mostLeft = 3

// Overview makes the maker's own page over everything prepared in OUT: what to do
// tonight, then a row a piece, what needs the maker first. It is private.
func Overview(entries []Entry, leftOut []LeftOut, o *Options) ([]byte, error) {
	t, err := o.Words.Page("overview.html", nil)
	if err != nil {
		return nil, err
	}
	data := &boardPage{Lang: makersLang, Title: o.Words.Say("overview.title", nil), Script: template.JS(boardScript), Policy: policy(boardScript)}
	data.Lead = o.Words.Say("overview.lead", map[string]any{"Pieces": counted(len(entries), "overview", o)})
	for _, l := range leftOut {
		data.LeftOut = append(data.LeftOut, leftRowOf(l))
	}
	var reports []*report.Report
	for _, e := range entries {
		reports = append(reports, e.Report)
		if row := boardRowOf(e, o); row.State == "sold" {
			data.Sold = append(data.Sold, row)
		} else {
			data.Rows = append(data.Rows, row)
		}
	}
	data.Count, data.Web = len(entries), o.BaseURL != ""
	slices.SortStableFunc(data.Rows, byNeed)
	slices.SortStableFunc(data.Sold, func(a, b boardRow) int {
		return cmp.Or(strings.Compare(b.Finished, a.Finished), strings.Compare(a.Serial, b.Serial))
	})
	data.States = states(data.Rows)
	data.Tonight = tonight(entries, o)
	months := report.Months(reports)
	data.Months, data.Totals = monthRows(months, o), monthRows(report.Total(months), o)
	var b bytes.Buffer
	err = t.Execute(&b, data)
	return plainSlashes(b.Bytes()), err
}

// byNeed puts what needs the maker first.
func byNeed(a, b boardRow) int {
	if a.urgent != nil && b.urgent != nil {
		return cmp.Or(report.CompareUrgency(*a.urgent, *b.urgent), strings.Compare(a.Serial, b.Serial))
	}
	if (a.urgent == nil) != (b.urgent == nil) {
		return map[bool]int{true: 1, false: -1}[a.urgent == nil]
	}
	return strings.Compare(a.Serial, b.Serial)
}

// states are the availabilities of the rows, each once.
func states(rows []boardRow) (all []string) {
	for _, r := range rows {
		if r.State != "" && !slices.Contains(all, r.State) {
			all = append(all, r.State)
		}
	}
	slices.Sort(all)
	return all
}

func leftRowOf(l LeftOut) leftRow {
	row := leftRow{Dir: l.Dir, Serial: l.Serial, More: max(0, len(l.Findings)-mostLeft)}
	for _, f := range report.ByUrgency(l.Findings)[:min(len(l.Findings), mostLeft)] {
		row.Findings = append(row.Findings, findingRowOf(f))
	}
	return row
}

func boardRowOf(e Entry, o *Options) boardRow {
	r := e.Report
	pub := &r.Public
	row := boardRow{
		Href: pieceHref(e), Serial: pub.Serial, Title: pub.Title,
		What: spelling.Commas(pub.Serial, pub.KindIn(o.Words), madeOf(pub, o), together(sizeText(pub, o))), State: pub.Available,
		Finished: pub.Finished, Date: o.Words.Day(pub.Finished), Thumb: thumb(e),
	}
	row.money(r, o)
	if found := report.ByUrgency(r.Findings); len(found) > 0 {
		first := findingRowOf(found[0])
		first.Message = shortened(first.Message, longestFirst)
		row.First, row.urgent = &first, &found[0]
		row.Attention = report.UrgencyOf(found[0]) < report.Known
		row.More = moreThanOne(len(found)-1, o)
	}
	return row
}

// longestFirst is how many letters of a finding stand in a row; the piece's page
// has all of it.
const longestFirst = 120

func moreThanOne(n int, o *Options) string {
	switch n {
	case 0:
		return ""
	case 1:
		return o.Words.Say("overview.one-more", nil)
	}
	return o.Words.Say("overview.more", map[string]any{"N": n})
}

// money fills what a row says of price and cost.
func (row *boardRow) money(r *report.Report, o *Options) {
	price, c := r.Public.Price, r.Costs
	if price != nil {
		row.Price, row.SortPrice = priceAsked(&r.Public, o), short(price.Amount)
	}
	if c == nil || c.Floor <= 0 {
		return
	}
	if price == nil {
		row.Margin = o.Words.Say("overview.floor", nil) + " " + units.Money(o.Words.Lang, c.Floor, c.Currency)
		return
	}
	row.Margin = o.Words.Say("overview.margin", nil) + " " + units.Money(o.Words.Lang, c.Margin, c.Currency)
	row.Loses, row.SortMargin = c.Margin < 0, short(c.Margin)
}

// thumb is the small picture of a piece, as it is published.
func thumb(e Entry) string {
	for _, p := range e.Report.Photos {
		if p.Name != "" && p.After != "" {
			return e.Folder + "/" + p.After
		}
	}
	return ""
}

// madeOf names the woods and resins of a piece, as they stand inside a sentence.
func madeOf(pub *report.Public, o *Options) string {
	var names []string
	for _, m := range pub.Materials {
		if m.Role == "wood" || m.Role == "resin" {
			names = append(names, o.Words.Inside(m.Name))
		}
	}
	return o.Words.List(names)
}

// together keeps a size on one line.
func together(size string) string {
	if strings.Contains(size, " × ") {
		return strings.ReplaceAll(size, " ", "\u00a0")
	}
	return size // words among it have to break
}

// shortened cuts a text at the end of a word.
func shortened(text string, most int) string {
	r := []rune(text)
	if len(r) <= most {
		return text
	}
	cut := string(r[:most])
	if i := strings.LastIndexByte(cut, ' '); i > most/2 {
		cut = cut[:i]
	}
	return strings.TrimRight(cut, " ,;:") + " …"
}

func findingRowOf(f piece.Finding) findingRow {
	where := f.File
	if f.Line > 0 {
		where = fmt.Sprintf("%s, line %d", f.File, f.Line)
	}
	return findingRow{string(f.Rank), where, f.Message, f.Remedy}
}

// monthRow is a month of the maker's books.
type monthRow struct{ Month, Pieces, Hours, Floor, Asked, Margin string }

func monthRows(months []report.Month, o *Options) []monthRow {
	var rows []monthRow
	for _, m := range months {
		row := monthRow{Month: longMonth(m.Month, o), Pieces: strconv.Itoa(m.Pieces)}
		if m.Asked > 0 {
			row.Asked = units.Money(o.Words.Lang, m.Asked, m.Currency)
		}
		if m.Costed > 0 {
			row.Hours, row.Floor = strconv.FormatFloat(math.Round(m.Hours*10)/10, 'f', -1, 64), units.Money(o.Words.Lang, m.Floor, m.Currency)
		}
		if m.Costed > 0 && m.Costed < m.Pieces {
			row.Pieces = o.Words.Say("overview.costed", map[string]any{"N": m.Costed, "All": m.Pieces})
		}
		if m.Both {
			row.Margin = units.Money(o.Words.Lang, m.Margin, m.Currency)
		}
		rows = append(rows, row)
	}
	return rows
}
