package page

import (
	"bytes"
	"fmt"
	"html/template"
	"slices"
	"strings"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
)

// piecePage is what overview-piece.html is filled with.
type piecePage struct {
	Lang, Title, Serial string
	Script              template.JS
	Policy              string
	Lines               []string // what it is, what it costs
	Files               []fileLink
	Findings            []findingRow
	Photos              []photoRow
	Refused             []photoRow
	Pointing            *Pointing
	Phrases             map[string]string // what the script says
}

type fileLink struct{ Href, Name string }

// A photoRow is one photo of the maker's page over a piece.
type photoRow struct {
	Source, View, Before, After, Refused string
	Done                                 string
	Tones                                template.HTML
	Findings                             []findingRow
	Name                                 string // as the spec may call it, in quotes where it has to be
	Published                            bool
	Plan                                 bool   // its top is measured, so that corners of the sheet and spots of resin may be pointed at
	Framed                               string // left, top, right, bottom as the program framed it
}

// pieceFiles are the outputs that the page over a piece leads to, by their place
// in the piece's folder, and the phrases that name them.
var pieceFiles = [][2]string{
	{"listing/index.html", "overview.listing"}, {"sheet.pdf", "overview.sheet"}, {"care.pdf", "overview.care"}, {"label.pdf", "overview.label"},
	{"certificate.pdf", "overview.certificate"}, {"shipping.pdf", "overview.shipping"}, {"listing.zip", "overview.zip"}, {"report.json", "overview.report"},
}

// PieceOverview makes the maker's page over one piece: everything found, each photo
// before and after, and a way to point at places in them. there says which files
// of the piece's folder there are. It is private.
func PieceOverview(r *report.Report, p *Pointing, there func(name string) bool, o *Options) ([]byte, error) {
	t, err := o.Words.Page("overview-piece.html", nil)
	if err != nil {
		return nil, err
	}
	pub := &r.Public
	data := &piecePage{Lang: makersLang, Title: pub.Title, Serial: pub.Serial, Script: template.JS(pointScript), Policy: policy(pointScript), Pointing: p}
	data.Lines = pieceLines(r, o)
	for _, f := range pieceFiles {
		if there(f[0]) {
			data.Files = append(data.Files, fileLink{"../" + f[0], o.Words.Say(f[1], nil)})
		}
	}
	for _, f := range report.ByUrgency(r.Findings) {
		data.Findings = append(data.Findings, findingRowOf(f))
	}
	for _, rec := range r.Photos {
		row := photoRowOf(r, rec, p, o)
		if rec.Before == "" {
			data.Refused = append(data.Refused, row)
			continue
		}
		data.Photos = append(data.Photos, row)
	}
	data.Phrases = map[string]string{}
	for _, id := range pointPhrases {
		data.Phrases[id] = o.Words.Say("overview."+id, nil)
	}
	var b bytes.Buffer
	err = t.Execute(&b, data)
	return plainSlashes(b.Bytes()), err
}

// pointPhrases are the phrases that point.js says.
var pointPhrases = []string{
	"add-spot", "copied", "copy", "corner-1", "corner-2", "corner-3", "corner-4", "done", "earlier", "help-box", "help-card", "help-marks", "help-resin",
	"later", "main", "paste-instead", "paste-new", "paste-outline", "paste-outline-braces", "paste-photos", "paste-photos-braces", "paste-then", "point-box", "point-card", "point-marks",
	"point-resin", "spot", "undo",
}

// pieceLines are the figures of a piece, a line for each side of it.
func pieceLines(r *report.Report, o *Options) []string {
	pub := &r.Public
	weight := ""
	if pub.Weight != nil {
		weight = pub.Weight.Text.Lb
		if o.Prefer.Metric() {
			weight = pub.Weight.Text.Kg
		}
	}
	var row boardRow
	row.money(r, o)
	lines := []string{spelling.Commas(pub.Serial, pub.KindIn(o.Words), madeOf(pub, o)), strings.Join(present(sizeText(pub, o), weight), "; "), spelling.Commas(row.Price, row.Margin, pub.Available, o.Words.Day(pub.Finished))}
	return present(lines...)
}

// present leaves out what is empty.
func present(values ...string) []string {
	return slices.DeleteFunc(values, func(v string) bool { return v == "" })
}

func photoRowOf(r *report.Report, rec report.PhotoRecord, p *Pointing, o *Options) photoRow {
	row := photoRow{Source: rec.Source, View: rec.View, Refused: rec.Refused, Done: strings.Join(rec.Done, ", "), Tones: tones(rec.Tones, o), Published: rec.Name != ""}
	if rec.Before != "" {
		row.Before, row.After = "../"+rec.Before, "../"+rec.After
	}
	if row.Done == "" {
		row.Done = o.Words.Say("overview.as-it-was", nil)
	}
	if p != nil {
		row.Name, row.Plan = p.Names[rec.Source], rec.Source == p.Plan && !row.Published
	}
	if n := rec.Numbers; n["crop_right"] > n["crop_left"] {
		row.Framed = fmt.Sprintf("%.3f %.3f %.3f %.3f", n["crop_left"], n["crop_top"], n["crop_right"], n["crop_bottom"])
	}
	for _, f := range r.Findings {
		if f.File == rec.Source && f.Line == 0 {
			row.Findings = append(row.Findings, findingRowOf(f))
		}
	}
	return row
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
	steps := func(values []int) string { // from point to point, which is short
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
