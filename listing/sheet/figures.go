package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"slabfolio/listing/assembly"
	"slabfolio/listing/report"
	"slabfolio/listing/units"
)

// mostMaterials stand on page one; with more of them the full list goes last.
const mostMaterials = 7

// figureLines are the figures of page one: measures in both systems, then what
// the piece is made of.
func (d *doc) figureLines() flow {
	f := d.pairs(d.figurePairs())
	p := &d.r.Public
	line := func(label, text string) {
		if strings.TrimSpace(text) != "" {
			f = append(f, d.labelled(label, d.sized(body), text, d.rowWidth())...)
		}
	}
	if p.Seats > 0 {
		line(d.say("name.seats"), strconv.Itoa(p.Seats))
	}
	if f != nil {
		f = append(f, d.gap(1))
	}
	f = append(f, d.materialSummary()...)
	if p.Finish != nil {
		line(d.say("name.finish"), d.finishText(p.Finish))
	}
	line(d.say("name.found"), p.Found)
	line(d.say("name.mark"), p.Mark)
	return f
}

// rowWidth is the width of a row of the specimen label: facts are glanced at,
// not read, so they may run wider than the measure.
func (d *doc) rowWidth() float64 { return d.w - d.right - d.axis }

// figurePairs are the measures and the weight.
func (d *doc) figurePairs() []pair {
	var rows []pair
	length := func(id string, mm *float64) {
		if mm != nil {
			l := units.Length(*mm)
			rows = append(rows, pair{d.say("name." + id), l.Text(d.prefer), l.Text(d.second())})
		}
	}
	p := &d.r.Public
	if m := p.Dimensions; m != nil {
		if d.r.Drawing.Round && m.Length != nil {
			length("diameter", m.Length)
		} else {
			length("length", m.Length)
			length("width", m.Width)
		}
		if m.Height == nil || m.TopThickness != nil && *m.Height == *m.TopThickness {
			length("board", m.TopThickness) // it is all there is to its height
		} else {
			length("height", m.Height)
			length("thickness", m.TopThickness)
		}
		length("knee", m.Knee)
	}
	if w := p.Weight; w != nil {
		rows = append(rows, d.massPair("weight", w.Text.Lb, w.Text.Kg))
		if w.Weighed != nil {
			t := w.OnScale()
			rows = append(rows, d.massPair("weighed", t.Lb, t.Kg))
		}
	}
	return rows
}

func (d *doc) massPair(id, lb, kg string) pair {
	if d.prefer.Metric() {
		return pair{d.say("name." + id), kg, lb}
	}
	return pair{d.say("name." + id), lb, kg}
}

// An entry is one material or part with the name of what it is.
type entry struct {
	label string
	runs  []run
}

// materials lists what the piece is made of: woods, resins, base, parts, and
// the products that the maker shows.
func (d *doc) materials() []entry {
	var out []entry
	p := &d.r.Public
	last := ""
	add := func(label string, runs ...run) {
		if len(runs) == 0 || runs[0].text == "" {
			return
		}
		shown := label
		if label == last {
			shown = ""
		}
		last = label
		out = append(out, entry{shown, runs})
	}
	plain := func(s string) run { return run{st: d.sized(body), text: s} }
	hasBase := false
	for _, m := range p.Materials {
		switch m.Role {
		case "base":
			hasBase = true
			add(d.say("name.base"), d.materialRuns(m, d.baseText(p.Base, m.Name+", "+m.Detail))...)
		case "part":
			// Named with the parts below.
		case "resin":
			add(d.say("name.resin"), d.materialRuns(m, "")...)
		default:
			add(d.say("name.wood"), d.materialRuns(m, "")...)
		}
	}
	if !hasBase && p.Base != nil {
		add(d.say("name.base"), plain(capital(d.baseText(p.Base, ""))))
	}
	for _, part := range p.Parts {
		add(d.say("name.part"), plain(d.partText(part)))
	}
	for _, s := range p.Shown {
		if p.Finish != nil && s.Product == p.Finish.Product {
			continue // stands with the finish
		}
		add(d.say("name.products"), plain(capital(joined(s.Use, s.Product))))
	}
	return out
}

// materialSummary is the list on page one, with a word on what had to wait.
func (d *doc) materialSummary() flow {
	all := d.materials()
	var f flow
	for i, e := range all {
		if i == mostMaterials && len(all) > mostMaterials+1 {
			more := d.say("material.more", "Count", len(all)-i)
			return append(f, d.labelled("", d.sized(bodyItalic), more, d.measure())...)
		}
		f = append(f, d.labelledRuns(e.label, e.runs, d.rowWidth())...)
	}
	return f
}

// materialLines is the full list, where page one could not hold it.
func (d *doc) materialLines() flow {
	all := d.materials()
	if len(all) <= mostMaterials+1 {
		return nil
	}
	f := d.heading(d.say("head.materials"))
	for _, e := range all {
		f = append(f, d.labelledRuns(e.label, e.runs, d.rowWidth())...)
	}
	return f
}

// materialRuns are a material's name, its botanical name in italics, and what
// else is known of it.
func (d *doc) materialRuns(m report.Material, more string) []run {
	share := ""
	if m.Share > 0 && m.Share < 99.95 {
		share = units.Percent(m.Share).Text()
		if d.r.Public.Base != nil || !assembly.Flat(d.r.Public.Kind) { // a board has no top
			share = d.say("material.share", "Share", share)
		}
	}
	rest := joined(m.Detail, share, m.Origin, more)
	if rest != "" {
		rest = ", " + rest
	}
	fig, sl := d.sized(body), d.sized(bodyItalic)
	if m.Botanical == "" {
		return []run{{st: fig, text: capital(m.Name) + rest}}
	}
	return []run{{st: fig, text: capital(m.Name) + ", "}, {st: sl, text: m.Botanical}, {st: fig, text: rest}}
}

// baseText describes the base; said is what has been said of it already.
func (d *doc) baseText(b *report.Base, said string) string {
	if b == nil {
		return ""
	}
	parts := []string{b.Material, b.Style, b.Coating}
	if b.Feet != "" {
		parts = append(parts, d.say("base.feet", "Feet", b.Feet))
	}
	if b.Fixing != "" {
		parts = append(parts, d.say("base.fixing", "Fixing", b.Fixing))
	}
	said = strings.ToLower(said)
	parts = slices.DeleteFunc(parts, func(s string) bool { return strings.Contains(said, strings.ToLower(s)) })
	return joined(parts...)
}

func (d *doc) partText(p report.Part) string {
	s := p.Name
	if p.Count > 1 {
		s = fmt.Sprintf("%d × %s", p.Count, p.Name)
	}
	size := p.Text.In
	if d.prefer.Metric() {
		size = p.Text.Cm
	}
	return capital(joined(s, p.Material, size))
}

func (d *doc) finishText(f *report.Finish) string {
	parts := []string{f.Called()}
	if f.Coats > 0 {
		parts = append(parts, d.say("finish.coats", "Coats", f.Coats))
	}
	parts = append(parts, f.Sheen)
	if f.LightUseFrom != "" {
		parts = append(parts, d.say("finish.use", "Date", d.day(f.LightUseFrom)))
	}
	if f.FullCureFrom != "" {
		to := ""
		if f.FullCureTo != "" && f.FullCureTo != f.FullCureFrom {
			to = d.day(f.FullCureTo)
		}
		parts = append(parts, d.say("finish.cure", "From", d.day(f.FullCureFrom), "To", to))
	}
	return capital(joined(parts...))
}

// joined puts commas between what is there.
func joined(parts ...string) string {
	var there []string
	for _, p := range parts {
		if p = strings.TrimSpace(p); p != "" {
			there = append(there, p)
		}
	}
	return strings.Join(there, ", ")
}
