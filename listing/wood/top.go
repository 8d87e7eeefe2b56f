package wood

import (
	"errors"
	"fmt"
	"math"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
)

// A TopMovement is what the seasons do to a whole top.
type TopMovement struct {
	Season Season
	Woods  []Movement // one for every wood of the spec whose movement is known, in its order
	// Across is the movement of the top across the grain of its first wood:
	// every wood of the same grain with its share of the width, the resin
	// with nothing. Nil where a wood's movement is not known.
	Across   *figure.Figure
	Axis     string         // "width", "length" or "both": the direction of Across
	SeamStep *figure.Figure // wood against resin; nil without resin
	Fixing   *Allowance
	Channels []Allowance // one for every channel of the spec
	Findings []piece.Finding
	Absent   map[string]string // figure to why
}

// Top returns the movement of a piece's top. length and width are the extents
// of its outline in mm; resinShare is the share of its face that is resin, 0
// to 1, taken to run along the grain.
func (t *Table) Top(p *piece.Piece, length, width, resinShare float64, c Climate) TopMovement {
	out := TopMovement{Absent: map[string]string{}}
	season, err := c.Season()
	if err != nil {
		out.Absent["movement"] = err.Error()
		return out
	}
	out.Season = season
	resinShare = math.Min(1, math.Max(0, resinShare))
	across, perMM := t.topWoods(p, &out, length, width, 1-resinShare)
	if len(out.Woods) == 0 {
		return out
	}
	first := out.Woods[0]
	if len(out.Woods) == len(p.Top.Wood) {
		f := across.Figure("mm", first.Rule, first.Source, "top.outline", "top.wood", "region")
		out.Across = &f
	}
	if resinShare > 0 && p.Top.Thickness.V > 0 {
		f := first.SeamStep()
		out.SeamStep = &f
	}
	t.checkFixing(p, &out, perMM, first)
	checkChannels(p, &out, perMM, first)
	checkCrossed(p, &out)
	return out
}

// topWoods fills in the movement of every wood; it returns what the woods of
// the first one's grain come to across it, and the largest movement of 1 mm.
func (t *Table) topWoods(p *piece.Piece, out *TopMovement, length, width, woodShare float64) (across, perMM figure.Uncertain) {
	shares := Shares(p.Top.Wood)
	for i, w := range p.Top.Wood {
		l, b := woodSize(w, length, width, woodShare*shares[i])
		s, err := t.Resolve(w)
		var m Movement
		if err == nil {
			m, err = t.Movement(s, w.Cut.V, w.Grain.V, l, b, float64(p.Top.Thickness.V), out.Season)
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
			across = across.Plus(m.Across)
		}
		if one := perMillimetre(m, l, b); one.Value > perMM.Value {
			perMM = one
		}
	}
	return across, perMM
}

// Shares returns the share of every wood, 0 to 1, summing to 1: what is not
// said is shared out evenly among the woods that do not say it.
func Shares(woods []piece.Wood) []float64 {
	out := make([]float64, len(woods))
	said, silent := 0.0, 0
	for i, w := range woods {
		if w.Share.Set() && w.Share.V > 0 {
			out[i] = float64(w.Share.V) / 100
			said += out[i]
		} else if !w.Share.Set() {
			silent++
		}
	}
	for i, w := range woods {
		if !w.Share.Set() {
			out[i] = math.Max(0, 1-said) / float64(silent)
		}
	}
	sum := 0.0
	for _, v := range out {
		sum += v
	}
	for i := range out {
		if sum > 0 {
			out[i] /= sum
		} else {
			out[i] = 1 / float64(len(out))
		}
	}
	return out
}

// woodSize returns the length and width that a wood takes up: its share is
// taken across its grain.
func woodSize(w piece.Wood, length, width, share float64) (float64, float64) {
	switch {
	case oneOf(w.Grain.V, "along width"):
		return length * share, width
	case oneOf(w.Grain.V, "end grain"):
		return length * math.Sqrt(share), width * math.Sqrt(share)
	}
	return length, width * share
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

func (t *Table) checkFixing(p *piece.Piece, out *TopMovement, perMM figure.Uncertain, m Movement) {
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
	a, ok := t.Fixing(*p.Base.Fixing, perMM, m.Rule, m.Source)
	if !ok {
		out.Absent[name] = "the spec does not say how far apart the outermost fixings lie across the grain"
		return
	}
	out.Fixing = &a
	where := p.Base.Fixing.Across.At
	if f, ok := a.Finding(where); ok {
		out.Findings = append(out.Findings, f)
	}
}

// checkChannels reckons the room that steel let into the underside needs: it
// lies across the grain and does not move with the wood.
func checkChannels(p *piece.Piece, out *TopMovement, perMM figure.Uncertain, m Movement) {
	for _, c := range p.Top.Channels {
		if !c.Length.Set() || c.Length.V <= 0 {
			continue
		}
		a := SlotNeeded(float64(c.Length.V), perMM, 0, m.Rule, m.Source)
		a.Movement.Inputs = []string{"top.channels.length"}
		a.Movement.Rule = "movement over the length of the channel: " + m.Rule
		out.Channels = append(out.Channels, a)
		if a.Movement.High >= minMovement {
			out.Findings = append(out.Findings, at(c.At, piece.Note, "movement.channel",
				fmt.Sprintf("the wood moves by about %.1f mm over the length of this steel, %.1f mm at most; the steel does not", a.Movement.Value, a.Movement.High),
				fmt.Sprintf("leave %.0f mm of room at its ends and slot its outermost holes by %.0f mm more than the screw", math.Ceil(a.Movement.High), math.Ceil(a.Movement.High))))
		}
	}
}

// checkCrossed finds woods of one top whose grain lies across one another:
// each holds the other where it wants to move.
func checkCrossed(p *piece.Piece, out *TopMovement) {
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
			fmt.Sprintf("%s lies across the grain of %s: the one wants to move by %.1f mm where the other holds it", m.Wood, first.Wood, v),
			"join them so that they can slide, as a breadboard end does: glued in the middle alone, pegs in slots"))
	}
}
