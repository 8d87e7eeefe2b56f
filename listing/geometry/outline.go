// Package geometry turns the ways in which a maker says the shape of a top
// into one outline, and measures it: area, perimeter, centroid, moments,
// extents, hull, and what a straight line across it meets. Everything is in
// millimetres, x along the length, y across, seen from above. It knows nothing
// of thickness, wood or weight.
package geometry

import (
	"cmp"
	"fmt"
	"math"

	"slabfolio/listing/figure"
)

// A Kind is the way in which an outline was said.
type Kind string

// The ways of saying an outline.
const (
	KindRectangle Kind = "rectangle"
	KindWidths    Kind = "widths at equal steps"
	KindTraced    Kind = "traced polygon"
	KindCircle    Kind = "circle"
)

// Limits of what is taken for the top of a piece of furniture.
const (
	maxSize   = 20000.0 // mm
	maxPoints = 5000    // the crossing test compares every pair of edges
	// circleCorners is how many corners a circle is drawn with.
	circleCorners = 180
)

// An Outline is the shape of a top. Make one with Rectangle, FromWidths,
// Traced, Circle or Of; it is never changed afterwards.
type Outline struct {
	kind          Kind
	polygon       [][2]float64 // counter-clockwise, box from (0,0), first corner not repeated
	widths        []float64    // as measured, for KindWidths
	length, width figure.Uncertain
	area          figure.Uncertain // mm²
	perimeter     float64
	rule          string
}

// Rectangle returns a rectangle of the given length and width in mm.
func Rectangle(length, width float64) (*Outline, error) {
	if err := cmp.Or(checkSize("length", length), checkSize("width", width)); err != nil {
		return nil, err
	}
	l := figure.PlusMinus(length, TapeUncertainty(length), "outline length")
	w := figure.PlusMinus(width, TapeUncertainty(width), "outline width")
	return &Outline{
		kind:      KindRectangle,
		polygon:   [][2]float64{{0, 0}, {length, 0}, {length, width}, {0, width}},
		length:    l,
		width:     w,
		area:      l.Times(w),
		perimeter: 2 * (length + width),
		rule:      "length x width",
	}, nil
}

// Circle returns a circle of the given diameter in mm. Its area, perimeter and
// moments are those of the circle; only the drawing is a polygon.
func Circle(diameter float64) (*Outline, error) {
	if err := checkSize("diameter", diameter); err != nil {
		return nil, err
	}
	r := diameter / 2
	d := figure.PlusMinus(diameter, TapeUncertainty(diameter), "outline diameter")
	pts := make([][2]float64, circleCorners)
	for i := range pts {
		// Starting at the lower left makes the first corner the one that the
		// other outlines start with.
		sin, cos := math.Sincos(2*math.Pi*float64(i)/circleCorners - 3*math.Pi/4)
		pts[i] = [2]float64{r + r*cos, r + r*sin}
	}
	return &Outline{
		kind:      KindCircle,
		polygon:   pts,
		length:    d,
		width:     d,
		area:      d.Times(d).Scale(math.Pi / 4),
		perimeter: math.Pi * diameter,
		rule:      "pi x diameter squared / 4",
	}, nil
}

// Round reports whether the outline is a circle.
func (o *Outline) Round() bool { return o.kind == KindCircle }

// Rule says in words how the area was found.
func (o *Outline) Rule() string { return o.rule }

// Polygon returns the outline for drawing: counter-clockwise, its bounding box
// from (0,0), the corner nearest the lower left first and not repeated at the
// end. Outlines from widths are drawn about a straight centre line, since the
// widths do not say where the edges lie.
func (o *Outline) Polygon() [][2]float64 { return append([][2]float64(nil), o.polygon...) }

// Widths returns the measured widths of an outline from widths, else nil.
func (o *Outline) Widths() []float64 { return append([]float64(nil), o.widths...) }

// Length returns the extent along x, in mm.
func (o *Outline) Length() figure.Figure {
	return o.length.Figure("mm", "extent of the outline along its length", "piece.yaml", "top.outline")
}

// Width returns the extent along y, in mm.
func (o *Outline) Width() figure.Figure {
	return o.width.Figure("mm", "extent of the outline across its length", "piece.yaml", "top.outline")
}

// LengthMM and WidthMM are the extents without their doubt.
func (o *Outline) LengthMM() float64 { return o.length.Value }

// WidthMM is the extent along y without its doubt.
func (o *Outline) WidthMM() float64 { return o.width.Value }

// Area returns the area of the face in m².
func (o *Outline) Area() figure.Figure {
	return o.area.Scale(1e-6).Figure("m2", o.rule, "piece.yaml", "top.outline")
}

// AreaMM2 returns the area in mm² with the causes of its doubt.
func (o *Outline) AreaMM2() figure.Uncertain { return o.area }

// PerimeterMM returns the length of the edge all round.
func (o *Outline) PerimeterMM() float64 { return o.perimeter }

// WithScaleUncertainty returns the outline with one more cause of doubt: a scale
// that may be off by rel (0.005 is half a percent, 90 % range), as when it was
// measured from a photo. Lengths move by rel, areas by twice that.
func (o *Outline) WithScaleUncertainty(rel float64, cause string) *Outline {
	c := *o
	k := figure.PlusMinus(1, rel, cause)
	c.length, c.width = o.length.Times(k), o.width.Times(k)
	c.area = o.area.Times(k).Times(k)
	return &c
}

// SizeError says that a size cannot belong to a top.
type SizeError struct {
	What string  // "length", "width", "width 3", "diameter"
	MM   float64 // as given
}

// Error says what is wrong with the size.
func (e *SizeError) Error() string {
	switch {
	case math.IsNaN(e.MM) || math.IsInf(e.MM, 0):
		return fmt.Sprintf("the %s of the outline is not a number", e.What)
	case e.MM <= 0:
		return fmt.Sprintf("the %s of the outline is %g mm; it has to be more than nothing", e.What, e.MM)
	}
	return fmt.Sprintf("the %s of the outline is %.0f m; no top is that large", e.What, e.MM/1000)
}

// checkSize returns a *SizeError for a size that no top has.
func checkSize(what string, mm float64) error {
	if math.IsNaN(mm) || mm <= 0 || mm > maxSize {
		return &SizeError{what, mm}
	}
	return nil
}
