package report

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
	"slabfolio/listing/wood"
)

// moves is what the seasons do to the top.
type moves struct{ top wood.TopMovement }

// seasons computes the movement of every wood, and with it whether fixing and
// channels let the top move.
func (b *builder) seasons() {
	if b.outline == nil {
		b.absent("movement", "the outline of the top is not known")
		return
	}
	climate := b.woods.ClimateOf(b.w.Region)
	p := b.withAcross()
	size := wood.TopSize{Length: b.outline.LengthMM(), Width: b.outline.WidthMM(), ResinShare: b.mix.resinShare, First: b.r.Prefer}
	if resin := b.resinOnPlan(); resin != nil {
		size.Seen = func(alongLength bool, stretch float64) float64 {
			return b.outline.MostWood(resin, alongLength, stretch)
		}
	}
	m := b.woods.Top(p, size, climate)
	b.keepWoodAcross(p, size)
	b.moves.top = m
	b.r.Findings = append(b.r.Findings, m.Findings...)
	for _, k := range slices.Sorted(maps.Keys(m.Absent)) {
		b.absent(k, m.Absent[k])
	}
	s := m.Season
	names := map[string]int{}
	for _, v := range m.Woods {
		key := "movement." + v.Wood
		if names[key]++; names[key] > 1 {
			key = fmt.Sprintf("%s.%d", key, names[key])
		}
		b.keep(key+".across_mm", v.Figure(v.Across))
		b.keep(key+".thickness_mm", v.Figure(v.Thickness))
		b.keep(key+".along_mm", v.Figure(v.Along))
		b.r.Movement = append(b.r.Movement, WoodMovement{Wood: v.Wood, Across: round(v.Across.Value, 1), Thickness: round(v.Thickness.Value, 2), Along: round(v.Along.Value, 2),
			FromRH: s.FromRH, ToRH: s.ToRH, FromMC: round(s.FromMC, 1), ToMC: round(s.ToMC, 1), Rule: v.Rule, Source: v.Source})
	}
	if m.SeamStep != nil {
		b.keep("movement.seam_step_mm", *m.SeamStep)
	}
	if m.Fixing != nil {
		b.keep("movement.between_fixings_mm", m.Fixing.Movement)
		if m.Fixing.Slot > 0 {
			b.keep("movement.slot_needed_mm", figure.Exact(m.Fixing.Slot, "mm", "bolt + largest movement between the outermost fixings, rounded up", m.Fixing.Movement.Source, "base.fixing"))
		}
	}
	if m.Across == nil {
		return
	}
	switch top := p.Top; {
	case !top.AcrossWood.Set():
	case len(top.Wood) > 0 && top.Wood[0].Grain.V == "along width":
		b.find(piece.Doubt, "top.across-wood", top.AcrossWood.At, "across_wood is of the width, and this wood moves along the length, since its grain runs across: it is not used",
			"take the line out, or look at the grain; a resin's share of the face is what counts here")
	case float64(top.AcrossWood.V) > b.outline.WidthMM():
		b.find(piece.Doubt, "top.across-wood", top.AcrossWood.At, fmt.Sprintf("across_wood is %s, and the top is %s wide", b.mm(float64(top.AcrossWood.V)), b.mm(b.outline.WidthMM())), "measure the wood across the top alone, without the resin")
	}
	b.keep("movement.across_mm", *m.Across)
	b.tellMovement(m)
	b.twoWoods()
}

// keepWoodAcross keeps how much wood lies across the grain, where a photo shows it.
func (b *builder) keepWoodAcross(p *piece.Piece, z wood.TopSize) {
	if z.Seen == nil || len(p.Top.Wood) == 0 || b.endGrain() {
		return
	}
	along := p.Top.Wood[0].Grain.V != "along width"
	b.keep("movement.wood_across_mm", figure.Exact(round(z.Seen(along, 0), 1), "mm", "the most wood on a line across the grain, mean over a twentieth of the way along it", b.p.Top.Outline.Photo.V, "top.outline.resin_at"))
}

// tellMovement says for everybody how far the top moves: the upper end of the
// range, since it stands behind "up to". A top that moves by nothing to speak of
// has no such sentence.
func (b *builder) tellMovement(m wood.TopMovement) {
	s := m.Season
	if b.outdoors() {
		b.absent("movement.text", "the piece stands in the open, and what is reckoned is of a heated room")
		return
	}
	if m.Across.High < b.t.Rules["movement_mention"].Value {
		b.absent("movement.text", "the top moves by less than anyone would see")
		return
	}
	out := &Movement{Across: m.Across.High, FromRH: s.FromRH, ToRH: s.ToRH, FromMC: s.FromMC, ToMC: s.ToMC}
	id, data := "figures.movement", map[string]any{"Moves": b.smallLength(m.Across.High), "FromRH": trim(s.FromRH), "ToRH": trim(s.ToRH)}
	if m.Length != nil && m.Width != nil {
		b.keep("movement.length_mm", *m.Length)
		b.keep("movement.width_mm", *m.Width)
		out.Across = math.Max(m.Length.High, m.Width.High)
		data["Round"] = b.p.Top.Outline.Diameter.Set()
		id, data["Length"], data["Width"] = id+".both", b.smallLength(m.Length.High), b.smallLength(m.Width.High)
	}
	out.Moves = b.smallLength(out.Across)
	out.Text = b.words.Say(id, data)
	if m.Settling != nil {
		b.keep("movement.settling_mm", *m.Settling)
		if m.SettlingMC >= b.wetFrom() {
			out.settles, out.reading = b.smallLength(m.Settling.High), b.words.Percent(units.Percent(m.SettlingMC).Text())
			out.Text += " " + b.words.Say("figures.movement.settling", map[string]any{"Reading": out.reading, "Moves": out.settles})
		}
	}
	b.r.Public.Movement = out
}

// wetFrom is the reading, in percent, from which wood has still to dry on its way
// into a home: that of the table, or what the region's humid season itself gives.
func (b *builder) wetFrom() float64 {
	return math.Max(b.t.Rules["wet_wood"].Value, b.moves.top.Season.ToMC)
}

// withAcross gives a rigid fixing the footprint's width to hold, where the maker
// did not say how far apart its outermost holes lie: they cannot lie further.
func (b *builder) withAcross() *piece.Piece {
	s := b.p.Base
	if s == nil || s.Fixing == nil || s.Fixing.Across.Set() || !s.FootprintWidth.Set() {
		return b.p
	}
	_, err := b.woods.Lookup(s.Material.V)
	inWords := saysRigid(s.Fixing.Text.V) && err != nil // a wooden base may well move along
	if !inWords && s.Fixing.Holes.V != "fixed" && s.Fixing.Holes.V != "round" {
		return b.p
	}
	p, base, fix := *b.p, *s, *s.Fixing
	if inWords {
		fix.Text, fix.Holes = piece.Value[string]{}, piece.Of("fixed")
	}
	fix.Across = piece.Value[units.Length]{V: s.FootprintWidth.V, At: s.Fixing.At}
	if len(p.Top.Wood) > 0 && p.Top.Wood[0].Grain.V == "along width" && s.FootprintLength.Set() {
		fix.Across.V = s.FootprintLength.V
	}
	p.Base, base.Fixing = &base, &fix
	return &p
}

// rigidWords say that a fixing holds fast, movingWords that it lets the wood
// move after all. Common practice, no source.
var (
	rigidWords  = []string{"glued", "epoxied", "rigid", "rigidly", "dowelled", "doweled"}
	movingWords = []string{"slot", "slots", "slotted", "oversize", "oversized", "elongated", "free", "freely", "button", "buttons", "clip", "clips", "slide", "slides", "sliding", "move", "moves", "loose", "floating", "not", "unglued"}
)

// saysRigid reports whether a fixing that is told in words is said to hold fast.
func saysRigid(text string) bool {
	words := strings.Fields(spelling.Plain(text))
	in := func(list []string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(list, w) })
	}
	return in(rigidWords) && !in(movingWords)
}

// twoWoods looks at woods side by side with their grain the same way.
func (b *builder) twoWoods() {
	w := b.moves.top.Woods
	if len(w) < 2 || len(w) != len(b.p.Top.Wood) {
		return
	}
	least, most := 0, 0
	for i := range w {
		if w[i].AcrossAxis != w[0].AcrossAxis {
			return // crossed grain is a finding of its own
		}
		if w[i].Thickness.Value < w[least].Thickness.Value {
			least = i
		}
		if w[i].Thickness.Value > w[most].Thickness.Value {
			most = i
		}
	}
	if w[most].Thickness.Value > b.t.Rules["unlike_woods"].Value*w[least].Thickness.Value {
		b.find(piece.Note, "movement.two-woods", b.p.Top.Wood[most].At,
			fmt.Sprintf("%s moves %s %s beside it through the thickness, so a step at the joint may be felt", w[most].Wood, howMuchMore(w[most].Thickness.Value/w[least].Thickness.Value), w[least].Wood),
			"tell the buyer, or break the edges of the joint")
	}
}

// howMuchMore says by how much the larger of two things is more than the other.
func howMuchMore(ratio float64) string {
	if ratio < 2 {
		return fmt.Sprintf("%.0f %% more than", 100*(ratio-1))
	}
	return fmt.Sprintf("%.1f times as much as", ratio)
}

func trim(v float64) string {
	return strings.TrimSuffix(fmt.Sprintf("%.1f", math.Round(v*10)/10), ".0")
}

// endGrain reports whether the face is of end grain.
func (b *builder) endGrain() bool {
	return len(b.p.Top.Wood) > 0 && b.p.Top.Wood[0].Grain.V == "end grain"
}
