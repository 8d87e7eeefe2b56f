package report

import (
	"cmp"
	"fmt"
	"math"
	"strconv"

	"slabfolio/listing/assembly"
	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// customary compares sizes with what is usual for the kind, and notes the
// figures of accessibility and office standards, for information.
func (b *builder) customary() {
	odd := b.t.Assembly.Check(b.p.Kind.V, b.size, b.in.Thickness)
	for i, o := range odd {
		side := o.Quantity == "length" || o.Quantity == "width"
		if one := b.swapped() || b.p.Top.Outline.Diameter.Set(); side && one && i > 0 && odd[i-1].Quantity == "length" {
			continue // the same doubt again
		}
		b.odd(o)
	}
	for _, a := range b.t.Assembly.Accessible(b.p.Kind.V, b.size, b.in.Thickness) {
		word := "outside it"
		if a.Within {
			word = "within it"
		}
		b.keep("access."+a.Range.ID, figure.Exact(a.MM, "mm",
			fmt.Sprintf("for information, no claim to meet the standard: it says %s; this piece is %s", a.Range.Says, word), a.Range.Source, a.Range.Quantity))
	}
}

// swapped reports whether what is called the width of the top is more than its length.
func (b *builder) swapped() bool {
	o := &b.p.Top.Outline
	return o.Length.Set() && o.Width.V > o.Length.V
}

// odd doubts a size that is out of what is customary, at the line that says it. Where its
// figure would be customary in another unit, or sides may have changed places, it says so.
func (b *builder) odd(odd assembly.Odd) {
	at, written, what := b.said(odd.Quantity)
	remedy := "measure again, or leave it where it is meant so (" + odd.Range.Source + ")"
	if b.swapped() && (what == "length" || what == "width") {
		o := &b.p.Top.Outline
		remedy = fmt.Sprintf("perhaps it changed places with the length, %s, which is less; else %s", b.mm(float64(o.Length.V)), remedy)
		if what == "length" {
			remedy = fmt.Sprintf("perhaps it changed places with the width, %s, which is more; else %s", b.mm(float64(o.Width.V)), remedy)
		}
	}
	if u := b.inOther(written, odd); u != "" && !b.swapped() {
		remedy = fmt.Sprintf("write %s if that is meant; else %s", u, remedy)
	}
	b.find(piece.Doubt, "size."+odd.Quantity, at, fmt.Sprintf("the %s of %s is out of what is customary for a %s: %s", what, b.mm(odd.MM), b.p.Kind.V, b.span(odd.Range)), remedy)
}

// said is the line that says a quantity, the figure on it, 0 where there is none of just
// that, and what the maker calls it.
func (b *builder) said(quantity string) (at piece.Place, written units.Length, what string) {
	o := &b.p.Top.Outline
	if b.swapped() { // the longer side is called the width
		quantity = cmp.Or(map[string]string{"length": "width", "width": "length"}[quantity], quantity)
	}
	side := map[string]piece.Value[units.Length]{"length": o.Length, "width": o.Width}[quantity]
	switch {
	case quantity == "thickness":
		return b.p.Top.Thickness.At, b.p.Top.Thickness.V, quantity
	case quantity == "height" && b.p.Base != nil:
		return b.p.Base.Height.At, b.p.Base.Height.V, quantity
	case quantity == "knee" && b.p.Base != nil:
		return b.p.Base.Height.At, 0, "knee room"
	case quantity == "height" || quantity == "knee":
		return b.p.Top.At, 0, quantity
	case o.Diameter.Set():
		return o.Diameter.At, o.Diameter.V, "diameter"
	case side.Set():
		return side.At, side.V, quantity
	case quantity == "width" && len(o.Widths) > 0:
		return o.Widths[0].At, 0, quantity
	}
	return o.At, 0, quantity
}

// inOther is a figure with the units in which its size would be about customary, as it
// would be written; "" where it would be in none, or is not written in the piece's own.
func (b *builder) inOther(written units.Length, odd assembly.Odd) string {
	own := b.ownUnits()
	figure := written.In(own)
	if written == 0 || math.Abs(figure*64-math.Round(figure*64)) > 1e-6 && math.Abs(figure*10-math.Round(figure*10)) > 1e-6 {
		return ""
	}
	const about = 0.1
	var ways []string
	for _, u := range []units.System{units.Centimetres, units.Millimetres, units.Inches} {
		mm := odd.MM - float64(written) + figure/units.Length(1).In(u)
		if u != own && mm >= odd.Range.Low*(1-about) && mm <= odd.Range.High*(1+about) {
			ways = append(ways, strconv.FormatFloat(figure, 'f', -1, 64)+" "+string(u))
		}
	}
	return spelling.Or(ways)
}

// span writes a customary range; the trade has it in half inches and whole
// centimetres.
func (b *builder) span(r assembly.Range) string {
	one := func(mm float64) string {
		if b.r.Prefer.Metric() {
			return b.mm(mm)
		}
		const half = units.MillimetresPerInch / 2
		return b.mm(math.Round(mm/half) * half)
	}
	switch {
	case r.High > 1e6:
		return "at least " + one(r.Low)
	case r.Low == 0:
		return "at most " + one(r.High)
	}
	return one(r.Low) + " to " + one(r.High)
}
