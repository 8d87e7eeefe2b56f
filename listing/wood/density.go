package wood

import (
	"fmt"
	"math"

	"slabfolio/listing/figure"
)

// volumetric estimates the shrinkage in volume, %, of a wood whose own is not
// known. Wood Handbook eq. 4-10.
func volumetric(basicSG float64) float64 { return 26.5 * basicSG }

// specificGravityAt returns oven-dry mass over the volume at a moisture
// content in percent: Wood Handbook eq. 4-9 with the shrinkage from eq. 4-7,
// and eq. 4-11 where volumetricPct is 0. Above the fibre saturation point the
// volume is the green one.
func specificGravityAt(basicSG, volumetricPct, fsp, mc float64) float64 {
	s0 := volumetricPct
	if s0 == 0 {
		s0 = volumetric(basicSG)
	}
	sx := s0 * math.Max(0, 1-mc/fsp)
	return basicSG / (1 - sx/100)
}

// DensityAt returns the density in kg/m³ with its water at a moisture content
// in percent. Wood Handbook eq. 4-12.
func DensityAt(basicSG, volumetricPct, fsp, mc float64) float64 {
	return 1000 * specificGravityAt(basicSG, volumetricPct, fsp, mc) * (1 + mc/100)
}

// basicFrom12 turns specific gravity at 12 % into basic specific gravity, eq.
// 4-9 or 4-11 solved for it.
func basicFrom12(sg12, volumetricPct, fsp float64) float64 {
	a := 1 - 12/fsp
	if volumetricPct > 0 {
		return sg12 * (1 - volumetricPct*a/100)
	}
	return sg12 / (1 + 0.265*sg12*a)
}

// hasDensity reports whether the density of the wood can be known.
func (s Species) hasDensity() bool { return s.BasicSG > 0 || s.DensityAsIs > 0 }

// densityUncertain returns the density in kg/m³ of a wood at its moisture, with
// two causes of doubt: trees differ (named by the wood's id, so that all wood
// of one name in a piece is taken to be from one tree, the cautious way), and
// the moisture is known so well only. A density that the maker gave is taken
// as it stands: no moisture is reckoned into it.
func (s Species) densityUncertain(m Moisture) figure.Uncertain {
	trees := "density of " + s.ID + " from tree to tree"
	spread := figure.Z90 * s.DensityCov / 100
	if s.DensityAsIs > 0 {
		return figure.PlusMinus(s.DensityAsIs, s.DensityAsIs*spread, trees)
	}
	at := func(mc float64) float64 { return DensityAt(s.BasicSG, s.Volumetric, s.FSP, mc) }
	v := at(m.Percent)
	// Between 8 and 30 % the volume grows with the water, so density is not
	// quite a straight line; the edges are reckoned, not sloped.
	d := figure.Within(v, at(m.Low), at(m.High), m.Cause)
	return d.Plus(figure.PlusMinus(0, v*spread, trees))
}

// density is densityUncertain as a figure with its rule and source.
func (s Species) density(m Moisture) figure.Figure {
	rule := fmt.Sprintf("Wood Handbook eqs. 4-7, 4-9 and 4-12 from basic specific gravity %.3g and volumetric shrinkage %.3g %%, at %.3g %% moisture", s.BasicSG, s.Volumetric, m.Percent)
	switch {
	case s.DensityAsIs > 0:
		rule = "density as given, as the wood stands"
	case s.Volumetric == 0:
		rule = fmt.Sprintf("Wood Handbook eqs. 4-11 and 4-12 from basic specific gravity %.3g, at %.3g %% moisture", s.BasicSG, m.Percent)
	}
	rule += fmt.Sprintf("; trees differ by %.3g %% (coefficient of variation)", s.DensityCov)
	return s.densityUncertain(m).Figure("kg/m3", rule, s.Source, "top.wood.species", "top.wood.moisture")
}
