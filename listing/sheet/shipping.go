package sheet

import (
	"cmp"
	"maps"
	"slices"
	"strconv"
	"strings"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// layoutShipping lays out what a carrier asks when quoting.
func layoutShipping(d *doc) error {
	size := paperSizes[d.paper()]
	d.left, d.right, d.top, d.bottom, d.axis = 20, 20, 18, 22, 58
	d.open(size[0], size[1])
	d.footer = d.sheetFooter
	d.newPage()
	f := d.titleLines()
	f = append(f, d.labelled("", bodyItalic, d.say("ship.private"), d.rowWidth())...)
	f = append(f, d.packageLines()...)
	f = append(f, d.carrierLines()...)
	f = append(f, d.mailLines()...)
	rest := append(d.freightLines(), d.journeyLines()...)
	d.place(f)
	if rest.height() > d.heightLeft() && rest.height() <= d.pageHeight() {
		d.newPage() // what is handed over stands on one page, what was reckoned on another
	}
	d.place(rest)
	return nil
}

// packageLines are the packages with their sizes and gross weights.
func (d *doc) packageLines() flow {
	f := d.heading(d.say("ship.packages"))
	s := d.r.Public.Shipping
	if s == nil || len(s.Packages) == 0 {
		return append(f, d.missing("packages")...)
	}
	for i, p := range s.Packages {
		label := d.say("ship.package", "Number", i+1)
		if p.Name != "" {
			label = p.Name
		}
		if i > 0 {
			f = append(f, d.gap(1))
		}
		f = append(f, d.pairs([]pair{{spelling.Capital(label), sizeText(d.prefer, p), sizeText(d.second(), p)}})...)
		if p.Gross > 0 {
			f = append(f, d.pairs([]pair{d.grossPair(d.say("ship.gross"), s, i)})...)
		}
	}
	f = append(f, d.gap(1))
	return append(f, d.packingLines()...)
}

// grossPair is the gross weight of the i-th package with its range, in both systems.
func (d *doc) grossPair(label string, s *report.Shipping, i int) pair {
	p := s.Packages[i]
	g, lo, hi := units.Mass(p.Gross), units.Mass(p.Low), units.Mass(p.High)
	kg, lb := s.Gross(i)
	if p.High > p.Low && p.Low > 0 {
		between := func(low, high string) string {
			return ", " + d.o.Words.Say("general.between", map[string]any{"Low": low, "High": high})
		}
		lowKg, highKg := g.LikeKg(lo, hi)
		lowLb, highLb := g.LikeLb(lo, hi)
		if len(s.Packages) > 1 {
			lowKg, lowLb = lo.Tenths()
			highKg, highLb = hi.Tenths()
		}
		kg, lb = kg+between(lowKg, highKg), lb+between(lowLb, highLb)
	}
	return d.inOrder(label, kg, lb)
}

// freightLines are the figures that a carrier computes with.
func (d *doc) freightLines() flow {
	fr := d.r.Freight
	if fr == nil {
		return append(flow{d.gap(1)}, d.missing("freight")...)
	}
	f := append(d.heading(d.say("ship.total")), d.pairs(d.freightPairs(fr))...)
	line := func(label, text string) {
		f = append(f, d.labelled(label, d.sized(body), spelling.Capital(text), d.measure())...)
	}
	if fr.Density > 0 && d.american() && !d.r.Light {
		line(d.say("ship.density"), d.say("ship.density.value", "Density", d.o.Words.Number(strconv.FormatFloat(fr.Density, 'f', 2, 64))))
	}
	// A note that speaks of the class says more than we could.
	notes := slices.DeleteFunc(slices.Clone(fr.Notes), func(n string) bool { return n == fr.Lift }) // which stands with the lift
	if fr.Class != "" && d.american() && !d.r.Light {                                               // a parcel has no class
		text := d.say("ship.class.value", "Class", cmp.Or(fr.Classes, fr.Class))
		if i := slices.IndexFunc(notes, func(n string) bool { return strings.Contains(n, "class "+cmp.Or(fr.Classes, fr.Class)) }); i >= 0 {
			text = notes[i]
			notes = slices.Delete(notes, i, i+1)
		}
		line(d.say("ship.class"), text)
	}
	if fr.LoadingMetre > 0 && d.european() && !d.r.Light {
		line(d.say("ship.metres"), d.o.Words.Number(strconv.FormatFloat(fr.LoadingMetre, 'f', 2, 64)))
	}
	for _, region := range slices.Sorted(maps.Keys(fr.Mode)) {
		line(d.say("ship.mode", "Region", region), fr.Mode[region])
	}
	for i, n := range notes {
		label := ""
		if i == 0 {
			label = d.say("ship.notes")
		} else {
			f = append(f, d.gap(0.5)) // each is a thing of its own
		}
		line(label, n)
	}
	return f
}

// freightPairs are the weights of the whole, gross and volumetric.
func (d *doc) freightPairs(fr *report.Freight) []pair {
	var rows []pair
	if fr.Gross > 0 {
		kg, lb := d.r.Public.Shipping.GrossTogether()
		rows = append(rows, d.inOrder(d.say("ship.gross"), kg, lb))
	}
	for _, div := range slices.Sorted(maps.Keys(fr.ByDivisor)) {
		if strings.HasPrefix(div, "in3") && !d.american() || strings.HasPrefix(div, "cm3") && !d.european() {
			continue // carriers elsewhere reckon so
		}
		by := div
		if id := "sheet.ship.divisor." + div; d.o.Words.Has(id) {
			by = d.o.Words.Say(id, nil)
		}
		rows = append(rows, d.billedPair(d.say("ship.volumetric.divisor", "Divisor", by), fr.ByDivisor[div]))
	}
	if fr.Volumetric > 0 && len(fr.ByDivisor) == 0 {
		rows = append(rows, d.billedPair(d.say("ship.volumetric"), fr.Volumetric))
	}
	return rows
}

// billedPair is a weight that a carrier may charge, in both systems, with the
// half kilogram that it was rounded up to: 210.5 kg is not 210.
func (d *doc) billedPair(label string, kg float64) pair {
	p := d.massPairOf(label, units.Mass(kg))
	text := d.o.Words.Number(strconv.FormatFloat(kg, 'f', -1, 64) + " kg")
	if d.prefer.Metric() {
		p.first = text
	} else {
		p.second = text
	}
	return p
}

// massPairOf is a mass in both systems.
func (d *doc) massPairOf(label string, m units.Mass) pair {
	return d.inOrder(label, m.TextKg(), m.TextLb())
}

// inOrder is a mass in both systems, the maker's own first.
func (d *doc) inOrder(label, kg, lb string) pair {
	if d.prefer.Metric() {
		return pair{label, kg, lb}
	}
	return pair{label, lb, kg}
}

// journeyLines are what is to be known of lifting, borders and arrival.
func (d *doc) journeyLines() flow {
	p := &d.r.Public
	f := d.heading(d.say("ship.journey"))
	line := func(label, text string) {
		if strings.TrimSpace(text) != "" {
			if label == "" {
				f = append(f, d.gap(0.5)) // each is a thing of its own
			}
			f = append(f, d.labelled(label, d.sized(body), text, d.measure())...)
		}
	}
	if s := p.Shipping; s != nil {
		if s.PeopleToLift > 0 || s.Lift != "" {
			line(d.say("ship.lift"), spelling.Capital(d.say("ship.lift.value", "Count", s.PeopleToLift)))
		} else if p.Weight == nil {
			f = append(f, d.missing("lift")...)
		}
		line("", s.Text)
		if d.r.Freight != nil {
			line("", spelling.Capital(d.r.Freight.Lift))
		}
	}
	if p.Delivery != nil {
		line(d.say("ship.assembly"), spelling.Capital(p.Delivery.Assembly))
	}
	if b := d.r.Buyer; b != nil {
		line(d.say("ship.buyer"), b.Name)
	}
	if d.r.SolidPacking && (d.r.Abroad || d.r.Home == "") {
		line(d.say("ship.border"), d.say("ship.ispm"))
	}
	label := d.makerLabel()
	for _, l := range contactLines(p.Maker) {
		f = append(f, d.labelled(label, d.sized(body), l, d.rowWidth())...)
		label = ""
	}
	return f
}

// missing says in one calm line what is not known.
func (d *doc) missing(what string) flow {
	text := d.say("ship.missing", "What", d.say("ship.missing."+what))
	return d.labelled("", d.sized(bodyItalic), text, d.measure())
}

// sizeText is the three sizes of a package in a system.
func sizeText(s units.System, p report.Package) string {
	switch {
	case s == units.Inches && p.Text.In != "":
		return p.Text.In // whole inches, rounded up from the package and not from its centimetres
	case s == units.Centimetres && p.Text.Cm != "":
		return p.Text.Cm
	}
	return units.Sizes(s, units.Length(p.Length), units.Length(p.Width), units.Length(p.Height))
}
