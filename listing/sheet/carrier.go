package sheet

import (
	"cmp"
	"fmt"
	"strings"

	"slabfolio/listing/drawing"
	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// american reports whether the carriers of North America are asked, european
// whether those of elsewhere are; both where the workshop's country is not known.
func (d *doc) american() bool { return d.r.Home == "" || d.r.Home == "US" || d.r.Home == "CA" }

func (d *doc) european() bool { return d.r.Home != "US" && d.r.Home != "CA" }

// packingLines are how it is packed, and that nothing was reckoned to stand on it.
func (d *doc) packingLines() flow {
	how := d.howPacked()
	text := spelling.Capital(spelling.Commas(how, d.say("ship.stack")))
	return d.labelled(d.say("ship.packing"), d.sized(body), text, d.measure())
}

// howPacked says how the piece is packed, and where it goes in several packages that
// each of them is; empty where nobody said.
func (d *doc) howPacked() string {
	id := "figures.how." + d.r.Packing
	if d.r.Packing == "" || !d.o.Words.Has(id) {
		return ""
	}
	how := d.o.Words.Say(id, nil)
	if s := d.r.Public.Shipping; s != nil && len(s.Packages) > 1 {
		how = d.o.Words.Say("figures.how.each", map[string]any{"How": how})
	}
	return how
}

// carrierLines are what a carrier asks beside sizes and weights: what is known of it,
// and blanks and boxes to tick for the rest.
func (d *doc) carrierLines() flow {
	p := &d.r.Public
	f := d.heading(d.say("ship.ask"))
	f = append(f, d.blank("value", d.declaredValue())...)
	from, to := "", ""
	if p.Maker != nil {
		from = spelling.Commas(p.Maker.Name, flat(p.Maker.Address))
	}
	f = append(f, d.blank("from", from)...)
	if !d.featherlight() {
		f = append(f, d.ticks("ship.from.ticks")...)
	}
	f = append(f, d.blank("ready", "")...)
	if d.r.Buyer != nil {
		to = d.r.Buyer.Name
	}
	f = append(f, d.blank("to", to)...)
	if to != "" {
		f = append(f, d.blank("address", "")...)
	}
	if !d.featherlight() {
		f = append(f, d.ticks("ship.to.ticks")...)
	}
	f = append(f, d.blank("contact", "")...)
	f = append(f, d.blank("origin", d.origin())...)
	heading := ""
	if d.r.Tariff != "" {
		heading = d.say("ship.tariff." + d.r.Tariff)
	}
	return append(f, d.blank("tariff", spelling.Commas(heading, d.say("ship.tariff.confirms")))...)
}

// origin is the country that the piece was made in, the workshop's own; "" where that is
// not told, and for a piece that others made.
func (d *doc) origin() string {
	name, ok := d.o.Words.Country(d.r.Home)
	if !ok || d.r.Home == "" || d.r.Public.Worked() {
		return ""
	}
	return name
}

// featherlight reports whether the piece is a parcel that one person carries, or weighs so
// little that the report has no word on lifting it: nobody asks for a ramp or a fork lift then.
func (d *doc) featherlight() bool {
	if d.r.Light {
		return true
	}
	s := d.r.Public.Shipping
	return d.r.Public.Weight != nil && (s == nil || s.PeopleToLift == 0 && s.Lift == "")
}

// declaredValue is the price, since what else the goods are worth is not told.
func (d *doc) declaredValue() string {
	p := d.r.Public.Price
	if p == nil {
		return ""
	}
	price := units.Money(d.o.Words.Lang, p.Amount, p.Currency)
	switch {
	case d.r.Public.PricedEach():
		price = d.say("price.each", "Price", price)
	case p.Together:
		price = spelling.Commas(price, p.Note)
	}
	return d.say("ship.value.price", "Price", price)
}

// blank is a row with what is known, or with a line to write on.
func (d *doc) blank(id, text string) flow {
	if text != "" {
		return d.labelled(d.say("ship."+id), d.sized(body), text, d.rowWidth())
	}
	st := d.sized(body)
	labels := d.wrap(d.sized(name), d.say("ship."+id), d.axis-d.left-4)
	row := d.labelled(d.say("ship."+id), st, "", d.rowWidth())
	x, width := d.axis, d.rowWidth()
	for i := range row {
		row[i].height *= 1.7 // room for a hand
	}
	row[0] = d.withDraw(row[0], func(top float64) {
		d.artifact(func() {
			d.setLine(drawing.Grain)
			d.pdf.Line(x, top+1.25*d.lineHeight(), x+width, top+1.25*d.lineHeight())
		})
		d.bridge(labelled, d.left+d.width(d.sized(name), first(labels)), x, d.baseline(top), st)
		d.standIn("____", x, x+width, d.baseline(top), st)
	})
	return row
}

// ballotBox is what a box to tick is read as.
const ballotBox = "\u2610"

// ticks are words with a box before each, as a phrase has them between semicolons.
func (d *doc) ticks(id string) flow {
	const side = 2.4
	st := d.sized(body)
	words := strings.Split(d.say(id), ";")
	part := d.element("P")
	var f flow
	type place struct {
		x    float64
		word string
	}
	var row []place
	flush := func() {
		all := row
		f = append(f, line{height: 1.2 * d.lineHeight(), draw: func(top float64) {
			for i, p := range all {
				y := d.baseline(top)
				from := p.x
				if i > 0 {
					from = all[i-1].x + side + 1.4 + d.width(st, all[i-1].word+" ")
				}
				d.standIn(ballotBox, from, p.x+side+1.4, y, st)
				d.artifact(func() {
					d.setLine(drawing.Thin)
					d.pdf.Rect(p.x, y-side+0.2, side, side, "D")
				})
				d.tagged(part, func() { d.text(p.x+side+1.4, y, st, p.word) })
			}
		}})
		row = nil
	}
	x := d.axis
	for _, w := range words {
		w = strings.TrimSpace(w)
		wide := side + 1.4 + d.width(st, w) + 5
		if x+wide > d.axis+d.rowWidth()+5 && row != nil {
			flush()
			x = d.axis
		}
		row = append(row, place{x, w})
		x += wide
	}
	flush()
	for i := range f[:len(f)-1] {
		f[i].keep = true
	}
	return f
}

// mailLines are a text to mail to a carrier, in the units of the country.
func (d *doc) mailLines() flow {
	s := d.r.Public.Shipping
	if s == nil || len(s.Packages) == 0 {
		return nil
	}
	f := d.heading(d.say("ship.mail"))
	for i, text := range d.mailParagraphs(s) {
		if i > 0 {
			f = append(f, d.gap(0.5))
		}
		for _, l := range text {
			f = append(f, d.hangingRuns([]run{{st: d.sized(body), text: l}}, d.measure())...)
		}
	}
	for i := range f[:len(f)-1] {
		f[i].keep = true
	}
	return f
}

// mailParagraphs are the lines of the text to mail, by paragraph: the question with the
// packages, what holds for all of them, and what else is to be said.
func (d *doc) mailParagraphs(s *report.Shipping) [][]string {
	metric := d.r.Home != "US" && (d.r.Home != "" || d.prefer.Metric())
	mass := func(kg, lb string) string {
		if metric {
			return kg
		}
		return lb
	}
	system := units.Inches
	if metric {
		system = units.Centimetres
	}
	set := 0 // how many, where more than one travel
	if d.r.SentTogether {
		set = d.r.Public.Quantity
	}
	lines := []string{d.say("ship.mail.ask", "Set", set, "What", d.kind(), "Count", len(s.Packages))}
	for i, p := range s.Packages {
		name := p.Name
		if name == "" {
			name = d.say("ship.package", "Number", i+1)
		}
		size := spelling.Commas(sizeText(system, p), mass(s.Gross(i)))
		lines = append(lines, d.o.Words.Labelled(spelling.Capital(name), d.number(size)))
	}
	how := d.howPacked()
	gross := ""
	if d.r.Freight != nil {
		gross = mass(s.GrossTogether())
	}
	packages := lines
	lines = []string{d.say("ship.mail.packed", "Gross", d.number(gross), "How", how)}
	if fr := d.r.Freight; fr != nil && d.american() && d.r.Home != "" && fr.Class != "" && !d.r.Light {
		lines = append(lines, d.say("ship.mail.class", "Class", cmp.Or(fr.Classes, fr.Class), "Density", fmt.Sprintf("%.2f", fr.Density)))
	}
	from, value := "", ""
	if m := d.r.Public.Maker; m != nil {
		from = flat(m.Address)
	}
	if p := d.r.Public.Price; p != nil { // of one, as the packages are, however many were made alike; of all that are sold and sent as one
		one := p.Amount
		if p.Together && !d.r.SentTogether {
			one /= float64(d.r.Public.Quantity)
		}
		value = units.Money(d.o.Words.Lang, one, p.Currency)
	}
	lines = append(lines, d.say("ship.mail.places", "From", from, "Value", value))
	return [][]string{packages, lines, {d.say("ship.mail.extras", "Abroad", d.r.Abroad, "Light", d.featherlight())}}
}
