package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"slabfolio/listing/assembly"
	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// As many materials, parts and products stand on page one; with more of a kind, its
// full list goes last.
const (
	mostMaterials = 7
	mostParts     = 5
	mostProducts  = 3
)

// figureLines are the figures of page one: measures in both systems, then what
// the piece is made of. A drawing that is nothing but a rectangle stands beside
// them.
func (d *doc) figureLines() flow {
	beside := d.beside
	if beside {
		d.rowRight = smallWide + smallGap
		defer func() { d.rowRight = 0 }()
	}
	f := d.pairs(d.figurePairs())
	for i := range f {
		f[i].keep = true // a table is not cut
	}
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
	f = append(f, d.shortLists()...)
	if p.Finish != nil {
		line(d.say("name.finish"), d.finishText(p.Finish))
	}
	line(d.say("name.found"), p.Found)
	line(d.say("name.mark"), p.Mark)
	if beside && len(f) > 0 {
		f = d.besideFigures(f)
	}
	return f
}

// rowWidth is the width of a row of the specimen label: facts are glanced at,
// not read, so they may run wider than the measure.
func (d *doc) rowWidth() float64 { return d.w - d.right - d.axis - d.rowRight }

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
		switch {
		case !d.r.Drawing.Round || m.Length == nil || m.Width == nil:
			length("length", m.Length)
			length("width", m.Width)
		case d.r.OneDiameter():
			length("diameter", m.Length)
		default: // the base reaches further than the round top
			length("length", m.Length)
			length("width", m.Width)
			length("diameter-top", &d.r.Drawing.Length)
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
	}
	return rows
}

func (d *doc) massPair(id, lb, kg string) pair {
	if d.prefer.Metric() {
		return pair{d.say("name." + id), kg, lb}
	}
	return pair{d.say("name." + id), lb, kg}
}

// An entry is one material, part or product.
type entry struct{ runs []run }

// A list is entries of one kind under what they are called.
type list struct {
	label   string // in the margin
	heading string // over the full list
	more    string // the phrase that counts them where they are too many
	most    int    // stand on page one
	entries []entry
}

// lists are what the piece is made of: woods, resins and base; parts; and the
// products that the maker shows.
func (d *doc) lists() []list {
	wood, resin, base := d.materials()
	plain := func(s string) entry { return entry{[]run{{st: d.sized(body), text: s}}} }
	var parts, products []entry
	p := &d.r.Public
	for _, part := range p.Parts {
		parts = append(parts, plain(d.partText(part)))
	}
	for _, s := range p.Shown {
		if p.Finish == nil || s.Product != p.Finish.Product { // else it stands with the finish
			products = append(products, plain(spelling.Capital(spelling.Commas(s.Use, s.Product))))
		}
	}
	return []list{
		{d.say("name.wood"), d.say("head.woods"), "material.more", mostMaterials, wood},
		{d.say("name.resin"), d.say("head.resins"), "material.more", mostMaterials, resin},
		{d.say("name.base"), d.say("head.base"), "material.more", mostMaterials, base},
		{d.say("name.part"), d.say("head.parts"), "parts.more", mostParts, parts},
		{d.say("name.products"), d.say("head.products"), "products.more", mostProducts, products},
	}
}

// materials are the woods, the resins and the base.
func (d *doc) materials() (wood, resin, base []entry) {
	p := &d.r.Public
	for _, m := range p.Materials {
		switch m.Role {
		case "base":
			base = append(base, entry{d.materialRuns(m, d.baseText(p.Base, m.Name+", "+m.Detail))})
		case "part":
			// Named with the parts.
		case "resin":
			resin = append(resin, entry{d.materialRuns(m, "")})
		default:
			wood = append(wood, entry{d.materialRuns(m, "")})
		}
	}
	if text := spelling.Capital(d.baseText(p.Base, "")); len(base) == 0 && text != "" {
		base = append(base, entry{[]run{{st: d.sized(body), text: text}}})
	}
	return wood, resin, base
}

// tooLong reports whether a list goes last; one more than most is no reason for it.
func (l *list) tooLong() bool { return len(l.entries) > l.most+1 }

// shortLists are the lists on page one; of one that is too long, how many there are.
func (d *doc) shortLists() flow {
	var f flow
	for _, l := range d.lists() {
		if l.tooLong() {
			more := d.say(l.more, "Count", len(l.entries), "Heading", l.heading)
			f = append(f, d.labelled(l.label, d.sized(bodyItalic), more, d.rowWidth())...)
			continue
		}
		for i, e := range l.entries {
			label := l.label
			if i > 0 {
				label = ""
			}
			f = append(f, d.labelledRuns(label, e.runs, d.rowWidth())...)
		}
	}
	return f
}

// longLists are the lists that page one could not hold, in two columns.
func (d *doc) longLists() flow {
	var f flow
	for _, l := range d.lists() {
		if l.tooLong() {
			f = append(f, d.column(d.left, func() flow { return d.heading(l.heading) })...)
			f = append(f, d.twoColumns(l.entries)...)
		}
	}
	return f
}

// twoColumns sets entries down two columns of one height, or nearly.
func (d *doc) twoColumns(all []entry) flow {
	width := (d.columnWidth() - gutter) / 2
	set := func(x float64, some []entry) flow {
		return d.column(x, func() flow {
			var f flow
			for _, e := range some {
				f = append(f, d.hangingRuns(e.runs, width)...)
			}
			return f
		})
	}
	half := len(all)
	for n := range all {
		if set(d.left, all[:n+1]).height() >= set(d.left, all[n+1:]).height() {
			half = n + 1
			break
		}
	}
	return d.sideBySide(set(d.left, all[:half]), set(d.left+width+gutter, all[half:]))
}

// materialRuns are a material's name, its botanical name in italics, and what
// else is known of it.
func (d *doc) materialRuns(m report.Material, more string) []run {
	share := ""
	if m.Share > 0 && m.Share < 99.95 {
		share = d.o.Words.Percent(units.Percent(m.Share).Text())
		if d.r.Public.Base != nil || !assembly.Flat(d.r.Public.Kind) { // a board has no top
			share = d.say("material.share", "Share", share)
		}
	}
	return d.nameRuns(m, spelling.Commas(m.Detail, share, m.Origin, more))
}

// nameRuns are a material's name, its botanical name in italics, and the rest.
func (d *doc) nameRuns(m report.Material, rest string) []run {
	if rest != "" {
		rest = ", " + rest
	}
	fig, sl := d.sized(body), d.sized(bodyItalic)
	if m.Botanical == "" {
		return []run{{st: fig, text: spelling.Capital(m.Name) + rest}}
	}
	return []run{{st: fig, text: spelling.Capital(m.Name) + ", "}, {st: sl, text: m.Botanical}, {st: fig, text: rest}}
}

// baseText describes the base; said is what has been said of it already.
func (d *doc) baseText(b *report.Base, said string) string {
	if b == nil {
		return ""
	}
	parts := []string{b.Material, b.Style, b.Coating}
	if !slices.Contains(b.Words(), b.Material) { // the style names it
		parts = parts[1:]
	}
	if b.Feet != "" {
		parts = append(parts, d.say("base.feet", "Feet", b.Feet))
	}
	if b.Fixing != "" {
		parts = append(parts, d.say("base.fixing", "Fixing", b.Fixing))
	}
	said = strings.ToLower(said)
	parts = slices.DeleteFunc(parts, func(s string) bool { return strings.Contains(said, strings.ToLower(s)) })
	return spelling.Commas(parts...)
}

func (d *doc) partText(p report.Part) string {
	s := p.Name
	if p.Count > 1 {
		s = fmt.Sprintf("%d × %s", p.Count, p.Name)
	}
	first, second := p.Text.In, p.Text.Cm
	if d.prefer.Metric() {
		first, second = second, first
	}
	size := ""
	if first != "" {
		size = d.o.Words.Say("figures.both", map[string]any{"First": first, "Second": second})
	}
	return spelling.Capital(spelling.Commas(s, p.Material, size))
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
		to, since := "", ""
		if f.FullCureTo != "" && f.FullCureTo != f.FullCureFrom {
			to = d.day(f.FullCureTo)
		}
		if f.FullCureTo != "" && f.FullCureTo <= d.r.Public.Finished {
			since = d.day(f.FullCureTo)
		}
		parts = append(parts, d.say("finish.cure", "From", d.day(f.FullCureFrom), "To", to, "Since", since))
	}
	return spelling.Capital(spelling.Commas(parts...))
}
