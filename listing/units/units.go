// Package units holds the quantities that a maker writes and a buyer reads:
// lengths, volumes, masses, densities, shares and temperatures. Values
// are SI inside; reading and printing in either system lives here, and nothing
// else does.
package units

// A Length is in millimetres.
type Length float64

// A Volume is in litres.
type Volume float64

// A Mass is in kilograms.
type Mass float64

// A Density is in kilograms per cubic metre.
type Density float64

// A Percent is a share, a relative humidity or a moisture content: 8 means 8 %.
type Percent float64

// A Celsius is a temperature in degrees Celsius.
type Celsius float64

// A System is the unit that is printed first, or that a bare number is read in.
type System string

// The systems that the spec file and the --units flag know.
const (
	Inches      System = "in"
	Centimetres System = "cm"
	Millimetres System = "mm"
)
