package shipping

import (
	"math"

	"slabfolio/listing/units"
)

const in3PerFt3 = 12 * 12 * 12

// UpInches returns a length in millimetres as whole inches, rounded up as
// carriers do. A hair over a whole inch, from arithmetic alone, does not count.
func UpInches(mm float64) float64 { return math.Ceil(mm/units.MillimetresPerInch - 1e-6) }

// UpCentimetres returns a length in millimetres as whole centimetres, rounded up.
func UpCentimetres(mm float64) float64 { return math.Ceil(mm/10 - 1e-6) }

// Class returns the class that the density scale suggests. Handling, stowing and
// liability count too: the carrier decides.
func (t Tables) Class(lbPerFt3 float64) Tier {
	for _, tier := range t.Tiers {
		if lbPerFt3 >= tier.AtLeast {
			return tier
		}
	}
	return Tier{}
}

// volumetric returns the weight in kg that a carrier may charge for the room
// that a package takes: sides rounded up to whole inches or centimetres, the
// weight up to the next pound or half kilogram.
func (d Divisor) volumetric(lengthMM, widthMM, heightMM float64) float64 {
	if d.Divisor <= 0 {
		return 0
	}
	if d.Unit == "in3/lb" {
		lb := math.Ceil(UpInches(lengthMM)*UpInches(widthMM)*UpInches(heightMM)/d.Divisor - 1e-9)
		return lb * units.KilogramsPerPound
	}
	kg := UpCentimetres(lengthMM) * UpCentimetres(widthMM) * UpCentimetres(heightMM) / d.Divisor
	return math.Ceil(2*kg-1e-9) / 2
}

// parcel reports whether a package is within the limits, sides rounded up as
// they are printed, and if not, which one it passes: "weight", "length" or
// "girth".
func (l Limit) parcel(lengthMM, widthMM, heightMM, grossKg float64) (ok bool, over string) {
	const dust = 1e-6
	x, y, z := l.Rounded(lengthMM), l.Rounded(widthMM), l.Rounded(heightMM)
	long := math.Max(x, math.Max(y, z))
	girth := long + 2*(x+y+z-long)
	switch {
	case grossKg > l.Kg:
		return false, "weight"
	case long > l.LongestMM+dust:
		return false, "length"
	case girth > l.GirthMM+dust:
		return false, "girth"
	}
	return true, ""
}

// overLength reports whether a package is longer than freight usually goes
// without a charge for its length, rounded up as it is printed.
func (l Limit) overLength(p Package) bool {
	long := math.Max(p.LengthMM, math.Max(p.WidthMM, p.HeightMM))
	return l.OverMM > 0 && l.Rounded(long) > l.OverMM+1e-6
}

// loadingMetres returns the length of trailer floor that a footprint takes,
// length times width over the inside width of the trailer, sides rounded up to
// whole centimetres.
func (t Tables) loadingMetres(lengthMM, widthMM float64) float64 {
	w := t.rule("loading_width")
	if w <= 0 {
		return 0
	}
	return UpCentimetres(lengthMM) * UpCentimetres(widthMM) / 1e4 / w
}

// palletPlaces returns of how many pallets of a kind ("eur" or "us") packages take
// the floor: by area, as loading metres are, so that the two agree.
func (t Tables) palletPlaces(kind string, packages ...Package) int {
	pallet := t.rule("pallet_"+kind+"_length") * t.rule("pallet_"+kind+"_width")
	if pallet <= 0 {
		return 0
	}
	area := 0.0
	for _, p := range packages {
		x, y := 10*UpCentimetres(p.LengthMM), 10*UpCentimetres(p.WidthMM)
		if kind == "us" {
			x, y = units.MillimetresPerInch*UpInches(p.LengthMM), units.MillimetresPerInch*UpInches(p.WidthMM)
		}
		area += x * y
	}
	return int(math.Ceil(area/pallet - 1e-9))
}

// Freight is what a carrier computes with, over all packages.
type Freight struct {
	GrossKg       float64
	DensityLbFt3  float64
	Class         Tier
	Volumetric    map[string]float64 // divisor's id -> kg
	LoadingMetres float64
	PalletsEUR    int
	PalletsUS     int
	Mode          map[string]Mode // region -> how it goes
}

// printedPounds is what a package weighs as papers print it: of kilograms with a decimal,
// with a decimal of a pound beside others, else whole pounds from 20 lb up.
func printedPounds(kg float64, beside bool) float64 {
	lb := math.Round(kg*10) / 10 / units.KilogramsPerPound
	if beside || lb < 20 {
		return math.Round(lb*10) / 10
	}
	return math.Round(lb)
}

// A Mode is how the packages go in a region.
type Mode struct {
	Parcel bool
	Over   string // the limit that is passed: weight, length or girth; Blanket for what is in no box
	Long   bool   // freight that is usually charged for its length
	Limit  Limit
}

// Quote computes the freight figures over the packages. The density is taken from the
// weights and sides as they are printed, so that whoever divides them comes to it. It returns nil for no
// package.
func (t Tables) Quote(packages []Package) *Freight {
	if len(packages) == 0 {
		return nil
	}
	f := &Freight{Volumetric: map[string]float64{}, Mode: map[string]Mode{}}
	var lb, ft3 float64
	for _, p := range packages {
		f.GrossKg += p.GrossKg
		lb += printedPounds(p.GrossKg, len(packages) > 1)
		ft3 += UpInches(p.LengthMM) * UpInches(p.WidthMM) * UpInches(p.HeightMM) / in3PerFt3
		for _, d := range t.Divisors {
			f.Volumetric[d.ID] += d.volumetric(p.LengthMM, p.WidthMM, p.HeightMM)
		}
		f.LoadingMetres += t.loadingMetres(p.LengthMM, p.WidthMM)
	}
	f.PalletsEUR, f.PalletsUS = t.palletPlaces("eur", packages...), t.palletPlaces("us", packages...)
	f.DensityLbFt3 = lb / ft3
	f.Class = t.Class(f.DensityLbFt3)
	for _, l := range t.Limits {
		m := Mode{Parcel: true, Limit: l}
		for _, p := range packages {
			if p.Way == Blanket && m.Parcel {
				m.Parcel, m.Over = false, Blanket
			}
			if ok, over := l.parcel(p.LengthMM, p.WidthMM, p.HeightMM, p.HighKg); !ok && m.Parcel {
				m.Parcel, m.Over = false, over
			}
			m.Long = m.Long || l.overLength(p)
		}
		f.Mode[l.Region] = m
	}
	return f
}
