package wood

import (
	"math"

	"slabfolio/listing/figure"
	"slabfolio/listing/piece"
)

// longestWay returns the longest way that a wood's moisture has to go: over the
// year, or from the reading to the dry or to the humid end of the room, where
// that is longer. A fixing is set while the wood is somewhere on that way, and
// may be set anew in any season. known is false where there is no reading.
func (t *Table) longestWay(w piece.Wood, id string, year Season) (way Season, known bool) {
	if w.Moisture == nil || !w.Moisture.Reading.Set() {
		return year, false
	}
	m := t.MoistureOf(w.Moisture, id)
	swing, dries, swells := year.ToMC-year.FromMC, m.Percent-year.FromMC, year.ToMC-m.Percent
	way = year
	switch {
	case dries > swing && dries >= swells:
		way.ToMC = m.Percent
	case swells > swing:
		way.FromMC = m.Percent
	default:
		return year, true
	}
	way.Doubt = math.Hypot(t.rule("emc_doubt"), (m.High-m.Low)/2)
	way.Source = m.Source + "; " + year.Source
	return way, true
}

// farthestMovement returns the movement of a wood over its longest way. Where
// its moisture was not read, it may be as wet as the assumed range goes; that
// makes the upper end higher, as one more cause of doubt.
func (t *Table) farthestMovement(s Species, w piece.Wood, length, width, thickness float64, m Movement) (Movement, error) {
	way, known := t.longestWay(w, s.ID, m.Season)
	if known {
		if way == m.Season {
			return m, nil
		}
		return t.Movement(s, w.Cut.V, w.Grain.V, length, width, thickness, way)
	}
	wet := m.Season
	if high := t.MoistureOf(nil, s.ID).High; high > wet.ToMC {
		wet.ToMC = high
	}
	far, err := t.Movement(s, w.Cut.V, w.Grain.V, length, width, thickness, wet)
	if err != nil {
		return Movement{}, err
	}
	m.Across = m.Across.Plus(figure.Within(0, 0, math.Max(0, far.Across.Value-m.Across.Value), "moisture of "+s.ID+", which was not read"))
	return m, nil
}

// stretch is how much wood lies between two places across the grain, in mm.
// Where resin runs along the grain it is not known how much of it lies between
// them: all of it or none, and its own share of the way is the best guess, unless
// it is seen how much wood lies in the middle.
type stretch struct {
	whole, wood float64
	seen        func(stretch float64) float64
}

// at returns the wood on a stretch of the given length.
func (b stretch) at(length float64) figure.Uncertain {
	resin := math.Max(0, b.whole-b.wood)
	low, high := math.Max(0, length-resin), math.Min(length, b.wood)
	if b.seen != nil {
		return figure.Sure(math.Min(length, b.seen(length)))
	}
	if resin == 0 || b.whole <= 0 || high < low {
		return figure.Sure(length)
	}
	guess := math.Min(high, math.Max(low, length*b.wood/b.whole))
	return figure.Within(guess, low, high, "where the resin lies between the fixings")
}
