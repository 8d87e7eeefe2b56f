package shipping

import (
	"math"
	"slices"
)

// A Passage says how a piece gets into a home.
type Passage struct {
	StandMM   float64 // height it needs while it is stood on end: sqrt(length^2 + thinnest^2)
	NarrowMM  float64 // the narrowest side of its cross-section, carried lengthwise
	UnderRoof bool    // StandMM is below a usual ceiling
	ByDoor    bool    // NarrowMM is below DoorwayMM
	CeilingMM float64 // what was compared with
	DoorwayMM float64 // clear opening: the leaf less frame, stop and leaf
}

// Passes checks a load of the given outside sizes against a usual ceiling and the
// clear opening of a narrow inside door, American or European. The bend behind it
// is not known.
func (t Tables) Passes(lengthMM, widthMM, heightMM float64, american bool) Passage {
	d := []float64{lengthMM, widthMM, heightMM}
	slices.Sort(d)
	leaf := t.rule("doorway_europe")
	if american {
		leaf = t.rule("doorway_us")
	}
	p := Passage{StandMM: math.Hypot(d[2], d[0]), NarrowMM: d[0], CeilingMM: t.rule("ceiling"), DoorwayMM: leaf - t.rule("doorway_less")}
	p.UnderRoof = p.StandMM <= p.CeilingMM
	p.ByDoor = p.NarrowMM <= p.DoorwayMM
	return p
}

// NeedsISPM15 reports whether packing has to be heat-treated and stamped: it
// crosses a border and holds solid wood thicker than the standard exempts.
func (t Tables) NeedsISPM15(packages []Package, crossesBorder bool) bool {
	if !crossesBorder {
		return false
	}
	return slices.ContainsFunc(packages, func(p Package) bool { return p.SolidMM > t.rule("ispm_thickness") })
}

// FrameMM is how thick the solid wood of a usual crate is, for one whose maker
// built it and does not say.
func (t Tables) FrameMM() float64 { return t.rule("frame_side") }
