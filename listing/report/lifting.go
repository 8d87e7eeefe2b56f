package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/shipping"
	"slabfolio/listing/spelling"
)

// standing is what the piece weighs as it stands: what the scale said, else the
// estimate.
func (b *builder) standing() float64 {
	if w := b.r.Public.Weight; w != nil {
		return w.Shown()
	}
	return 0
}

// liftKg is what a lift is judged by: what the scale said, else the upper end of
// the estimate, to be on the safe side.
func (b *builder) liftKg() float64 {
	if w := b.r.Public.Weight; w != nil && w.Weighed == nil {
		return w.High
	}
	return b.standing()
}

// burden is the piece as it stands, of a weight: by the underside of its top, or
// held against the body where it is a board and no more.
func (b *builder) burden(kg float64) shipping.Burden {
	if b.p.Base == nil {
		return shipping.Burden{Kg: kg, Width: b.in.Thickness, Flat: true}
	}
	return shipping.Burden{Kg: kg, Width: math.Min(b.size.Length, b.size.Width), Grip: b.in.BaseHeight}
}

// liftApart judges the heavier of top and base, each by itself, where the base
// comes off and both weights are known.
func (b *builder) liftApart() shipping.Lift {
	if !b.baseComesOff() {
		return shipping.Lift{}
	}
	top, base, ok := b.weightsApart()
	if !ok {
		return shipping.Lift{}
	}
	return heavier(
		b.t.Shipping.PeopleToLift(shipping.Burden{Kg: top.Value, Width: math.Min(b.size.TopLength, b.size.TopWidth), Grip: b.in.BaseHeight}),
		b.t.Shipping.PeopleToLift(shipping.Burden{Kg: base.Value, Width: math.Min(b.in.FootLength, b.in.FootWidth), Grip: b.in.BaseHeight}))
}

// steps are the lifts in their order.
var steps = []string{"", shipping.One, shipping.OneCare, shipping.Two, shipping.More, shipping.Machine}

// heavier is the lift that asks for more.
func heavier(a, c shipping.Lift) shipping.Lift {
	if i, k := slices.Index(steps, a.Step), slices.Index(steps, c.Step); k > i || k == i && c.Judged > a.Judged {
		return c
	}
	return a
}

// looseWords say that top and base come apart, fastWords that they do not.
// Common practice, no source.
var (
	looseWords = []string{"bolt", "bolts", "bolted", "insert", "inserts", "screw", "screws", "screwed", "unbolt", "unbolts", "unscrew", "removable", "detachable", "knockdown", "knock-down", "wedge", "wedges", "wedged"}
	fastWords  = []string{"glued", "epoxied", "welded", "dowelled", "doweled", "permanent", "permanently", "mortise", "tenon"}
)

// baseComesOff reports whether the spec says that the base comes off.
func (b *builder) baseComesOff() bool {
	s := b.p.Base
	if s == nil {
		return false
	}
	if k := b.p.Packing; k != nil && (k.Legs.V == "off" || k.Legs.V == withTheTop) {
		return true
	}
	if s.Fixing == nil {
		return false
	}
	said := strings.Fields(spelling.Plain(s.Fixing.Text.V + " " + s.Fixing.Method.V))
	in := func(list []string) bool {
		return slices.ContainsFunc(said, func(w string) bool { return slices.Contains(list, w) })
	}
	return (in(looseWords) || s.Fixing.Bolt.V != "") && !in(fastWords)
}

// fixingsMove reports whether the spec says that the fixings let the wood move.
func (b *builder) fixingsMove() bool {
	if b.p.Base == nil || b.p.Base.Fixing == nil {
		return false
	}
	f := b.p.Base.Fixing
	if f.Holes.V == "slotted" || f.Holes.V == "oversize" {
		return true
	}
	said := strings.Fields(spelling.Plain(f.Text.V + " " + f.Method.V))
	return f.Holes.V == "" && !slices.Contains(said, "not") && slices.ContainsFunc(said, func(w string) bool {
		return w != "loose" && w != "not" && w != "unglued" && slices.Contains(movingWords, w)
	})
}

// judgeLifts says who lifts the piece and the heaviest of its packages. Of what weighs
// next to nothing nobody asks.
func (b *builder) judgeLifts() shipping.Lift {
	b.lift = b.t.Shipping.PeopleToLift(b.burden(b.liftKg()))
	b.liftOff = b.liftApart()
	lift := b.lift
	for i, p := range b.packed {
		load := shipping.BurdenOf(p)
		if p.Way == shipping.Blanket && len(b.packed) == 1 { // still the piece, in blankets
			load = b.burden(p.HighKg)
		}
		if l := b.t.Shipping.PeopleToLift(load); i == 0 {
			lift = l
		} else {
			lift = heavier(lift, l)
		}
	}
	if lift.Step == "" {
		b.absent("shipping.people_to_lift", "the weight is not known")
		return lift
	}
	if cmp.Or(b.grossAll(), b.liftKg()) < b.t.Rules["lift_unsaid"].Value {
		b.absent("shipping.people_to_lift", "it weighs next to nothing")
		b.lift, b.liftOff = shipping.Lift{}, shipping.Lift{}
		return shipping.Lift{}
	}
	b.liftNote = b.liftTerms(lift)
	if lift.People == 0 {
		b.absent("shipping.people_to_lift", "it is too heavy for hands")
	} else {
		b.keep("shipping.people_to_lift", figure.Exact(float64(lift.People), "1", "the lifting equation for one person, or two at the ends; beyond that a count of hands", shipping.LiftSource, "weight.high_kg", "shipping.packages"))
	}
	if lift.OneKg > 0 {
		b.keep("lift.one_person_kg", figure.Exact(lift.OneKg, "kg", "recommended weight limit for one person who lifts the heaviest package, or the piece where there is none: 23 x HM x VM x DM x CM", shipping.LiftSource, "shipping.packages"))
	}
	b.keep("lift.each_of_two_kg", figure.Exact(lift.EachKg, "kg", "recommended weight limit for each of two people at the ends: 23 x HM x VM x DM x CM x 0.85", shipping.LiftSource, "shipping.packages"))
	return lift
}

// american reports whether the workshop works by American sizes and terms: by its
// country, or by its units where it gives none.
func (b *builder) american() bool {
	if c := b.w.Country.V; c != "" {
		return c == "US"
	}
	return !cmp.Or(b.o.Prefer, b.ownUnits()).Metric() // not those of a language: all papers tell the same lift
}

// liftTerms are the figures behind a lift in the terms of the workshop's country.
// Private.
func (b *builder) liftTerms(l shipping.Lift) string {
	rule := func(id string) string { return b.massText(b.t.Shipping.Rules[id].Value) }
	data := map[string]any{"Each": b.massText(l.EachKg), "Index": b.words.Number(fmt.Sprintf("%.1f", l.OfIndex)), "One": "", "At": b.massText(l.OfIndex * l.OneKg), "Upper": b.roughLift(),
		"Times": b.words.Number(fmt.Sprint(b.t.Shipping.Rules["lift_index"].Value))}
	if l.OneKg > 0 {
		data["One"] = b.massText(l.OneKg)
	}
	out := b.words.Say("figures.note.lift", data)
	switch {
	case b.american():
	case b.w.Country.V == "GB":
		out += b.words.Say("figures.note.lift-gb", map[string]any{"FloorMen": rule("hse_floor_men"), "FloorWomen": rule("hse_floor_women"), "WaistMen": rule("hse_waist_men"), "WaistWomen": rule("hse_waist_women")})
	default:
		out += b.words.Say("figures.note.lift-iso", map[string]any{"Most": rule("iso_most"), "Less": rule("iso_less")})
	}
	return out + b.words.Say("figures.note.lift-law", nil)
}

// roughLift reports whether a lift is judged by the upper end of an estimate: nothing of
// it was on a scale.
func (b *builder) roughLift() bool {
	w := b.r.Public.Weight
	return w != nil && w.Weighed == nil && (b.p.Packing == nil || len(b.p.Packing.Packages) == 0)
}

// withTheTop is the way of legs that travel flat beside the top.
var withTheTop = piece.LegsTravel[2]

// framesSaid are the words for a base of flat frames, with how many there are
// where a word beside them says so. Common practice, no source.
var framesSaid = []string{"frames", "u legs", "u frames", "a frames", "h frames", "trapezes", "trapezoid legs", "flat legs", "hoops"}

// crossedSaid are the words for frames or legs that stand through each other: such
// a base does not lie flat, so its package is as large as its footprint and its
// height. An x alone may stand in a section, 60 x 30. Common practice, no source.
var crossedSaid = []string{"crossed", "crossing", "crisscross", "criss cross", "cross frames", "cross legs", "x frames", "x legs", "x shaped", "interlocked", "interlocking"}

// flatFrames is how many flat frames the base is made of, and how thick each
// lies: two, where the style speaks of frames. ok is false where it does not, and
// where the frames stand crossed, unless the maker says that they travel flat.
func (b *builder) flatFrames() (n int, thick float64, ok bool) {
	s := b.p.Base
	style := " " + spelling.Plain(s.Style.V) + " "
	in := func(w string) bool { return strings.Contains(style, " "+w+" ") }
	said := slices.ContainsFunc(framesSaid, in) && !slices.ContainsFunc(crossedSaid, in)
	if !said && b.p.Packing.Legs.V != withTheTop {
		return 0, 0, false
	}
	n = 2
	for k, w := range []string{"three", "four"} {
		if in(w) {
			n = 3 + k
		}
	}
	thick = b.t.Shipping.Rules["leg_flat"].Value
	most := 0.0
	for _, x := range s.Sections {
		if x.Form == "plate" {
			continue
		}
		for _, side := range x.Sizes {
			most = math.Max(most, float64(side))
		}
	}
	if most > 0 {
		thick = most
	}
	return n, thick, true
}

// countries of the European Union in 2026, ISO 3166-1; its product safety law
// asks for the same in all of them.
var european = strings.Fields("AT BE BG CY CZ DE DK EE ES FI FR GR HR HU IE IT LT LU LV MT NL PL PT RO SE SI SK")

// shipsTo reports whether the piece is offered into one of some countries, by its
// delivery, or by standing there where no delivery is told.
func (b *builder) shipsTo(codes ...string) bool {
	if d := b.p.Delivery; d != nil && len(d.ShipsTo) > 0 {
		return slices.ContainsFunc(d.ShipsTo, func(c piece.Value[string]) bool { return slices.Contains(codes, c.V) })
	}
	return slices.Contains(codes, b.w.Country.V)
}

// crossesBorder reports whether the piece is offered across a customs border: into a
// market that is not the workshop's, or into two where it does not say its own.
func (b *builder) crossesBorder() bool {
	if b.p.Delivery == nil {
		return false
	}
	seen := map[string]bool{}
	if home := b.w.Country.V; home != "" {
		seen[market(home)] = true
	}
	for _, c := range b.p.Delivery.ShipsTo {
		seen[market(c.V)] = true
	}
	return len(seen) > 1
}

// soldAtHomeOnly reports whether the piece is offered within the workshop's own market
// and nowhere else, as far as both are told.
func (b *builder) soldAtHomeOnly() bool {
	d := b.p.Delivery
	return b.w.Country.V != "" && d != nil && len(d.ShipsTo) > 0 && !b.crossesBorder()
}

// market is what a country shares its border with: within the EU nothing is
// imported, and packing of solid wood needs no mark (Regulation (EU) 2016/2031
// asks for it of what comes from outside; from memory).
func market(country string) string {
	if slices.Contains(european, country) {
		return "EU"
	}
	return country
}
