package page

import (
	"fmt"
	"strconv"
	"strings"

	"slabfolio/listing/assembly"
	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// A measure is one figure in both systems, the preferred one first.
type measure struct{ Name, First, FirstRange, Second, SecondRange string }

// A fact is a name with one or more lines.
type fact struct {
	Name   string
	Values []string
}

// measures lists the figures of the piece like a specimen label.
func measures(r *report.Report, o *Options) []measure {
	var out []measure
	first, second := units.Inches, units.Centimetres
	if o.Prefer.Metric() {
		first, second = o.Prefer, units.Inches
	}
	length := func(id string, mm *float64) {
		if mm == nil {
			return
		}
		l := units.Length(*mm)
		out = append(out, measure{Name: o.Words.Say("page.fact."+id, nil), First: o.Words.Number(l.Text(first)), Second: o.Words.Number(l.Text(second))})
	}
	if d := r.Public.Dimensions; d != nil {
		switch {
		case !r.Drawing.Round || d.Length == nil || d.Width == nil:
			length("length", d.Length)
			length("width", d.Width)
		case r.OneDiameter():
			length("diameter", d.Length)
		default: // the base reaches further than the round top
			length("length", d.Length)
			length("width", d.Width)
			length("diameter-top", &r.Drawing.Length)
		}
		if onlyTop(&r.Public) {
			length("thickness-flat", d.TopThickness)
		} else {
			length("height", d.Height)
			length("thickness", d.TopThickness)
		}
		length("knee", d.Knee)
	}
	if w := r.Public.Weight; w != nil {
		out = append(out, weightMeasure(w, r.Public.Quantity, o))
	}
	return out
}

// onlyTop reports whether the piece is its top and nothing else, as a board is.
func onlyTop(pub *report.Public) bool { return pub.Base == nil && assembly.Flat(pub.Kind) }

func weightMeasure(w *report.Weight, quantity int, o *Options) measure {
	id := "page.fact.weight"
	if quantity > 1 {
		id = "page.fact.weight-each"
	}
	m := measure{Name: o.Words.Say(id, nil)}
	m.First, m.FirstRange, _ = strings.Cut(w.Text.Lb, ", ")
	m.Second, m.SecondRange, _ = strings.Cut(w.Text.Kg, ", ")
	if o.Prefer.Metric() {
		m.First, m.Second, m.FirstRange, m.SecondRange = m.Second, m.First, m.SecondRange, m.FirstRange
	}
	return m
}

// facts lists what the piece is made of and what its maker says of it.
func facts(r *report.Report, o *Options) []fact {
	pub := &r.Public
	var out []fact
	add := func(id string, values ...string) {
		var lines []string
		for _, v := range values {
			if v != "" {
				lines = append(lines, v)
			}
		}
		if len(lines) > 0 {
			out = append(out, fact{o.Words.Say("page.fact."+id, nil), lines})
		}
	}
	add("wood", materialLines(pub, "wood", o)...)
	add("resin", materialLines(pub, "resin", o)...)
	if b := pub.Base; b != nil {
		feet := ""
		if b.Feet != "" {
			feet = o.Words.Say("page.feet", map[string]any{"Feet": b.Feet})
		}
		add("base", spelling.Capital(spelling.Commas(b.Words()...)), feet, spelling.Capital(b.Fixing))
	}
	var parts []string
	for _, p := range pub.Parts {
		parts = append(parts, partLine(p, o))
	}
	add("parts", parts...)
	if f := pub.Finish; f != nil {
		coats := ""
		switch {
		case f.Coats == 1:
			coats = o.Words.Say("page.coats-one", nil)
		case f.Coats > 1:
			coats = o.Words.Say("page.coats", map[string]any{"N": f.Coats})
		}
		add("finish", spelling.Capital(spelling.Commas(f.Called(), f.Sheen, coats)))
		add("use", o.Words.Day(f.LightUseFrom))
		if f.FullCureFrom != "" {
			add("cured", curedFact(f, pub.Finished, o))
		}
	}
	if pub.Seats > 0 {
		add("seats", strconv.Itoa(pub.Seats))
	}
	if pub.Movement != nil {
		add("movement", pub.Movement.Text)
	}
	add("found", pub.Found)
	add("mark", pub.Mark)
	var products []string
	for _, s := range pub.Shown {
		if pub.Finish == nil || s.Product != pub.Finish.Product {
			products = append(products, spelling.Commas(spelling.Capital(s.Use), s.Product))
		}
	}
	add("products", products...)
	if pub.Quantity > 1 {
		add("quantity", strconv.Itoa(pub.Quantity))
	}
	add("finished", o.Words.Day(pub.Finished))
	return out
}

// curedFact says when the finish is hard, in words that stay true whenever they
// are read: since when, where it was before the piece was done.
func curedFact(f *report.Finish, finished string, o *Options) string {
	id := "page.cured-between"
	if f.FullCureTo <= finished {
		id = "page.cured-since"
	}
	return o.Words.Say(id, map[string]any{"From": o.Words.Day(f.FullCureFrom), "To": o.Words.Day(f.FullCureTo)})
}

func materialLines(pub *report.Public, role string, o *Options) []string {
	var lines []string
	for _, m := range pub.Materials {
		if m.Role != role {
			continue
		}
		line := m.Name
		if m.Botanical != "" {
			line += " (" + m.Botanical + ")"
		}
		share := ""
		if m.Share > 0 && m.Share < 99.95 {
			share = o.Words.Percent(units.Percent(m.Share).Text())
			if !onlyTop(pub) { // a board has no top
				share = o.Words.Say("page.share", map[string]any{"Share": share})
			}
		}
		lines = append(lines, spelling.Commas(line, m.Detail, share, m.Origin))
	}
	return lines
}

func partLine(p report.Part, o *Options) string {
	name := spelling.Capital(p.Name)
	if p.Count > 1 {
		name = fmt.Sprintf("%d × %s", p.Count, p.Name)
	}
	return spelling.Commas(name, p.Material, bothSizes(p.Text, o))
}

// bothSizes are sizes in both systems, the maker's first; nothing where none are known.
func bothSizes(t report.Text, o *Options) string {
	first, second := t.In, t.Cm
	if first == "" {
		return ""
	}
	if o.Prefer.Metric() {
		first, second = second, first
	}
	return o.Words.Say("figures.both", map[string]any{"First": first, "Second": second})
}
