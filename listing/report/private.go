package report

import (
	"cmp"
	"fmt"

	"slabfolio/listing/assembly"
	"slabfolio/listing/care"
	"slabfolio/listing/cost"
	"slabfolio/listing/drawing"
	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// costs adds up what the piece cost. Private.
func (b *builder) costs() {
	c := b.p.Costs
	if c == nil {
		b.absent("costs", "costs are not given")
		return
	}
	in := cost.Input{Hours: c.Hours.V, Rate: c.Rate.V, Quantity: b.r.Public.Quantity,
		WoodAreaMM2: b.mix.woodAreaMM2, WoodVolumeMM3: b.mix.woodAreaMM2 * b.in.Thickness}
	for _, it := range c.Items {
		in.Items = append(in.Items, cost.Item{For: it.For.V, Amount: it.Amount.V})
	}
	for _, s := range c.Slabs {
		if len(s.Size) == 3 {
			in.Slabs = append(in.Slabs, cost.Slab{Length: float64(s.Size[0].V), Width: float64(s.Size[1].V), Thickness: float64(s.Size[2].V), Count: s.Count.V})
		}
	}
	cur := b.w.Currency.V
	if b.r.Public.Price != nil {
		in.Price, cur = b.r.Public.Price.Amount, b.r.Public.Price.Currency
		if b.r.Public.Price.Together {
			in.Price /= float64(b.r.Public.Quantity)
		}
	}
	s := cost.Of(in)
	b.r.Costs = &Costs{Hours: c.Hours.V, Labour: round(s.Labour, 2), Items: round(s.Items, 2), Floor: round(s.Floor, 2), Margin: round(s.Margin, 2), MarginPct: round(s.MarginPct, 1),
		Currency: cur, Yield: round(s.YieldPct, 1), YieldVolume: round(s.YieldVolumePct, 1), BoardFt: round(s.BoardFeet, 1)}
	b.keep("costs.floor", figure.Exact(s.Floor, cmp.Or(cur, "1"), "hours x rate + items, for one piece", "piece.yaml", "costs"))
	if s.Priced {
		b.keep("costs.margin", figure.Exact(s.Margin, cmp.Or(cur, "1"), "price - floor", "piece.yaml", "price", "costs"))
	} else {
		b.absent("costs.margin", "the price is not given")
	}
	if len(in.Slabs) == 0 {
		b.absent("costs.yield_pct", "costs.slabs is not given, so what was bought is not known")
		b.absent("costs.board_feet", "costs.slabs is not given, so what was bought is not known")
	} else {
		b.keep("costs.board_feet", figure.Exact(s.BoardFeet, "board ft", "length x width x thickness in inches / 144, of the slabs bought", "piece.yaml", "costs.slabs"))
		b.keep("costs.yield_pct", figure.Exact(s.YieldPct, "%", "face of wood in the finished top / face of the slabs bought", "piece.yaml", "top.outline", "costs.slabs"))
	}
	if s.Priced && s.Margin < 0 {
		rank := piece.Doubt
		if b.p.Availability.V == "sold" {
			rank = piece.Note // it cannot be mended any more
		}
		b.find(rank, "price.below-cost", b.p.Price.Amount.At, fmt.Sprintf("the price is %s below what the piece cost", units.Money("en", -s.Margin, cur)), "look at hours and rate, or at the price")
	}
	if s.YieldPct > 100 {
		b.find(piece.Doubt, "costs.yield", c.At, fmt.Sprintf("the finished top has %.0f %% of the face of the slabs that were bought", s.YieldPct), "look at costs.slabs: size and count")
	}
}

// record keeps what went in, and who bought it. Private.
func (b *builder) record() {
	for _, m := range b.p.Materials {
		b.r.Record = append(b.r.Record, Record{Use: m.Use.V, Product: m.Product.V, Chemistry: m.Chemistry.V, Hardener: m.Hardener.V, Ratio: m.Ratio.V,
			Batch: m.Batch.V, Bought: care.ISO(m.Bought.V), Expires: care.ISO(m.Expires.V), Supplier: m.Supplier.V})
	}
	for _, g := range b.p.Glue {
		b.r.Glue = append(b.r.Glue, g.V)
	}
	if y := b.p.Buyer; y != nil {
		b.r.Buyer = &Buyer{Name: y.Name.V, Delivered: care.ISO(y.Delivered.V)}
	}
	for _, l := range b.p.Log {
		e := LogRecord{Date: care.ISO(l.Date.V), Did: l.Did.V, Materials: []string{}}
		for _, m := range l.Materials {
			e.Materials = append(e.Materials, m.V)
		}
		b.r.Log = append(b.r.Log, e)
	}
}

// contradictions looks at what does not go together, and at what is missing,
// beyond what the reader of the spec saw.
func (b *builder) contradictions() {
	p := b.p
	done := p.Finished.V
	assumed := units.Percent(b.woods.MoistureOf(nil, "").Percent)
	var unread []string
	var at piece.Place
	for _, w := range p.Top.Wood {
		if w.Moisture == nil && !b.allResin() {
			if unread = append(unread, w.Species.V); len(unread) == 1 {
				at = w.At
			}
		}
	}
	if len(unread) > 0 {
		b.find(piece.Note, "wood.no-reading", at, fmt.Sprintf("no moisture reading of %s: %s is assumed for the sums", spelling.And(unread), assumed.Text()), "add `moisture: {reading: 9 %, on: …, meter: pin}` when you have one")
	}
	b.standsOutside()
	b.wetWood()
	for _, m := range p.Materials {
		if m.Expires.Set() && p.Finished.Set() && m.Expires.V.Before(done) {
			b.find(piece.Doubt, "date.expired", m.Expires.At, fmt.Sprintf("%s was past its date (%s) when the piece was finished", cmp.Or(m.Product.V, m.Use.V), b.told(m.Expires.V)), "note in the log how it cured, or look at the date")
		}
	}
	if p.Availability.V == "in stock" && b.hasBuyer() {
		b.find(piece.Doubt, "availability.sold", p.Availability.At, "the piece is in stock, and has a buyer", "write `availability: sold`, or reserved")
	}
	for i, q := range p.Parts {
		if p.Base != nil && p.Base.Height.Set() && q.BelowTop.V > p.Base.Height.V {
			b.find(piece.Doubt, "part.below-floor", p.Parts[i].BelowTop.At, fmt.Sprintf("%s reaches %s below the top, and the base is only %s high", cmp.Or(q.Name.V, "a part"), b.mm(float64(q.BelowTop.V)), b.mm(float64(p.Base.Height.V))), "measure again: below_top is how far it reaches below the underside of the top")
		}
		b.partLarger(&q)
	}
	sortFindings(b.r.Findings)
}

// partLarger doubts a drawer that is larger than the top which it hangs under.
func (b *builder) partLarger(q *piece.Part) {
	if b.outline == nil || len(q.Size) != 3 || !assembly.IsDrawer(q.Name.V) {
		return
	}
	slip := b.t.Rules["base_wider"].Value
	a, c := float64(q.Size[0].V), float64(q.Size[1].V)
	long, wide := b.outline.LengthMM(), b.outline.WidthMM()
	if max(a, c) > max(long, wide)+slip || min(a, c) > min(long, wide)+slip {
		b.find(piece.Doubt, "part.larger-than-top", q.Size[0].At, fmt.Sprintf("%s is %s by %s, and the top that it hangs under %s by %s", q.Name.V, b.mm(a), b.mm(c), b.mm(long), b.mm(wide)),
			"measure again: size is length, width and height outside, and a number alone is read in "+string(b.ownUnits()))
	}
}

// ownUnits are what a bare number of the spec is read in.
func (b *builder) ownUnits() units.System { return cmp.Or(b.p.Units.V, b.w.Units.V, units.Inches) }

// wetWood finds wood that was read wetter than a heated room keeps it, where it is to
// stand in one.
func (b *builder) wetWood() {
	dry := b.moves.top.Season.FromMC
	for _, w := range b.p.Top.Wood {
		if b.outdoors() || w.Moisture == nil || float64(w.Moisture.Reading.V) < b.wetFrom() {
			continue
		}
		says := fmt.Sprintf("%s was read at %s: in a heated home it is still going to dry, to shrink and to lose weight", w.Species.V, w.Moisture.Reading.V.Text())
		if m := b.moves.top; m.Settling != nil && dry > 0 {
			says += fmt.Sprintf("; on the way to the %.1f %% of the dry season the top shrinks by about %s across the grain, up to %s", dry, units.Length(m.Settling.Value).Fine(b.r.Prefer), units.Length(m.Settling.High).FineUp(b.r.Prefer))
		}
		b.find(piece.Doubt, "wood.wet", w.Moisture.Reading.At, says, "let it dry before it leaves, check the meter and its setting for this wood, or give a later reading ("+b.t.Rules["wet_wood"].Source+")")
	}
}

// drawing fills what plan and elevation are drawn from.
func (b *builder) drawing() {
	if b.outline == nil {
		return
	}
	d := drawing.Piece{Outline: b.outline.Polygon(), Round: b.outline.Round(), Length: b.outline.LengthMM(), Width: b.outline.WidthMM(), Thickness: b.in.Thickness,
		ResinShare: b.mix.resinShare, Height: b.size.Height, BaseHeight: b.in.BaseHeight, Footprint: [2]float64{b.in.FootLength, b.in.FootWidth}, Widths: b.outline.Widths()}
	d.Resin = b.resinOnPlan()
	if b.p.Base == nil {
		d.Height = 0
	}
	d.Base = drawnBase(b.p.Base, d.BaseHeight, d.Footprint)
	d.Base.Style = b.known(d.Base.Style)
	if k := b.r.Public.Dimensions; k != nil && k.Knee != nil {
		d.Knee = *k.Knee
	}
	if w := b.p.Top.Wood; len(w) > 0 {
		d.Grain = cmp.Or(w[0].Grain.V, "along length")
	}
	for _, q := range b.in.Parts {
		if q.Length > 0 && q.BelowTop > 0 {
			d.Parts = append(d.Parts, drawing.Part{Name: b.known(q.Name), Length: q.Length, Width: q.Width, BelowTop: q.BelowTop, Count: q.Count, SideBySide: assembly.IsDrawer(q.Name)})
		}
	}
	b.r.Drawing = d
}

// hasBuyer reports whether somebody is known to have bought the piece or ordered it.
func (b *builder) hasBuyer() bool {
	return b.p.Buyer != nil && (b.p.Buyer.Name.Set() || b.p.Buyer.Delivered.Set())
}

// takenBy keeps a piece that was made for a buyer from being offered to others: what is
// made to order or on commission is an offer only as long as nobody has ordered it.
func (b *builder) takenBy() {
	switch b.p.Availability.V {
	case "", "commission", "made to order":
		if b.hasBuyer() {
			b.r.Public.Taken = true
			b.find(piece.Note, "availability.taken", b.p.Buyer.At, "the piece has a buyer, so it is offered to nobody else: it is left out of price list and catalogue, and its page asks for one like it",
				"write availability: sold, once it is; where others can order it too, take the buyer out of this file and give theirs one of its own")
		}
	}
}
