package wood

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"slabfolio/listing/figure"
)

// coefficient returns the change of size for 1 % moisture between 6 and 14 %,
// from the shrinkage green to oven-dry in percent, as the handbook's table
// 13-5 was made: the size at 10 % moisture is the reference. With a fibre
// saturation point of 30 % it is S/(3000-20S).
func coefficient(shrinkage, fsp float64) float64 {
	s := shrinkage / 100
	return s / fsp / (1 - s*(fsp-10)/fsp)
}

// shrinkageOf is the inverse of coefficient.
func shrinkageOf(c, fsp float64) float64 { return 100 * c * fsp / (1 + c*(fsp-10)) }

// coefficientForm returns by how much a size grows (or, below zero, shrinks)
// when its moisture goes from one percentage to another, both between 6 and
// 14. Wood Handbook, FPL-GTR-190, eq. 13-2.
func coefficientForm(size, coefficient, from, to float64) float64 {
	return size * coefficient * (to - from)
}

// shrinkageForm is the same for any moisture up to the fibre saturation point
// fsp (more counts as fsp), from the shrinkage green to oven-dry in percent.
// Wood Handbook, FPL-GTR-190, eq. 13-3.
func shrinkageForm(size, shrinkage, fsp, from, to float64) float64 {
	if shrinkage <= 0 {
		return 0
	}
	from, to = math.Min(from, fsp), math.Min(to, fsp)
	return size * (to - from) / (fsp*100/shrinkage - fsp + from)
}

// A direction is what is known of movement in one direction of the log.
type direction struct {
	coef, shrinkage float64
	rule            string
}

// alongOf picks the larger of a published coefficient and the one that the
// species' own shrinkage gives: the handbook's tables contradict each other
// for some woods, and the larger is the safe one. Less than 3 % apart is
// rounding, and the published one stands.
func alongOf(name string, coef, shrinkage, fsp float64) (direction, bool) {
	own := 0.0
	if shrinkage > 0 {
		own = coefficient(shrinkage, fsp)
	}
	switch {
	case coef == 0 && own == 0:
		return direction{}, false
	case coef == 0:
		return direction{own, shrinkage, fmt.Sprintf("%s coefficient %.5f from a shrinkage of %.3g %%", name, own, shrinkage)}, true
	case own > coef*1.03:
		return direction{own, shrinkage, fmt.Sprintf("%s coefficient %.5f from a shrinkage of %.3g %%, larger than the published %.5f", name, own, shrinkage, coef)}, true
	case own > 0 && own < coef/1.03:
		return direction{coef, shrinkageOf(coef, fsp), fmt.Sprintf("%s coefficient %.5f as published, larger than its shrinkage of %.3g %% gives", name, coef, shrinkage)}, true
	}
	s := shrinkage
	if s == 0 {
		s = shrinkageOf(coef, fsp)
	}
	return direction{coef, s, fmt.Sprintf("%s coefficient %.5f as published", name, coef)}, true
}

// change returns the movement of 1 mm over a season.
func (d direction) change(fsp float64, s Season) float64 {
	if inRange(s) {
		return coefficientForm(1, d.coef, s.FromMC, s.ToMC)
	}
	return shrinkageForm(1, d.shrinkage, fsp, s.FromMC, s.ToMC)
}

// inRange reports whether the coefficient form holds for a season.
func inRange(s Season) bool { return s.FromMC >= 6 && s.ToMC <= 14 }

// An AbsentError says why a figure cannot be known.
type AbsentError struct{ Why string }

// Error returns Why.
func (e *AbsentError) Error() string { return e.Why }

// A Movement is by how much one wood of a piece grows from the dry to the
// humid season, in mm. It is an upper bound: a thick, finished top lags behind
// the seasons and never swings as far.
type Movement struct {
	Wood string // id

	// In the directions of the piece.
	Length, Width, Thickness figure.Uncertain
	// Across the grain in the face, and along the grain. With end grain up,
	// the grain runs through the thickness, and Across is the width.
	Across, Along figure.Uncertain
	AcrossAxis    string // "width", "length", or "both" with end grain up

	Season Season
	Rule   string // which coefficients, which form, which cut
	Source string
}

// Figure returns one of the movement's sizes as a figure.
func (m Movement) Figure(d figure.Uncertain) figure.Figure {
	return d.Figure("mm", m.Rule, m.Source, "top.outline", "top.thickness", "top.wood", "region")
}

// noShrinkage says that a wood's shrinkage is not known, and why as far as the
// table tells.
func (s Species) noShrinkage() string {
	if strings.Contains(s.Source, "shrinkage: "+notPublished) {
		return "the tangential shrinkage of " + s.ID + " is " + notPublished
	}
	return "the tangential shrinkage of " + s.ID + " is not known"
}

// notPublished stands in the tables where a figure was looked for in vain.
const notPublished = "not published as far as we could find"

// Movement returns the movement of a wood of the given size in mm, cut and laid as
// the words of the spec say (empty: the defaults). The error is an
// *AbsentError where the wood's movement is not known.
//
// The cut says where the growth rings lie. Flat-sawn: the face moves by the
// tangential, the thickness by the radial coefficient. Quarter-sawn: the other
// way round. Rift-sawn: rings at 45 degrees, so both move by the mean of the
// two. Through-and-through: the rings turn from board to board and from edge
// to heart, so the value is the mean and the range runs from the one to the
// other.
func (t *Table) Movement(s Species, cut, grain string, length, width, thickness float64, season Season) (Movement, error) {
	tan, okT := alongOf("tangential", s.CoefT, s.Tangential, s.FSP)
	rad, okR := alongOf("radial", s.CoefR, s.Radial, s.FSP)
	if !okT {
		return Movement{}, &AbsentError{fmt.Sprintf("%s, so its movement is not known either", s.noShrinkage())}
	}
	note := ""
	if !okR {
		rad, note = tan, "; the radial one is not known, the tangential stands in as an upper bound"
	}
	if tan.coef < rad.coef { // a workshop's entry may say so
		note += "; the radial one is the larger"
	}
	face, thick, cutRule := t.faces(s, cut, rad, tan, season)
	long := t.longitudinal(s, season)
	m := Movement{Wood: s.ID, Season: season, AcrossAxis: "width", Source: s.Source}
	m.Thickness = thick.Scale(thickness)
	switch {
	case oneOf(grain, "end grain"):
		// Both directions of the face lie across the rings somewhere; the
		// larger coefficient holds for both.
		face = t.movementRange(s, math.Max(rad.change(s.FSP, season), tan.change(s.FSP, season)), 0, season)
		m.Length, m.Width, m.Thickness = face.Scale(length), face.Scale(width), long.Scale(thickness)
		m.Across, m.Along, m.AcrossAxis = m.Width, m.Thickness, "both"
		cutRule = "end grain up, larger coefficient both ways"
	case oneOf(grain, "along width"):
		m.Length, m.Width = face.Scale(length), long.Scale(width)
		m.Across, m.Along, m.AcrossAxis = m.Length, m.Width, "length"
	default:
		m.Length, m.Width = long.Scale(length), face.Scale(width)
		m.Across, m.Along = m.Width, m.Length
	}
	form := "Wood Handbook eq. 13-2 (coefficient form)"
	if !inRange(season) {
		form = "Wood Handbook eq. 13-3 (shrinkage form, since the moisture leaves 6 to 14 %)"
	}
	m.Rule = fmt.Sprintf("%s; %s; %s%s; %s; from %.1f to %.1f %% moisture; free movement, an upper bound", form, tan.rule, rad.rule, note, cutRule, season.FromMC, season.ToMC)
	return m, nil
}

// faces returns the movement of 1 mm in the face and through the thickness.
func (t *Table) faces(s Species, cut string, rad, tan direction, season Season) (face, thick figure.Uncertain, rule string) {
	r, g := rad.change(s.FSP, season), tan.change(s.FSP, season)
	mean, half := (r+g)/2, math.Abs(g-r)/2
	switch {
	case oneOf(cut, "flat-sawn"):
		return t.movementRange(s, g, 0, season), t.movementRange(s, r, 0, season), "flat-sawn: tangential across, radial through"
	case oneOf(cut, "quarter-sawn"):
		return t.movementRange(s, r, 0, season), t.movementRange(s, g, 0, season), "quarter-sawn: radial across, tangential through"
	case oneOf(cut, "rift-sawn"):
		return t.movementRange(s, mean, 0, season), t.movementRange(s, mean, 0, season), "rift-sawn: mean of the two, rings at 45 degrees"
	}
	return t.movementRange(s, mean, half, season), t.movementRange(s, mean, -half, season), "through-and-through: mean of the two, ranging from the one to the other"
}

// movementRange gives the movement of 1 mm its doubt: where the rings lie, how boards
// differ, and how well the moisture of the room's air is known.
func (t *Table) movementRange(s Species, v, rings float64, season Season) figure.Uncertain {
	d := figure.PlusMinus(v, rings, "rings of "+s.ID)
	d = d.Plus(figure.PlusMinus(0, v*figure.Z90*t.rule("shrinkage_cov")/100, "shrinkage of "+s.ID+" from board to board"))
	if dm := season.ToMC - season.FromMC; dm > 0 {
		d = d.Plus(figure.PlusMinus(0, v*cmp.Or(season.Doubt, t.rule("emc_doubt"))/dm, "swing of the moisture"))
	}
	return d
}

// longitudinal returns the movement of 1 mm along the grain: 0.1 to 0.2 % from
// green to oven-dry.
func (t *Table) longitudinal(s Species, season Season) figure.Uncertain {
	share := math.Max(0, math.Min(season.ToMC, s.FSP)-math.Min(season.FromMC, s.FSP)) / s.FSP
	low, high := t.rule("longitudinal_low")/100*share, t.rule("longitudinal_high")/100*share
	return figure.Within((low+high)/2, low, high, "movement of "+s.ID+" along the grain")
}

// seamStep returns how far the wood's face may come to stand above or below
// the resin beside it, in mm: the resin does not follow the seasons, and the
// wood grows to both sides of its middle. The high end takes the whole
// movement on one side.
func (m Movement) seamStep() figure.Figure {
	_, high := m.Thickness.Range()
	v := m.Thickness.Value / 2
	return figure.Figure{Value: v, Unit: "mm", Low: 0, High: math.Max(v, high), Rule: "half of the movement through the thickness: " + m.Rule, Source: m.Source, Inputs: []string{"movement.thickness"}}
}
