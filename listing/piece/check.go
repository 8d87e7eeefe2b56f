package piece

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// Before reports whether d is an earlier day than e.
func (d Date) Before(e Date) bool {
	if d.Year != e.Year {
		return d.Year < e.Year
	}
	if d.Month != e.Month {
		return d.Month < e.Month
	}
	return d.Day < e.Day
}

// checkPiece looks for values that are right each by itself and contradict each
// other, or that are still those of the starter file.
func checkPiece(d *decoder, p *Piece) {
	checkExamples(d, p)
	checkFuture(d, p)
	checkStarter(d, p)
	checkShares(d, p.Top.Wood)
	checkResin(d, p)
	checkSolid(d, p)
	checkDates(d, p)
	checkCoats(d, p)
	checkPhotos(d, &p.Photos)
	checkCountries(d, p)
	checkPrice(d, p)
	checkSets(d, p)
	for _, t := range []struct {
		key string
		v   *Value[string]
	}{{"title", &p.Title}, {"mark", &p.Mark}} {
		checkHidden(d, t.key, t.v)
	}
}

func (d *decoder) doubt(code string, at Place, message, remedy string) {
	d.s.add(Doubt, code, at, message, remedy)
}

// checkStarter finds the name and the day of a fresh file: no piece is called so, or was
// done on that day, and nothing goes out to buyers or into the record as if it were.
func checkStarter(d *decoder, p *Piece) {
	if p.Title.Set() && p.Title.V == starterTitle {
		d.fault("spec.starter", p.Title.At, fmt.Sprintf("title is still %q, and a piece is not offered or sealed under that name", p.Title.V), "give the piece its name, and look at every other line that is not commented out")
	}
	if p.Finished.Set() && p.Finished.V == starterDate {
		d.fault("spec.starter", p.Finished.At, "finished is still the day of the fresh file, "+p.Finished.V.String(), "write the day the piece was done")
	}
}

// checkShares holds the shares of the woods against 100 %.
func checkShares(d *decoder, woods []Wood) {
	var sum float64
	var last Place
	given := 0
	for _, w := range woods {
		if w.Share.Set() {
			given, last = given+1, w.Share.At
			sum += float64(w.Share.V)
		}
	}
	switch {
	case given == 0 && len(woods) > 1:
		d.doubt("spec.shares", woods[0].At, fmt.Sprintf("top.wood has %d woods and does not say the share of each", len(woods)), "give each its share, like this: share: 60 %; the shares make 100 %")
	case given == 0:
	case given < len(woods):
		d.fault("spec.shares", last, fmt.Sprintf("top.wood says the share of only %d of %d woods", given, len(woods)), "give each its share; the shares make 100 %")
	case math.Abs(sum-100) > 0.5:
		d.fault("spec.shares", last, fmt.Sprintf("the shares in top.wood make %s, not 100 %%", units.Percent(sum).Text()), "change them so that they make 100 %")
	}
}

// checkResin looks at how the amount of resin is said.
func checkResin(d *decoder, p *Piece) {
	var area units.Percent
	for i := range p.Top.Resin {
		r := &p.Top.Resin[i]
		area += r.Area.V
		mixed := r.Mixed.Volume.Set() || r.Mixed.Mass.Set()
		left := firstPlace(r.LeftOver.Volume.At, r.LeftOver.Mass.At)
		switch {
		case left.Line > 0 && !mixed:
			d.doubt("spec.resin", left, "left_over says what was left, but nothing says how much was mixed", "add mixed: 5.6 l")
		case left.Line > 0 && (r.Mixed.Volume.Set() && r.LeftOver.Volume.Set() && r.LeftOver.Volume.V >= r.Mixed.Volume.V ||
			r.Mixed.Mass.Set() && r.LeftOver.Mass.Set() && r.LeftOver.Mass.V >= r.Mixed.Mass.V):
			d.fault("spec.resin", left, "left_over is as much as was mixed, or more", "correct one of the two; leave resin out when none went in")
		}
		if !mixed && left.Line == 0 && !r.Area.Set() && !r.Volume.Set() && len(p.Top.Outline.ResinAt) == 0 && !d.faultIn(r.At, "area", "volume", "mixed") {
			d.doubt("spec.resin", r.At, "resin does not say how much of it there is, so no figure can count it", "add area: 18 %, volume: 3.9 l or mixed: 5.6 l")
		}
	}
	if area > 100 {
		d.fault("spec.resin", p.Top.Resin[0].Area.At, fmt.Sprintf("the resin takes %s of the top's face", area.Text()), "the areas of all resins together are less than 100 %")
	}
}

// faultIn reports whether one of the keys of a group that begins at a place is
// already at fault, so that its absence is no news.
func (d *decoder) faultIn(at Place, keys ...string) bool {
	for _, f := range d.s.findings {
		if f.Rank == Fault && f.Line >= at.Line && f.Line < at.Line+30 {
			for _, k := range keys {
				if strings.Contains(f.Message, k) {
					return true
				}
			}
		}
	}
	return false
}

func firstPlace(places ...Place) Place {
	for _, p := range places {
		if p.Line > 0 {
			return p
		}
	}
	return Place{}
}

// checkSolid looks for walls that are thicker than what they enclose, and
// outlines without an area.
func checkSolid(d *decoder, p *Piece) {
	o := &p.Top.Outline
	if len(o.Widths) > 0 && !slices.ContainsFunc(o.Widths, func(w Value[units.Length]) bool { return w.V > 0 }) && !d.faultIn(o.Widths[0].At, "widths") {
		d.fault("spec.value", o.Widths[0].At, "top.outline.widths are all nothing", "write the widths as measured, from one end to the other")
	}
	for _, part := range p.Parts {
		if len(part.Size) == 3 && part.Walls.Set() && 2*part.Walls.V >= min(part.Size[0].V, part.Size[1].V) && part.Size[0].V > 0 && part.Size[1].V > 0 {
			d.fault("spec.value", part.Walls.At, fmt.Sprintf("walls of %s on both sides leave no room in the part", part.Walls.V.Plain(d.units)), "write how thick one wall is")
		}
	}
	sections := slices.Clone(p.Top.Channels)
	if p.Base != nil {
		sections = append(sections, p.Base.Sections...)
	}
	for _, s := range sections {
		thick := false
		switch {
		case s.Form == "box" && len(s.Sizes) == 3:
			thick = 2*s.Sizes[2] >= min(s.Sizes[0], s.Sizes[1])
		case s.Form == "tube" && len(s.Sizes) == 2:
			thick = 2*s.Sizes[1] >= s.Sizes[0]
		case (s.Form == "angle" || s.Form == "channel") && len(s.Sizes) == 3:
			thick = s.Sizes[2] >= min(s.Sizes[0], s.Sizes[1])
		}
		if thick {
			d.fault("spec.value", s.At, "the wall of the section is too thick for its size", "write the wall last: width x height x wall, like this: 80 x 40 x 3 mm; solid steel is written bar: 30 x 10 mm")
		}
	}
}

// checkDates looks for days in an order that cannot be, or hardly.
func checkDates(d *decoder, p *Piece) {
	doubt := func(a, b Value[Date], wrong bool, nameA, order, nameB, remedy string) {
		if a.Set() && b.Set() && wrong {
			d.doubt("spec.date", a.At, fmt.Sprintf("%s is %s, %s %s, %s", nameA, a.V, order, nameB, b.V), "correct one of the two; "+remedy)
		}
	}
	after := func(a, b Value[Date], nameA, nameB, remedy string) {
		doubt(a, b, b.V.Before(a.V), nameA, "after", nameB, remedy)
	}
	before := func(a, b Value[Date], nameA, nameB, remedy string) {
		doubt(a, b, a.V.Before(b.V), nameA, "before", nameB, remedy)
	}
	for _, w := range p.Top.Wood {
		if w.Moisture != nil {
			after(w.Moisture.On, p.Finished, "moisture.on", "finished", "the wood is measured before the finish goes on")
		}
	}
	for _, m := range p.Materials {
		before(m.Expires, m.Bought, "expires", "bought", "a tin is bought before its day")
		after(m.Bought, p.Finished, "bought", "finished", "what went in later belongs in log")
	}
	for _, l := range p.Log {
		before(l.Date, p.Finished, "date", "finished", "log is for what was done afterwards")
	}
	if p.Buyer != nil {
		before(p.Buyer.Delivered, p.Finished, "buyer.delivered", "finished", "a piece is finished before it is delivered")
	}
}

// checkPhotos looks for photos that are wanted and not wanted at once.
func checkPhotos(d *decoder, p *Photos) {
	out := map[string]bool{}
	for _, f := range p.LeaveOut {
		out[f.V] = true
	}
	if p.Main.Set() && out[p.Main.V] {
		d.fault("spec.photos", p.Main.At, fmt.Sprintf("photos.main is %q, which leave_out leaves out", p.Main.V), "take it out of leave_out, or choose another one")
	}
	seen := map[string]bool{}
	for _, f := range p.Order {
		switch {
		case out[f.V]:
			d.fault("spec.photos", f.At, fmt.Sprintf("photos.order names %q, which leave_out leaves out", f.V), "take it out of one of the two")
		case seen[f.V]:
			d.doubt("spec.photos", f.At, fmt.Sprintf("photos.order names %q twice", f.V), "take one of them out; the first counts")
		}
		seen[f.V] = true
	}
	for _, name := range slices.Sorted(maps.Keys(p.Turn)) {
		if turn := p.Turn[name]; turn.V%90 != 0 {
			d.fault("spec.value", turn.At, fmt.Sprintf("photos.turn of %s: a photo is turned by 90, 180 or 270", name), "write 90, 180 or 270, clockwise")
		}
	}
	names := map[string]bool{}
	for _, b := range p.Blends {
		if b.Name.Set() && names[b.Name.V] {
			d.fault("spec.photos", b.Name.At, fmt.Sprintf("two blends are called %q", b.Name.V), "give each a name of its own")
		}
		names[b.Name.V] = true
	}
}

// checkCountries doubts two letters that are no country's.
func checkCountries(d *decoder, p *Piece) {
	for _, w := range p.Top.Wood {
		checkCountry(d, w.Country)
	}
	if p.Delivery != nil {
		for _, c := range p.Delivery.ShipsTo {
			checkCountry(d, c)
		}
	}
}

// checkPrice doubts money that nobody pays with, and a price of nothing for what can
// be bought.
func checkPrice(d *decoder, p *Piece) {
	if p.Price == nil {
		return
	}
	checkCurrency(d, p.Price.Currency)
	if a := p.Price.Amount; a.Set() && a.V == 0 && p.Availability.V != "not for sale" {
		d.doubt("price.nothing", a.At, "the price is 0, so listing and price list will offer the piece for nothing",
			"write what you ask for it; take `price` out until you know, or write availability: not for sale")
	}
}

// checkCurrency holds a code against the list of ISO 4217.
func checkCurrency(d *decoder, c Value[string]) {
	if c.Set() && !units.IsCurrency(c.V) {
		d.doubt("spec.currency", c.At, fmt.Sprintf("%q is no currency's code", c.V), "write the three letters of ISO 4217, such as GBP, USD, EUR, CAD, AUD or CHF; they stand on your bank's paper")
	}
}

// checkWorkshop does for workshop.yaml what checkPiece does for a spec.
func checkWorkshop(d *decoder, w *Workshop) {
	for _, t := range []struct {
		key string
		v   *Value[string]
	}{{"name", &w.Name}, {"address", &w.Address}, {"email", &w.Email}, {"phone", &w.Phone}, {"web", &w.Web}, {"base_url", &w.BaseURL}} {
		checkHidden(d, t.key, t.v)
	}
	checkWeb(d, "web", &w.Web)
	for _, t := range []struct {
		key string
		v   Value[string]
	}{{"email", w.Email}, {"web", w.Web}, {"base_url", w.BaseURL}} {
		if bare := strings.TrimRight(t.v.V, ".,;"); bare != t.v.V {
			d.doubt("spec.address", t.v.At, fmt.Sprintf("%s ends in %q, which belongs to the sentence and not to the address: links and codes would lead nowhere", t.key, t.v.V[len(bare):]), "write "+t.key+": "+bare)
		}
	}
	checkCountry(d, w.Country)
	checkCurrency(d, w.Currency)
	for _, f := range w.Finishes {
		if f.CureDaysFrom.Set() && f.CureDaysTo.Set() && f.CureDaysTo.V < f.CureDaysFrom.V {
			d.fault("spec.value", f.CureDaysTo.At, "cure_to is earlier than cure_from", "write the earliest time in cure_from and the latest in cure_to")
		}
	}
	checkSizes(d, w.Sizes)
	ids := map[string]int{}
	for _, e := range w.Woods {
		if !e.ID.Set() {
			continue
		}
		if line, ok := ids[strings.ToLower(e.ID.V)]; ok {
			d.fault("spec.value", e.ID.At, fmt.Sprintf("two woods are called %q: the first is on line %d", e.ID.V, line), "give each a name of its own")
			continue
		}
		ids[strings.ToLower(e.ID.V)] = e.ID.At.Line
	}
	checkLabel(d, w)
	r := w.Region
	if r.HeatingSeasonRH.Set() && r.SummerRH.Set() && r.HeatingSeasonRH.V == r.SummerRH.V {
		d.doubt("spec.value", r.SummerRH.At, "the humidity is the same in the heating season and in summer, so nothing would move", "write the driest and the dampest that rooms get where your pieces stand")
	}
}

// checkLabel looks for a sheet of labels that is larger than the paper: ISO 216 A4,
// or 8.5 by 11 inches. Half a millimetre is forgiven.
func checkLabel(d *decoder, w *Workshop) {
	l := w.Label
	if !l.Rows.Set() || !l.Columns.Set() {
		return
	}
	paper, wide, high := "a4", units.Length(210), units.Length(297)
	if w.Paper.V == "letter" {
		paper, wide, high = "letter", 215.9, 279.4
	}
	const hair = 0.5
	across := l.Left.V + units.Length(l.Columns.V)*l.Width.V + units.Length(l.Columns.V-1)*l.GapAcross.V
	down := l.Top.V + units.Length(l.Rows.V)*l.Height.V + units.Length(l.Rows.V-1)*l.GapDown.V
	remedy := "measure the sheet again; width and height may be left out"
	if across > wide+hair || !l.Width.Set() && across+l.Left.V > wide-10*units.Length(l.Columns.V) {
		d.fault("spec.value", l.Columns.At, fmt.Sprintf("the labels are wider together than the paper, %s", paper), remedy)
	}
	if down > high+hair || !l.Height.Set() && down+l.Top.V > high-8*units.Length(l.Rows.V) {
		d.fault("spec.value", l.Rows.At, fmt.Sprintf("the labels are higher together than the paper, %s", paper), remedy)
	}
}

// checkSizes looks for sizes whose files would have one name.
func checkSizes(d *decoder, sizes []Size) {
	first := map[string]int{}
	for _, z := range sizes {
		checkRatio(d, z.Ratio)
		name := z.Name
		if z.Preset.Set() {
			name = z.Preset
		}
		key := spelling.Plain(name.V) + "." + cmp.Or(z.Format.V, "jpeg")
		if line, ok := first[key]; ok && name.Set() {
			d.fault("spec.value", name.At, fmt.Sprintf("two sizes are called %q: the first is on line %d", name.V, line), "give each a name of its own")
			continue
		}
		first[key] = name.At.Line
	}
}

// checkRatio looks for strips that no photo can fill.
func checkRatio(d *decoder, ratio Value[string]) {
	width, height, ok := strings.Cut(ratio.V, ":")
	a, errA := strconv.Atoi(width)
	b, errB := strconv.Atoi(height)
	if ok && errA == nil && errB == nil && (a > 10*b || b > 10*a) {
		d.fault("spec.value", ratio.At, fmt.Sprintf("sizes.ratio: %q is a strip", ratio.V), "write a ratio from 1:10 to 10:1")
	}
}
