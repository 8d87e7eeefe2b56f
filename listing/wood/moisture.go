package wood

import (
	"fmt"
	"math"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// Moisture is how wet a wood is, in percent of its oven-dry mass.
type Moisture struct {
	Percent   float64
	Low, High float64 // 90 % range
	Assumed   bool    // no reading was given; never printed as a fact
	Cause     string  // names the doubt, for figure.Uncertain
	Rule      string
	Source    string
}

// MoistureOf returns the moisture of a spec's wood, and the moisture that is
// assumed, with a wider doubt, where there is no reading. id names the wood.
func (t *Table) MoistureOf(m *piece.Moisture, id string) Moisture {
	out := Moisture{Cause: "moisture of " + id}
	half := t.rule("assumed_mc_doubt")
	if m != nil && m.Reading.Set() {
		mt := t.meter(m.Meter.V)
		out.Percent, half = float64(m.Reading.V), mt.doubt
		out.Rule, out.Source = "reading, meter: "+mt.name, "piece.yaml; "+mt.source
	} else {
		out.Percent, out.Assumed = t.rule("assumed_mc"), true
		out.Rule, out.Source = "assumed, no reading was given", t.ruleSource("assumed_mc")
	}
	out.Low, out.High = math.Max(0, out.Percent-half), out.Percent+half
	return out
}

// meter returns the line of the table for a meter's word; the last line is for
// meters that are not said or not known.
func (t *Table) meter(word string) meter {
	w := spelling.Plain(word)
	for _, m := range t.meters {
		for _, k := range m.words {
			if w != "" && spelling.Plain(k) == w {
				return m
			}
		}
	}
	return t.meters[len(t.meters)-1]
}

// emc returns the moisture content, %, that wood comes to in air of a
// temperature in °C and a relative humidity in percent: the two-hydrate
// Hailwood-Horrobin form with Simpson's coefficients for °C. Wood Handbook
// eq. 4-5; W. T. Simpson, FPL-RN-0268, 1998. One curve for all woods; real
// ones differ by about 1 %. It returns an error outside -1.2 to 130 °C and 0
// to below 100 % humidity, where the curve was not fitted.
func emc(celsius, rh float64) (float64, error) {
	if !(rh >= 0 && rh < 100) {
		return 0, fmt.Errorf("a relative humidity of %.4g %% has no moisture content; it runs from 0 to below 100 %%", rh)
	}
	if !(celsius >= -1.2 && celsius <= 130) {
		return 0, fmt.Errorf("the moisture of wood at %.4g C is not known; the curve runs from -1 to 130 C", celsius)
	}
	t, h := celsius, rh/100
	w := 349 + 1.29*t + 0.0135*t*t
	k := 0.805 + 0.000736*t - 0.00000273*t*t
	k1 := 6.27 - 0.00938*t - 0.000303*t*t
	k2 := 1.91 + 0.0407*t - 0.000293*t*t
	kh := k * h
	return 1800 / w * (kh/(1-kh) + (k1*kh+2*k1*k2*kh*kh)/(1+k1*kh+k1*k2*kh*kh)), nil
}

// A Climate is the air of a room over the year.
type Climate struct {
	HeatingRH, SummerRH float64 // relative humidity, %
	Celsius             float64
	Default             bool // nothing of it was said in workshop.yaml
	Source              string
}

// ClimateOf returns the climate of a workshop's region; what is not said takes
// the default of the table.
func (t *Table) ClimateOf(r piece.Region) Climate {
	c := Climate{t.rule("heating_rh"), t.rule("summer_rh"), t.rule("temperature"), true, "default: " + t.ruleSource("heating_rh")}
	if r.HeatingSeasonRH.Set() {
		c.HeatingRH, c.Default = float64(r.HeatingSeasonRH.V), false
	}
	if r.SummerRH.Set() {
		c.SummerRH, c.Default = float64(r.SummerRH.V), false
	}
	if r.Temperature.Set() {
		c.Celsius, c.Default = float64(r.Temperature.V), false
	}
	if !c.Default {
		c.Source = "workshop.yaml: region"
	}
	return c
}

// A Season is the swing of humidity and moisture in a room over the year, dry
// to humid.
type Season struct {
	FromRH, ToRH float64 // %
	FromMC, ToMC float64 // %
	Celsius      float64
	Source       string
	Doubt        float64 // half of the 90 % range of ToMC - FromMC, %; 0 takes that of a room's air
}

// season returns the swing from the drier to the more humid of the two.
func (c Climate) season() (Season, error) {
	s := Season{FromRH: min(c.HeatingRH, c.SummerRH), ToRH: max(c.HeatingRH, c.SummerRH), Celsius: c.Celsius, Source: c.Source}
	var err error
	if s.FromMC, err = emc(c.Celsius, s.FromRH); err != nil {
		return Season{}, err
	}
	s.ToMC, err = emc(c.Celsius, s.ToRH)
	return s, err
}

// oneOf reports whether a word of the spec is one of the given ones.
func oneOf(word string, of ...string) bool {
	w := spelling.Plain(word)
	for _, o := range of {
		if w == spelling.Plain(o) {
			return true
		}
	}
	return false
}
