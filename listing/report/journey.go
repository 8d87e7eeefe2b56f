package report

import (
	"fmt"
	"math"
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
	if name != "" {
		name = b.words.Say("figures.part."+name, nil)
	}
	return Package{Name: name, Length: up(p.LengthMM), Width: up(p.WidthMM), Height: up(p.HeightMM),
		Gross: round(p.GrossKg, 1), Low: round(p.LowKg, 1), High: round(p.HighKg, 1),
		Text: Text{In: units.Sizes(units.Inches, in(p.LengthMM), in(p.WidthMM), in(p.HeightMM)),
			Cm: units.Sizes(units.Centimetres, units.Length(up(p.LengthMM)), units.Length(up(p.WidthMM)), units.Length(up(p.HeightMM)))}}
}

func (b *builder) shippingText(s *Shipping, lift shipping.Lift) string {
	var out []string
	how := ""
	if len(b.packed) > 0 {
		how = b.words.Say("figures.how."+strings.ReplaceAll(b.packed[0].Way, " ", "-"), nil)
	}
	gross := 0.0
	for _, p := range b.packed {
		gross += p.GrossKg
	}
	both := func(kg float64) string {
		step := 0.1
		if kg >= 10 {
			step = 1
		}
		kg = math.Round(kg/step) * step
		return b.words.Say("figures.both", map[string]any{"First": b.massText(kg), "Second": b.massOther(kg)})
	}
	switch len(s.Packages) {
	case 0:
	case 1:
		size := s.Packages[0].Text.In
		if b.r.Prefer.Metric() {
			size = s.Packages[0].Text.Cm
		}
		out = append(out, b.words.Say("figures.package.one", map[string]any{"How": how, "Size": size, "Gross": both(gross)}))
	default:
		out = append(out, b.words.Say("figures.package.several", map[string]any{"Count": b.number(len(s.Packages)), "How": how, "Gross": both(gross)}))
	}
	if text := b.liftText(lift); text != "" {
		out = append(out, text)
	}
	return strings.Join(out, " ")
}

// liftText says who lifts the piece, or the heaviest of its packages.
func (b *builder) liftText(lift shipping.Lift) string {
	id := "several"
	switch {
	case lift.People == 0:
		return ""
	case lift.Aid:
		id = "aid"
	case lift.People == 1 && lift.Care:
		id = "1-care"
	case lift.People == 1:
		id = "1"
	}
	if len(b.packed) > 0 {
		id = "packed." + id
	}
	return b.words.Say("figures.lift."+id, map[string]any{"Several": len(b.packed) > 1, "Few": b.number(lift.People)})
}

// number writes a small number in words where there are words for it.
func (b *builder) number(n int) string {
	if id := fmt.Sprintf("general.number.%d", n); b.words.Has(id) {
		return b.words.Say(id, nil)
	}
	return fmt.Sprint(n)
}

// passage checks the way into a home: stood on end below a ceiling, and through a
// narrow door.
func (b *builder) passage() {
	if b.size.Height == 0 || b.p.Kind.V == "serving board" {
		return
	}
	l, w, h := b.size.Length, b.size.Width, b.size.Height
	top := b.p.Packing != nil && b.p.Packing.Legs.V == "off"
	if top {
		l, w, h = b.size.TopLength, b.size.TopWidth, b.in.Thickness
	}
	v := b.t.Shipping.Passes(l, w, h)
	b.keep("passage.stood_on_end_mm", figure.Exact(v.StandMM, "mm", "square root of length squared + thinnest side squared: the height it needs while it is tilted up", "geometry", "dimensions"))
	b.keep("passage.narrowest_mm", figure.Exact(v.NarrowMM, "mm", "narrowest side, carried lengthwise", "geometry", "dimensions"))
	b.wayIn = b.words.Say("figures.note.passage", map[string]any{"Top": top, "Stand": b.mm(v.StandMM), "Narrow": b.mm(v.NarrowMM), "Ceiling": b.mm(v.CeilingMM), "Door": b.mm(v.DoorwayMM)})
	at := b.p.Top.At
	if !v.UnderRoof {
		b.find(piece.Note, "passage.ceiling", at, fmt.Sprintf("stood on end it needs %s, more than a usual ceiling of %s", b.mm(v.StandMM), b.mm(v.CeilingMM)), "ask the buyer for the way in: stairs, lift, ceiling")
	}
	if !v.ByDoor {
		b.find(piece.Note, "passage.door", at, fmt.Sprintf("its narrowest side is %s, more than a narrow door of %s", b.mm(v.NarrowMM), b.mm(v.DoorwayMM)), "ask the buyer for the narrowest door, or let the legs come off")
	}
}

// cureBeforePacking looks whether the piece was wrapped before its finish was hard.
func (b *builder) cureBeforePacking() {
	zero := piece.Date{}
	if b.dates.CureTo == zero || b.p.Packing == nil {
		return
	}
	left, at := zero, b.p.Packing.At
	for _, l := range b.p.Log {
		if leaves(l.Did.V) && l.Date.Set() && (left == zero || l.Date.V.Before(left)) {
			left, at = l.Date.V, l.Date.At
		}
	}
	if y := b.p.Buyer; y != nil && y.Delivered.Set() && (left == zero || y.Delivered.V.Before(left)) {
		left, at = y.Delivered.V, y.Delivered.At
	}
	switch {
	case left == zero && !b.p.Finished.V.Before(b.dates.CureTo): // hard before there was a piece to wrap
	case left == zero:
		b.find(piece.Note, "packing.cure", at, fmt.Sprintf("the finish is fully cured between %s and %s; film or bubble wrap on it before that leaves prints", care.ISO(b.dates.CureFrom), care.ISO(b.dates.CureTo)),
			"until then put soft cotton or foam next to the finish, or wait")
	case left.Before(b.dates.CureFrom):
		b.find(piece.Doubt, "packing.before-cure", at, fmt.Sprintf("it left on %s, before the finish is fully cured (%s at the earliest)", care.ISO(left), care.ISO(b.dates.CureFrom)),
			"tell the buyer to unwrap it at once and to go easy on it; next time put soft cotton or foam next to the finish")
	case left.Before(b.dates.CureTo):
		b.find(piece.Note, "packing.cure", at, fmt.Sprintf("it left on %s; the finish may need until %s to cure fully", care.ISO(left), care.ISO(b.dates.CureTo)), "tell the buyer to unwrap it soon")
	}
}

// leaving are the words of a log that say that the piece was wrapped or went away.
var leaving = []string{"packed", "wrapped", "crated", "shipped", "sent", "delivered", "collected"}

// leaves reports whether a line of the log says so; "presented" does not.
func leaves(did string) bool {
	return slices.ContainsFunc(strings.Fields(spelling.Plain(did)), func(w string) bool { return slices.Contains(leaving, w) })
}
