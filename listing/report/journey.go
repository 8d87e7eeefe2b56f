package report

import (
	"fmt"
	"slices"
	"strings"

	"slabfolio/listing/care"
	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/shipping"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// publicPackage is a package for everybody, sizes rounded up as carriers do.
func (b *builder) publicPackage(p shipping.Package) Package {
	up := func(mm float64) float64 { return 10 * shipping.UpCentimetres(mm) }
	in := func(mm float64) units.Length { return units.Length(units.MillimetresPerInch * shipping.UpInches(mm)) }
	name := p.Contents.Name
	if id := "figures.part." + name; name != "" && b.words.Has(id) {
		name = b.words.Say(id, nil)
	}
	if p.Way == shipping.Own {
		p.LowKg, p.HighKg = p.GrossKg, p.GrossKg // a scale's doubt is no news to a carrier
	}
	return Package{Name: name, Length: up(p.LengthMM), Width: up(p.WidthMM), Height: up(p.HeightMM),
		Gross: round(p.GrossKg, 1), Low: round(p.LowKg, 1), High: round(p.HighKg, 1),
		Text: Text{In: units.Sizes(units.Inches, in(p.LengthMM), in(p.WidthMM), in(p.HeightMM)),
			Cm: b.words.Number(units.Sizes(units.Centimetres, units.Length(up(p.LengthMM)), units.Length(up(p.WidthMM)), units.Length(up(p.HeightMM))))}}
}

func (b *builder) shippingText(s *Shipping, lift shipping.Lift) string {
	var out []string
	how := ""
	if k := b.p.Packing; k != nil && k.How.V != "" {
		how = b.words.Say("figures.how."+strings.ReplaceAll(k.How.V, " ", "-"), nil)
	}
	data := map[string]any{"How": how, "Gross": "", "Count": b.number(len(s.Packages))}
	if gross := b.grossAll(); gross > 0 {
		data["Gross"] = b.massBoth(gross)
	}
	switch len(s.Packages) {
	case 0:
		if how != "" { // of the sizes nothing is known, but that is
			data["Gross"], data["Size"] = "", ""
			out = append(out, b.words.Say("figures.package.one", data))
		}
	case 1:
		data["Size"] = s.Packages[0].Text.In
		if b.r.Prefer.Metric() {
			data["Size"] = s.Packages[0].Text.Cm
		}
		out = append(out, b.words.Say("figures.package.one", data))
	default:
		out = append(out, b.words.Say("figures.package.several", data))
	}
	if text := b.liftText(lift); text != "" {
		out = append(out, text)
	}
	return strings.Join(out, " ")
}

// liftText says who lifts the piece, or the heaviest of its packages. Where it is
// lifted as it stands and that is much, the base comes off first.
func (b *builder) liftText(lift shipping.Lift) string {
	id := lift.Step
	switch {
	case id == "":
		return ""
	case len(b.packed) > 0:
		id = "packed." + id
	case (id == shipping.More || id == shipping.Machine) && b.liftOff.Step != "":
		id = "off." + b.liftOff.Step
	}
	return b.words.Say("figures.lift."+id, map[string]any{"Several": len(b.packed) > 1})
}

// number writes a small number in words where there are words for it.
func (b *builder) number(n int) string {
	if id := fmt.Sprintf("general.number.%d", n); b.words.Has(id) {
		return b.words.Say(id, nil)
	}
	return fmt.Sprint(n)
}

// passage checks the way into a home: stood on end below a ceiling, and through a
// narrow door; packed as the maker packs it, else with the base off where it comes off
// and the whole does not pass. What goes through the door in any way is not spoken of.
func (b *builder) passage() {
	if b.packedPassage() || b.size.Height == 0 {
		return
	}
	apart := b.p.Packing != nil && (b.p.Packing.Legs.V == "off" || b.p.Packing.Legs.V == withTheTop)
	v := b.t.Shipping.Passes(b.size.Length, b.size.Width, b.size.Height, b.american())
	if apart || b.baseComesOff() && !(v.UnderRoof && v.ByDoor) {
		apart = b.p.Base != nil
		if apart {
			v = b.t.Shipping.Passes(b.size.TopLength, b.size.TopWidth, b.topHeight(), b.american())
		}
	}
	if v.StandMM <= v.DoorwayMM {
		return
	}
	b.keep("passage.stood_on_end_mm", figure.Exact(v.StandMM, "mm", "square root of length squared + thinnest side squared: the height it needs while it is tilted up", "geometry", "dimensions"))
	b.keep("passage.narrowest_mm", figure.Exact(v.NarrowMM, "mm", "narrowest side, carried lengthwise", "geometry", "dimensions"))
	read := func(mm float64) string { return b.words.Number(b.mm(mm)) }
	b.wayIn = b.words.Say("figures.note.passage", map[string]any{"Top": apart, "Stand": read(v.StandMM), "Narrow": read(v.NarrowMM), "Ceiling": read(v.CeilingMM), "Door": read(v.DoorwayMM)})
	at, what := b.p.Top.At, "it"
	if apart {
		what = "the top, with the base off,"
	}
	b.barred(v, at, what, false)
}

// packedPassage checks the packages, where the maker tells their sizes: they are what
// goes through the door. It reports whether they are told.
func (b *builder) packedPassage() bool {
	if b.p.Packing == nil || len(b.p.Packing.Packages) == 0 {
		return false
	}
	var v shipping.Passage
	for _, p := range b.packed {
		one := b.t.Shipping.Passes(p.LengthMM, p.WidthMM, p.HeightMM, b.american())
		if v.CeilingMM == 0 {
			v = one
		}
		v.StandMM, v.NarrowMM = max(v.StandMM, one.StandMM), max(v.NarrowMM, one.NarrowMM)
		v.UnderRoof, v.ByDoor = v.UnderRoof && one.UnderRoof, v.ByDoor && one.ByDoor
	}
	if v.StandMM <= v.DoorwayMM {
		return true
	}
	b.keep("passage.stood_on_end_mm", figure.Exact(v.StandMM, "mm", "the most of all packages: square root of longest side squared + thinnest side squared", "geometry", "shipping.packages"))
	b.keep("passage.narrowest_mm", figure.Exact(v.NarrowMM, "mm", "the most of all packages: the thinnest side, carried lengthwise", "geometry", "shipping.packages"))
	read := func(mm float64) string { return b.words.Number(b.mm(mm)) }
	b.wayIn = b.words.Say("figures.note.passage.packed", map[string]any{"Several": len(b.packed) > 1, "Stand": read(v.StandMM), "Narrow": read(v.NarrowMM), "Ceiling": read(v.CeilingMM), "Door": read(v.DoorwayMM)})
	what := "the package"
	if len(b.packed) > 1 {
		what = "a package"
	}
	b.barred(v, b.p.Packing.At, what, true)
	return true
}

// barred tells of a ceiling or a door that may be in the way; packed says that it
// is packed, so that no legs are left to come off.
func (b *builder) barred(v shipping.Passage, at piece.Place, what string, packed bool) {
	if !v.UnderRoof {
		b.find(piece.Note, "passage.ceiling", at, fmt.Sprintf("stood on end %s needs %s, more than a usual ceiling of %s", what, b.mm(v.StandMM), b.mm(v.CeilingMM)), "ask the buyer for the way in: stairs, lift, ceiling")
	}
	if !v.ByDoor {
		remedy := "ask the buyer for the narrowest door, or let the legs come off"
		if packed {
			remedy = "ask the buyer for the narrowest door"
		}
		b.find(piece.Note, "passage.door", at, fmt.Sprintf("%s is %s at its narrowest, more than the %s that a narrow inside door leaves clear", what, b.mm(v.NarrowMM), b.mm(v.DoorwayMM)), remedy)
	}
}

// leftTheShopOn is the first day since another on which the piece was wrapped or went
// away, by log and buyer, and where that is told; the zero day where it is not.
func (b *builder) leftTheShopOn(since piece.Date) (piece.Date, piece.Place) {
	zero := piece.Date{}
	left, at := zero, b.p.Packing.At
	told := func(day piece.Value[piece.Date]) {
		if day.Set() && !day.V.Before(since) && (left == zero || day.V.Before(left)) {
			left, at = day.V, day.At
		}
	}
	for _, l := range b.p.Log {
		if saysItLeft(l.Did.V) {
			told(l.Date)
		}
	}
	if b.p.Buyer != nil {
		told(b.p.Buyer.Delivered)
	}
	return left, at
}

// resinBy is the day by which the casting resin is hard at the latest: it was
// poured before the last coat and before the piece was done. Zero where there is
// no epoxy, or where it was hard when the piece was done.
func (b *builder) resinBy() piece.Date {
	epoxy, _ := b.resinHeat()
	if len(b.p.Top.Resin) == 0 || !epoxy || !b.p.Finished.Set() {
		return piece.Date{}
	}
	poured := b.p.Finished.V
	if f := b.p.Finish; f != nil && f.LastCoat.Set() && f.LastCoat.V.Before(poured) {
		poured = f.LastCoat.V
	}
	by := care.AddDays(poured, int(b.t.Care.Rules["resin_cure"].High))
	if !b.p.Finished.V.Before(by) || b.toldOfADaySince(by) {
		return piece.Date{}
	}
	return by
}

// toldOfADaySince reports whether the spec itself knows of something that was done to the
// piece on a day or after it, so that the day was past when its papers were made.
func (b *builder) toldOfADaySince(day piece.Date) bool {
	past := func(v piece.Value[piece.Date]) bool { return v.Set() && !v.V.Before(day) }
	return b.p.Buyer != nil && past(b.p.Buyer.Delivered) || slices.ContainsFunc(b.p.Log, func(l piece.LogEntry) bool { return past(l.Date) })
}

// resinBeforePacking tells that the resin has a cure of its own.
func (b *builder) resinBeforePacking() {
	by := b.resinBy()
	if by == (piece.Date{}) || b.p.Packing == nil {
		return
	}
	left, at := b.leftTheShopOn(piece.Date{})
	if left != (piece.Date{}) && !left.Before(by) {
		return
	}
	r := b.t.Care.Rules["resin_cure"]
	b.find(piece.Note, "packing.resin-cure", at, fmt.Sprintf("casting epoxy takes %g to %g days from the pour to full hardness, and the pour is not dated here: counted from the last day that it can have been, that is by %s; before it warmth, pressure and film mark it", r.Low, r.High, b.told(by)),
		"go by the resin's own sheet and the day of the pour, and wait with packing and shipping where it was late")
}

// cureBeforePacking looks whether the piece was wrapped before its finish was hard.
func (b *builder) cureBeforePacking() {
	zero := piece.Date{}
	if b.dates.CureTo == zero || b.p.Packing == nil {
		return
	}
	since := zero
	if c := b.p.Finish.LastCoat; c.Set() && b.p.Finished.V.Before(c.V) {
		since = c.V // a coat that the piece got later: what left before it had the earlier one
	}
	left, at := b.leftTheShopOn(since)
	switch {
	case left == zero && !b.p.Finished.V.Before(b.dates.CureTo): // hard before there was a piece to wrap
	case left == zero:
		b.find(piece.Note, "packing.cure", at, fmt.Sprintf("the finish is fully cured between %s and %s; film or bubble wrap on it before that leaves prints", b.told(b.dates.CureFrom), b.told(b.dates.CureTo)),
			"until then put soft cotton or foam next to the finish, or wait")
	case left.Before(b.dates.CureFrom):
		b.find(piece.Doubt, "packing.before-cure", at, fmt.Sprintf("it left on %s, before the finish is fully cured (%s at the earliest)", b.told(left), b.told(b.dates.CureFrom)),
			"tell the buyer to unwrap it at once and to go easy on it; next time put soft cotton or foam next to the finish")
	case left.Before(b.dates.CureTo):
		b.find(piece.Note, "packing.cure", at, fmt.Sprintf("it left on %s; the finish may need until %s to cure fully", b.told(left), b.told(b.dates.CureTo)), "tell the buyer to unwrap it soon")
	}
}

// leaving are the words of a log that say that the piece was wrapped or went away.
var leaving = []string{"packed", "wrapped", "crated", "shipped", "sent", "delivered", "collected"}

// saysItLeft reports whether a line of the log says so; "presented" does not.
func saysItLeft(did string) bool {
	return slices.ContainsFunc(strings.Fields(spelling.Plain(did)), func(w string) bool { return slices.Contains(leaving, w) })
}
