package wood

import (
	"errors"
	"fmt"
	"math"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
	"slabfolio/listing/units"
)

// A TopMovement is what the seasons do to a whole top.
type TopMovement struct {
	Season Season
	Woods  []Movement // one for every wood of the spec whose movement is known, in its order
	// Across is the movement of the top across the grain of its first wood:
	// every wood of the same grain with its share of the width, the resin
	// with nothing. Nil where a wood's movement is not known.
	Across *figure.Figure
	Axis   string // "width", "length" or "both": the direction of Across
	// Length and Width are the movement both ways of a top with its end grain
	// up; nil for any other.
	Length, Width *figure.Figure
	// Settling is how far the top shrinks across its grain from the wettest of
	// its readings to the dry season, with the reading in percent; nil where no
	// wood was read wetter than its room keeps it.
	Settling   *figure.Figure
	SettlingMC float64
	SeamStep   *figure.Figure // wood against resin; nil without resin
	Fixing     *Allowance
	Channels   []Allowance // one for every channel of the spec
	Findings   []piece.Finding
	Absent     map[string]string // figure to why
}

// A TopSize is what the movement of a top depends on besides its spec.
type TopSize struct {
	Length, Width float64      // extents of its outline, mm
	ResinShare    float64      // of its face, 0 to 1, taken to run along the grain
	First         units.System // of lengths in findings

	// Seen tells how much wood lies on the line across the grain that has most of
	// it, mm, for grain along the length or along the width: all the way across,
	// or, where stretch is more than 0, within so many mm in the middle. Nil where
	// it is not known where the resin lies.
	Seen func(alongLength bool, stretch float64) float64
}

// woodShare returns the share of the way across the grain that is wood: what
// the maker measured, where the grain runs along the length, else what is seen,
// else what the resin leaves.
func (z TopSize) woodShare(top piece.Top) float64 {
	if across := float64(top.AcrossWood.V); top.AcrossWood.Set() && across > 0 && z.Width > 0 && len(top.Wood) > 0 && oneOf(top.Wood[0].Grain.V, "", "along length") {
		return math.Min(1, across/z.Width)
	}
	if whole := z.across(top); z.seenOnPhoto(top) && whole > 0 {
		return math.Min(1, z.Seen(oneOf(top.Wood[0].Grain.V, "", "along length"), 0)/whole)
	}
	return 1 - math.Min(1, math.Max(0, z.ResinShare))
}

// seenOnPhoto reports whether it is seen where the resin lies across the grain, which
// end grain has none of.
func (z TopSize) seenOnPhoto(top piece.Top) bool {
	return z.Seen != nil && len(top.Wood) > 0 && oneOf(top.Wood[0].Grain.V, "", "along length", "along width")
}

// across is how far the top reaches across the grain of its first wood.
func (z TopSize) across(top piece.Top) float64 {
	if len(top.Wood) > 0 && oneOf(top.Wood[0].Grain.V, "along width") {
		return z.Length
	}
	return z.Width
}

// Top returns the movement of a piece's top.
func (t *Table) Top(p *piece.Piece, z TopSize, c Climate) TopMovement {
	out := TopMovement{Absent: map[string]string{}}
	season, err := c.season()
	if err != nil {
		out.Absent["movement"] = err.Error()
		return out
	}
	out.Season = season
	share := z.woodShare(p.Top)
	if share <= 0 {
		out.Absent["movement"] = "the whole top is resin, which does not move with the seasons"
		return out
	}
	sum := t.topWoods(p, &out, z, share)
	if len(out.Woods) == 0 {
		return out
	}
	first := out.Woods[0]
	if len(out.Woods) == len(p.Top.Wood) {
		sum.figures(&out, first)
	}
	if (share < 1 || z.ResinShare > 0) && p.Top.Thickness.V > 0 {
		f := first.seamStep()
		out.SeamStep = &f
	}
	lies := stretch{whole: z.Width, wood: z.Width * share}
	if out.Axis == "length" {
		lies = stretch{whole: z.Length, wood: z.Length * share}
	}
	if z.seenOnPhoto(p.Top) && (!p.Top.AcrossWood.Set() || out.Axis == "length") {
		lies.seen = func(stretch float64) float64 { return z.Seen(out.Axis != "length", stretch) }
	}
	t.checkFixing(p, &out, sum, lies, z.First)
	checkChannels(p, &out, sum, lies, z.First)
	checkCrossed(p, &out, z.First)
	return out
}

// topSum gathers what the woods of a top come to.
type topSum struct {
	across, length, width figure.Uncertain // over the year
	settling              figure.Uncertain
	perMM                 figure.Uncertain // the largest movement of 1 mm, over the longest way
	far                   Movement         // of the wood with that movement
	way                   string           // over what it moves, for a finding
}

func (s topSum) figures(out *TopMovement, first Movement) {
	f := func(d figure.Uncertain) *figure.Figure {
		g := d.Figure("mm", first.Rule, first.Source, "top.outline", "top.wood", "region")
		return &g
	}
	out.Across = f(s.across)
	if out.Axis == "both" {
		out.Length, out.Width = f(s.length), f(s.width)
	}
	if out.SettlingMC > 0 {
		out.Settling = f(s.settling)
	}
}

// topWoods fills in the movement of every wood and returns what they come to.
func (t *Table) topWoods(p *piece.Piece, out *TopMovement, z TopSize, woodShare float64) topSum {
	var sum topSum
	shares := piece.Shares(p.Top.Wood)
	for i, w := range p.Top.Wood {
		l, b := woodSize(w, z.Length, z.Width, woodShare, shares[i])
		th := float64(p.Top.Thickness.V)
		s, err := t.Resolve(w)
		var m, far Movement
		if err == nil {
			m, err = t.Movement(s, w.Cut.V, w.Grain.V, l, b, th, out.Season)
		}
		if err == nil {
			far, err = t.farthestMovement(s, w, l, b, th, m)
		}
		if err != nil {
			var absent *AbsentError
			if errors.As(err, &absent) {
				out.Findings = append(out.Findings, at(w.At, piece.Note, "movement.not-known", err.Error(), "give radial and tangential shrinkage in workshop.yaml: woods"))
			}
			out.Absent["movement"] = err.Error()
			continue
		}
		if out.Woods = append(out.Woods, m); out.Axis == "" {
			out.Axis = m.AcrossAxis
		}
		if m.AcrossAxis == out.Axis {
			sum.across, sum.length, sum.width = sum.across.Plus(m.Across), sum.length.Plus(m.Length), sum.width.Plus(m.Width)
			t.addDrying(&sum, out, w, m, far)
		}
		if one := perMillimetre(far, l, b); one.Value > sum.perMM.Value {
			sum.perMM, sum.far, sum.way = one, far, wayOf(out.Season, far.Season, w)
		}
	}
	return sum
}

// addDrying adds how far a wood shrinks from a reading that is wetter than its
// room ever keeps it.
func (t *Table) addDrying(sum *topSum, out *TopMovement, w piece.Wood, m, far Movement) {
	if _, known := t.longestWay(w, m.Wood, out.Season); known && far.Season.ToMC > out.Season.ToMC {
		sum.settling = sum.settling.Plus(far.Across)
		out.SettlingMC = math.Max(out.SettlingMC, far.Season.ToMC)
		return
	}
	sum.settling = sum.settling.Plus(m.Across)
}

// wayOf says over what a wood moves.
func wayOf(year, far Season, w piece.Wood) string {
	if w.Moisture == nil || !w.Moisture.Reading.Set() || far == year {
		return "over the year"
	}
	if far.ToMC > year.ToMC {
		return fmt.Sprintf("on its way from the %s of the reading to the dry season", w.Moisture.Reading.V.Text())
	}
	return fmt.Sprintf("on its way from the %s of the reading to the humid season", w.Moisture.Reading.V.Text())
}

// woodSize returns the length and width that a wood takes up: its share of all the
// wood is taken across its grain. With end grain up any line across the face, either
// way, holds each wood with its share; what is not wood there, a share of the face, has
// its square root of every line.
func woodSize(w piece.Wood, length, width, allWood, share float64) (float64, float64) {
	switch {
	case oneOf(w.Grain.V, "along width"):
		return length * allWood * share, width
	case oneOf(w.Grain.V, "end grain"):
		line := math.Sqrt(allWood) * share
		return length * line, width * line
	}
	return length, width * allWood * share
}

// perMillimetre returns the movement of 1 mm across the grain.
func perMillimetre(m Movement, length, width float64) figure.Uncertain {
	size := width
	if m.AcrossAxis == "length" {
		size = length
	}
	if size == 0 {
		return figure.Sure(0)
	}
	return m.Across.Scale(1 / size)
}

func (t *Table) checkFixing(p *piece.Piece, out *TopMovement, sum topSum, lies stretch, first units.System) {
	const name = "movement.between_fixings_mm"
	switch {
	case p.Base == nil:
		return
	case p.Base.Fixing == nil:
		out.Absent[name] = "base.fixing is not given, so how the top is held is not known"
		return
	case p.Base.Fixing.Text.Set():
		out.Absent[name] = "the fixing is told in words; bolt, holes and across are needed to reckon with it"
		return
	}
	a, ok := t.fixing(*p.Base.Fixing, sum.perMM, lies, sum.far.Rule, sum.far.Source)
	if !ok {
		out.Absent[name] = "the spec does not say how far apart the outermost fixings lie across the grain"
		return
	}
	out.Fixing = &a
	where := p.Base.Fixing.Across.At
	if f, ok := a.finding(where, sum.way, first); ok {
		out.Findings = append(out.Findings, f)
	}
}

// checkChannels reckons the room that steel let into the underside needs: it
// lies across the grain and does not move with the wood.
func checkChannels(p *piece.Piece, out *TopMovement, sum topSum, lies stretch, first units.System) {
	for _, c := range p.Top.Channels {
		if !c.Length.Set() || c.Length.V <= 0 {
			continue
		}
		a := slotNeeded(lies.at(float64(c.Length.V)), sum.perMM, 0, sum.far.Rule, sum.far.Source)
		a.Movement.Inputs = []string{"top.channels.length"}
		a.Movement.Rule = "movement over the length of the channel: " + sum.far.Rule
		out.Channels = append(out.Channels, a)
		if a.Movement.High >= minMovement {
			room := units.Length(a.Movement.High).FineUp(first)
			out.Findings = append(out.Findings, at(c.At, piece.Note, "movement.channel",
				fmt.Sprintf("%s the wood moves by about %s along this steel, %s at most; the steel does not", sum.way, units.Length(a.Movement.Value).Fine(first), room),
				fmt.Sprintf("leave %s of room at its ends and slot its outermost holes by %s more than the screw", room, room)))
		}
	}
}

// checkCrossed finds woods of one top whose grain lies across one another:
// each holds the other where it wants to move.
func checkCrossed(p *piece.Piece, out *TopMovement, system units.System) {
	if len(out.Woods) < 2 || len(out.Woods) != len(p.Top.Wood) {
		return
	}
	first := out.Woods[0]
	for i, m := range out.Woods[1:] {
		if m.AcrossAxis == first.AcrossAxis {
			continue
		}
		held := figure.Uncertain{}
		if first.AcrossAxis == "length" {
			held = first.Length.Minus(m.Length)
		} else {
			held = first.Width.Minus(m.Width)
		}
		v := math.Abs(held.Value)
		if v < minMovement {
			continue
		}
		out.Findings = append(out.Findings, at(p.Top.Wood[i+1].At, piece.Doubt, "movement.crossed-grain",
			fmt.Sprintf("%s lies across the grain of %s: the one wants to move by %s where the other holds it", m.Wood, first.Wood, units.Length(v).Fine(system)),
			"join them so that they can slide, as a breadboard end does: glued in the middle alone, pegs in slots"))
	}
}
