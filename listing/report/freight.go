package report

import (
	"cmp"
	"fmt"
	"slices"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/shipping"
	"slabfolio/listing/units"
)

// freight fills what a carrier computes with. Private.
func (b *builder) freight() {
	var q *shipping.Freight
	if b.r.Absent["freight"] == "" {
		q = b.t.Shipping.Quote(b.packed)
	}
	if q == nil {
		b.absent("freight", cmp.Or(b.r.Absent["freight"], b.r.Absent["shipping.packages"], "there are no packages"))
		return
	}
	b.r.Light = b.light(q)
	f := &Freight{Gross: b.grossAll(), Density: round(q.DensityLbFt3, 2), Class: q.Class.Class, Volumetric: round(q.Volumetric["cm3-5000"], 1),
		ByDivisor: map[string]float64{}, LoadingMetre: round(q.LoadingMetres, 2), Mode: map[string]string{}}
	for id, kg := range q.Volumetric {
		f.ByDivisor[id] = round(kg, 1)
	}
	for region, m := range q.Mode {
		if !b.servedBy(region) {
			continue
		}
		name := b.words.Say("figures.region."+region, nil)
		if m.Parcel {
			f.Mode[name] = b.words.Say("figures.mode.parcel", map[string]any{"Weight": b.parcelLimit(m.Limit, "weight"), "Length": b.parcelLimit(m.Limit, "length"), "Girth": b.parcelLimit(m.Limit, "girth")})
			continue
		}
		if m.Over == shipping.Blanket {
			f.Mode[name] = b.words.Say("figures.mode.blankets", nil)
		} else {
			f.Mode[name] = b.words.Say("figures.mode.freight", map[string]any{"Limit": b.parcelLimit(m.Limit, m.Over)})
		}
		if m.Long {
			f.Mode[name] += b.words.Say("figures.mode.over-length", map[string]any{"Over": b.words.Number(m.Limit.SaysOver)})
		}
	}
	f.Classes = b.classes(q)
	f.Notes = append(f.Notes, b.freightNotes(f, q)...)
	if b.liftNote != "" {
		f.Notes, f.Lift = append(f.Notes, b.liftNote), b.liftNote
	}
	b.overLength(q)
	if b.wayIn != "" {
		f.Notes = append(f.Notes, b.wayIn)
	}
	if n := b.r.Public.Quantity; n > 1 && !b.r.SentTogether {
		f.Notes = append(f.Notes, b.words.Say("figures.note.batch", map[string]any{"Count": n}))
	}
	b.r.Freight = f
	var low, high float64
	for _, p := range b.packed {
		low, high = low+p.LowKg, high+p.HighKg
	}
	b.keep("freight.gross_kg", figure.Figure{Value: q.GrossKg, Unit: "kg", Low: low, High: high, Rule: "sum of the packages", Source: "shipping.packages", Inputs: []string{"shipping.packages"}})
	b.keep("freight.density_lb_ft3", figure.Figure{Value: q.DensityLbFt3, Unit: "lb/ft3", Low: q.DensityLbFt3 * low / q.GrossKg, High: q.DensityLbFt3 * high / q.GrossKg,
		Rule: "pounds, as printed, over cubic feet from inches rounded up; class: " + f.Class, Source: q.Class.Source, Inputs: []string{"shipping.packages"}})
	b.keep("freight.volumetric_kg", figure.Exact(q.Volumetric["cm3-5000"], "kg", "volume / 5000 cm3 per kg, sides rounded up to whole centimetres", "carriers' published pages; read", "shipping.packages"))
	inside := b.t.Shipping.Rules["loading_width"]
	b.keep("freight.loading_metres", figure.Exact(q.LoadingMetres, "m", fmt.Sprintf("length x width / %g m, nothing stacked", inside.Value), inside.Source, "shipping.packages"))
}

// light reports whether no carrier has to be asked about ramps, stairs and the way into
// the room: every package is a parcel wherever it goes, and one person lifts it.
func (b *builder) light(q *shipping.Freight) bool {
	for _, m := range q.Mode {
		if !m.Parcel {
			return false
		}
	}
	s := b.r.Public.Shipping
	return s == nil || s.Lift == "" || s.Lift == shipping.One
}

// classes are the freight classes that the density suggests: where the doubt of the
// weight reaches over a step of the scale the higher one first, which costs more.
func (b *builder) classes(q *shipping.Freight) string {
	var low, high float64
	for _, p := range b.packed {
		low, high = low+p.LowKg, high+p.HighKg
	}
	if q.GrossKg <= 0 || low <= 0 {
		return q.Class.Class
	}
	t := b.t.Shipping
	light, heavy := t.Class(q.DensityLbFt3*low/q.GrossKg).Class, t.Class(q.DensityLbFt3*high/q.GrossKg).Class
	if light == heavy {
		return light
	}
	return b.words.Say("figures.class.or", map[string]any{"Light": light, "Heavy": heavy})
}

// freightNotes are the freight class and the floor that it takes, in the terms of the
// carriers that are asked first.
func (b *builder) freightNotes(f *Freight, q *shipping.Freight) []string {
	if b.r.Light { // a parcel has neither
		return nil
	}
	var notes []string
	if b.quotedIn(true) {
		notes = append(notes, b.words.Say("figures.note.class", map[string]any{"Class": f.Classes}))
	}
	const feet = 0.3048
	data := map[string]any{"Metres": b.words.Number(fmt.Sprintf("%.2f", f.LoadingMetre)), "Feet": b.words.Number(fmt.Sprintf("%.1f", f.LoadingMetre/feet)), "EUR": q.PalletsEUR, "US": q.PalletsUS}
	switch {
	case !b.quotedIn(false):
		notes = append(notes, b.words.Say("figures.note.pallets-us", data))
	case !b.quotedIn(true):
		notes = append(notes, b.words.Say("figures.note.pallets-eur", data))
	default:
		notes = append(notes, b.words.Say("figures.note.pallets", data))
	}
	return notes
}

// parcelLimit is one of the limits of parcel services, as carriers say it: weight,
// length or girth.
func (b *builder) parcelLimit(l shipping.Limit, of string) string {
	return b.words.Say("figures.limit."+of, map[string]any{"Value": b.words.Number(l.Says[of])})
}

// servedBy reports whether the carriers of a region can come into it: the piece
// starts there or is offered there, or the workshop does not say where it is.
func (b *builder) servedBy(region string) bool {
	if b.w.Country.V == "" {
		return true
	}
	countries := []string{b.w.Country.V}
	if d := b.p.Delivery; d != nil {
		for _, c := range d.ShipsTo {
			countries = append(countries, c.V)
		}
	}
	return slices.ContainsFunc(countries, func(c string) bool { return (c == "US" || c == "CA") == (region == "US") })
}

// overLength tells the maker of freight that is charged for its length.
func (b *builder) overLength(q *shipping.Freight) {
	region := "Europe"
	if b.american() {
		region = "US"
	}
	m := q.Mode[region]
	if m.Parcel || !m.Long {
		return
	}
	longest := 0.0
	for _, p := range b.packed {
		longest = max(longest, m.Limit.Rounded(p.LengthMM), m.Limit.Rounded(p.WidthMM), m.Limit.Rounded(p.HeightMM))
	}
	b.find(piece.Note, "packing.over-length", b.p.Packing.At, "a package is "+b.mm(longest)+" long, and freight longer than "+b.mm(m.Limit.OverMM)+" usually costs more for its length", "ask the carrier before you build the crate ("+m.Limit.Source+")")
}

// Gross is what the i-th package weighs in both systems, empty where it was not weighed:
// with a decimal where there are several, since their sum stands beside them.
func (s *Shipping) Gross(i int) (kg, lb string) {
	m := units.Mass(s.Packages[i].Gross)
	switch {
	case m <= 0:
		return "", ""
	case len(s.Packages) > 1:
		kg, lb = m.Tenths()
		return kg + " kg", lb + " lb"
	}
	return m.TextKg(), m.TextLb()
}

// GrossTogether is what the packages weigh together in both systems, as the sum of what
// each is printed with; empty where one of them was not weighed.
func (s *Shipping) GrossTogether() (kg, lb string) {
	var all []units.Mass
	for _, p := range s.Packages {
		if p.Gross <= 0 {
			return "", ""
		}
		all = append(all, units.Mass(p.Gross))
	}
	switch len(all) {
	case 0:
		return "", ""
	case 1:
		return s.Gross(0)
	}
	return units.Together(all...)
}

// grossAll is what the packages weigh together, as each is printed, so that no two
// sums of them differ. It is 0 where one of them was not weighed.
func (b *builder) grossAll() float64 {
	sum := 0.0
	for _, p := range b.packed {
		kg := round(p.GrossKg, 1)
		if kg <= 0 {
			return 0
		}
		sum += kg
	}
	return round(sum, 1)
}
